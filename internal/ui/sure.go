package ui

import (
	"context"
	"fmt"
	"time"

	"fyne.io/fyne/v2"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/risk"
	"meltwright/internal/ui/kit"
)

// newSureness follows the quote with the range of its price.
func newSureness(q *quoteScreen) *follower[risk.Range] {
	return &follower[risk.Range]{
		q: q,
		ready: func() (func(context.Context) (risk.Range, error), error) {
			draw, err := q.sheet.Ranging()
			if err != nil {
				return nil, err
			}
			return func(ctx context.Context) (risk.Range, error) {
				return draw(ctx, risk.Ask{Trials: q.w.options.Trials, Progress: q.drawing(ctx)})
			}, nil
		},
		told: q.showSure,
	}
}

// soonEnough is how long a range may be drawn before its page says how far it is.
const soonEnough = 500 * time.Millisecond

// drawing gives what tells the page how far the range is drawn, in tenths. It is
// called from other goroutines, never from two at once. A key in the quote, or
// leaving it, gives the drawing up.
func (q *quoteScreen) drawing(ctx context.Context) func(done float64) {
	began, tenths := time.Now(), 0
	return func(done float64) {
		n := int(done * 10)
		if n == tenths || time.Since(began) < soonEnough {
			return
		}
		tenths = n
		fyne.Do(q.w.guarded(func() {
			if p, ok := q.pages[sureID].(*surePage); ok && ctx.Err() == nil && q.sure.busy {
				p.state.Say(fmt.Sprintf("Being drawn … %d %%", 10*n))
				p.body.relay()
			}
		}))
	}
}

// showSure shows a range that has been drawn, on the price panel and its page.
func (q *quoteScreen) showSure() {
	q.price.Set(q.priceShown())
	q.rail.SetRows(q.railRows())
	q.refreshPage(sureID)
}

// priceRange is the range as the price panel shows it: that of the price shown,
// or, while another is being drawn, the place where it will stand.
func (q *quoteScreen) priceRange(e *estimate.Estimate) *kit.PriceRange {
	if r, ok := q.sure.now(); ok {
		return rangeShown(e, r)
	}
	if q.sure.busy {
		at := float64(e.Price)
		return &kit.PriceRange{Least: at * 0.7, Most: at * 1.3, Low: at, High: at, At: at, LowText: "how sure is being drawn …"}
	}
	return nil
}

func rangeShown(e *estimate.Estimate, r risk.Range) *kit.PriceRange {
	low, high, at := float64(r.Price.P10), float64(r.Price.P90), float64(e.Price)
	beyond := max(high-low, 1) / 2
	return &kit.PriceRange{
		Least: min(low-beyond, at), Most: max(high+beyond, at), Low: low, High: high, At: at,
		LowText: "8 in 10 within " + whole(e.Currency, r.Price.P10), HighText: "to " + whole(e.Currency, r.Price.P90),
	}
}

// sureDetail is what the rail says of the range.
func sureDetail(q *quoteScreen) string {
	if r, ok := q.sure.now(); ok {
		c := q.sheet.Latest().Currency
		return "8 in 10: " + wholePlain(c, r.Price.P10) + " to " + wholePlain(c, r.Price.P90)
	}
	return "its range and what it hangs on"
}

// whole prints an amount to the whole unit, with the currency's sign.
func whole(c money.Currency, a money.Amount) string { return c.Whole(a, locale) }
