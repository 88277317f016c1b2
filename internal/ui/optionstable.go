package ui

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"meltwright/internal/drawing"
	"meltwright/internal/quantity"
	"meltwright/internal/ui/kit"
	"meltwright/internal/ui/look"
)

// optionTable shows options side by side, a column each, so that they stand
// under their figures in the drawing. Left and Right choose, Enter goes on to
// the chosen option's inputs, Delete takes it away; Up, Down and the page keys
// scroll to what stands above and below it. Where there are more columns
// than go into the width, those around the chosen one are shown, and the head of
// the first column says how many there are on either side.
type optionTable struct {
	widget.BaseWidget
	onChoose, onOpen, onRemove func(i int)
	onScroll                   func(by float32) // by so much of what is seen

	says          optionTexts
	chosen, first int
	several       bool // there are options to choose from
	focused       bool
	width, height float32
	plan          tablePlan

	texts       []*canvas.Text // as many as were ever needed; the rest are empty
	used        int
	rules       []*canvas.Rectangle
	wash        []*canvas.Rectangle // ground, left and right edge of what is recommended
	under, ring *canvas.Rectangle   // what is chosen
}

var (
	_ fyne.Tappable  = (*optionTable)(nil)
	_ fyne.Focusable = (*optionTable)(nil)
)

func newOptionTable() *optionTable {
	t := &optionTable{under: &canvas.Rectangle{}, ring: &canvas.Rectangle{}}
	t.ring.StrokeWidth = 2
	for range 3 {
		t.wash = append(t.wash, &canvas.Rectangle{})
	}
	t.ExtendBaseWidget(t)
	return t
}

// set shows options, one of them chosen, without telling anybody.
func (t *optionTable) set(says optionTexts, chosen int, several bool) {
	t.says, t.chosen, t.several = says, chosen, several
	t.relay()
	canvas.Refresh(t)
}

// tablePlan is where the columns and the rows stand.
type tablePlan struct {
	label, column float32 // widths
	first, n      int     // the columns shown
	head          float32 // height of the head
	rows          []float32
	recommended   int // the column of it, -1 for none shown
}

// centre is the middle of shown column i.
func (p tablePlan) centre(i int) float32 { return p.label + p.column*(float32(i)+0.5) }

// divide plans for a width.
func (t *optionTable) divide(width float32) tablePlan {
	p := tablePlan{recommended: -1}
	for _, r := range t.says.rows {
		p.label = max(p.label, fyne.MeasureText(r.label, theme.TextSize(), fyne.TextStyle{}).Width)
	}
	p.label = min(max(p.label+2*theme.InnerPadding(), theme.TextSize()*9.5), width*0.45)
	least := theme.TextSize() * 8.4
	count := len(t.says.heads)
	p.n = max(1, min(count, int((width-p.label)/least)))
	p.column = (width - p.label) / float32(p.n)
	p.first = max(0, min(t.first, count-p.n))
	if t.chosen < p.first {
		p.first = t.chosen
	}
	if t.chosen >= p.first+p.n {
		p.first = t.chosen - p.n + 1
	}
	for i := range p.n {
		if t.says.recommended[p.first+i] {
			p.recommended = i
		}
	}
	return p
}

// relay places everything for the width.
func (t *optionTable) relay() {
	if len(t.says.heads) == 0 || t.width <= 0 {
		return
	}
	t.plan = t.divide(t.width)
	t.first = t.plan.first
	t.used = 0
	y := t.layHead()
	t.plan.head = y
	for i, r := range t.says.rows {
		t.rule(i, y)
		y = t.layRow(r, y)
		t.plan.rows = append(t.plan.rows, y)
	}
	t.rule(len(t.says.rows), y)
	for i := len(t.says.rows) + 1; i < len(t.rules); i++ {
		t.rules[i].Hide()
	}
	for _, text := range t.texts[t.used:] {
		text.Hide()
	}
	t.height = y + 1
	t.mark()
}

// layHead writes the names of the options and gives where they end.
func (t *optionTable) layHead() float32 {
	p, pad := t.plan, theme.InnerPadding()
	bottom := float32(0)
	for i := range p.n {
		c := t.says.heads[p.first+i]
		y := pad
		for k, line := range c.lines {
			bold := k == 0
			for _, part := range wrapped(line, p.column-pad, cellSize(k), bold, 2) {
				text := t.text(part, cellSize(k), bold, cellTone(c, k))
				size := text.MinSize()
				place(text, p.centre(i)-size.Width/2, y)
				y += size.Height
			}
		}
		bottom = max(bottom, y)
	}
	t.layMore()
	return float32(math.Ceil(float64(bottom + pad)))
}

// layMore says how many columns there are beyond those shown.
func (t *optionTable) layMore() {
	p, pad := t.plan, theme.InnerPadding()
	y := pad
	for _, m := range []struct {
		n    int
		form string
	}{{p.first, "‹ %s more"}, {len(t.says.heads) - p.first - p.n, "%s more ›"}} {
		if m.n > 0 {
			text := t.text(formatted(m.form, quantity.Number(float64(m.n), 0)), cellSize(1), false, look.Bronze)
			place(text, 0, y)
		}
		y += fyne.MeasureText("M", cellSize(1), fyne.TextStyle{}).Height
	}
}

// layRow writes a row from y down and gives where it ends. Words stand in the
// middle of their column; numbers end where the widest of the column's does.
func (t *optionTable) layRow(r optionRow, y float32) float32 {
	p, pad := t.plan, theme.Padding()
	label := t.text(r.label, theme.TextSize(), false, look.Muted)
	place(label, 0, y+pad)
	bottom := y + pad + label.MinSize().Height
	room := p.column - theme.InnerPadding()
	for i := range p.n {
		c, at := r.cells[p.first+i], y+pad
		right := p.centre(i) + min(t.widest(p.first+i, room), room)/2
		for k, line := range c.lines {
			for _, part := range wrapped(line, room, cellSize(k), c.bold && k == 0, 2) {
				text := t.text(part, cellSize(k), c.bold && k == 0, cellTone(c, k))
				size := text.MinSize()
				x := right - size.Width
				if r.words {
					x = p.centre(i) - size.Width/2
				}
				place(text, x, at)
				at += size.Height
			}
		}
		bottom = max(bottom, at)
	}
	return float32(math.Ceil(float64(bottom + pad)))
}

// widest is the room that the longest number said of option i takes, broken to
// the room there is.
func (t *optionTable) widest(i int, room float32) (w float32) {
	for _, r := range t.says.rows {
		for k, line := range r.cells[i].lines {
			if !r.words {
				bold := r.cells[i].bold && k == 0
				for _, part := range wrapped(line, room, cellSize(k), bold, 2) {
					w = max(w, fyne.MeasureText(part, cellSize(k), fyne.TextStyle{Bold: bold}).Width)
				}
			}
		}
	}
	return w
}

// cellSize is that of line k of a cell.
func cellSize(k int) float32 {
	if k == 0 {
		return theme.TextSize()
	}
	return theme.CaptionTextSize()
}

// cellTone is the colour of line k of a cell: what comes below is lesser, but for a
// warning.
func cellTone(c optionCell, k int) fyne.ThemeColorName {
	switch {
	case c.tone != "":
		return c.tone
	case k > 0:
		return look.Muted
	}
	return look.Ink
}

// text is the next unused text.
func (t *optionTable) text(words string, size float32, bold bool, colour fyne.ThemeColorName) *canvas.Text {
	if t.used == len(t.texts) {
		t.texts = append(t.texts, &canvas.Text{})
	}
	text := t.texts[t.used]
	t.used++
	c := theme.Color(colour)
	if text.Text != words || text.TextSize != size || text.TextStyle.Bold != bold || text.Color != c {
		text.Text, text.TextSize, text.TextStyle, text.Color = words, size, fyne.TextStyle{Bold: bold}, c
		text.Refresh()
	}
	text.Resize(text.MinSize())
	text.Show()
	return text
}

// place puts a text on whole units: its letters are crisp only there.
func place(text *canvas.Text, x, y float32) {
	text.Move(fyne.NewPos(float32(math.Round(float64(x))), float32(math.Round(float64(y)))))
}

// rule draws hairline i at y.
func (t *optionTable) rule(i int, y float32) {
	for len(t.rules) <= i {
		t.rules = append(t.rules, &canvas.Rectangle{})
	}
	r := t.rules[i]
	r.FillColor = theme.Color(look.Rule)
	if i == 0 {
		r.FillColor = theme.Color(look.Edge)
	}
	r.Move(fyne.NewPos(0, y))
	r.Resize(fyne.NewSize(t.width, 1))
	r.Show()
	r.Refresh()
}

// mark shows what is recommended, what is chosen, and that the table has the
// keyboard.
func (t *optionTable) mark() {
	p := t.plan
	x, w := p.label+p.column*float32(p.recommended), p.column
	for i, r := range t.wash {
		show(r, p.recommended >= 0)
		r.FillColor = palette().Colour([]drawing.Role{drawing.Wash, drawing.Accent, drawing.Accent}[i]) // as in the drawing above
		r.Move(fyne.NewPos(x+[]float32{0, 0, w - 1}[i], 0))
		r.Resize(fyne.NewSize([]float32{w, 1, 1}[i], t.height))
		r.Refresh()
	}
	at := p.label + p.column*float32(t.chosen-p.first)
	show(t.under, t.several)
	t.under.FillColor, t.ring.StrokeColor = theme.Color(look.Accent), theme.Color(look.Accent)
	t.under.Move(fyne.NewPos(at+theme.InnerPadding(), p.head-3))
	t.under.Resize(fyne.NewSize(w-2*theme.InnerPadding(), 3))
	show(t.ring, t.focused)
	t.ring.CornerRadius = theme.InputRadiusSize()
	t.ring.Move(fyne.NewPos(at, 0))
	t.ring.Resize(fyne.NewSize(w, t.height))
	t.under.Refresh()
	t.ring.Refresh()
}

// CreateRenderer implements fyne.Widget.
func (t *optionTable) CreateRenderer() fyne.WidgetRenderer { return optionTableFace{t} }

type optionTableFace struct{ t *optionTable }

func (f optionTableFace) Objects() []fyne.CanvasObject {
	var all []fyne.CanvasObject
	for _, r := range f.t.wash {
		all = append(all, r)
	}
	for _, r := range f.t.rules {
		all = append(all, r)
	}
	for _, text := range f.t.texts {
		all = append(all, text)
	}
	return append(all, f.t.under, f.t.ring)
}

func (f optionTableFace) Layout(s fyne.Size) {
	f.t.width = s.Width
	f.t.relay()
}

func (f optionTableFace) MinSize() fyne.Size { return fyne.NewSize(300, f.t.height) }
func (f optionTableFace) Destroy()           {}
func (f optionTableFace) Refresh() {
	f.t.relay()
	canvas.Refresh(f.t)
}

// choose chooses option i, as far as there are.
func (t *optionTable) choose(i int) {
	if i = max(0, min(i, len(t.says.heads)-1)); i != t.chosen && t.onChoose != nil {
		t.onChoose(i)
	}
}

// Tapped implements fyne.Tappable.
func (t *optionTable) Tapped(e *fyne.PointEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(t); c != nil {
		c.Focus(t)
	}
	p := t.plan
	switch line := fyne.MeasureText("M", cellSize(1), fyne.TextStyle{}).Height; {
	case e.Position.X >= p.label:
		t.choose(p.first + int((e.Position.X-p.label)/p.column))
	case e.Position.Y >= p.head:
	case e.Position.Y < theme.InnerPadding()+line:
		t.choose(p.first - 1)
	case p.first+p.n < len(t.says.heads):
		t.choose(p.first + p.n)
	}
}

// FocusGained implements fyne.Focusable.
func (t *optionTable) FocusGained() {
	t.focused = true
	t.mark()
	kit.RevealPart(t, 0, t.plan.head)
}

// FocusLost implements fyne.Focusable.
func (t *optionTable) FocusLost() {
	t.focused = false
	t.mark()
}

// TypedRune implements fyne.Focusable.
func (t *optionTable) TypedRune(rune) {}

// TypedKey implements fyne.Focusable.
func (t *optionTable) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyLeft:
		t.choose(t.chosen - 1)
	case fyne.KeyRight:
		t.choose(t.chosen + 1)
	case fyne.KeyHome:
		t.choose(0)
	case fyne.KeyEnd:
		t.choose(len(t.says.heads) - 1)
	case fyne.KeyReturn, fyne.KeyEnter:
		t.onOpen(t.chosen)
	case fyne.KeyDelete:
		t.onRemove(t.chosen)
	case fyne.KeyDown:
		t.onScroll(0.2)
	case fyne.KeyUp:
		t.onScroll(-0.2)
	case fyne.KeyPageDown:
		t.onScroll(0.9)
	case fyne.KeyPageUp:
		t.onScroll(-0.9)
	}
}
