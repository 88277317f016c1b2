package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"meltwright/internal/ui/look"
)

// none is no row.
const none = -1

// rowList is a long list of uniform rows, one of which may be chosen, by mouse
// or by the arrow keys. It stands in a FocusScroll and draws only what is seen.
type rowList struct {
	widget.BaseWidget
	strip    strip
	rowSize  func() float32     // the height of a row
	can      func(i int) bool   // whether row i may be chosen; nil: all may
	onSelect func(i int)        // told when the user chooses another row
	onOpen   func(i int)        // told on Enter, and on a tap on the chosen row
	onKey    func(fyne.KeyName) // told of keys that mean nothing here
	hasty    bool               // the first tap opens

	chosen, hovered int
	focused         bool
	wash, veil, bar *canvas.Rectangle
	ring            ring
	told            bool // a scroll has said which band is seen
}

func newRowList(row func() stripRow, fill func(stripRow, int)) *rowList {
	l := &rowList{strip: strip{make: row, fill: fill}, chosen: none, hovered: none}
	l.wash, l.veil, l.bar, l.ring = &canvas.Rectangle{}, &canvas.Rectangle{}, &canvas.Rectangle{}, newRing()
	l.rowSize = func() float32 { return px(34) }
	l.ExtendBaseWidget(l)
	return l
}

// rowHeight is the height of a row, in whole pixels.
func (l *rowList) rowHeight() float32 { return round(l.rowSize()) }

// setRows says how many rows there are and which is chosen; what they show is
// asked for again.
func (l *rowList) setRows(n, chosen int) {
	resized := l.strip.count != n
	l.strip.count, l.chosen = n, chosen
	if l.chosen >= n {
		l.chosen = none
	}
	if l.hovered >= n {
		l.hovered = none
	}
	l.relay(true)
	if resized {
		canvas.Refresh(l)
	}
}

// choose marks row i without telling anybody; none marks nothing.
func (l *rowList) choose(i int) {
	if i == l.chosen {
		return
	}
	was := l.chosen
	l.chosen = i
	l.strip.refill(was)
	l.strip.refill(i)
	l.mark()
}

// showBand implements windowed.
func (l *rowList) showBand(top, bottom float32) {
	l.told = true
	if l.strip.top != top || l.strip.bottom != bottom {
		l.strip.top, l.strip.bottom = top, bottom
		l.relay(false)
	}
}

// relay shows what the band touches; all says every row anew.
func (l *rowList) relay(all bool) {
	s := l.Size()
	height := l.rowHeight()
	all = all || l.strip.width != s.Width || l.strip.height != height
	l.strip.width, l.strip.height = s.Width, height
	if !l.told {
		const untold = 2000 // as much as a tall window shows
		l.strip.top, l.strip.bottom = 0, min(s.Height, untold)
	}
	changed := l.strip.lay(all)
	l.mark()
	if changed {
		canvas.Refresh(l)
	}
}

// mark puts the washes behind the chosen and the pointed-at row.
func (l *rowList) mark() {
	h, w := l.rowHeight(), l.Size().Width
	show(l.wash, l.chosen >= 0)
	show(l.bar, l.chosen >= 0)
	show(l.ring, l.chosen >= 0 && l.focused)
	if l.chosen >= 0 {
		y := float32(l.chosen) * h
		put(l.wash, 0, y, w, h)
		put(l.bar, 0, y, px(3), h)
		put(l.ring, 0, y, w, h)
	}
	show(l.veil, l.hovered >= 0 && l.hovered != l.chosen && l.hovered < l.strip.count)
	if l.hovered >= 0 {
		put(l.veil, 0, float32(l.hovered)*h, w, h)
	}
}

func (l *rowList) dress() {
	fill(l.wash, look.Panel)
	fill(l.bar, look.Accent)
	fill(l.veil, theme.ColorNameHover)
	l.ring.dress(look.Accent, 0)
	l.strip.dress()
}

// CreateRenderer implements fyne.Widget.
func (l *rowList) CreateRenderer() fyne.WidgetRenderer {
	l.dress()
	return face{
		objects: func() []fyne.CanvasObject {
			objects := append([]fyne.CanvasObject{l.wash, l.veil, l.bar}, l.strip.seen...)
			return append(objects, l.ring.Rectangle)
		},
		layout: func(fyne.Size) { l.relay(true) },
		min:    func() fyne.Size { return fyne.NewSize(px(120), l.rowHeight()*float32(l.strip.count)) },
		refresh: func() {
			l.dress()
			l.relay(true)
			canvas.Refresh(l)
		},
	}
}

// at is the row at height y.
func (l *rowList) at(y float32) int {
	i := int(y / l.rowHeight())
	if y < 0 || i >= l.strip.count {
		return none
	}
	return i
}

func (l *rowList) allowed(i int) bool {
	return i >= 0 && i < l.strip.count && (l.can == nil || l.can(i))
}

// pick chooses row i for the user and brings it into view.
func (l *rowList) pick(i int) {
	if !l.allowed(i) {
		return
	}
	changed := i != l.chosen
	l.choose(i)
	RevealPart(l, float32(i)*l.rowHeight(), float32(i+1)*l.rowHeight())
	if changed && l.onSelect != nil {
		l.onSelect(i)
	}
}

// step chooses the row n on, or the nearest to it that may be chosen.
func (l *rowList) step(n int) {
	from := l.chosen
	if from == none && n < 0 {
		from = l.strip.count
	}
	to, way := max(0, min(l.strip.count-1, from+n)), 1
	if n < 0 {
		way = -1
	}
	if i := l.seek(to, way); i != none {
		l.pick(i)
		return
	}
	l.pick(l.seek(to, -way))
}

// seek is the first row that may be chosen from i on, upwards or downwards.
func (l *rowList) seek(i, way int) int {
	for ; i >= 0 && i < l.strip.count; i += way {
		if l.allowed(i) {
			return i
		}
	}
	return none
}

// Tapped implements fyne.Tappable.
func (l *rowList) Tapped(e *fyne.PointEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(l); c != nil && !l.focused {
		c.Focus(l)
	}
	i := l.at(e.Position.Y)
	again := i != none && i == l.chosen
	l.pick(i)
	if again || l.hasty && l.allowed(i) {
		l.open()
	}
}

func (l *rowList) open() {
	if l.chosen != none && l.onOpen != nil {
		l.onOpen(l.chosen)
	}
}

// MouseIn implements desktop.Hoverable.
func (l *rowList) MouseIn(e *desktop.MouseEvent) { l.MouseMoved(e) }

// MouseMoved implements desktop.Hoverable.
func (l *rowList) MouseMoved(e *desktop.MouseEvent) {
	i := l.at(e.Position.Y)
	if !l.allowed(i) {
		i = none
	}
	if i != l.hovered {
		l.hovered = i
		l.mark()
	}
}

// MouseOut implements desktop.Hoverable.
func (l *rowList) MouseOut() {
	l.hovered = none
	l.mark()
}

// FocusGained implements fyne.Focusable. Where nothing was chosen the first row
// is, so that it can be seen where one is.
func (l *rowList) FocusGained() {
	l.focused = true
	if l.chosen == none {
		l.step(1)
	}
	l.mark()
	if l.chosen != none {
		RevealPart(l, float32(l.chosen)*l.rowHeight(), float32(l.chosen+1)*l.rowHeight())
	}
}

// FocusLost implements fyne.Focusable.
func (l *rowList) FocusLost() {
	l.focused = false
	l.mark()
}

// TypedRune implements fyne.Focusable.
func (l *rowList) TypedRune(rune) {}

// TypedKey implements fyne.Focusable.
func (l *rowList) TypedKey(e *fyne.KeyEvent) {
	const page = 10
	switch e.Name {
	case fyne.KeyDown:
		l.step(1)
	case fyne.KeyUp:
		l.step(-1)
	case fyne.KeyPageDown:
		l.step(page)
	case fyne.KeyPageUp:
		l.step(-page)
	case fyne.KeyHome:
		l.step(-l.strip.count)
	case fyne.KeyEnd:
		l.step(l.strip.count)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		l.open()
	default:
		if l.onKey != nil {
			l.onKey(e.Name)
		}
	}
}
