package proposal

import (
	"strings"

	"meltwright/internal/drawing"
)

// column is one column of a table.
type column struct {
	wide   float64 // in points; 0 takes an equal part of what is left
	anchor drawing.Anchor
	point  bool    // figures stand with their decimal marks below each other
	gutter float64 // empty to its left
	titles bool    // its head is the table's name
}

// cell is one cell of a row.
type cell struct {
	words string
	style *style // nil is the row's
	note  string // below the words, small
	boxes int    // to tick, before the words
	// across lets words and note run on over the cells to the right: those must be
	// empty beside the words, or no longer than the words above the note.
	across bool
}

// row is one row of a table.
type row struct {
	cells  []cell
	style  style
	rule   drawing.Role // drawn below it
	weight float64      // of the rule; 0 is a hairline
	pad    float64      // above and below its words
	ground drawing.Role
	keep   bool // stays with the next row
}

// table is columns, a head that is repeated on every page, and rows.
type table struct {
	columns []column
	head    []string
	rows    []row
	size    style
	mark    string // the decimal mark that point columns align to
	before  float64
	whole   bool // on one page, if it goes on one
}

// placed is a column with its place.
type placed struct {
	column
	x, right float64
	after    float64 // of a point column: the room behind the mark
	mark     string  // the decimal mark
}

// rowStyle is the style of a table's rows, smaller where much has to go in.
var rowStyle = style{drawing.Sans, 9.5, 13.5, drawing.Ink}

// table sets a table into strips, one for each line of each row, so that even a
// row longer than a page has somewhere to go.
func (t *setter) table(tb table) []strip {
	columns := t.place(tb)
	var head []strip
	if len(tb.head) > 0 {
		head = t.row(columns, headRow(tb))
		for i := range head {
			head[i].keep = true
		}
	}
	strips := append([]strip(nil), head...)
	for _, r := range tb.rows {
		lines := t.row(columns, r)
		for i := range lines {
			lines[i].head = head
			lines[i].keep = lines[i].keep || tb.whole || i == 0 && len(lines) > 1 || i == len(lines)-2
		}
		strips = append(strips, lines...)
	}
	if len(strips) > 0 {
		strips[0].before = tb.before
		strips[len(strips)-1].keep = false
	}
	return strips
}

func headRow(tb table) row {
	s := tb.size
	s.face, s.size, s.lead, s.colour = drawing.Sans, tb.size.size*0.92, tb.size.lead*0.95, drawing.Muted
	r := row{style: s, rule: drawing.Ink, weight: 1, pad: 4}
	for i, words := range tb.head {
		c := cell{words: words}
		if i < len(tb.columns) && tb.columns[i].titles {
			c.style = ptr(style{headStyle.face, s.size * 1.25, s.lead, headStyle.colour})
		}
		r.cells = append(r.cells, c)
	}
	return r
}

// place shares the width among the columns.
func (t *setter) place(tb table) []placed {
	left, equal := t.wide, 0.0
	for _, c := range tb.columns {
		left -= c.wide + c.gutter
		if c.wide == 0 {
			equal++
		}
	}
	columns := make([]placed, len(tb.columns))
	x := 0.0
	for i, c := range tb.columns {
		if c.wide == 0 {
			c.wide = left / equal
		}
		x += c.gutter
		columns[i] = placed{column: c, x: x, right: x + c.wide, mark: tb.mark}
		x += c.wide
		if c.point {
			columns[i].after = tb.behindPoint(i)
		}
	}
	return columns
}

// behindPoint is the widest of what follows the decimal mark in a column.
func (tb table) behindPoint(i int) (widest float64) {
	for _, r := range tb.rows {
		if i < len(r.cells) {
			s := r.cells[i].in(r.style)
			widest = max(widest, s.face.Measure(afterPoint(r.cells[i].words, tb.mark), s.size))
		}
	}
	return widest
}

func afterPoint(words, mark string) string {
	if at := strings.LastIndex(words, mark); mark != "" && at >= 0 {
		return words[at:]
	}
	return ""
}

func (c cell) in(s style) style {
	if c.style != nil {
		return *c.style
	}
	return s
}

// rowLine is one line of one cell.
type rowLine struct {
	words string
	box   float64 // the side of an empty box in the place of words
	style style
	x     float64
	a     drawing.Anchor
	y     float64 // of its top, from the top of the row
}

// row sets one row: as many strips as its longest cell has lines.
func (t *setter) row(columns []placed, r row) []strip {
	var all []rowLine
	bottom := 0.0
	for i, c := range r.cells {
		if i >= len(columns) {
			break
		}
		lines, end := t.cell(columns[i], c, r)
		all, bottom = append(all, lines...), max(bottom, end)
	}
	bottom += r.pad
	return r.cut(all, bottom, columns[len(columns)-1].right)
}

// cell sets the lines of one cell and says where they end.
func (t *setter) cell(p placed, c cell, r row) (all []rowLine, end float64) {
	s := c.in(r.style)
	y := r.pad + r.style.baseline() - s.baseline() // all first lines of a row stand on one
	put := func(s style, words string, after, room float64) {
		lines, s := t.lines(s, words, room)
		for _, words := range lines {
			x := p.x
			switch p.anchor {
			case drawing.Middle:
				x = (p.x + p.right) / 2
			case drawing.End:
				x = p.right - after
			}
			all = append(all, rowLine{words: words, style: s, x: x, a: p.anchor, y: y})
			y += s.lead
		}
	}
	if c.boxes > 0 {
		all = p.tickBoxes(c.boxes, s, y)
		if c.words == "" {
			return all, y + s.lead
		}
		p.x += float64(len(all)) * (s.size + boxGap)
		p.wide -= float64(len(all)) * (s.size + boxGap)
	}
	after := 0.0
	if p.point {
		after = p.after - s.face.Measure(afterPoint(c.words, p.mark), s.size)
	}
	room := p.wide
	if c.across {
		room = t.wide - p.x
	}
	if c.note == "" {
		put(s, c.words, after, room)
		return all, y
	}
	put(s, c.words, after, p.wide)
	put(r.noteStyle(), c.note, 0, room)
	return all, y
}

// boxGap is between boxes to tick.
const boxGap = 5.0

// tickBoxes are so many boxes on one line.
func (p placed) tickBoxes(n int, s style, y float64) (all []rowLine) {
	for i := range n {
		all = append(all, rowLine{box: s.size, style: s, x: p.x + float64(i)*(s.size+boxGap), y: y})
	}
	return all
}

// emptyBox is a box to tick whose line begins at y.
func (l rowLine) emptyBox(y float64) drawing.Item {
	return drawing.Shape{Path: drawing.Rect(l.x+0.4, y+l.style.baseline()-l.box+1.2, l.box-0.8, l.box-0.8), Stroke: drawing.Muted, Width: 0.8}
}

// noteStyle is that of notes below the words of a row.
func (r row) noteStyle() style {
	s := smallStyle
	if r.style.size < s.size+0.5 {
		s.size, s.lead = r.style.size-1, r.style.lead-1.7
	}
	return s
}

// cut makes strips of a row's lines: each holds the lines that begin in it. The
// row is cut where a line of its first cell begins, so that a row of ordinary
// length is one strip.
func (r row) cut(lines []rowLine, bottom, right float64) []strip {
	const most = 120 // higher than this, a row may be cut
	step := bottom
	if bottom > most {
		step = r.style.lead
	}
	var strips []strip
	for y := 0.0; y < bottom-0.01; y += step {
		height := min(step, bottom-y)
		st := strip{height: height}
		if r.ground != drawing.None {
			st.items = append(st.items, drawing.Shape{Path: drawing.Rect(-6, 0, right+12, height), Fill: r.ground})
		}
		for _, l := range lines {
			if l.y >= y-0.01 && l.y < y+step-0.01 {
				if l.box > 0 {
					st.items = append(st.items, l.emptyBox(l.y-y))
					continue
				}
				st.items = append(st.items, l.style.line(l.words, l.x, l.y-y, l.a))
			}
		}
		strips = append(strips, st)
	}
	last := &strips[len(strips)-1]
	last.keep = r.keep
	if r.rule != drawing.None {
		weight := max(r.weight, 0.6)
		last.items = append(last.items, drawing.Shape{Path: drawing.Rect(0, last.height-weight/2, right, weight), Fill: r.rule})
	}
	return strips
}
