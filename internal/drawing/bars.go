package drawing

// Bars shows what the cost of each option is made of: one bar an option, to one
// scale, its stages in the order given. A frame of height 0 is made as tall as
// all of them need.
type Bars struct {
	Frame
	Options []Option
}

// Option is one bar.
type Option struct {
	Name        string
	Total       string // written behind the bar
	Parts       []Share
	Recommended bool
}

// Scene draws the bars. What the frame has no room for at the end is left out.
func (b Bars) Scene() Scene {
	tall := b.Height > 0
	b.Frame = b.Frame.sane()
	row := b.Text * 2
	if !tall {
		b.Height = row * max(float64(len(b.Options)), 1)
	}
	s := b.scene()
	options := b.Options[:min(len(b.Options), int(b.Height/row+1e-9))]
	names, totals, longest := b.widths(options)
	left := names + b.Text
	scale := 0.0
	if longest > 0 {
		scale = max(b.Width-left-totals-b.Text, b.Text) / longest
	}
	for i, o := range options {
		s.Items = append(s.Items, b.bar(o, float64(i)*row, row, left, scale)...)
	}
	return s
}

// widths are those of the names and totals, and the sum of the dearest option.
func (b Bars) widths(options []Option) (names, totals, longest float64) {
	for _, o := range options {
		mark := 0.0
		if o.Recommended {
			mark = b.Text
		}
		names = max(names, SansSemiBold.Measure(o.Name, b.Text)+mark)
		totals = max(totals, SansSemiBold.Measure(o.Total, b.Text))
		longest = max(longest, o.sum())
	}
	return min(names, b.Width*0.35), min(totals, b.Width*0.25), longest
}

// sum is what an option's parts come to, those by others left out.
func (o Option) sum() float64 {
	sum := 0.0
	for _, p := range o.Parts {
		if !p.ByOthers {
			sum += positive(p.Value)
		}
	}
	return sum
}

// bar draws one option.
func (b Bars) bar(o Option, y, row, left, scale float64) []Item {
	base := y + row/2 + Sans.Ascent(b.Text)/2
	face, x := Sans, 0.0
	var items []Item
	if o.Recommended {
		face, x = SansSemiBold, b.Text
		items = append(items, Shape{Path: drop(b.Text*0.4, base-b.Text*0.84, b.Text*0.9), Fill: Accent})
	}
	items = append(items, Text{
		At: Point{x, base}, Words: face.fitted(o.Name, b.Text, left-b.Text-x), Face: face, Size: b.Text, Colour: Ink,
	})
	thick := b.Text * 1.15
	at := left
	for _, p := range o.Parts {
		if width := positive(p.Value) * scale; width > 0 && !p.ByOthers {
			items = append(items, segment(at, y+(row-thick)/2, width, thick, p)...)
			at += width
		}
	}
	return append(items, Text{
		At: Point{at + b.Text*0.6, base}, Words: SansSemiBold.fitted(o.Total, b.Text, b.Width*0.25), Face: SansSemiBold,
		Size: b.Text, Colour: Ink,
	})
}
