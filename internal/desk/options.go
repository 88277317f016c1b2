package desk

import (
	"context"
	"maps"
	"slices"
	"time"

	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/lead"
	"meltwright/internal/money"
	"meltwright/internal/options"
	"meltwright/internal/quantity"
	"meltwright/internal/risk"
	"meltwright/internal/shop"
)

// Option is one option of the sheet, estimated, with what else is known of it.
type Option struct {
	options.Result
	Weeks   float64 // of the calendar from start to ready in an empty shop; 0 where not known
	IsQuote bool    // the quote is just this
	// Range is where the price comes to lie; nil where it has not been drawn.
	Range *risk.Range
}

// Options estimates the options of the sheet, in their order; where there are
// none, the quote as it stands.
func (s *Sheet) Options() []Option { return s.Weighing().Options() }

// Weighing is what a comparison of options is made of, as it stood at one moment:
// it may be used on any goroutine while somebody types on.
type Weighing struct {
	commission estimate.Commission
	shop       *shop.Shop
	start      time.Time
	rule       estimate.Rule
	booked     []lead.Booking // what accepted quotes take of the shop
}

// Weighing takes the options of the sheet as they stand.
func (s *Sheet) Weighing() Weighing {
	c, start := s.quote.Commission, s.desk.now()
	if day, err := s.StartDate(); err == nil { // its fault is told where it was typed
		start = day
	}
	return Weighing{commission: c, shop: s.desk.shop, start: start, rule: estimate.RuleOf(c, s.desk.shop)}
}

// Amid is the weighing in a shop that has accepted other work: its options are
// scheduled after that.
func (w Weighing) Amid(b Booked) Weighing {
	w.booked = b.Bookings
	return w
}

// Start is the day from which the weeks of its options count.
func (w Weighing) Start() time.Time { return w.start }

// Rule is what the heights and the budget of the quote are read as.
func (w Weighing) Rule() estimate.Rule { return w.rule }

// Options estimates the options.
func (w Weighing) Options() []Option {
	results := options.Compare(w.commission, w.shop)
	out := make([]Option, len(results))
	for i, r := range results {
		out[i] = w.option(r)
	}
	return out
}

// After is Options where before were those of an earlier weighing: options that
// are unchanged since are not estimated again.
func (w Weighing) After(was Weighing, before []Option) []Option {
	unchanged := options.Unchanged(w.commission, was.commission)
	if w.shop != was.shop || len(unchanged) == 0 || len(before) != len(unchanged) {
		return w.Options()
	}
	results := make([]options.Result, len(before))
	for i, o := range before {
		results[i] = o.Result
	}
	out := slices.Clone(before)
	for i, r := range options.Again(w.commission, w.shop, results, unchanged) {
		if !unchanged[i] {
			out[i] = w.option(r)
		}
	}
	return out
}

// At estimates one more option, at a height, that is not kept: for a height that
// is being drawn from one place to another.
func (w Weighing) At(h quantity.Length) Option {
	c := w.commission
	c.Options = []estimate.Option{{Height: options.HeightText(h, w.rule.System)}}
	return w.option(options.Compare(c, w.shop)[0])
}

func (w Weighing) option(r options.Result) Option {
	o := Option{Result: r, IsQuote: len(r.Faults) == 0 && w.same(r.Commission)}
	if len(r.Faults) > 0 {
		return o
	}
	if p, err := lead.Plan(r.Commission, r.Estimate, w.shop, w.start, w.booked); err == nil {
		o.Weeks = p.Weeks
	}
	return o
}

// Range draws where the price of an option comes to lie. It stops early when ctx
// ends. The error is ctx's, or the option's faults.
func (w Weighing) Range(ctx context.Context, o Option, ask risk.Ask) (risk.Range, error) {
	if len(o.Faults) > 0 {
		return risk.Range{}, o.Faults
	}
	return risk.Draw(ctx, o.Commission, w.shop, ask)
}

// SameQuote tells whether the quote and the shop book are what they were in
// another weighing, whatever has become of the options.
func (w Weighing) SameQuote(was Weighing) bool {
	return w.shop == was.shop && options.SameQuote(w.commission, was.commission)
}

// same tells whether a commission is just the quote's, whatever its heights are
// typed in.
func (w Weighing) same(c estimate.Commission) bool {
	q, height := w.commission, estimate.HeightPath()
	if len(c.Pieces) != len(q.Pieces) || !maps.Equal(c.Inputs, q.Inputs) {
		return false
	}
	for i := range c.Pieces {
		if !maps.Equal(without(c.Pieces[i].Inputs, height), without(q.Pieces[i].Inputs, height)) {
			return false
		}
	}
	return slices.Equal(estimate.RuleOf(c, w.shop).Heights(), w.Rule().Heights())
}

// Largest finds the tallest height within the quote's budget. The error is a
// fault where there is no budget, or the faults of the quote.
func (w Weighing) Largest() (options.Fit, error) {
	rule := w.Rule()
	if rule.Budget <= 0 {
		return options.Fit{}, noBudget
	}
	return options.Largest(w.commission, w.shop, rule.Budget, rule.BeforeTax)
}

// Smallest is the least height whose walls fit the form, 0 where nothing can be
// made at it.
func (w Weighing) Smallest() (quantity.Length, error) { return options.Smallest(w.commission, w.shop) }

// Artist finds what the budget leaves for the artist in an option. The error is
// a fault where there is no budget, or the faults of the option.
func (w Weighing) Artist(o Option) (options.Artist, error) {
	rule := w.Rule()
	if rule.Budget <= 0 {
		return options.Artist{}, noBudget
	}
	if len(o.Faults) > 0 {
		return options.Artist{}, o.Faults
	}
	return options.ArtistShare(o.Commission, w.shop, rule.Budget, rule.BeforeTax)
}

// Curve is the price over heights from one to another.
func (w Weighing) Curve(from, to quantity.Length, n int) (options.PriceCurve, error) {
	return options.Curve(w.commission, w.shop, from, to, n)
}

// Asked is the amount of an estimate that the budget is held against.
func (w Weighing) Asked(e *estimate.Estimate) money.Amount {
	if w.Rule().BeforeTax {
		return e.Price
	}
	return e.Total
}

var noBudget = fault.Fault{Where: "price.budget", Field: "Budget of the call", Problem: "is not given", Remedy: "give a sum such as 150,000"}
