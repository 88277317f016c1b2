package ui

import (
	"fmt"
	"strings"
	"time"

	"fyne.io/fyne/v2/theme"

	"meltwright/internal/desk"
	"meltwright/internal/drawing"
	"meltwright/internal/fault"
	"meltwright/internal/lead"
	"meltwright/internal/quantity"
	"meltwright/internal/ui/kit"
)

// soonID is the page of the schedule.
const soonID = "soon"

// soonPage says when the work would be ready, what happens until then, and what
// a required date takes.
type soonPage struct {
	q               *quoteScreen
	body            *page
	start, required *kit.Field
	grid            *kit.FieldGrid
	state           *kit.Prose
	ready, booked   *kit.Prose
	meets           *kit.Prose
	gives, tasks    *kit.LineTable
	payments        *kit.LineTable
	line            *kit.Drawn
	save            *kit.Button
	shown           int // how many parts are always shown
}

func newSoonPage(q *quoteScreen) stagePage {
	p := &soonPage{q: q, state: kit.NewProse(""), ready: kit.NewProse(""), booked: kit.NewProse(""), meets: kit.NewProse(""), line: kit.NewDrawn(nil)}
	p.start = p.date(desk.Start, "Begin on", "Start")
	p.required = p.date(desk.Required, "Ready by", "Required date")
	p.required.SetHint("leave it empty where no date is required")
	p.grid = kit.NewFieldGrid(p.start, p.required)
	p.gives = titled("What would bring it nearer", "", "", "Ready")
	p.payments = titled("Payments, and the day each falls due", "", "Day", "Payment")
	p.tasks = titled("Tasks", "Hours", "From", "To")
	p.save = kit.NewButton("Save as calendar …", kit.Plain, q.w.guarded(q.writeCalendar)).WithIcon(theme.IconNameDocumentSave)
	p.body = newPage(
		kit.NewHeading("How soon", "When it would stand, after the work that is accepted: nobody does two things at once, and metal is poured on pour days"),
		p.grid, p.state, p.ready, p.booked, p.meets, p.gives, p.line, p.payments, leading(p.save), p.tasks,
	)
	p.shown = 3
	return p
}

// date makes the field of one of the quote's dates.
func (p *soonPage) date(word, label, name string) *kit.Field {
	return kit.NewField(kit.FieldSpec{
		ID: "soon." + word, Label: label,
		Understand: func(text string) (echo, wrong string) {
			t, err := desk.ReadDate(name, text)
			switch {
			case bare(text) == "":
				return "", ""
			case err != nil:
				return "", fault.All(err)[0].Short()
			}
			return "= " + t.Format("Monday 2 January 2006"), ""
		},
		OnChanged: p.q.w.guardedText(func(text string) { p.q.edit(func() { p.q.sheet.SetWords(word, text) }) }),
	})
}

func (p *soonPage) page() *page { return p.body }
func (p *soonPage) focus()      { p.q.w.focusFirst(p.grid) }

func (p *soonPage) show() {
	words := p.q.sheet.Quote().Words
	p.start.SetDefault("today", "")
	p.start.SetText(words[desk.Start])
	p.required.SetText(words[desk.Required])
	p.q.soon.follow(words[desk.Start] + "|" + words[desk.Required] + "|" + string(p.q.sheet.Quote().State))
	s, ok := p.q.soon.now()
	p.state.Say(p.waiting(ok))
	for _, o := range p.body.column.Objects[p.shown:] {
		show(o, ok)
	}
	if !ok {
		return
	}
	p.ready.Say(readyWords(s))
	p.booked.Say(strings.Join(s.BookedWords(day), " "))
	p.meets.Say(meetWords(s))
	lines := giveLines(s.Meeting)
	p.gives.SetLines(lines)
	show(p.gives, len(lines) > 0)
	p.line.SetBuild(func(width, text float64) drawing.Scene { return timeline(s.Schedule, width, text) })
	p.payments.SetLines(dueLines(s.Schedule))
	p.tasks.SetLines(taskLines(s.Schedule))
}

func (p *soonPage) waiting(ok bool) string {
	switch {
	case ok:
		return ""
	case p.q.soon.err != nil:
		return "There is no schedule. " + sentence(p.q.soon.err)
	case p.q.soon.busy:
		return "Being drawn up …"
	}
	return "There is no schedule while something is wrong; see what is marked at the left."
}

// readyWords say when it is ready, and how sure that is.
func readyWords(s desk.Soon) string {
	text := fmt.Sprintf("Ready on %s, %s after %s, if no casting fails and every task takes its hours. Five in ten by %s, eight in ten by %s.",
		day(s.Schedule.Ready), weeks(s.Schedule.Weeks), day(s.Schedule.Start), day(s.Finish.P50), day(s.Finish.P80))
	if s.Finish.Held > 0 {
		text += fmt.Sprintf(" Castings made again move the date in %s of 100.", quantity.Number(s.Finish.Held*100, 0))
	}
	return text + " From the first wax to the last pour it is " + weeks(s.Schedule.WaxToMetal) + "."
}

// meetWords say whether the required date is met, and what that takes.
func meetWords(s desk.Soon) string {
	m := s.Meeting
	switch {
	case m == nil:
		return ""
	case m.Met && s.Finish.P80.After(m.Required):
		return fmt.Sprintf("The required date, %s, is met as planned, but not eight times in ten. It may begin on %s at the latest.", day(m.Required), day(m.Latest))
	case m.Met:
		return fmt.Sprintf("The required date, %s, is met. It may begin on %s at the latest.", day(m.Required), day(m.Latest))
	case m.Latest.IsZero():
		return fmt.Sprintf("The required date, %s, is not met, and no start within four years before it would do.", day(m.Required))
	}
	return fmt.Sprintf("The required date, %s, is not met: it would have had to begin on %s.", day(m.Required), day(m.Latest))
}

func giveLines(m *lead.Meeting) (lines []kit.Line) {
	if m == nil {
		return nil
	}
	for i, g := range m.Gives {
		name := g.What
		if g.Met {
			name += " – meets the date"
		}
		lines = append(lines, kit.Line{ID: fmt.Sprint(i), Name: name, Cost: day(g.Ready)})
	}
	return lines
}

// dueLines are the payments on the days of the schedule that they fall due on.
func dueLines(s lead.Schedule) (lines []kit.Line) {
	for i, m := range s.Milestones {
		lines = append(lines, kit.Line{ID: fmt.Sprint(i), Name: m.Name, Rate: shortDay(m.Date), Cost: amount(s.Currency, m.Amount)})
	}
	return lines
}

// taskLines are the tasks in their order, below the rooms they are done in.
func taskLines(s lead.Schedule) (lines []kit.Line) {
	for i, t := range s.Tasks {
		line := kit.Line{ID: fmt.Sprint(i), Name: t.Name, Rate: shortDay(t.Start), Cost: shortDay(t.End)}
		if !t.Wait {
			line.Quantity, line.Unit = quantity.Number(t.Hours, 1), "h"
		}
		if t.Critical {
			line.Name += " – no time to spare"
		}
		lines = append(lines, line)
	}
	return lines
}

func shortDay(t time.Time) string { return t.Format("2 Jan 2006") }

// timeline draws a schedule, the tasks of a room below each other.
func timeline(s lead.Schedule, width, text float64) drawing.Scene {
	d := drawing.Timeline{Frame: drawing.Frame{Width: width, Text: text}, Months: months(s)}
	for _, room := range rooms(s) {
		for _, t := range s.Tasks {
			if t.Room == room {
				d.Tasks = append(d.Tasks, drawing.Task{
					Name: t.Name, Room: t.Room, Stage: t.Stage, Start: s.Week(t.Start), End: s.Week(t.End), Spare: t.Spare, ByOthers: t.Wait,
				})
			}
		}
	}
	for _, m := range s.Milestones {
		d.Milestones = append(d.Milestones, drawing.Milestone{Week: s.Week(m.Date), Label: m.Name + " · " + m.Date.Format("2 Jan")})
	}
	return d.Scene()
}

// rooms are the rooms in the order the work comes to them.
func rooms(s lead.Schedule) (names []string) {
	seen := map[string]bool{}
	for _, t := range s.Tasks {
		if !seen[t.Room] {
			seen[t.Room] = true
			names = append(names, t.Room)
		}
	}
	return names
}

// months are the months' beginnings on the schedule; those of quarters or of
// years where it is long.
func months(s lead.Schedule) (ticks []drawing.Tick) {
	for _, t := range s.Months() {
		label := t.Format("Jan")
		if t.Month() == time.January {
			label = t.Format("Jan 2006")
		}
		ticks = append(ticks, drawing.Tick{Value: s.Week(t), Label: label})
	}
	return ticks
}
