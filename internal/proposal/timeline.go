package proposal

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"meltwright/internal/drawing"
	"meltwright/internal/fault"
	"meltwright/internal/lead"
)

// plan schedules the work from the day it would begin: that of the paper, else
// the one the user wrote for it in the words "start". Without one there is no
// schedule, and no timeline.
func (o *offer) plan() error {
	iso := strings.TrimSpace(o.paper.Start)
	if iso == "" {
		iso = strings.TrimSpace(o.own["start"])
	}
	if iso == "" {
		return nil
	}
	start, ok := day(iso)
	if !ok {
		return fault.Fault{Where: "words.start", Field: "Start of the work", Value: iso, Problem: "is no date", Remedy: "give one such as 2026-05-04"}
	}
	s, err := lead.Plan(o.paper.Quote.Commission, o.paper.Estimate, o.paper.Shop, start, o.paper.Booked)
	if err != nil {
		return err
	}
	o.schedule = &s
	o.facts.Begins, o.facts.Ready = o.dateOf(s.Start), o.dateOf(s.Ready)
	o.facts.Weeks = o.language.count(int(math.Ceil(s.Weeks)))
	return nil
}

// dateOf spells out a day.
func (o *offer) dateOf(t time.Time) string { return o.date(t.Format(time.DateOnly)) }

// timeline sets when the work is done, part by part, and when payments fall due.
func (o *offer) timeline(key string) []strip {
	if o.schedule == nil {
		return nil
	}
	chart := picture(o.chart().Scene(), 12)
	chart.keep = true
	return o.around(o.blocksOf(key), append([]strip{chart}, o.table(o.milestones())...))
}

// chart is the picture of the schedule. Its days are numbered as in the table
// below it.
func (o *offer) chart() drawing.Timeline {
	s := o.schedule
	t := drawing.Timeline{Frame: drawing.Frame{Width: o.wide, Text: 9.5}, Weeks: s.Week(s.Ready), Months: o.months()}
	for _, p := range stretches {
		if task, ok := o.stretch(p); ok {
			t.Tasks = append(t.Tasks, task)
		}
	}
	for i, m := range s.Milestones {
		t.Milestones = append(t.Milestones, drawing.Milestone{Week: s.Week(m.Date), Label: o.language.count(i + 1)})
	}
	return t
}

// preparation is what others do beside the work on the bronze: the engineer's
// design, permits, the stone, site works, footings.
const preparation = "preparation"

// stretches are the rows of a timeline: the parts of the price, and what goes
// before base and delivery.
var stretches = slices.Insert(slices.Clone(clientParts), len(clientParts)-2, part{preparation, []string{"base", "delivery"}})

// prepares is true for a task that is preparation.
func prepares(t lead.Task) bool {
	return t.Wait && (t.Stage == "base" || t.Stage == "delivery") && (t.Room == "With others" || t.Room == "Site")
}

// stretch is the time that a part of the work takes, from its first task to the
// end of its last.
func (o *offer) stretch(p part) (task drawing.Task, ok bool) {
	s := o.schedule
	for _, t := range s.Tasks {
		if !slices.Contains(p.stages, t.Stage) || prepares(t) != (p.key == preparation) {
			continue
		}
		from, to := s.Week(t.Start), s.Week(t.End)
		if !ok {
			task = drawing.Task{Start: from, End: to}
		}
		task.Start, task.End, ok = min(task.Start, from), max(task.End, to), true
	}
	weeks := max(1, int(math.Round(task.End-task.Start)))
	task.Name, task.Stage, task.Label = o.label("part-"+p.key), p.stages[len(p.stages)-1], o.words.say("weeks", o.language.count(weeks))
	if p.key == preparation {
		task.Stage = "form"
	}
	return task, ok
}

// months are the firsts of months while the work is done, with the year where
// one begins; of quarters or of years where it takes long.
func (o *offer) months() (ticks []drawing.Tick) {
	names := strings.Fields(o.label("months"))
	s := o.schedule
	if len(names) != 12 {
		return nil
	}
	for _, m := range s.Months() {
		name := names[m.Month()-1]
		if m.Month() == time.January {
			name += " " + strconv.Itoa(m.Year())
		}
		ticks = append(ticks, drawing.Tick{Value: s.Week(m), Label: name})
	}
	return ticks
}

// milestones is the table of the days that matter: the payments on theirs.
func (o *offer) milestones() table {
	l := o.language
	tb := table{
		size: rowStyle, before: 14, whole: true,
		columns: []column{{wide: 16}, {gutter: 6}, {wide: 130, gutter: 12}, {wide: 120, anchor: drawing.End, gutter: 12}},
		head:    []string{"", o.label("milestone"), o.label("milestone-date"), o.label("milestone-due")},
	}
	add := func(number, words, date, due string) {
		tb.rows = append(tb.rows, row{style: rowStyle, rule: drawing.Rule, pad: 4.5, cells: []cell{{words: number, style: ptr(rowStyle.in(drawing.SansSemiBold))}, {words: words}, {words: date}, {words: due}}})
	}
	add("", o.label("work-begins"), o.facts.Begins, "")
	for i, m := range o.schedule.Milestones {
		add(l.count(i+1), o.term(m.Name), o.dateOf(m.Date), l.amount(o.schedule.Currency, m.Amount))
	}
	add("", o.label("work-ready"), o.facts.Ready, "")
	return tb
}
