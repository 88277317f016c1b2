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
	for {
		word := s.word()
		if len(word) == 0 {
			break
		}
		var err error
		switch {
		case isWord(word, "vertex"):
			f.vertex(s)
		case isWord(word, "facet"), isWord(word, "endfacet"):
			err = f.close()
		case isWord(word, "solid"):
			b.report.Bodies++
			passTitle(s)
			err = f.close()
		case isWord(word, "endsolid"):
			passTitle(s)
			err = f.close()
		}
		if err != nil {
			return err
		}
	}
	if len(f.corners) > 0 || f.spoilt {
		b.report.harm("The file ends in the middle of a triangle, at line %s.", grouped(s.line+1))
	}
	return errors.Join(b.flush(), s.err)
}

// isWord is whether word is the lower-case keyword, in any case.
func isWord(word []byte, keyword string) bool {
	return len(word) == len(keyword) && bytes.EqualFold(word, []byte(keyword))
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
