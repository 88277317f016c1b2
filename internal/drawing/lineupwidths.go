package drawing

// measure finds how wide a column's label is on one line each, and with the
// name broken at a space.
func (l LineUp) measure(c *column) {
	face := c.face()
	for _, note := range c.notes {
		c.notesWidth = max(c.notesWidth, Sans.Measure(note, l.small()))
	}
	c.least = c.notesWidth
	if c.recommended {
		c.least = max(c.least, SansBold.Measure(l.Recommended, l.small())+2*l.small())
	}
	c.natural = max(c.least, face.Measure(c.name[0], c.size))
	for _, half := range face.wrapped(c.name[0], c.size, c.natural*0.6, 2) {
		c.least = max(c.least, face.Measure(half, c.size))
	}
	c.least = min(c.least, c.natural)
}

// face is what the name is written in.
func (c column) face() Face {
	if c.visitor {
		return Sans
	}
	return SansSemiBold
}

// share divides the width. Each column has what it needs at its barest, then at
// least, then what it would like, then an equal part of the rest. Figures that
// are too wide together are drawn smaller: to a third before words give in, and
// to a sixth after.
func (l LineUp) share(p *lineupPlan) {
	room, full := p.right-p.left, p.scale
	for _, f := range []struct {
		label  func(column) float64
		lowest float64
	}{{column.atLeast, full / 3}, {column.atBarest, full / 6}} {
		for p.scale > f.lowest && l.needs(*p, f.label).sum > room {
			p.scale *= 0.97
		}
	}
	p.cramped = l.needs(*p, column.atBarest).sum > room
	x := p.left
	for i, width := range l.widths(*p, room) {
		c := &p.columns[i]
		c.left, c.right, c.centre = x, x+width, x+width/2
		x += width
	}
}

// widths divides room among the columns at the scale of p.
func (l LineUp) widths(p lineupPlan, room float64) []float64 {
	bare, least, natural := l.needs(p, column.atBarest), l.needs(p, column.atLeast), l.needs(p, column.atEase)
	switch {
	case natural.sum <= room:
		for i := range natural.widths {
			natural.widths[i] += (room - natural.sum) / float64(len(natural.widths))
		}
		return natural.widths
	case least.sum <= room:
		return least.towards(natural, room)
	case bare.sum <= room:
		return bare.towards(least, room)
	default: // not even that: all give in alike
		return bare.towards(widths{make([]float64, len(p.columns)), 0}, room)
	}
}

// widths are those of the columns, and their sum.
type widths struct {
	widths []float64
	sum    float64
}

// towards is between a and b, where the sum is room.
func (a widths) towards(b widths, room float64) []float64 {
	between := make([]float64, len(a.widths))
	for i, w := range a.widths {
		between[i] = w + (b.widths[i]-w)*(room-a.sum)/(b.sum-a.sum)
	}
	return between
}

// needs is how wide each column has to be for its label and its figure.
func (l LineUp) needs(p lineupPlan, label func(column) float64) widths {
	var n widths
	for _, c := range p.columns {
		width := max(label(c), c.wide*p.scale) + l.Text*1.2
		n.widths = append(n.widths, width)
		n.sum += width
	}
	return n
}

// Three widths of a column's label: on one line, broken into two, and as narrow
// as it may still be read.
func (c column) atEase() float64   { return c.natural }
func (c column) atLeast() float64  { return c.least }
func (c column) atBarest() float64 { return min(c.least, max(c.notesWidth*smallest, c.size*5)) }

// smallest is how much smaller than usual notes may be written.
const smallest = 0.8

// letter breaks the labels to their columns and says how many lines the longest
// name of a figure takes. Notes are amounts and heights: they are written
// smaller before they are cut.
func (l LineUp) letter(columns []column) (lines int) {
	for i := range columns {
		c := &columns[i]
		room := c.right - c.left - l.Text*0.5
		c.name = c.face().wrapped(c.name[0], c.size, room, 2)
		c.notesSize = l.small()
		if c.notesWidth > room {
			c.notesSize *= max(room/c.notesWidth, smallest)
		}
		notes := make([]string, len(c.notes))
		for k, note := range c.notes {
			notes[k] = Sans.fitted(note, c.notesSize, room)
		}
		c.notes = notes
		if !c.visitor {
			lines = max(lines, len(c.name))
		}
	}
	return lines
}
