package kit

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// span is a stretch of a paragraph in one colour and weight.
type span struct {
	text   string
	colour fyne.ThemeColorName
	bold   bool
}

// para is text that wraps at its width, of spans that follow one another. It
// keeps its pieces of text from one wording to the next.
type para struct {
	widget.BaseWidget
	size    fyne.ThemeSizeName
	spans   []span
	pieces  []*canvas.Text // reused; the first used of them are shown
	used    int
	wrapped float32 // the width the pieces were laid out for
	letters float32 // the text size they were laid out in
	height  float32
}

func newPara(size fyne.ThemeSizeName) *para {
	p := &para{size: size}
	p.ExtendBaseWidget(p)
	return p
}

// say changes the wording, and tells whether it was another one.
func (p *para) say(spans ...span) bool {
	kept := spans[:0:0]
	for _, s := range spans {
		if s.text != "" {
			kept = append(kept, s)
		}
	}
	if sameSpans(p.spans, kept) {
		return false
	}
	p.spans = kept
	p.wrap(p.wrapped)
	return true
}

func sameSpans(a, b []span) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// heightFor is the height the wording takes in that width; the pieces stay as
// they will be if it then gets that width.
func (p *para) heightFor(width float32) float32 {
	if width != p.wrapped || p.letters != letterSize(p.size) {
		p.wrap(width)
	}
	return p.height
}

// empty says that there is nothing to show.
func (p *para) empty() bool { return len(p.spans) == 0 }

// CreateRenderer implements fyne.Widget.
func (p *para) CreateRenderer() fyne.WidgetRenderer {
	return face{
		objects: func() []fyne.CanvasObject {
			objects := make([]fyne.CanvasObject, p.used)
			for i := range objects {
				objects[i] = p.pieces[i]
			}
			return objects
		},
		layout: func(s fyne.Size) { p.heightFor(s.Width) },
		min:    func() fyne.Size { return fyne.NewSize(1, p.height) },
		refresh: func() {
			p.wrap(p.wrapped)
			canvas.Refresh(p)
		},
	}
}

// wrap lays the wording out in the width, or on one line while none is known.
func (p *para) wrap(width float32) {
	p.wrapped, p.letters = width, letterSize(p.size)
	pen := pen{p: p, width: width, line: fyne.MeasureText("Mg", p.letters, plain).Height}
	for _, s := range p.spans {
		pen.write(s)
	}
	if before := p.used; before != pen.used {
		p.used = pen.used
		canvas.Refresh(p)
	}
	p.height = 0
	if p.used > 0 {
		p.height = pen.y + pen.line
	}
}

// pen goes along a paragraph's lines while they are written.
type pen struct {
	p           *para
	width, line float32
	x, y        float32
	used        int
}

// write puts a span down, breaking it between words; a newline begins a new line.
func (n *pen) write(s span) {
	for i, part := range strings.Split(s.text, "\n") {
		if i > 0 {
			n.newLine()
		}
		n.words(part, s)
	}
}

// words puts down as many words as fit, line after line.
func (n *pen) words(text string, s span) {
	style := fyne.TextStyle{Bold: s.bold}
	for text != "" {
		head := n.fitting(text, style)
		if head == "" {
			n.newLine()
			text = strings.TrimLeft(text, " ")
			continue
		}
		n.piece(head, s.colour, style)
		text = text[len(head):]
		if text != "" {
			n.newLine()
			text = strings.TrimLeft(text, " ")
		}
	}
}

// fitting is the longest beginning of text, in whole words, that the rest of the
// line holds; on a fresh line it is never empty: a word too long is broken.
func (n *pen) fitting(text string, style fyne.TextStyle) string {
	if n.fits(text, style) {
		return text
	}
	best, at := "", 0
	for {
		next := strings.IndexByte(text[at:], ' ')
		if next < 0 {
			break
		}
		if !n.fits(text[:at+next], style) {
			break
		}
		at += next + 1
		best = text[:at]
	}
	if best != "" || n.x > 0 {
		return best
	}
	word := text
	if end := strings.IndexByte(text, ' '); end > 0 {
		word = text[:end]
	}
	if n.fits(word, style) {
		return word
	}
	return n.broken(word, style)
}

// broken is as much of a word as the line holds, at least one letter.
func (n *pen) broken(word string, style fyne.TextStyle) string {
	end := 0
	for i := range word {
		if i > 0 && !n.fits(word[:i], style) {
			break
		}
		end = i
	}
	if end == 0 {
		for i := range word {
			if i > 0 {
				return word[:i]
			}
		}
		return word
	}
	return word[:end]
}

func (n *pen) fits(text string, style fyne.TextStyle) bool {
	if n.width <= 0 {
		return true
	}
	const slack = 0.5
	return n.x+fyne.MeasureText(strings.TrimRight(text, " "), n.p.letters, style).Width <= n.width+slack
}

// piece puts one run of text down at the pen.
func (n *pen) piece(text string, name fyne.ThemeColorName, style fyne.TextStyle) {
	if n.used == len(n.p.pieces) {
		n.p.pieces = append(n.p.pieces, &canvas.Text{})
	}
	t := n.p.pieces[n.used]
	n.used++
	size := fyne.MeasureText(text, n.p.letters, style)
	c := colour(name)
	if t.Text != text || t.Color != c || t.TextStyle != style || t.TextSize != n.p.letters {
		t.Text, t.Color, t.TextStyle, t.TextSize = text, c, style, n.p.letters
		t.Refresh()
	}
	put(t, n.x, n.y, size.Width, n.line)
	n.x += size.Width
}

func (n *pen) newLine() {
	n.x = 0
	n.y += n.line
}
