package desk

import (
	"context"
	"slices"

	"meltwright/internal/risk"
)

// Ranging takes all that the range of the price is drawn from, as the sheet
// stands; what it gives back may run on any goroutine while somebody types on.
// The error is the sheet's faults.
func (s *Sheet) Ranging() (func(context.Context, risk.Ask) (risk.Range, error), error) {
	if len(s.faults) > 0 {
		return nil, s.faults
	}
	c, book := s.quote.Commission, s.desk.shop
	return func(ctx context.Context, ask risk.Ask) (risk.Range, error) {
		return risk.Draw(ctx, c, book, ask)
	}, nil
}

// RangeSection is the part of a proposal that says where the price comes to lie.
// It is there only where the user says so.
const RangeSection = "range"

// SaysRange tells whether the proposal says where the price comes to lie.
func (s *Sheet) SaysRange() bool { return slices.Contains(s.Chosen(), RangeSection) }

// SayRange puts that into the proposal, after the price, or takes it out.
func (s *Sheet) SayRange(on bool) {
	keys := slices.DeleteFunc(slices.Clone(s.Chosen()), func(key string) bool { return key == RangeSection })
	if on {
		keys = slices.Insert(keys, slices.Index(keys, "price")+1, RangeSection)
	}
	s.Choose(keys)
}
