package drawing

import "math"

// Share is one stage's part of a cost.
type Share struct {
	Stage    string  // the stage's own name, which gives the colour: "shell"
	Name     string  // what is written: "Shell"
	Amount   string  // what is written beside it: "2,918"
	Value    float64 // its size, in any unit that the others share
	ByOthers bool    // outlined, not filled, whatever its value
}

// Shares is a column of the stages, from top to bottom in the order given, each
// as tall as its share of the cost. Names and amounts stand beside it if the
// frame has room for them.
type Shares struct {
	Frame
	Parts []Share
	// Least is how tall the smallest share is drawn, in points; 0 is 3.
	Least float64
}

// ShareHeights divides total in proportion to values, but gives each that is
// above 0 at least least: those that would get less get that, and the others
// share what remains. Where there is too little for all, all get the same.
// Values below 0, or that are not numbers, get nothing.
func ShareHeights(values []float64, total, least float64) []float64 {
	heights := make([]float64, len(values))
	held := make([]bool, len(values)) // at least
	total, least = positive(total), positive(least)
	for {
		room, sum, open := total, 0.0, 0
		for i, v := range values {
			switch {
			case held[i]:
				room -= least
			case positive(v) > 0:
				sum += v
				open++
			}
		}
		if open == 0 || math.IsInf(sum, 0) {
			return evened(heights, held, total, least)
		}
		short := false
		for i, v := range values {
			if held[i] || !(positive(v) > 0) {
				continue
			}
			heights[i] = max(room, 0) * (v / sum)
			if heights[i] < least {
				held[i], short = true, true
				heights[i] = least
			}
		}
		if !short {
			return heights
		}
	}
}

// evened shares total among those held at least, which is all that there are.
func evened(heights []float64, held []bool, total, least float64) []float64 {
	n := 0.0
	for _, h := range held {
		if h {
			n++
		}
	}
	for i, h := range held {
		if h {
			heights[i] = total / n
		}
	}
	return heights
}

// Scene draws the column.
func (s Shares) Scene() Scene {
	s.Frame = s.Frame.sane()
	scene := s.scene()
	width, named := s.column()
	least := s.Least
	if !(least > 0) {
		least = 3
	}
	y := 0.0
	var middles []float64
	for i, h := range s.heights(least) {
		part := s.Parts[i]
		scene.Items = append(scene.Items, segment(0, y, width, h, part)...)
		middles = append(middles, y+h/2)
		y += h
	}
	if named {
		scene.Items = append(scene.Items, s.names(width, middles)...)
	}
	return scene
}

// heights are those of the parts, by others among them at twice the least.
func (s Shares) heights(least float64) []float64 {
	values, others := make([]float64, len(s.Parts)), 0.0
	for i, p := range s.Parts {
		values[i] = p.Value
		if p.ByOthers {
			values[i] = 0
			others++
		}
	}
	other := 2 * least
	if others > 0 {
		other = min(other, s.Height/float64(len(s.Parts)))
	}
	heights := ShareHeights(values, s.Height-others*other, least)
	for i, p := range s.Parts {
		if p.ByOthers {
			heights[i] = other
		}
	}
	return heights
}

// segment is one part of a bar or column.
func segment(x, y, width, height float64, part Share) []Item {
	colour := Stage(part.Stage)
	if part.ByOthers {
		inset := min(hairline, width/4, height/4)
		return []Item{Shape{
			Path:   Rect(x+inset, y+inset, max(width-2*inset, 0), max(height-2*inset, 0)),
			Stroke: colour, Width: hairline, Dash: []float64{2, 2},
		}}
	}
	if height <= 0 || width <= 0 {
		return nil
	}
	return []Item{Shape{Path: Rect(x, y, width, height), Fill: colour}}
}

// column is how wide the column is, and whether there is room for names.
func (s Shares) column() (width float64, named bool) {
	width = s.Text * 1.8
	for _, p := range s.Parts {
		named = named || p.Name != "" || p.Amount != ""
	}
	tight := s.Height < s.Text*1.3*float64(len(s.Parts))
	if !named || tight || s.Width < width+s.Text*7 {
		return s.Width, false
	}
	return width, true
}

// names writes the parts' names and amounts beside the column, with a line from
// each to its part.
func (s Shares) names(column float64, middles []float64) []Item {
	var items []Item
	row := s.Text * 1.5
	places := apart(middles, row, s.Text*0.75, s.Height-s.Text*0.75)
	from, to := column+s.Text*0.3, column+s.Text*2.3
	for i, part := range s.Parts {
		if i >= len(places) {
			break
		}
		var lead Path
		bend := (from + to) / 2
		lead.Move(from, middles[i])
		lead.Cubic(bend, middles[i], bend, places[i], to, places[i])
		lead.Line(to+s.Text*0.4, places[i])
		base := places[i] + Sans.Ascent(s.Text)/2
		amount := SansSemiBold.fitted(part.Amount, s.Text, s.Width-to-s.Text)
		room := s.Width - to - s.Text*1.6 - SansSemiBold.Measure(amount, s.Text)
		items = append(items,
			Shape{Path: lead, Stroke: Stage(part.Stage), Width: firm},
			Text{At: Point{to + s.Text*0.8, base}, Words: Sans.fitted(part.Name, s.Text, room), Face: Sans, Size: s.Text, Colour: Ink},
			Text{At: Point{s.Width, base}, Words: amount, Face: SansSemiBold, Size: s.Text, Anchor: End, Colour: Ink})
	}
	return items
}

// apart moves places, given in rising order, as little as it takes for each to
// be at least gap from the next, between lo and hi. If they do not all go, the
// gap shrinks for all alike.
func apart(places []float64, gap, lo, hi float64) []float64 {
	n := len(places)
	moved := make([]float64, n)
	if n == 0 {
		return moved
	}
	if n > 1 {
		gap = min(gap, max(hi-lo, 0)/float64(n-1))
	}
	for i, p := range places {
		moved[i] = max(p, lo)
		if i > 0 {
			moved[i] = max(moved[i], moved[i-1]+gap)
		}
	}
	for i := n - 1; i >= 0; i-- {
		moved[i] = min(moved[i], hi)
		if i < n-1 {
			moved[i] = min(moved[i], moved[i+1]-gap)
		}
	}
	return moved
}
