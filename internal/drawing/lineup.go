package drawing

// LineUp shows heights side by side, to one scale and on one ground, beside a
// visitor of 1.75 m.
type LineUp struct {
	Frame
	Units   Units
	Figures []Figure
	// Person is written below the visitor ("visitor, 1.75 m").
	Person string
	// NoPerson leaves the visitor out.
	NoPerson bool
	// Recommended is written above what is recommended ("recommended").
	Recommended string
	// Centres says where the figures stand, in points from the left, so that they
	// may share the columns of a table. Unless there is one for each figure, the
	// figures are spread out by what they need.
	Centres []float64
}

// Figure is one piece of a line-up, or a group of pieces.
type Figure struct {
	Name        string   // "1¼ life size"
	Notes       []string // below the name: "2.19 m", "$128,400"
	Height      float64  // of the piece, in metres
	Plinth      float64  // of what it stands on, in metres; 0 is the ground
	Drawing     Silhouette
	Beside      []Piece // what else is in its group, from left to right
	Recommended bool
}

// Piece is what stands beside the first of a group.
type Piece struct {
	Height, Plinth float64 // in metres
	Drawing        Silhouette
}

// Scene draws the line-up.
func (l LineUp) Scene() Scene {
	l = l.ready()
	p := l.plan()
	s := l.scene()
	for _, c := range p.columns {
		if c.recommended {
			s.Items = append(s.Items, l.highlight(p, c)...)
		}
	}
	s.Items = append(s.Items, l.ruler(p)...)
	for _, c := range p.columns {
		s.Items = append(s.Items, l.stand(p, c)...)
	}
	s.Items = append(s.Items, line(p.left, p.ground, p.right, p.ground, firm, Ink))
	for _, c := range p.columns {
		s.Items = append(s.Items, l.label(p, c)...)
	}
	return s
}

// highlight marks a column as recommended: by its ground, by an edge, by a drop
// of metal and by a word, so that it does not hang on colour.
func (l LineUp) highlight(p lineupPlan, c column) []Item {
	band := RoundRect(c.left, p.top, c.right-c.left, l.Height-1-p.top, l.Text*0.4)
	items := []Item{Shape{Path: band, Fill: Wash, Stroke: Accent, Width: hairline}}
	size := l.small()
	room := c.right - c.left - size*2
	words := SansBold.fitted(l.Recommended, size, room)
	width := SansBold.Measure(words, size)
	base := p.top + l.Text*1.65 - 1
	x := c.centre - (width+size)/2
	return append(items,
		Shape{Path: drop(x+size*0.3, base-size*0.86, size*0.92), Fill: Accent},
		Text{At: Point{x + size, base}, Words: words, Face: SansBold, Size: size, Colour: Bronze})
}

// ruler draws the heights that are read off.
func (l LineUp) ruler(p lineupPlan) []Item {
	var items []Item
	for _, tick := range p.ticks {
		y := p.ground - tick.Value*p.scale
		if tick.Value > 0 {
			items = append(items, line(p.left, y, p.right, y, hairline, Rule))
		}
		items = append(items, Text{
			At: Point{p.left - l.Text*0.6, y + Sans.Ascent(l.small())/2}, Words: tick.Label,
			Face: Sans, Size: l.small(), Anchor: End, Colour: Muted,
		})
	}
	return items
}

// stand draws what stands in a column.
func (l LineUp) stand(p lineupPlan, c column) []Item {
	var items []Item
	for _, b := range c.bodies {
		foot, x := p.ground, c.centre+b.axis*p.scale
		if b.Plinth > 0 {
			foot -= b.Plinth * p.scale
			items = append(items, plinth(x+b.shape.base[0]*p.scale, x+b.shape.base[1]*p.scale, foot, p.ground)...)
		}
		if b.Height > 0 {
			items = append(items, b.Drawing.standing(x, foot, b.Height*p.scale, c.tones))
		}
	}
	return items
}

// plinth is a block with a slab on it, lit from the left like the figures.
func plinth(left, right, top, ground float64) []Item {
	width, height := right-left, ground-top
	slab := min(height*0.12, width*0.1)
	inset, side := slab*0.6, min(width*0.22, height*0.6)
	body := func(x, w float64) Path { return Rect(x, top+slab, w, height-slab) }
	return []Item{
		Shape{Path: body(left+inset, width-2*inset), Fill: Plinth},
		Shape{Path: body(right-inset-side, side), Fill: PlinthShade},
		Shape{Path: Rect(left+inset, top+slab, width-2*inset, slab*0.4), Fill: PlinthShade},
		Shape{Path: Rect(left, top, width, slab), Fill: PlinthLight},
		Shape{Path: Rect(right-side, top, side, slab), Fill: Plinth},
	}
}

// label writes a column's name and notes below the ground.
func (l LineUp) label(p lineupPlan, c column) []Item {
	var items []Item
	y := p.ground + l.Text*0.5
	colour := Ink
	if c.visitor {
		colour = Muted
	}
	for i, words := range c.name {
		items = append(items, Text{
			At: Point{c.centre, y + l.Text*(1+leading*float64(i))}, Words: words,
			Face: c.face(), Size: c.size, Anchor: Middle, Colour: colour,
		})
	}
	y += l.Text * leading * float64(p.nameLines)
	for i, words := range c.notes {
		items = append(items, Text{
			At: Point{c.centre, y + l.Text*(1+leading*float64(i))}, Words: words,
			Face: Sans, Size: c.notesSize, Anchor: Middle, Colour: Muted,
		})
	}
	return items
}

// leading is from one baseline to the next, in sizes of text.
const leading = 1.35
