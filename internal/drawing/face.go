package drawing

import (
	"strings"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"meltwright/assets"
)

// Face is a typeface of the program.
type Face uint8

// The faces: Noto Sans for the window, tables and drawings, Source Serif 4 for
// headings in documents.
const (
	Sans Face = iota
	SansSemiBold
	SansBold
	SansItalic
	Serif
	SerifBold
	SerifItalic
	faces // how many there are
)

// TTF is the font file of f. It must not be changed; clone it for whoever would.
func (f Face) TTF() []byte {
	return [faces][]byte{
		assets.NotoSansRegular, assets.NotoSansSemiBold, assets.NotoSansBold, assets.NotoSansItalic,
		assets.SourceSerifRegular, assets.SourceSerifSemiBold, assets.SourceSerifItalic,
	}[f.known()]
}

// known is f, or Sans for a face of tomorrow.
func (f Face) known() Face {
	if f < faces {
		return f
	}
	return Sans
}

// glyph is one letter at a size of 1, on a baseline at 0 with y down.
type glyph struct {
	outline Path
	advance float64
	missing bool // the font has only its empty box for this letter
}

// typeface is a font that has been read, with the letters used so far.
type typeface struct {
	mu     sync.Mutex
	font   *sfnt.Font
	buffer sfnt.Buffer
	glyphs map[rune]glyph
	ascent float64 // of the tallest letters above the baseline, at a size of 1
}

var typefaces [faces]struct {
	once sync.Once
	face *typeface
}

// open is the font of f, read once.
func (f Face) open() *typeface {
	f = f.known()
	t := &typefaces[f]
	t.once.Do(func() {
		t.face = &typeface{glyphs: map[rune]glyph{}, ascent: 0.75}
		parsed, err := sfnt.Parse(f.TTF())
		if err != nil {
			return // an embedded font that a test has read; without it letters are blank
		}
		t.face.font = parsed
		if m, err := parsed.Metrics(&t.face.buffer, ppem(parsed), font.HintingNone); err == nil {
			t.face.ascent = float64(m.CapHeight) / float64(ppem(parsed))
		}
	})
	return t.face
}

// ppem asks a font for sizes in its own units, so that nothing is rounded.
func ppem(f *sfnt.Font) fixed.Int26_6 { return fixed.I(int(f.UnitsPerEm())) }

// glyph is the letter r.
func (t *typeface) glyph(r rune) glyph {
	t.mu.Lock()
	defer t.mu.Unlock()
	g, ok := t.glyphs[r]
	if !ok {
		g = t.load(r)
		t.glyphs[r] = g
	}
	return g
}

// load reads the letter r from the font.
func (t *typeface) load(r rune) glyph {
	if t.font == nil {
		return glyph{advance: 0.5, missing: true}
	}
	index, err := t.font.GlyphIndex(&t.buffer, r)
	g := glyph{missing: err != nil || index == 0}
	size := ppem(t.font)
	if a, err := t.font.GlyphAdvance(&t.buffer, index, size, font.HintingNone); err == nil {
		g.advance = float64(a) / float64(size)
	}
	if segments, err := t.font.LoadGlyph(&t.buffer, index, size, nil); err == nil {
		g.outline = outline(segments, 1/float64(size))
	}
	return g
}

// outline is a glyph's segments as a path, times scale.
func outline(segments sfnt.Segments, scale float64) Path {
	var p Path
	var at Point
	place := func(a fixed.Point26_6) Point { return Point{float64(a.X) * scale, float64(a.Y) * scale} }
	for _, s := range segments {
		a, b, c := place(s.Args[0]), place(s.Args[1]), place(s.Args[2])
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if len(p) > 0 {
				p.Close()
			}
			p.Move(a.X, a.Y)
			at = a
		case sfnt.SegmentOpLineTo:
			p.Line(a.X, a.Y)
			at = a
		case sfnt.SegmentOpQuadTo: // the same curve as a cubic
			p.Cubic(at.X+(a.X-at.X)*2/3, at.Y+(a.Y-at.Y)*2/3, b.X+(a.X-b.X)*2/3, b.Y+(a.Y-b.Y)*2/3, b.X, b.Y)
			at = b
		case sfnt.SegmentOpCubeTo:
			p.Cubic(a.X, a.Y, b.X, b.Y, c.X, c.Y)
			at = c
		}
	}
	if len(p) > 0 {
		p.Close()
	}
	return p
}

// Measure is how wide s is in f at size points, in points: the sum of its
// letters' advances.
func (f Face) Measure(s string, size float64) float64 {
	t, width := f.open(), 0.0
	for _, r := range s {
		width += t.glyph(r).advance
	}
	return width * size
}

// Ascent is how far capitals and figures rise above the baseline in f at size
// points, in points.
func (f Face) Ascent(size float64) float64 { return f.open().ascent * size }

// Missing lists the letters of s, each once, that f has no drawing for.
func (f Face) Missing(s string) []rune {
	t, seen := f.open(), ""
	for _, r := range s {
		if t.glyph(r).missing && !strings.ContainsRune(seen, r) {
			seen += string(r)
		}
	}
	return []rune(seen)
}

// Outline is s in f at size points as a path whose baseline begins at (x, y).
func (f Face) Outline(s string, size, x, y float64) Path {
	t := f.open()
	var p Path
	for _, r := range s {
		g := t.glyph(r)
		p = append(p, g.outline.Transform(Matrix{A: size, D: size, E: x, F: y})...)
		x += g.advance * size
	}
	return p
}
