package proposal

import (
	"slices"
	"strings"
	"unicode/utf8"

	"meltwright/internal/drawing"
)

// style is how words are set.
type style struct {
	face   drawing.Face
	size   float64
	lead   float64 // from one baseline to the next
	colour drawing.Role
}

// The styles of the papers.
var (
	bodyStyle    = style{drawing.Sans, 10, 15.5, drawing.Ink}
	leadStyle    = style{drawing.Serif, 13, 20, drawing.Ink}
	smallStyle   = style{drawing.Sans, 8.5, 12.5, drawing.Muted}
	sectionStyle = style{drawing.SerifBold, 22, 28, drawing.Ink}
	headStyle    = style{drawing.SansSemiBold, 10.5, 15.5, drawing.Bronze}
)

// baseline is how far below the top of its line the baseline lies, so that the
// letters stand in the middle of the line.
func (s style) baseline() float64 { return (s.lead + s.face.Ascent(s.size)) / 2 }

// in gives the style in another face.
func (s style) in(f drawing.Face) style { s.face = f; return s }

// tinted gives the style in another colour.
func (s style) tinted(r drawing.Role) style { s.colour = r; return s }

// measure is the widest that running text is set, in points: about eighty
// letters, which the eye still follows from line to line.
const measure = 410

// line is one line of words at x, whose top is at y.
func (s style) line(words string, x, y float64, a drawing.Anchor) drawing.Text {
	return drawing.Text{At: drawing.Point{X: x, Y: y + s.baseline()}, Words: words, Face: s.face, Size: s.size, Anchor: a, Colour: s.colour}
}

// wrap breaks words into lines no wider than room. It breaks at spaces; a word
// wider than a line is broken after a hyphen or a stroke, or where it must be.
func (s style) wrap(words string, room float64) []string {
	var lines []string
	line, used := "", 0.0
	space := s.face.Measure(" ", s.size)
	for _, word := range strings.FieldsFunc(words, func(r rune) bool { return r == ' ' }) {
		width := s.face.Measure(word, s.size)
		if line != "" && used+space+width <= room {
			line, used = line+" "+word, used+space+width
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for width > room {
			n := s.fits(word, room)
			lines, word = append(lines, word[:n]), word[n:]
			width = s.face.Measure(word, s.size)
		}
		line, used = word, width
	}
	if line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}

// fits is how many bytes of a long word go on one line: at least one letter, and
// up to a hyphen, stroke or underscore in its last two thirds, if there is one.
func (s style) fits(word string, room float64) int {
	used, end, soft := 0.0, 0, 0
	for i, r := range word {
		used += s.face.Measure(string(r), s.size)
		if used > room && i > 0 {
			break
		}
		end = i + utf8.RuneLen(r)
		if strings.ContainsRune("-/_–—@\u00a0", r) {
			soft = end
		}
	}
	if soft > end/3 {
		return soft
	}
	return end
}

// clamp cuts lines to so many, with an ellipsis where something is left out.
func (s style) clamp(lines []string, most int, room float64) []string {
	if len(lines) <= most {
		return lines
	}
	last := []rune(lines[most-1])
	for len(last) > 0 && s.face.Measure(string(last)+"…", s.size) > room {
		last = last[:len(last)-1]
	}
	return append(slices.Clone(lines[:most-1]), strings.TrimRight(string(last), " .,;")+"…")
}

// setter sets words into strips.
type setter struct {
	letters
	wide float64 // of tables and headings
}

// lines wraps words that have been made printable.
func (t *setter) lines(s style, words string, room float64) ([]string, style) {
	words, s.face = t.clean(s.face, words)
	return s.wrap(words, room), s
}

// paragraph sets words in strips of one line. Neither its first nor its last
// line stands alone on a page.
func (t *setter) paragraph(s style, words string, indent, before float64) []strip {
	lines, s := t.lines(s, words, min(measure, t.wide)-indent)
	strips := make([]strip, len(lines))
	for i, words := range lines {
		strips[i] = strip{height: s.lead, items: []drawing.Item{s.line(words, indent, 0, drawing.Start)}}
		strips[i].keep = i < len(lines)-1 && (i == 0 || i == len(lines)-2)
	}
	strips[0].before = before
	return strips
}

// heading sets a section's title, or with level 1 one below it, with its
// bookmark. It stays with what follows.
func (t *setter) heading(words string, level int) []strip {
	s, before := sectionStyle, 34.0
	if level > 0 {
		s, before = headStyle, 16
	}
	lines, s := t.lines(s, words, t.wide)
	var strips []strip
	for _, l := range lines {
		strips = append(strips, strip{height: s.lead, keep: true, items: []drawing.Item{s.line(l, 0, 0, drawing.Start)}})
	}
	strips[0].before = before
	if level == 0 {
		strips[0].mark = &mark{words: words}
		strips[len(strips)-1].height += 4
	}
	return strips
}

// item sets a line of a list: a mark, and words beside it.
func (t *setter) item(s style, words string) []strip {
	strips := t.paragraph(s, words, 14, 3)
	y := s.baseline() - s.face.Ascent(s.size)/2
	strips[0].items = append([]drawing.Item{drawing.Shape{Path: drawing.Rect(1, y-1.5, 5, 1.2), Fill: drawing.Accent}}, strips[0].items...)
	return strips
}

// picture is a scene as a strip.
func picture(s drawing.Scene, before float64) strip {
	return strip{height: s.Height, before: before, items: s.Items}
}
