package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/ui/look"
)

// PriceRange is what the price may come to. The four figures are in one unit.
type PriceRange struct {
	Least, Most float64 // the ends of the bar
	Low, High   float64 // the likely part of it
	At          float64 // where the quoted price stands
	LowText     string  // "8 in 10: $112,900"
	HighText    string  // "$147,200"
}

// rangeBar draws a range: a trough, its likely part, and a tick for the price.
type rangeBar struct {
	trough, likely, tick *canvas.Rectangle
	low, high            *ink
}

func newRangeBar() *rangeBar {
	return &rangeBar{
		trough: &canvas.Rectangle{}, likely: &canvas.Rectangle{}, tick: &canvas.Rectangle{},
		low:  newInk(theme.SizeNameCaptionText, look.Muted, plain).trailing(),
		high: newInk(theme.SizeNameCaptionText, look.Muted, plain).trailing(),
	}
}

func (b *rangeBar) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{b.trough, b.likely, b.tick, b.low.Text, b.high.Text}
}

func (b *rangeBar) dress() {
	fill(b.trough, look.Trough)
	fill(b.likely, look.Range)
	fill(b.tick, look.Ink)
	b.low.dress()
	b.high.dress()
}

// place draws r from x, y and gives the height it takes; nil takes none.
func (b *rangeBar) place(r *PriceRange, x, y, w float32) float32 {
	for _, o := range b.objects() {
		show(o, r != nil)
	}
	if r == nil {
		return 0
	}
	b.low.say(r.LowText)
	b.high.say(r.HighText)
	thick, over := px(8), px(4)
	on := func(v float64) float32 { return x + w*r.part(v) }
	b.trough.CornerRadius, b.likely.CornerRadius = thick/2, thick/2
	put(b.trough, x, y+over, w, thick)
	put(b.likely, on(r.Low), y+over, on(r.High)-on(r.Low), thick)
	tick := px(3)
	put(b.tick, max(x, min(on(r.At)-tick/2, x+w-tick)), y, tick, thick+2*over)
	return thick + 2*over + gap(2) + b.words(x, y+thick+2*over+gap(2), w)
}

// words puts the two ends' texts beside each other, or one below the other.
func (b *rangeBar) words(x, y, w float32) float32 {
	line := lineHeight(theme.SizeNameCaptionText)
	low, high := b.low.natural(), b.high.natural()
	b.low.place(x, y, low, line)
	if low+high+gap(8) <= w {
		b.high.place(x+w-high, y, high, line)
		return line
	}
	b.high.place(x+w-high, y+line, high, line)
	return 2 * line
}

// part is where on the bar v stands, 0 to 1.
func (r *PriceRange) part(v float64) float32 {
	if !(r.Most > r.Least) {
		return 0
	}
	return float32(max(0, min(1, (v-r.Least)/(r.Most-r.Least))))
}
