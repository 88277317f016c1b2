package drawing

import "math"

// RangeBar shows a value within its likely range: eight times in ten it comes
// out between Low and High.
type RangeBar struct {
	Frame
	Low, High float64 // the 10th and the 90th percentile
	Mark      float64 // the value that is named
	// From and To are the ends of the bar. If To is not above From they are put
	// half the range beyond it.
	From, To                       float64
	LowLabel, HighLabel, MarkLabel string
}

// Scene draws the bar: labels of the ends below, that of the mark above.
func (r RangeBar) Scene() Scene {
	r.Frame = r.Frame.sane()
	s := r.scene()
	at := r.places()
	thick := r.Text * 0.8
	top := r.Text * 0.4
	if r.MarkLabel != "" {
		top = r.Text * 1.9
	}
	low, high, mark := at(min(r.Low, r.High)), at(max(r.Low, r.High)), at(r.Mark)
	s.Items = append(s.Items,
		Shape{Path: RoundRect(0, top, r.Width, thick, thick/2), Fill: Trough},
		Shape{Path: RoundRect(low, top, max(high-low, thick/2), thick, thick/2), Fill: Likely},
		Shape{Path: Rect(mark-firm, top-r.Text*0.3, 2*firm, thick+r.Text*0.6), Fill: Ink})
	if r.MarkLabel != "" {
		s.Items = append(s.Items, inside(Text{
			At: Point{mark, top - r.Text*0.6}, Words: r.MarkLabel, Face: SansSemiBold, Size: r.Text,
			Anchor: Middle, Colour: Ink,
		}, 0, r.Width))
	}
	s.Items = append(s.Items, r.ends(low, high, top+thick+r.Text*0.5)...)
	return s
}

// places says where on the bar a value is, in points from the left.
func (r RangeBar) places() func(float64) float64 {
	from, to := finite(r.From), finite(r.To)
	if !(to > from) {
		low, high := min(finite(r.Low), finite(r.High)), max(finite(r.Low), finite(r.High))
		beyond := (high - low) / 2
		if beyond == 0 {
			beyond = max(math.Abs(high)/2, 1)
		}
		from, to = min(low-beyond, finite(r.Mark)), max(high+beyond, finite(r.Mark))
	}
	return func(v float64) float64 { return within((finite(v)-from)/(to-from), 0, 1) * r.Width }
}

// ends labels the ends of the likely range, beneath them where the labels do
// not meet, else at the ends of the bar.
func (r RangeBar) ends(low, high, top float64) []Item {
	size := r.small()
	base := top + Sans.Ascent(size)
	write := func(x float64, a Anchor, words string) Text {
		return inside(Text{At: Point{x, base}, Words: words, Face: Sans, Size: size, Anchor: a, Colour: Muted}, 0, r.Width)
	}
	left, right := write(low, Start, r.LowLabel), write(high, End, r.HighLabel)
	if gap := size * 0.6; left.Box().Max.X+gap > right.Box().Min.X {
		room := (r.Width - gap) / 2
		left = write(0, Start, Sans.fitted(r.LowLabel, size, max(room, r.Width-gap-Sans.Measure(r.HighLabel, size))))
		right = write(r.Width, End, Sans.fitted(r.HighLabel, size, r.Width-gap-left.Width()))
	}
	return []Item{left, right}
}

// inside is t moved sideways, as little as it takes, to lie between left and right.
func inside(t Text, left, right float64) Text {
	b := t.Box()
	if over := b.Max.X - right; over > 0 {
		t.At.X -= over
		b.Min.X -= over
	}
	if under := left - b.Min.X; under > 0 {
		t.At.X += under
	}
	return t
}
