package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"meltwright/internal/ui/look"
)

// railBody is what scrolls in a rail: the column with its bands, and the rows.
type railBody struct {
	widget.BaseWidget
	rail   *Rail
	rows   []RailRow
	cells  []*railCell
	strata *strata
	view   float32 // the height that can be seen

	chosen, hovered int
	focused         bool
	stacked         bool // amounts stand below the names
	wash, veil      *canvas.Rectangle
	ring            ring
}

var (
	_ fyne.Tappable     = (*railBody)(nil)
	_ fyne.Focusable    = (*railBody)(nil)
	_ desktop.Hoverable = (*railBody)(nil)
)

func newRailBody(r *Rail) *railBody {
	b := &railBody{rail: r, chosen: none, hovered: none, wash: &canvas.Rectangle{}, veil: &canvas.Rectangle{}, ring: newRing()}
	b.strata = newStrata()
	b.wash.Hide()
	b.veil.Hide()
	b.ExtendBaseWidget(b)
	b.dress()
	return b
}

func (b *railBody) find(id string) int {
	for i, row := range b.rows {
		if row.ID == id {
			return i
		}
	}
	return none
}

func (b *railBody) setRows(rows []RailRow) {
	chosen := b.rail.Selected()
	many, relay := len(b.rows), false
	b.rows = append(b.rows[:0], rows...)
	for len(b.cells) < len(rows) {
		b.cells = append(b.cells, newRailCell())
	}
	b.choose(b.find(chosen))
	for i, row := range b.rows {
		relay = b.cells[i].show(row, i == b.chosen) || relay
	}
	b.strata.setRows(b.rows)
	if relay || many != len(rows) {
		b.relay()
	}
	if many != len(rows) {
		canvas.Refresh(b)
	}
}

func (b *railBody) choose(i int) {
	if i == b.chosen {
		return
	}
	b.chosen = i
	for j, row := range b.rows {
		b.cells[j].show(row, j == i)
	}
	b.mark()
}

// rowHeight shares the height there is among the rows, within reason.
func (b *railBody) rowHeight() float32 {
	least := railRowLeast()
	if len(b.rows) == 0 {
		return least
	}
	room := (b.view - 2*gap(10)) / float32(len(b.rows))
	return round(max(least, min(room, least*1.28)) - 0.5)
}

// mark puts the ground behind the chosen row, and strengthens its band.
func (b *railBody) mark() {
	h, w := b.rowHeight(), b.Size().Width
	x, y := b.strata.plan(w).rows, gap(10)
	show(b.wash, b.chosen >= 0)
	show(b.ring, b.chosen >= 0 && b.focused)
	if b.chosen >= 0 {
		top := y + float32(b.chosen)*h
		put(b.wash, x, top, w-x, h)
		put(b.ring, x, top, w-x, h)
	}
	show(b.veil, b.hovered >= 0 && b.hovered != b.chosen && b.hovered < len(b.rows))
	if b.hovered >= 0 {
		put(b.veil, x, y+float32(b.hovered)*h, w-x, h)
	}
	b.strata.emphasise(b.chosen, b.hovered)
}

func (b *railBody) dress() {
	fill(b.wash, look.Sheet)
	fill(b.veil, theme.ColorNameHover)
	b.ring.dress(look.Accent, 0)
	for i, c := range b.cells {
		c.dress()
		if i < len(b.rows) {
			c.show(b.rows[i], i == b.chosen)
		}
	}
	b.strata.raster.Refresh()
}

func (b *railBody) relay() {
	s := b.Size()
	h, top := b.rowHeight(), gap(10)
	p := b.strata.plan(s.Width)
	b.strata.lay(p, top, h, len(b.rows))
	b.stacked = b.crowded()
	for i := range b.rows {
		b.cells[i].place(p.rows, top+float32(i)*h, s.Width-p.rows, h, b.stacked)
	}
	b.mark()
}

// crowded says that some row has no room for name and amount side by side: then
// all rows put the amount below, so that amounts stand in one column.
func (b *railBody) crowded() bool {
	w := b.Size().Width - b.strata.plan(b.Size().Width).rows
	for i := range b.rows {
		if b.cells[i].crowded(w) {
			return true
		}
	}
	return false
}

// CreateRenderer implements fyne.Widget.
func (b *railBody) CreateRenderer() fyne.WidgetRenderer {
	b.dress()
	return face{
		objects: func() []fyne.CanvasObject {
			objects := []fyne.CanvasObject{b.wash, b.veil, b.strata.raster}
			for i := range b.rows {
				objects = append(objects, b.cells[i].objects()...)
			}
			return append(objects, b.ring.Rectangle)
		},
		layout: func(fyne.Size) { b.relay() },
		min: func() fyne.Size {
			return fyne.NewSize(px(150), float32(len(b.rows))*b.rowHeight()+2*gap(10))
		},
		refresh: func() {
			b.dress()
			b.relay()
			canvas.Refresh(b)
		},
	}
}

func (b *railBody) at(y float32) int {
	i := int((y - gap(10)) / b.rowHeight())
	if y < gap(10) || i >= len(b.rows) {
		return none
	}
	return i
}

// pick chooses row i for the user.
func (b *railBody) pick(i int) {
	if i < 0 || i >= len(b.rows) || i == b.chosen {
		return
	}
	b.choose(i)
	b.reveal()
	tell(b.rail.OnSelect, b.rows[i].ID)
}

// reveal brings the chosen row into view.
func (b *railBody) reveal() {
	if b.chosen >= 0 {
		top := gap(10) + float32(b.chosen)*b.rowHeight()
		RevealPart(b, top, top+b.rowHeight())
	}
}

// Tapped implements fyne.Tappable.
func (b *railBody) Tapped(e *fyne.PointEvent) {
	b.rail.Focus()
	b.pick(b.at(e.Position.Y))
}

// MouseIn implements desktop.Hoverable.
func (b *railBody) MouseIn(e *desktop.MouseEvent) { b.MouseMoved(e) }

// MouseMoved implements desktop.Hoverable.
func (b *railBody) MouseMoved(e *desktop.MouseEvent) {
	if i := b.at(e.Position.Y); i != b.hovered {
		b.hovered = i
		b.mark()
	}
}

// MouseOut implements desktop.Hoverable.
func (b *railBody) MouseOut() {
	b.hovered = none
	b.mark()
}

// FocusGained implements fyne.Focusable.
func (b *railBody) FocusGained() {
	b.focused = true
	if b.chosen == none {
		b.pick(0)
	}
	b.mark()
	b.reveal()
}

// FocusLost implements fyne.Focusable.
func (b *railBody) FocusLost() {
	b.focused = false
	b.mark()
}

// TypedRune implements fyne.Focusable.
func (b *railBody) TypedRune(rune) {}

// TypedKey implements fyne.Focusable.
func (b *railBody) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyDown:
		b.pick(b.chosen + 1)
	case fyne.KeyUp:
		b.pick(b.chosen - 1)
	case fyne.KeyHome:
		b.pick(0)
	case fyne.KeyEnd:
		b.pick(len(b.rows) - 1)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeyRight, fyne.KeySpace:
		tell(b.rail.OnEnter, b.rail.Selected())
	}
}
