package desk

import (
	"context"
	"io"
	"time"

	"meltwright/internal/lead"
	"meltwright/internal/risk"
)

// Soon is when a commission would be ready, in a shop that has nothing else to
// do.
type Soon struct {
	Schedule lead.Schedule
	Finish   lead.Finish
	Meeting  *lead.Meeting // nil where no date is required
	title    string
	made     time.Time
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
	o := lead.Order{Commission: s.quote.Commission, Estimate: s.good, Start: start}
	book, soon := s.desk.shop, Soon{title: s.quote.Commission.Title, made: s.desk.now()}
	return func(ctx context.Context, ask risk.Ask) (Soon, error) {
		if soon.Schedule, err = lead.Plan(o.Commission, o.Estimate, book, o.Start, nil); err != nil {
			return soon, err
		}
		draws, err := risk.NewTrials(o.Commission, book, ask)
		if err != nil {
			return soon, err
		}
		if soon.Finish, err = lead.FinishRange(ctx, o, book, nil, draws); err != nil || required.IsZero() {
			return soon, err
		}
		m, err := lead.Meet(o, book, required, nil)
		soon.Meeting = &m
		return soon, err
	}, nil
}
