package drawing

import "math"

// Curve shows a price over a height: how it climbs, where it steps (one more
// heat, one more pour day), what the budget reaches, and where the options lie.
type Curve struct {
	Frame
	Units Units
	// Points go from the smallest height to the tallest. Two with the same height
	// are a step.
	Points      []At
	Prices      []Tick  // written on the left, with lines across
	Budget      float64 // 0 is none
	BudgetLabel string  // "budget $150,000"
	Options     []OptionAt
	Axis        string // written below: "height in bronze"
}

// At is a height in metres and a price in any unit that the others share.
type At struct{ Height, Price float64 }

// OptionAt is an option on a curve.
type OptionAt struct {
	At
	Label       string
	Recommended bool
}

// curvePlan is where heights and prices lie.
type curvePlan struct {
	left, right, top, ground float64
	low, high, dearest       float64
	heights                  []Tick
}

func (p curvePlan) x(height float64) float64 {
	return p.left + within((finite(height)-p.low)/(p.high-p.low), 0, 1)*(p.right-p.left)
}

func (p curvePlan) y(price float64) float64 {
	return p.ground - within(finite(price)/p.dearest, 0, 1)*(p.ground-p.top)
}

// Scene draws the curve.
func (c Curve) Scene() Scene {
	c.Frame = c.Frame.sane()
	p := c.plan()
	s := c.scene()
	s.Items = append(s.Items, c.afford(p)...)
	s.Items = append(s.Items, c.axes(p)...)
	s.Items = append(s.Items, c.climb(p)...)
	budget := c.limit(p)
	s.Items = append(s.Items, budget...)
	s.Items = append(s.Items, c.marks(p, append(c.lines(p), boxes(budget)...))...)
	return s
}

func (c Curve) plan() curvePlan {
	p := curvePlan{top: c.Text * 1.4, ground: c.Height - c.Text*1.9, right: c.Width - c.Text*1.2}
	if c.Axis != "" {
		p.ground -= c.Text * 1.3
	}
	p.ground = max(p.ground, p.top+1)
	for _, t := range c.Prices {
		p.left = max(p.left, Sans.Measure(t.Label, c.small()))
		p.dearest = max(p.dearest, finite(t.Value))
	}
	p.left = min(p.left+c.Text*1.2, c.Width*0.4)
	p.right = max(p.right, p.left+1)
	p.low, p.high = math.Inf(1), math.Inf(-1)
	see := func(a At) {
		p.low, p.high = min(p.low, finite(a.Height)), max(p.high, finite(a.Height))
		p.dearest = max(p.dearest, finite(a.Price))
	}
	for _, a := range c.Points {
		see(a)
	}
	for _, o := range c.Options {
		see(o.At)
	}
	p.dearest = max(p.dearest, finite(c.Budget)*1.05)
	if p.dearest <= 0 {
		p.dearest = 1
	}
	if !(p.high > p.low) {
		p.low, p.high = 0, max(finite(p.high), 1)
	}
	p.heights = c.Units.HeightTicks(p.high, max(int((p.right-p.left)/(c.Text*6)), 1))
	return p
}

// axes draws the lines that heights and prices are read off.
func (c Curve) axes(p curvePlan) []Item {
	var items []Item
	size := c.small()
	for _, t := range c.Prices {
		if t.Value < 0 || t.Value > p.dearest {
			continue
		}
		y := p.y(t.Value)
		items = append(items, line(p.left, y, p.right, y, hairline, Rule), Text{
			At: Point{p.left - c.Text*0.6, y + Sans.Ascent(size)/2}, Words: t.Label, Face: Sans, Size: size,
			Anchor: End, Colour: Muted,
		})
	}
	for _, t := range p.heights {
		if t.Value < p.low || t.Value > p.high {
			continue
		}
		x := p.x(t.Value)
		items = append(items, line(x, p.ground, x, p.ground+c.Text*0.35, hairline, Ink), inside(Text{
			At: Point{x, p.ground + c.Text*0.6 + Sans.Ascent(size)}, Words: t.Label, Face: Sans, Size: size,
			Anchor: Middle, Colour: Muted,
		}, 0, c.Width))
	}
	return append(items, line(p.left, p.ground, p.right, p.ground, firm, Ink), Text{
		At: Point{(p.left + p.right) / 2, c.Height - c.Text*0.35}, Words: c.Axis, Face: Sans, Size: size,
		Anchor: Middle, Colour: Muted,
	})
}

// afford shades the heights that the budget reaches.
func (c Curve) afford(p curvePlan) []Item {
	reach, ok := Reach(c.Points, c.Budget)
	if !ok {
		return nil
	}
	x := p.x(reach)
	return []Item{
		Shape{Path: Rect(p.left, p.top, x-p.left, p.ground-p.top), Fill: Wash},
		Shape{Path: Polyline(Point{x, p.y(c.Budget)}, Point{x, p.ground}), Stroke: Good, Width: firm, Dash: []float64{3, 2}},
	}
}

// Reach is the tallest height along points whose price is within budget; false
// if there is no budget or none is within it. Between two points the price runs
// straight.
func Reach(points []At, budget float64) (height float64, ok bool) {
	if !(budget > 0) {
		return 0, false
	}
	for i, a := range points {
		if a.Price <= budget && (!ok || a.Height > height) {
			height, ok = a.Height, true
		}
		if i == 0 {
			continue
		}
		b := points[i-1]
		if (b.Price <= budget) != (a.Price <= budget) && a.Price != b.Price {
			at := b.Height + (a.Height-b.Height)*(budget-b.Price)/(a.Price-b.Price)
			if !ok || at > height {
				height, ok = at, true
			}
		}
	}
	return height, ok
}

// climb draws the curve, its steps in dashes.
func (c Curve) climb(p curvePlan) []Item {
	var slope, steps Path
	for i, a := range c.Points {
		x, y := p.x(a.Height), p.y(a.Price)
		switch {
		case i == 0:
			slope.Move(x, y)
		case a.Height == c.Points[i-1].Height:
			steps.Move(x, p.y(c.Points[i-1].Price))
			steps.Line(x, y)
			slope.Move(x, y)
		default:
			slope.Line(x, y)
		}
	}
	return []Item{
		Shape{Path: steps, Stroke: Accent, Width: hairline, Dash: []float64{1.5, 1.5}},
		Shape{Path: slope, Stroke: Accent, Width: 2},
	}
}

// limit draws the budget.
func (c Curve) limit(p curvePlan) []Item {
	if !(c.Budget > 0) {
		return nil
	}
	y := p.y(c.Budget)
	return []Item{
		Shape{Path: Polyline(Point{p.left, y}, Point{p.right, y}), Stroke: Ink, Width: firm, Dash: []float64{5, 3}},
		Text{
			At: Point{p.left + c.Text*0.4, y - c.Text*0.45}, Face: SansSemiBold, Size: c.small(), Colour: Ink,
			Words: SansSemiBold.fitted(c.BudgetLabel, c.small(), p.right-p.left-c.Text),
		},
	}
}

// marks draws the options: full within the budget, hollow beyond it, a ring
// round the recommended one. A label that finds no free place is left out.
func (c Curve) marks(p curvePlan, taken []Box) []Item {
	var items []Item
	r := c.Text * 0.36
	for _, o := range c.Options {
		x, y := p.x(o.Height), p.y(o.Price)
		dot := Shape{Path: Circle(x, y, r), Fill: Ink}
		if c.Budget > 0 && o.Price > c.Budget {
			dot = Shape{Path: Circle(x, y, r), Fill: Sheet, Stroke: Bad, Width: firm}
		}
		if o.Recommended {
			items = append(items, Shape{Path: Circle(x, y, r*2), Fill: Sheet, Stroke: Accent, Width: firm})
		}
		items = append(items, dot)
		taken = append(taken, Box{Point{x - r, y - r}, Point{x + r, y + r}})
	}
	slope := c.slope(p)
	for _, o := range c.Options {
		t, ok := c.free(p, o, append(slope, taken...))
		if !ok { // there is no room but on the curve
			t, ok = c.free(p, o, taken)
		}
		if ok {
			items, taken = append(items, t), append(taken, t.Box())
		}
	}
	return items
}

// lines are those that no label may lie on: the budget, and the height that it
// reaches.
func (c Curve) lines(p curvePlan) (all []Box) {
	if !(c.Budget > 0) {
		return nil
	}
	y := p.y(c.Budget)
	all = append(all, Box{Point{p.left, y - firm}, Point{p.right, y + firm}})
	if reach, ok := Reach(c.Points, c.Budget); ok {
		x := p.x(reach)
		all = append(all, Box{Point{x - firm, y}, Point{x + firm, p.ground}})
	}
	return all
}

// slope covers the curve with small boxes.
func (c Curve) slope(p curvePlan) (all []Box) {
	for i := 1; i < len(c.Points); i++ {
		a, b := c.Points[i-1], c.Points[i]
		from, to := Point{p.x(a.Height), p.y(a.Price)}, Point{p.x(b.Height), p.y(b.Price)}
		n := int(math.Ceil(max(math.Abs(to.X-from.X), math.Abs(to.Y-from.Y)) / (c.Text * 0.5)))
		for k := range n {
			at := func(k int) Point {
				f := float64(k) / float64(n)
				return Point{from.X + (to.X-from.X)*f, from.Y + (to.Y-from.Y)*f}
			}
			one := emptyBox().with(at(k)).with(at(k + 1))
			all = append(all, Box{Point{one.Min.X, one.Min.Y - 1}, Point{one.Max.X, one.Max.Y + 1}})
		}
	}
	return all
}

// free finds a place beside an option's mark where its label meets nothing.
func (c Curve) free(p curvePlan, o OptionAt, taken []Box) (Text, bool) {
	t := Text{Words: o.Label, Face: Sans, Size: c.small(), Colour: Ink}
	if o.Recommended {
		t.Face, t.Colour = SansBold, Bronze
	}
	x, y, d := p.x(o.Height), p.y(o.Price), c.Text
	for _, try := range []struct {
		dx, dy float64
		a      Anchor
	}{
		{-d, -d * 0.3, End},
		{d, d, Start},
		{0, -d * 1.1, Middle},
		{0, d * 1.9, Middle},
		{d, -d * 0.3, Start},
		{-d, d * 1.2, End},
		{-d, -d * 1.6, End},
		{d, d * 2.4, Start},
		{-d, d * 2.2, End},
		{0, d * 3.1, Middle},
		{0, -d * 2.3, Middle},
		{-d, -d * 2.9, End},
		{d, d * 3.7, Start},
	} {
		t.At, t.Anchor = Point{x + try.dx, y + try.dy}, try.a
		if b := t.Box(); b.Min.X >= p.left && b.Max.X <= c.Width && b.Min.Y >= 0 && b.Max.Y <= p.ground && meetsNone(b, taken) {
			return t, true
		}
	}
	return Text{}, false
}

// meetsNone is true if b meets none of taken.
func meetsNone(b Box, taken []Box) bool {
	for _, other := range taken {
		if b.Overlaps(other) {
			return false
		}
	}
	return true
}

// boxes are what the texts among items cover.
func boxes(items []Item) []Box {
	var all []Box
	for _, item := range items {
		if t, ok := item.(Text); ok {
			all = append(all, t.Box())
		}
	}
	return all
}
