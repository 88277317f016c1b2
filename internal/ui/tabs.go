package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"meltwright/internal/ui/kit"
	"meltwright/internal/ui/look"
)

// tabs chooses one of a few names that stand beside each other: the pieces of a
// commission. Left and Right choose; names that do not fit go on below.
type tabs struct {
	widget.BaseWidget
	onChoose func(i int)

	names            []string
	chosen, hovered  int
	focused          bool
	texts            []*canvas.Text
	line, veil, ring *canvas.Rectangle
	at               []fyne.Position
	width, height    float32
}

var (
	_ fyne.Tappable     = (*tabs)(nil)
	_ fyne.Focusable    = (*tabs)(nil)
	_ desktop.Hoverable = (*tabs)(nil)
)

func newTabs(onChoose func(int)) *tabs {
	t := &tabs{onChoose: onChoose, hovered: -1, line: &canvas.Rectangle{}, veil: &canvas.Rectangle{}, ring: &canvas.Rectangle{}}
	t.ring.StrokeWidth = 2
	t.ExtendBaseWidget(t)
	return t
}

// show shows names with one of them chosen, without telling anybody.
func (t *tabs) show(names []string, chosen int) {
	same := len(names) == len(t.names) && chosen == t.chosen
	for i := 0; same && i < len(names); i++ {
		same = names[i] == t.names[i]
	}
	if same {
		return
	}
	t.names, t.chosen = append(t.names[:0], names...), chosen
	for len(t.texts) < len(names) {
		t.texts = append(t.texts, &canvas.Text{})
	}
	t.relay()
	canvas.Refresh(t)
}

func tabSide() float32 { return theme.InnerPadding() * 1.5 }

func tabHeight() float32 {
	return fyne.MeasureText("Mg", theme.TextSize(), fyne.TextStyle{Bold: true}).Height + 2*theme.InnerPadding()
}

// relay places the names for the width, line after line.
func (t *tabs) relay() {
	t.at = t.at[:0]
	left := -tabSide() // the first name stands flush with what is below it
	x, y, h := left, float32(0), tabHeight()
	for i, name := range t.names {
		text := t.texts[i]
		text.Text, text.TextSize = name, theme.TextSize()
		text.TextStyle = fyne.TextStyle{Bold: i == t.chosen}
		text.Color = theme.Color(look.Muted)
		if i == t.chosen {
			text.Color = theme.Color(look.Ink)
		}
		w := t.wide(i)
		if x > left && x+w > t.width && t.width > 0 {
			x, y = left, y+h
		}
		t.at = append(t.at, fyne.NewPos(x, y))
		text.Move(fyne.NewPos(x+tabSide(), y+theme.InnerPadding()))
		text.Resize(fyne.NewSize(w-2*tabSide(), h-2*theme.InnerPadding()))
		text.Refresh()
		x += w
	}
	t.height = y + h
	t.mark()
}

// wide is the room of name i, the same whether it is chosen or not.
func (t *tabs) wide(i int) float32 {
	return fyne.MeasureText(t.names[i], theme.TextSize(), fyne.TextStyle{Bold: true}).Width + 2*tabSide()
}

// mark puts the line below the chosen name.
func (t *tabs) mark() {
	t.line.FillColor, t.veil.FillColor, t.ring.StrokeColor = theme.Color(look.Accent), theme.Color(theme.ColorNameHover), theme.Color(look.Accent)
	t.ring.CornerRadius = theme.InputRadiusSize()
	t.line.Hidden = t.chosen >= len(t.at)
	t.veil.Hidden = t.hovered < 0 || t.hovered >= len(t.at) || t.hovered == t.chosen
	t.ring.Hidden = !t.focused || t.line.Hidden
	h := tabHeight()
	if !t.line.Hidden {
		at, w := t.at[t.chosen], t.wide(t.chosen)
		t.line.Move(at.AddXY(tabSide(), h-3))
		t.line.Resize(fyne.NewSize(w-2*tabSide(), 3))
		t.ring.Move(at)
		t.ring.Resize(fyne.NewSize(w, h))
	}
	if !t.veil.Hidden {
		t.veil.Move(t.at[t.hovered])
		t.veil.Resize(fyne.NewSize(t.wide(t.hovered), h))
	}
	for _, r := range []*canvas.Rectangle{t.line, t.veil, t.ring} {
		r.Refresh()
	}
}

// CreateRenderer implements fyne.Widget.
func (t *tabs) CreateRenderer() fyne.WidgetRenderer { return tabsFace{t} }

type tabsFace struct{ t *tabs }

func (f tabsFace) Objects() []fyne.CanvasObject {
	objects := []fyne.CanvasObject{f.t.veil, f.t.line}
	for i := range f.t.names {
		objects = append(objects, f.t.texts[i])
	}
	return append(objects, f.t.ring)
}

func (f tabsFace) Layout(s fyne.Size) {
	f.t.width = s.Width
	f.t.relay()
}

func (f tabsFace) MinSize() fyne.Size { return fyne.NewSize(100, f.t.height) }
func (f tabsFace) Destroy()           {}
func (f tabsFace) Refresh() {
	f.t.relay()
	canvas.Refresh(f.t)
}

func (t *tabs) choose(i int) {
	if i < 0 || i >= len(t.names) || i == t.chosen {
		return
	}
	t.chosen = i
	t.relay()
	if t.onChoose != nil {
		t.onChoose(i)
	}
}

func (t *tabs) under(p fyne.Position) int {
	h := tabHeight()
	for i, at := range t.at {
		if p.X >= at.X && p.X < at.X+t.wide(i) && p.Y >= at.Y && p.Y < at.Y+h {
			return i
		}
	}
	return -1
}

// Tapped implements fyne.Tappable.
func (t *tabs) Tapped(e *fyne.PointEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(t); c != nil {
		c.Focus(t)
	}
	t.choose(t.under(e.Position))
}

// MouseIn implements desktop.Hoverable.
func (t *tabs) MouseIn(e *desktop.MouseEvent) { t.MouseMoved(e) }

// MouseMoved implements desktop.Hoverable.
func (t *tabs) MouseMoved(e *desktop.MouseEvent) {
	if i := t.under(e.Position); i != t.hovered {
		t.hovered = i
		t.mark()
	}
}

// MouseOut implements desktop.Hoverable.
func (t *tabs) MouseOut() {
	t.hovered = -1
	t.mark()
}

// FocusGained implements fyne.Focusable.
func (t *tabs) FocusGained() {
	t.focused = true
	t.mark()
	kit.Reveal(t)
}

// FocusLost implements fyne.Focusable.
func (t *tabs) FocusLost() {
	t.focused = false
	t.mark()
}

// TypedRune implements fyne.Focusable.
func (t *tabs) TypedRune(rune) {}

// TypedKey implements fyne.Focusable.
func (t *tabs) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyLeft:
		t.choose(t.chosen - 1)
	case fyne.KeyRight:
		t.choose(t.chosen + 1)
	case fyne.KeyHome:
		t.choose(0)
	case fyne.KeyEnd:
		t.choose(len(t.names) - 1)
	}
}
