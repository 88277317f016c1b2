package drawing

import "math"

// Timeline shows the work over weeks: the rooms it goes through, the tasks in
// each, and the days that matter.
type Timeline struct {
	Frame              // a height of 0 is made as tall as the tasks need
	Weeks      float64 // from left to right; 0 is to the end of the last task
	Months     []Tick  // the week each begins in, and its name
	Tasks      []Task  // in order; a room's tasks follow each other
	Milestones []Milestone
}

// Task is one stretch of work.
type Task struct {
	Name     string
	Room     string  // where it is done: "Wax room"
	Stage    string  // the stage's own name, which gives the colour
	Start    float64 // in weeks from the beginning
	End      float64 // in weeks from the beginning
	Spare    float64 // weeks that it may end later without delaying the whole
	Label    string  // "3 weeks", beside the bar
	ByOthers bool
}

// Milestone is a day that matters.
type Milestone struct {
	Week  float64 // from the beginning
	Label string
}

// Scene draws the timeline.
func (t Timeline) Scene() Scene {
	p := t.plan()
	t.Frame = p.frame
	s := t.scene()
	s.Items = append(s.Items, t.bands(p)...)
	s.Items = append(s.Items, t.calendar(p)...)
	s.Items = append(s.Items, t.days(p)...)
	for i, task := range t.Tasks {
		s.Items = append(s.Items, t.task(p, task, p.rows[i])...)
		s.Items = append(s.Items, t.note(p, task, p.rows[i])...)
	}
	return s
}

// timelinePlan is where everything on a timeline is.
type timelinePlan struct {
	frame     Frame
	names     float64 // width of the names
	at        func(week float64) float64
	row, body float64   // height of a row, and where the rows begin
	rows      []float64 // top of each task
	rooms     []roomBand
	days      []placedDay
}

// roomBand is the ground of one room.
type roomBand struct {
	name        string
	top, bottom float64
}

// placedDay is a milestone with the row its label is on.
type placedDay struct {
	Milestone
	row   int
	left  bool // the label is left of the drop
	shown string
}

func (t Timeline) plan() timelinePlan {
	tall := t.Height > 0
	p := timelinePlan{frame: t.Frame.sane()}
	t.Frame = p.frame
	for _, task := range t.Tasks {
		p.names = max(p.names, Sans.Measure(task.Name, t.Text), SansSemiBold.Measure(task.Room, t.small()))
	}
	p.names = min(p.names, t.Width*0.34)
	left, right := p.names+t.Text*1.2, t.Width-t.Text*0.6
	weeks := t.length()
	p.at = func(week float64) float64 { return left + within(week/weeks, 0, 1)*(right-left) }
	p.days = t.place(p.at, left)
	top := t.Text * 1.7
	for _, d := range p.days {
		top = max(top, t.Text*(1.7+1.5*float64(d.row+1)))
	}
	p.body, p.row = top, t.Text*1.8
	need := t.stack(&p)
	switch {
	case !tall:
		p.frame.Height = need
	case need > t.Height:
		p.row *= max(t.Height-top, 1) / max(need-top, 1)
		t.stack(&p)
	}
	return p
}

// length is how many weeks are shown.
func (t Timeline) length() float64 {
	weeks := positive(t.Weeks)
	if weeks == 0 {
		for _, task := range t.Tasks {
			weeks = max(weeks, finite(task.End)+positive(task.Spare))
		}
		for _, m := range t.Milestones {
			weeks = max(weeks, finite(m.Week))
		}
	}
	if weeks <= 0 {
		return 1
	}
	return weeks
}

// stack gives each task its row and each room its band, and says where they end.
func (t Timeline) stack(p *timelinePlan) (bottom float64) {
	p.rows, p.rooms = nil, nil
	y := p.body
	for i, task := range t.Tasks {
		if i == 0 || task.Room != t.Tasks[i-1].Room {
			p.rooms = append(p.rooms, roomBand{name: task.Room, top: y})
			if task.Room != "" {
				y += p.row * 0.85
			}
		}
		p.rows = append(p.rows, y)
		y += p.row
		if i == len(t.Tasks)-1 || t.Tasks[i+1].Room != task.Room {
			y += p.row * 0.25
			p.rooms[len(p.rooms)-1].bottom = y
		}
	}
	return y
}

// place gives each milestone's label a row where it meets no other.
func (t Timeline) place(at func(float64) float64, left float64) []placedDay {
	var placed []placedDay
	var taken []Box
	for _, m := range t.Milestones {
		d := placedDay{Milestone: m, shown: Sans.fitted(m.Label, t.small(), (t.Width-left)*0.45)}
		x, width := at(finite(m.Week)), Sans.Measure(d.shown, t.small())+t.Text*1.2
		from, to := x-t.Text*0.5, x+width
		if d.left = to > t.Width; d.left {
			from, to = x-width, x+t.Text*0.5
		}
		row := func() Box { return Box{Point{from, float64(d.row)}, Point{to, float64(d.row) + 0.9}} }
		for !meetsNone(row(), taken) {
			d.row++
		}
		taken = append(taken, row())
		placed = append(placed, d)
	}
	return placed
}

// bands draws the grounds of the rooms, every other one shaded, and their names.
func (t Timeline) bands(p timelinePlan) []Item {
	var items []Item
	for i, room := range p.rooms {
		if i%2 == 0 {
			items = append(items, Shape{Path: RoundRect(0, room.top, t.Width, room.bottom-room.top, t.Text*0.4), Fill: Wash})
		}
		items = append(items, Text{
			At: Point{t.Text * 0.5, room.top + p.row*0.45 + Sans.Ascent(t.small())/2}, Face: SansSemiBold,
			Words: SansSemiBold.fitted(room.name, t.small(), p.names), Size: min(t.small(), p.row*0.6), Colour: Bronze,
		})
	}
	return items
}

// calendar draws where months begin. A name that would meet the one before is
// left out.
func (t Timeline) calendar(p timelinePlan) []Item {
	var items []Item
	free := math.Inf(-1)
	for _, m := range t.Months {
		if finite(m.Value) != m.Value || m.Value < 0 || m.Value > t.length() {
			continue
		}
		x := p.at(m.Value)
		items = append(items, line(x, t.Text*0.3, x, t.Height, hairline, Rule))
		name := Text{
			At: Point{x + t.Text*0.35, t.Text*0.5 + Sans.Ascent(t.small())}, Words: m.Label,
			Face: Sans, Size: t.small(), Colour: Muted,
		}
		if b := name.Box(); b.Min.X > free && b.Max.X <= t.Width {
			items = append(items, name)
			free = b.Max.X + t.Text*0.3
		}
	}
	return items
}

// days draws the milestones: a drop of metal, a line down through the work, and
// what the day is.
func (t Timeline) days(p timelinePlan) []Item {
	var items, labels []Item
	for _, d := range p.days {
		x, y := p.at(finite(d.Week)), t.Text*(1.7+1.5*float64(d.row))
		label := Text{
			At: Point{x + t.Text*0.6, y + t.Text*0.9}, Words: d.shown, Face: Sans, Size: t.small(), Colour: Ink,
		}
		if d.left {
			label.At.X, label.Anchor = x-t.Text*0.6, End
		}
		// Labels come last, on a ground of their own, so that no line of another day
		// runs through them.
		b := label.Box()
		items = append(items, line(x, y+t.Text*0.9, x, t.Height, hairline, Accent))
		labels = append(labels,
			Shape{Path: Rect(b.Min.X-1, b.Min.Y, b.Width()+2, b.Height()), Fill: Sheet},
			Shape{Path: drop(x, y, t.Text), Fill: Accent}, label)
	}
	return append(items, labels...)
}

// letters is the size of a task's text and its baseline in the row at y.
func (t Timeline) letters(p timelinePlan, y float64) (size, base float64) {
	size = min(t.Text, p.row*0.75)
	return size, y + p.row/2 + Sans.Ascent(size)/2
}

// span is where a task begins, where it ends, and where its spare time ends.
func (p timelinePlan) span(task Task) (from, to, spare float64) {
	start, end := min(finite(task.Start), finite(task.End)), max(finite(task.Start), finite(task.End))
	from = p.at(start)
	to = max(p.at(end), from+2)
	return from, to, max(p.at(end+positive(task.Spare)), to)
}

// task draws one task: an ingot as long as the work takes, and a thin line for
// the time it may yet take.
func (t Timeline) task(p timelinePlan, task Task, y float64) []Item {
	size, base := t.letters(p, y)
	from, to, spare := p.span(task)
	thick, colour := p.row*0.56, Stage(task.Stage)
	top := y + (p.row-thick)/2
	items := []Item{Text{
		At: Point{t.Text * 0.5, base}, Words: Sans.fitted(task.Name, size, p.names), Face: Sans, Size: size, Colour: Ink,
	}}
	if spare > to {
		foot := top + thick - firm/2
		items = append(items,
			line(to, foot, spare, foot, firm, colour), line(spare, foot-thick*0.45, spare, foot+firm/2, firm, colour))
	}
	ingot := Shape{Path: cast(from, top, to-from, thick), Fill: colour}
	if task.ByOthers {
		ingot.Fill, ingot.Stroke, ingot.Width, ingot.Dash = Sheet, colour, hairline, []float64{2, 2}
	}
	return append(items, ingot)
}

// note writes a task's label behind it, or before it if there is no room
// behind, on a ground of its own so that no line runs through it.
func (t Timeline) note(p timelinePlan, task Task, y float64) []Item {
	size, _ := t.letters(p, y)
	size = min(size, t.small())
	from, _, spare := p.span(task)
	label := Text{
		At: Point{spare + t.Text*0.5, y + p.row/2 + Sans.Ascent(size)/2}, Words: task.Label, Face: Sans, Size: size, Colour: Muted,
	}
	if label.Box().Max.X > t.Width {
		label.At.X, label.Anchor = from-t.Text*0.5, End
	}
	b := label.Box()
	if task.Label == "" || b.Min.X < p.names+t.Text*0.6 || b.Max.X > t.Width {
		return nil
	}
	clear := t.Text * 0.4 // of lines beside it; the ingot is a little further off
	return []Item{Shape{Path: Rect(b.Min.X-clear, b.Min.Y-1, b.Width()+2*clear, b.Height()+1), Fill: p.groundAt(y)}, label}
}

// groundAt is what the room at y is drawn on.
func (p timelinePlan) groundAt(y float64) Role {
	for i, room := range p.rooms {
		if y >= room.top && y < room.bottom && i%2 == 0 {
			return Wash
		}
	}
	return Sheet
}

// cast is an ingot seen from the side: wider at its foot.
func cast(x, y, width, height float64) Path {
	slope := min(height*0.32, width/3)
	return Polygon(Point{x, y + height}, Point{x + slope, y}, Point{x + width - slope, y}, Point{x + width, y + height})
}
