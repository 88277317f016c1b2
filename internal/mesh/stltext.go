package mesh

import (
	"bytes"
	"errors"
)

// readTextSTL reads solids of facets. Of each line only the first word counts,
// in capitals or not; a facet with more corners than three is cut up.
func readTextSTL(in *input, b *builder) error {
	s := newStream(in.all())
	f := facet{build: b}
	begun := false // a facet has, and has not ended
	for {
		if err := f.plain(s); err != nil {
			return err
		}
		word := s.word()
		if len(word) == 0 {
			break
		}
		var err error
		switch {
		case isWord(word, "vertex"):
			f.vertex(s)
		case isWord(word, "facet"), isWord(word, "endfacet"):
			begun = len(word) == len("facet")
			err = f.close()
		case isWord(word, "solid"):
			b.report.Bodies++
			passTitle(s)
			err = f.close()
		case isWord(word, "endsolid"):
			passTitle(s)
			begun, err = false, f.close()
		}
		if err != nil {
			return err
		}
	}
	if begun || len(f.corners) > 0 || f.spoilt {
		b.report.harm("The file ends in the middle of a triangle, at line %s.", grouped(s.line+1))
	}
	return errors.Join(b.flush(), s.err)
}

// isWord is whether word is the lower-case keyword, in any case.
func isWord(word []byte, keyword string) bool {
	return len(word) == len(keyword) && word[0]|0x20 == keyword[0] && bytes.EqualFold(word, []byte(keyword))
}

// passTitle passes over the name of a solid, which is the rest of the line,
// or up to its first facet where line ends have been lost.
func passTitle(s *stream) {
	if i := bytes.Index(bytes.ToLower(s.rest()), []byte("facet normal")); i >= 0 {
		s.pos += i
		return
	}
	s.endLine()
}

// A facet gathers the corners of a facet of a text STL.
type facet struct {
	build   *builder
	corners []Vec
	spoilt  bool // a corner cannot be read
}

// plain takes facets for as long as they are written as nearly all are, at a
// third of the time; it leaves any other where it begins.
func (f *facet) plain(s *stream) error {
	if len(f.corners) > 0 || f.spoilt {
		return nil
	}
	for {
		b := s.ahead()
		var p [3]Vec
		n := plainFacet(b, &p)
		if n == 0 {
			return nil
		}
		s.pos += n
		s.line += bytes.Count(b[:n], []byte{'\n'})
		if err := f.build.triangle(&p); err != nil {
			return err
		}
	}
}

// plainFacet reads a facet in lower case with three corners, and says how long
// it is; 0 if that is not what b begins with.
func plainFacet(b []byte, p *[3]Vec) int {
	i := 0
	ok := true
	expect := func(word string) {
		for i < len(b) && b[i] <= ' ' {
			i++
		}
		if ok = ok && len(b)-i > len(word) && string(b[i:i+len(word)]) == word && b[i+len(word)] <= ' '; ok {
			i += len(word)
		}
	}
	expect("facet")
	expect("normal")
	for range 3 {
		for i < len(b) && b[i] <= ' ' {
			i++
		}
		for i < len(b) && b[i] > ' ' {
			i++
		}
	}
	expect("outer")
	expect("loop")
	for c := range p {
		expect("vertex")
		for k := range p[c] {
			for i < len(b) && b[i] <= ' ' {
				i++
			}
			x, n, isNumber := number(b[i:])
			ok = ok && isNumber
			p[c][k] = x
			i += n
		}
	}
	expect("endloop")
	expect("endfacet")
	if !ok {
		return 0
	}
	return i
}

func (f *facet) vertex(s *stream) {
	var p Vec
	for i := range p {
		x, ok := s.number()
		f.spoilt = f.spoilt || !ok
		p[i] = x
	}
	f.corners = append(f.corners, p)
}

// close ends the facet, if one is open, and adds its triangles.
func (f *facet) close() (err error) {
	n, spoilt := len(f.corners), f.spoilt
	corners := f.corners
	f.corners, f.spoilt = f.corners[:0], false
	switch {
	case n == 0:
		return nil
	case n < 3 || spoilt:
		f.build.report.Found++
		f.build.report.Broken++
		return nil
	case n == 3:
		return f.build.triangle((*[3]Vec)(corners))
	}
	cutUp(corners, func(x, y, z int) {
		if err == nil {
			err = f.build.triangle(&[3]Vec{corners[x], corners[y], corners[z]})
		}
	})
	return err
}
