package ui

import (
	"context"
	"fmt"
	"time"

	"fyne.io/fyne/v2"

	"meltwright/internal/desk"
	"meltwright/internal/quantity"
	"meltwright/internal/quote"
	"meltwright/internal/ui/kit"
)

// soonest says over the list what falls due within two weeks, and what has lapsed.
type soonest struct {
	w      *Window
	table  *kit.LineTable
	scroll *kit.FocusScroll
	list   []quote.Reminder
	told   func() // after another list was read
}

func newSoonest(w *Window) *soonest {
	s := &soonest{w: w, table: titled("Falls due", "", "", "When")}
	s.table.OnOpen = w.guardedText(func(id string) { s.open(id) })
	s.scroll = kit.NewFocusScroll(s.table)
	s.scroll.Hide()
	return s
}

// read reads the reminders again.
func (s *soonest) read() {
	d := s.w.desk
	s.w.do(func() func() {
		list, err := d.Reminders(context.Background())
		return func() {
			if err == nil { // else the list below says what is wrong with the file
				s.show(list)
			}
		}
	})
}

func (s *soonest) show(list []quote.Reminder) {
	s.list = list
	lines := make([]kit.Line, len(list))
	for i, r := range list {
		lines[i] = kit.Line{ID: fmt.Sprint(i), Name: reminderWords(r), Cost: s.w.awayFrom(r.On)}
	}
	s.table.SetLines(lines)
	show(s.scroll, len(list) > 0)
	s.told()
}

// open opens what a reminder is about.
func (s *soonest) open(id string) {
	var i int
	if _, err := fmt.Sscan(id, &i); err != nil || i >= len(s.list) {
		return
	}
	r := s.list[i]
	switch {
	case r.Quote == 0:
		s.w.openCall(r.Call)
	case r.What == quote.DeadlineNear:
		s.w.openQuote(r.Quote, (*desk.Desk).Put)
	default:
		s.w.openQuoteAt(r.Quote, revisionsID)
	}
}

// reminderWords say what a reminder is about.
func reminderWords(r quote.Reminder) string {
	title := "“" + r.Title + "”"
	if r.Client != "" {
		title += ", " + r.Client
	}
	switch r.What {
	case quote.LapseNear:
		return r.Number + " " + title + ", stands until " + day(r.On)
	case quote.HasLapsed:
		return r.Number + " " + title + ", lapsed: it stood until " + day(r.On)
	}
	if r.Number != "" {
		return "Call " + title + ", closes on " + day(r.On) + "; " + r.Number + " is a " + string(r.State)
	}
	return "Call " + title + ", closes on " + day(r.On) + "; no quote yet"
}

// awayFrom says how far a day is from today.
func (w *Window) awayFrom(on time.Time) string {
	switch n := w.desk.DaysUntil(on); {
	case n == 0:
		return "today"
	case n == 1:
		return "tomorrow"
	case n == -1:
		return "yesterday"
	case n < 0:
		return quantity.Number(float64(-n), 0) + " days ago"
	default:
		return "in " + quantity.Number(float64(n), 0) + " days"
	}
}

// listLayout stacks what falls due, what the list is filtered and sorted by, and
// the list, which has the rest of the height.
type listLayout struct{}

func (listLayout) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	const space = 12
	y := float32(0)
	for i, o := range objects {
		if !o.Visible() {
			continue
		}
		h := o.MinSize().Height
		switch i {
		case 0: // scrolls, where it is much
			h = min(o.(*kit.FocusScroll).Content().MinSize().Height+4, s.Height*0.28)
		case len(objects) - 1:
			h = s.Height - y
		}
		o.Move(fyne.NewPos(0, y))
		o.Resize(fyne.NewSize(s.Width, h))
		y += h + space
	}
}

func (listLayout) MinSize(objects []fyne.CanvasObject) (least fyne.Size) {
	for _, o := range objects {
		least.Width = max(least.Width, o.MinSize().Width)
		least.Height += o.MinSize().Height
	}
	return least
}
