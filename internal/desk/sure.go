package desk

import (
	"context"

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
