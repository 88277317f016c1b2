package ui

import (
	"bytes"
	"context"
	"path/filepath"
	"time"

	"meltwright/internal/desk"
	"meltwright/internal/risk"
)

// finishTrials is how many trials the finish is drawn from: each levels the
// whole work anew.
const finishTrials = 2000

// newSoonness follows the quote with its schedule.
func newSoonness(q *quoteScreen) *follower[desk.Soon] {
	return &follower[desk.Soon]{
		q: q,
		ready: func() (func(context.Context) (desk.Soon, error), error) {
			plan, err := q.sheet.Scheduling()
			if err != nil {
				return nil, err
			}
			trials := finishTrials
			if n := q.w.options.Trials; n > 0 {
				trials = min(trials, n)
			}
			return func(ctx context.Context) (desk.Soon, error) { return plan(ctx, risk.Ask{Trials: trials}) }, nil
		},
		told: func() {
			q.rail.SetRows(q.railRows())
			q.refreshPage(soonID)
		},
	}
}

// refreshPage shows a page anew, if it is the one that is shown.
func (q *quoteScreen) refreshPage(id string) {
	if q.stage == id {
		p := q.pageOf(id)
		p.show()
		p.page().relay()
	}
}

// soonDetail is what the rail says of the schedule.
func soonDetail(q *quoteScreen) string {
	if s, ok := q.soon.now(); ok {
		return "ready " + day(s.Schedule.Ready)
	}
	return "weeks, dates, what has to give"
}

// day prints a date.
func day(t time.Time) string { return t.Format("2 January 2006") }

// writeCalendar asks where the schedule goes as a calendar, and writes it there.
func (q *quoteScreen) writeCalendar() {
	s, ok := q.soon.now()
	if !ok {
		return // it is being drawn up anew, and the button goes
	}
	q.w.askPath(pathQuestion{
		title: "The calendar", text: "Where should it lie? It is an iCalendar file, for any calendar.", do: "Write it",
		path: filepath.Join(documents(), q.sheet.FileName("schedule", "ics")),
		take: func(path string) {
			q.w.do(func() func() {
				var b bytes.Buffer
				err := s.ICS(&b)
				if err == nil {
					err = replaceFile(path, b.Bytes())
				}
				return func() { q.w.written("The calendar", path, err) }
			})
		},
	})
}
