package proposal

import (
	"slices"
	"strings"
	"unicode"

	"meltwright/internal/drawing"
)

// shaped are scripts whose letters change with their neighbours or run from the
// right. The fonts hold some of them, but letters put one after the other would
// not be words, so they count as missing.
var shaped = []*unicode.RangeTable{
	unicode.Devanagari, unicode.Bengali, unicode.Tamil, unicode.Telugu, unicode.Thai, unicode.Khmer, unicode.Myanmar,
	unicode.Arabic, unicode.Hebrew, unicode.Syriac,
}

// spelled are signs that the fonts lack and that can be said otherwise.
var spelled = map[rune]string{
	'√': "root", '≈': "~", '≠': "<>", '≤': "<=", '≥': ">=", '→': "->", '←': "<-", '∑': "sum", '∆': "delta", '\u2011': "-",
}

// letters sees that everything that is printed has its glyph, and keeps account
// of what has none.
type letters struct {
	lost []rune
}

// clean makes words printable in face: spaces of every kind but the fixed ones
// become plain ones, marks that have no shape go (those that choose a drawing or join
// emoji among them), signs that can be spelled are, and each letter or sign that
// the font lacks becomes a question mark, with the accents it carries. If face
// lacks what the plain face has, the plain face it is.
func (l *letters) clean(face drawing.Face, words string) (string, drawing.Face) {
	if isASCII(words) {
		return words, face
	}
	if f := plainFace(face); f != face && l.lacks(face, words) > l.lacks(f, words) {
		face = f
	}
	var b strings.Builder
	lost := false // the last rune was one that is missing
	for _, r := range words {
		switch {
		case r == '\u00a0' || r == '\u202f':
			b.WriteRune(r)
		case unicode.IsSpace(r) || r == '\u200b':
			b.WriteByte(' ')
		case unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Variation_Selector, r):
			continue
		case l.missing(face, r) && spelled[r] != "":
			b.WriteString(spelled[r])
		case lost && unicode.IsMark(r):
			continue // it went with its letter
		case l.missing(face, r):
			l.note(r)
			b.WriteByte('?')
			lost = true
			continue
		default:
			b.WriteRune(r)
		}
		lost = false
	}
	return b.String(), face
}

// isASCII is true for words that every font has, whatever they are.
func isASCII(s string) bool {
	for i := range len(s) {
		if s[i] < ' ' || s[i] > '~' {
			return false
		}
	}
	return true
}

// plainFace is the face of the most letters in the same weight.
func plainFace(f drawing.Face) drawing.Face {
	switch f {
	case drawing.Serif:
		return drawing.Sans
	case drawing.SerifBold:
		return drawing.SansSemiBold
	case drawing.SerifItalic:
		return drawing.SansItalic
	}
	return f
}

// lacks counts the runes of words that face has no glyph for.
func (l *letters) lacks(face drawing.Face, words string) (n int) {
	for _, r := range words {
		if !unicode.IsSpace(r) && l.missing(face, r) {
			n++
		}
	}
	return n
}

// missing is true for a rune that cannot be printed: the font lacks it, the
// library cannot write it, or it needs shaping.
func (l *letters) missing(face drawing.Face, r rune) bool {
	return r > 0xffff || unicode.In(r, shaped...) || len(face.Missing(string(r))) > 0
}

func (l *letters) note(r rune) {
	if !slices.Contains(l.lost, r) {
		l.lost = append(l.lost, r)
	}
}

// basic leaves out the runes that the library cannot write even where no font is
// needed, as in the document's title.
func basic(words string) string {
	return strings.Map(func(r rune) rune {
		if r > 0xffff || unicode.IsControl(r) || r == unicode.ReplacementChar {
			return -1
		}
		return r
	}, words)
}
