package drawing

// body is one piece where it stands in its column.
type body struct {
	Piece
	shape extent
	axis  float64 // of the feet, in metres from the middle of the column
}

// extent is how far a piece and its plinth reach from the axis of the feet, in
// metres.
type extent struct {
	left, right float64
	base        [2]float64 // of the plinth
}

// mostBeside is how many pieces are drawn beside the first of a group: more would
// be too small to be told from each other.
const mostBeside = 4

// bodies are the pieces of a figure that are drawn.
func (f Figure) bodies() []body {
	all := []body{{Piece: Piece{f.Height, f.Plinth, f.Drawing}}}
	for _, p := range f.Beside[:min(len(f.Beside), mostBeside)] {
		all = append(all, body{Piece: p})
	}
	for i := range all {
		all[i].Height, all[i].Plinth = within(all[i].Height, 0, 1e4), within(all[i].Plinth, 0, 1e4)
	}
	return all
}

// stand puts the pieces of a column side by side, a little apart, about its
// middle.
func (c *column) stand() {
	for i := range c.bodies {
		b := &c.bodies[i]
		b.shape = reach(b.Drawing, b.Height, b.Plinth)
		c.tall = max(c.tall, b.Height+b.Plinth)
		c.wide += b.shape.right - b.shape.left
	}
	between := c.tall * 0.05
	c.wide += between * float64(len(c.bodies)-1)
	x := -c.wide / 2
	for i := range c.bodies {
		b := &c.bodies[i]
		b.axis = x - b.shape.left
		x += b.shape.right - b.shape.left + between
	}
}

// reach measures a piece of height metres on a plinth.
func reach(s Silhouette, height, plinth float64) extent {
	b := s.Body.Bounds()
	if b.Empty() {
		return extent{left: -0.1, right: 0.1, base: [2]float64{-0.3, 0.3}}
	}
	e := extent{left: b.Min.X * height, right: b.Max.X * height}
	stand := emptyBox()
	for _, step := range s.Body {
		for k := range step.points() {
			if step.P[k].Y < 0.03 {
				stand = stand.with(step.P[k])
			}
		}
	}
	if margin := stand.Width()*height*0.1 + 0.03; plinth > 0 && !stand.Empty() {
		e.base = [2]float64{stand.Min.X*height - margin, stand.Max.X*height + margin}
		e.left, e.right = min(e.left, e.base[0]), max(e.right, e.base[1])
	}
	return e
}
