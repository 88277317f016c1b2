package desk

import (
	"context"
	"io"
	"strings"
	"time"

	"meltwright/internal/estimate"
	"meltwright/internal/lead"
	"meltwright/internal/quote"
	"meltwright/internal/risk"
)

// Soon is when a commission would be ready, after the work that is accepted.
type Soon struct {
	Schedule lead.Schedule
	Finish   lead.Finish
	Meeting  *lead.Meeting // nil where no date is required
	Booked   Booked
	title    string
	made     time.Time
}

// BookedWords say what accepted quotes do to the schedule, a sentence or two each;
// none where nothing is accepted. Day prints a date.
func (s Soon) BookedWords(day func(time.Time) string) (out []string) {
	if text := s.Schedule.After(s.Booked.Quotes, day); text != "" {
		out = append(out, text)
	}
	if left := s.Booked.Left; len(left) > 0 {
		out = append(out, "Left out, because it cannot be scheduled as it stands: "+strings.Join(left, ", ")+".")
	}
	return out
}

// Asked is what a schedule is asked for.
type Asked struct {
	Commission estimate.Commission
	Estimate   *estimate.Estimate
	Start      time.Time
	Required   time.Time   // zero for none
	Of         quote.Quote // whose commission it is, if it is kept
}

// ICS writes the schedule as an iCalendar file.
func (s Soon) ICS(w io.Writer) error { return lead.ICS(w, s.Schedule, s.title, s.made) }

// Scheduling takes all that a schedule is made of from the sheet as it stands;
// what it gives back may run on any goroutine while somebody types on. The error
// is the sheet's faults, or that of a date.
func (s *Sheet) Scheduling() (func(context.Context, risk.Ask) (Soon, error), error) {
	if len(s.faults) > 0 {
		return nil, s.faults
	}
	start, err := s.StartDate()
	if err != nil {
		return nil, err
	}
	required, err := s.RequiredDate()
	if err != nil {
		return nil, err
	}
	d := &Desk{store: s.desk.store, shop: s.desk.shop, now: s.desk.now}
	asked := Asked{s.quote.Commission, s.good, start, required, s.quote}
	return func(ctx context.Context, ask risk.Ask) (Soon, error) { return d.Soon(ctx, asked, ask) }, nil
}

// Soon schedules a commission after the work that is accepted, draws the range of
// its finish, and says what the required date takes. Any goroutine may call it.
func (d *Desk) Soon(ctx context.Context, a Asked, ask risk.Ask) (s Soon, err error) {
	s.title, s.made = a.Commission.Title, d.now()
	if s.Booked, err = d.Booked(ctx, a.Of, a.Start); err != nil {
		return s, err
	}
	booked, o := s.Booked.Bookings, lead.Order{Commission: a.Commission, Estimate: a.Estimate, Start: a.Start}
	if s.Schedule, err = lead.Plan(o.Commission, o.Estimate, d.shop, o.Start, booked); err != nil {
		return s, err
	}
	draws, err := risk.NewTrials(o.Commission, d.shop, ask)
	if err != nil {
		return s, err
	}
	if s.Finish, err = lead.FinishRange(ctx, o, d.shop, booked, draws); err != nil || a.Required.IsZero() {
		return s, err
	}
	m, err := d.meet(ctx, a, o)
	s.Meeting = &m
	return s, err
}

// meet holds an order against its required date. A start before the one asked
// for meets what was booked then.
func (d *Desk) meet(ctx context.Context, a Asked, o lead.Order) (lead.Meeting, error) {
	b, err := d.Booked(ctx, a.Of, time.Time{})
	if err != nil {
		return lead.Meeting{}, err
	}
	return lead.Meet(o, d.shop, a.Required, b.Bookings)
}
