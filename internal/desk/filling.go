package desk

import (
	"context"
	"slices"
	"time"

	"meltwright/internal/risk"
)

// filling gives what completes a paper with what takes a while: the capacity that
// accepted work takes, where the proposal has a day to begin on, and the range,
// for the cost sheet, and for the proposal where the user says so. It may run on
// any goroutine.
func (s *Sheet) filling(which Print, p Paper) func(context.Context) (Paper, error) {
	store, ranged := s.desk.store, which == CostSheet
	start, err := time.Parse(time.DateOnly, p.Start)
	booked := which == Proposal && err == nil
	if which == Proposal && s.Preview() != nil {
		ranged = slices.Contains(s.Chosen(), RangeSection)
	}
	album := s.desk.album
	return func(ctx context.Context) (_ Paper, err error) {
		if p.Pictures, err = album.pictures(ctx, p.Quote.Pictures); err != nil {
			return p, err
		}
		if booked {
			b, err := bookedIn(ctx, store, p.Shop, p.Quote, start)
			if err != nil {
				return p, err
			}
			p.Booked = b.Bookings
		}
		if ranged {
			r, err := risk.Draw(ctx, p.Quote.Commission, p.Shop, risk.Ask{})
			if err != nil {
				return p, err
			}
			p.Range = &r
		}
		return p, nil
	}
}
