package options

import (
	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

// Point is a height with what a budget is held against there.
type Point struct {
	Height quantity.Length
	Asked  money.Amount
}

// PriceCurve is a price over heights.
type PriceCurve struct {
	// Points go from the smallest height to the tallest. Where the price jumps
	// there are two at one height: as it was a millimetre before, and as it is.
	Points []Point
	Steps  []Step // where it jumps, in order
}

// Curve prices a commission at n heights from one to another, alike far apart,
// and at every height between where a step makes the price jump: before tax or
// with it, as the commission's budget is meant. Heights at which it cannot be
// made are left out. The error is the commission's faults.
func Curve(c estimate.Commission, s *shop.Shop, from, to quantity.Length, n int) (PriceCurve, error) {
	f, err := newFinder(c, s, estimate.RuleOf(c, s).BeforeTax)
	if err != nil {
		return PriceCurve{}, err
	}
	var p PriceCurve
	low, high, ok := f.holding(f.millimetres(from), f.millimetres(to))
	if !ok {
		return p, nil
	}
	p.Points = append(p.Points, f.point(low))
	n = max(n, 2)
	for i, last := 1, low; i < n; i++ {
		if mm := low + (high-low)*i/(n-1); mm > last {
			f.steps(last, mm, &p)
			p.Points = append(p.Points, f.point(mm))
			last = mm
		}
	}
	return p, nil
}

func (f *finder) millimetres(h quantity.Length) int {
	return max(1, min(int(h/millimetre+0.5), tallest))
}

func (f *finder) point(mm int) Point { return Point{length(mm), f.try(mm).asked} }

// holding narrows a stretch of heights to those at which the work can be made;
// false where there are none.
func (f *finder) holding(low, high int) (int, int, bool) {
	least, ok := f.smallest()
	low = max(low, least)
	if !ok || low > high || !f.try(low).Holds {
		return 0, 0, false
	}
	return low, f.lastWithin(low, high, func(t tried) bool { return t.Holds }), true
}

// steps puts what jumps between two heights into the curve. It halves the way as
// long as the ends differ, so that what jumps one after the other is told apart.
func (f *finder) steps(low, high int, p *PriceCurve) {
	a, b := f.try(low), f.try(high)
	if a.Steps.Same(b.Steps) {
		return
	}
	if high-low > 1 {
		mid := (low + high) / 2
		f.steps(low, mid, p)
		f.steps(mid, high, p)
		return
	}
	p.Points = append(p.Points, Point{length(high), a.asked}, Point{length(high), b.asked})
	p.Steps = append(p.Steps, Step{length(high), a.Steps, b.Steps, b.asked - a.asked})
}
