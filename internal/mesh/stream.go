package mesh

import (
	"bytes"
	"errors"
	"io"
)

// A stream takes words, numbers and bytes off a file from front to back. It
// always has the next longest bytes at hand, so that a word never straddles
// two blocks; longer words come in pieces. What it gives lies in its buffer and
// is good until more is asked for.
type stream struct {
	in   io.Reader
	buf  []byte
	pos  int // first byte not yet taken
	end  int // end of what is at hand
	err  error
	eof  bool // nothing comes after buf[:end]
	line int  // lines ended so far
}

const (
	block   = 1 << 18
	longest = 1 << 12
)

func newStream(in io.Reader) *stream {
	s := &stream{in: in, buf: make([]byte, block)}
	s.fill()
	if bytes.HasPrefix(s.buf[:s.end], []byte("\xef\xbb\xbf")) {
		s.pos = 3
	}
	return s
}

// fill moves what is at hand to the front and reads on behind it.
func (s *stream) fill() {
	copy(s.buf, s.buf[s.pos:s.end])
	s.end -= s.pos
	s.pos = 0
	idle := 0
	for s.end < len(s.buf) && !s.eof {
		n, err := s.in.Read(s.buf[s.end:])
		s.end += n
		if idle++; n > 0 {
			idle = 0
		}
		if err == nil && idle > 100 {
			err = io.ErrNoProgress
		}
		if err != nil {
			s.eof = true
			if !errors.Is(err, io.EOF) {
				s.err = err
			}
		}
	}
}

// ahead is what is at hand: at least longest bytes, or all there are.
func (s *stream) ahead() []byte {
	if s.end-s.pos < longest && !s.eof {
		s.fill()
	}
	return s.buf[s.pos:s.end]
}

// take gives the next n ≤ longest bytes, or nil if the file ends before.
func (s *stream) take(n int) []byte {
	b := s.ahead()
	if len(b) < n {
		s.pos = s.end
		return nil
	}
	s.pos += n
	return b[:n]
}

// discard passes over n bytes; false if the file ends before.
func (s *stream) discard(n int64) bool {
	for n > 0 {
		b := s.ahead()
		if len(b) == 0 {
			return false
		}
		k := min(n, int64(len(b)))
		s.pos += int(k)
		n -= k
	}
	return true
}

// blanks passes over white space, line ends too.
func (s *stream) blanks() []byte {
	for {
		b := s.ahead()
		for i, c := range b {
			if c > ' ' {
				s.pos += i
				if len(b)-i < longest && !s.eof {
					return s.ahead()
				}
				return b[i:]
			}
			if c == '\n' {
				s.line++
			}
		}
		s.pos += len(b)
		if s.eof {
			return nil
		}
	}
}

// word is the next run of anything but white space; empty at the end.
func (s *stream) word() []byte { return s.cut(s.blanks()) }

// cut takes the word that b, which is what is at hand, begins with.
func (s *stream) cut(b []byte) []byte {
	n := 0
	for n < len(b) && n < longest && b[n] > ' ' {
		n++
	}
	s.pos += n
	return b[:n]
}

// wordOnLine is the next word before the line ends; empty if there is none. A
// backslash at the end of a line joins the next to it.
func (s *stream) wordOnLine() []byte {
	for {
		b := s.ahead()
		i := 0
		for i < len(b) && b[i] <= ' ' && b[i] != '\n' && b[i] != '\r' {
			i++
		}
		s.pos += i
		if i == len(b) && !s.eof {
			continue
		}
		if b = s.ahead(); len(b) == 0 || b[0] == '\n' || b[0] == '\r' {
			return nil
		}
		if b[0] != '\\' || len(b) > 1 && b[1] > ' ' {
			return s.cut(b)
		}
		s.pos++
		s.endLine()
	}
}

// endLine passes over what is left of the line and its end: \n, \r\n or \r.
func (s *stream) endLine() {
	for b := s.ahead(); len(b) > 0; b = s.ahead() {
		for i, c := range b {
			if c != '\n' && c != '\r' {
				continue
			}
			s.pos += i + 1
			s.line++
			if c == '\r' {
				if b = s.ahead(); len(b) > 0 && b[0] == '\n' {
					s.pos++
				}
			}
			return
		}
		s.pos += len(b)
	}
}

// rest is what is left of the line, as far as it is at hand, not yet taken.
func (s *stream) rest() []byte {
	b := s.ahead()
	if i := bytes.IndexAny(b[:min(len(b), longest)], "\r\n"); i >= 0 {
		return b[:i]
	}
	return b[:min(len(b), longest)]
}

// number is the next word as a number; false if there is none or it is not
// one. It may be on another line.
func (s *stream) number() (float64, bool) {
	v, n, ok := number(s.blanks())
	s.pos += n
	return v, ok
}

// numberOnLine is the next word as a number, if the line has one more.
func (s *stream) numberOnLine() (float64, bool) {
	v, _, ok := number(s.wordOnLine())
	return v, ok
}
