package drawing

import (
	"cmp"
	"math"
	"slices"
)

// Driver is something that a price hangs on.
type Driver struct {
	Name string
	// Low and High are how far the price moves when this comes out as low and as
	// high as it may, in any unit that the others share; below 0 is cheaper.
	Low, High           float64
	LowLabel, HighLabel string // "−4,200", "+9,800"
}

// Drivers shows what a price hangs on: bars that reach as far as each can move
// it, the longest first. What the frame has no room for at the end is left out;
// a frame of height 0 is made as tall as all of them need.
type Drivers struct {
	Frame
	Drivers []Driver
	Base    string // written over the line in the middle: "$128,400"
}

// swing is how far apart the ends of d are.
func (d Driver) swing() float64 {
	return math.Abs(finite(d.High) - finite(d.Low))
}

// Scene draws the bars.
func (d Drivers) Scene() Scene {
	tall := d.Height > 0
	d.Frame = d.Frame.sane()
	row, top := d.Text*1.9, d.Text*2
	if !tall {
		d.Height = top + row*float64(len(d.Drivers)) + 1
	}
	s := d.scene()
	sorted := slices.Clone(d.Drivers)
	slices.SortStableFunc(sorted, func(a, b Driver) int { return cmp.Compare(b.swing(), a.swing()) })
	sorted = sorted[:min(len(sorted), max(int((d.Height-top)/row), 0))]

	names, labels, reach := d.widths(sorted)
	left := names + d.Text
	side := (d.Width - left) / 2
	middle := left + side
	scale := 0.0
	if reach > 0 {
		scale = max(side-labels-d.Text, d.Text) / reach
	}
	for i, driver := range sorted {
		s.Items = append(s.Items, d.bar(driver, top+float64(i)*row, row, names, middle, scale)...)
	}
	foot := top + float64(len(sorted))*row
	s.Items = append(s.Items, line(middle, top-d.Text*0.3, middle, foot, firm, Ink),
		inside(Text{At: Point{middle, d.Text * 1.1}, Words: d.Base, Face: SansSemiBold, Size: d.Text, Anchor: Middle, Colour: Ink}, 0, d.Width))
	return s
}

// widths are those of the names and of the bars' labels, and how far the bars
// reach.
func (d Drivers) widths(drivers []Driver) (names, labels, reach float64) {
	for _, driver := range drivers {
		names = max(names, Sans.Measure(driver.Name, d.Text))
		labels = max(labels, Sans.Measure(driver.LowLabel, d.small()), Sans.Measure(driver.HighLabel, d.small()))
		reach = max(reach, math.Abs(finite(driver.Low)), math.Abs(finite(driver.High)))
	}
	return min(names, d.Width*0.38), min(labels, d.Width*0.18), reach
}

// bar draws one driver: what makes the piece cheaper is hollow, what makes it
// dearer is full, so that the sides differ by more than colour.
func (d Drivers) bar(v Driver, y, row, names, middle, scale float64) []Item {
	size := d.small()
	base := y + row/2 + Sans.Ascent(d.Text)/2
	thick := d.Text * 0.95
	items := []Item{
		Text{At: Point{names, base}, Words: Sans.fitted(v.Name, d.Text, names), Face: Sans, Size: d.Text, Anchor: End, Colour: Ink},
	}
	lowest, highest := min(0, finite(v.Low), finite(v.High))*scale, max(0, finite(v.Low), finite(v.High))*scale
	if lowest < 0 {
		items = append(items, Shape{
			Path: Rect(middle+lowest, y+(row-thick)/2, -lowest, thick), Fill: Sheet, Stroke: Good, Width: firm,
		})
	}
	if highest > 0 {
		items = append(items, Shape{Path: Rect(middle, y+(row-thick)/2, highest, thick), Fill: Accent})
	}
	left, right := v.LowLabel, v.HighLabel
	if finite(v.Low) > finite(v.High) {
		left, right = right, left
	}
	write := func(x float64, a Anchor, words string) Item {
		words = Sans.fitted(words, size, d.Width*0.18)
		return Text{At: Point{x, y + row/2 + Sans.Ascent(size)/2}, Words: words, Face: Sans, Size: size, Anchor: a, Colour: Muted}
	}
	return append(items,
		write(middle+lowest-d.Text*0.5, End, left), write(middle+highest+d.Text*0.5, Start, right))
}
