package drawing

import "math"

// lineupPlan is where everything in a line-up is.
type lineupPlan struct {
	columns             []column
	scale               float64 // points to a metre
	ground, left, right float64
	top                 float64 // of what is highlighted
	nameLines           int
	ticks               []Tick
	cramped             bool // there is too little width for the words
}

// Slack is by how much the frame is higher than the line-up needs: figures that
// are many, or wide, are drawn smaller than its height would allow.
func (l LineUp) Slack() float64 {
	p := l.ready().plan()
	return max(p.top-1, 0)
}

// ready is l in a frame that can be drawn, with text that goes into it: in a
// cramped one it is written up to three tenths smaller.
func (l LineUp) ready() LineUp {
	l.Frame = l.sane()
	for usual := l.Text; l.Text > usual*0.72 && l.plan().cramped; {
		l.Text *= 0.94
	}
	return l
}

// column is the room of one figure.
type column struct {
	left, right, centre float64
	bodies              []body
	wide, tall          float64 // of all that stands here, in metres
	tones               tones
	name, notes         []string
	size                float64 // of the name
	recommended         bool
	visitor             bool
	notesSize           float64
	natural, least      float64 // widths of the label: on one line, and broken into two
	notesWidth          float64 // at full size
}

// plan finds a place for everything: with names on one line if they go, else on
// two.
func (l LineUp) plan() lineupPlan {
	p := l.planWith(1)
	if p.nameLines > 1 {
		p = l.planWith(2)
	}
	return p
}

// planWith leaves room for names of some lines. Heights decide the scale unless
// the figures together are too wide for the frame.
func (l LineUp) planWith(lines int) lineupPlan {
	p := lineupPlan{columns: l.columns(), right: l.Width - 1}
	tallest, rows := 0.0, lines
	for _, c := range p.columns {
		tallest = max(tallest, c.tall)
		rows = max(rows, lines+len(c.notes))
		if c.visitor && l.Person != "" {
			rows = max(rows, 2) // the visitor has no notes to keep in step with
		}
	}
	tallest = max(tallest, 1e-3)
	above := l.Text * 0.9
	if l.anyRecommended() {
		above = l.Text * 2.4
	}
	p.ground = max(l.Height-l.Text*(0.9+leading*float64(rows)), l.Height*0.3)
	p.scale = max(p.ground-above, l.Height*0.1) / tallest
	l.spread(&p, tallest)
	p.top = max(p.ground-tallest*p.scale-above, 1)
	p.nameLines = l.letter(p.columns)
	return p
}

func (l LineUp) anyRecommended() bool {
	for _, f := range l.Figures {
		if f.Recommended {
			return true
		}
	}
	return false
}

// columns lists the visitor and the figures, not yet placed.
func (l LineUp) columns() []column {
	var all []column
	if person, ok := Named(Person); ok && !l.NoPerson {
		all = append(all, column{
			bodies: []body{{Piece: Piece{Height: PersonHeight, Drawing: person}}}, tones: inPassing, visitor: true,
			name: []string{l.Person}, size: l.small(),
		})
	}
	for _, f := range l.Figures {
		all = append(all, column{
			bodies: f.bodies(), tones: inBronze, name: []string{f.Name}, notes: f.Notes, size: l.Text, recommended: f.Recommended,
		})
	}
	for i := range all {
		all[i].stand()
		l.measure(&all[i])
	}
	return all
}

// spread gives each column its place, and settles the scale and the ticks.
func (l LineUp) spread(p *lineupPlan, tallest float64) {
	gutter := Sans.Measure("0.5 m", l.small())
	for _, t := range l.ticks(p.ground, p.scale, tallest) {
		gutter = max(gutter, Sans.Measure(t.Label, l.small()))
	}
	p.left = min(gutter+l.Text*1.2, l.Width*0.4)
	if !l.onCentres(p) {
		l.share(p)
	}
	for _, c := range p.columns {
		if c.wide > 0 {
			p.scale = min(p.scale, max(c.right-c.left-l.Text*0.4, 1)/c.wide)
		}
	}
	p.scale = min(p.scale, p.ground/tallest)
	p.ticks = l.ticks(p.ground, p.scale, tallest)
}

// ticks are the heights that are read off, far enough apart for their labels.
func (l LineUp) ticks(ground, scale, tallest float64) []Tick {
	ticks := l.Units.HeightTicks(tallest, int(within(tallest*scale/(l.Text*1.75), 1, 6)))
	if ticks[1].Value*scale < l.Text*1.2 {
		return ticks[:1]
	}
	highest := (ground - l.Text*0.6) / scale
	for len(ticks) > 1 && ticks[len(ticks)-1].Value > highest {
		ticks = ticks[:len(ticks)-1]
	}
	return ticks
}

// onCentres places figures where the caller has columns for them; false if it
// has none. The visitor stands in what is left before the first.
func (l LineUp) onCentres(p *lineupPlan) bool {
	n := len(l.Figures)
	if n == 0 || len(l.Centres) != n {
		return false
	}
	figures := p.columns[len(p.columns)-n:]
	for i := range figures {
		half := math.Inf(1)
		if i > 0 {
			half = min(half, (l.Centres[i]-l.Centres[i-1])/2)
		}
		if i < n-1 {
			half = min(half, (l.Centres[i+1]-l.Centres[i])/2)
		}
		half = min(half, p.right-l.Centres[i])
		if n == 1 {
			half = min(half, l.Centres[0]-p.left)
		}
		if !(half > 0) {
			return false // out of order, or outside the frame
		}
		figures[i].left, figures[i].right, figures[i].centre = l.Centres[i]-half, l.Centres[i]+half, l.Centres[i]
	}
	if len(p.columns) > n {
		room := figures[0].left - p.left
		if room < p.columns[0].least {
			return false
		}
		p.columns[0].left, p.columns[0].right, p.columns[0].centre = p.left, figures[0].left, p.left+room/2
	}
	return true
}
