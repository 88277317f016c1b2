package mesh

import "bytes"

// A tag is a start or an end tag of XML. It is good until the next is read.
type tag struct {
	name    []byte // without the prefix of its namespace
	rest    []byte // the attributes not yet taken
	closing bool   // an end tag
	empty   bool   // a start tag that is its own end
}

// tag finds the next tag. Text between tags, comments and instructions are
// passed over, and entities are left as they are: there is nothing in them
// that a mesh needs, and nothing that could be made to grow.
func (s *stream) tag() (t tag, ok bool) {
	for {
		b := s.ahead()
		i := bytes.IndexByte(b, '<')
		if i < 0 {
			s.pos = s.end
			if s.eof {
				return tag{}, false
			}
			continue
		}
		s.pos += i + 1
		b = s.ahead()
		switch {
		case bytes.HasPrefix(b, []byte("!--")):
			s.passBeyond("-->")
		case bytes.HasPrefix(b, []byte("![CDATA[")):
			s.passBeyond("]]>")
		case len(b) > 0 && (b[0] == '!' || b[0] == '?'):
			s.passBeyond(">")
		default:
			if inside, found := s.tagText(); found {
				return readTag(inside), true
			}
		}
	}
}

// passBeyond passes over everything up to and with the mark.
func (s *stream) passBeyond(mark string) {
	for {
		b := s.ahead()
		if i := bytes.Index(b, []byte(mark)); i >= 0 {
			s.pos += i + len(mark)
			return
		}
		// The mark may straddle the end of what is at hand.
		s.pos += max(len(b)-len(mark)+1, 0)
		if s.eof {
			s.pos = s.end
			return
		}
	}
}

// tagText takes what is between < and >; false if that is no tag: it never
// ends, or is as long as a whole block.
func (s *stream) tagText() (inside []byte, found bool) {
	b := s.ahead()
	i := tagEnd(b)
	if i < 0 && !s.eof {
		s.fill()
		b = s.buf[s.pos:s.end]
		i = tagEnd(b)
	}
	if i < 0 {
		return nil, false
	}
	s.pos += i + 1
	return b[:i], true
}

// tagEnd is the place of the first > that is not within quotes, or -1.
func tagEnd(b []byte) int {
	i := bytes.IndexByte(b, '>')
	if i < 0 || bytes.Count(b[:i], []byte{'"'})%2 == 0 && bytes.IndexByte(b[:i], '\'') < 0 {
		return i
	}
	var quote byte
	for i, c := range b {
		switch {
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case c == '"' || c == '\'':
			quote = c
		case c == '>':
			return i
		}
	}
	return -1
}

func readTag(inside []byte) (t tag) {
	if t.closing = len(inside) > 0 && inside[0] == '/'; t.closing {
		inside = inside[1:]
	}
	if t.empty = len(inside) > 0 && inside[len(inside)-1] == '/'; t.empty {
		inside = inside[:len(inside)-1]
	}
	i := 0
	for i < len(inside) && inside[i] > ' ' {
		i++
	}
	t.name, t.rest = bare(inside[:i]), inside[i:]
	return t
}

// bare is a name without its prefix.
func bare(name []byte) []byte {
	return name[bytes.IndexByte(name, ':')+1:]
}

// attribute takes the next attribute; false if there is none.
func (t *tag) attribute() (name, value []byte, ok bool) {
	b := t.rest
	equals := bytes.IndexByte(b, '=')
	if equals < 0 {
		return nil, nil, false
	}
	name = bare(bytes.TrimSpace(b[:equals]))
	b = bytes.TrimLeft(b[equals+1:], " \t\r\n")
	if len(b) == 0 || b[0] != '"' && b[0] != '\'' {
		return nil, nil, false
	}
	end := bytes.IndexByte(b[1:], b[0])
	if end < 0 {
		return nil, nil, false
	}
	t.rest = b[end+2:]
	return name, b[1 : 1+end], true
}
