package main

import (
	"context"
	"fmt"
	"io"
	"strings"
	"time"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/lead"
	"meltwright/internal/money"
	"meltwright/internal/options"
	"meltwright/internal/quantity"
	"meltwright/internal/quote"
	"meltwright/internal/shop"
)

type (
	optionsJSON struct {
		Currency string       `json:"currency"`
		Options  []optionJSON `json:"options"`
		Budget   string       `json:"budget,omitempty"`
		Largest  *largestJSON `json:"largest,omitempty"`
	}
	optionJSON struct {
		Name       string  `json:"name"`
		HeightM    float64 `json:"height_m"`
		Scale      float64 `json:"scale"`
		Price      string  `json:"price"`
		Total      string  `json:"total"`
		FinishedKg float64 `json:"finished_kg"`
		PouredKg   float64 `json:"poured_kg"`
		Sections   int     `json:"sections"`
		Heats      int     `json:"heats"`
		PourDays   int     `json:"pour_days"`
		Weeks      float64 `json:"weeks,omitempty"` // from start to ready, where there is a day to begin on
		Lifting    string  `json:"lifting"`
		LiftKg     float64 `json:"lift_kg"` // the heaviest part that is lifted
		BaseKg     float64 `json:"base_kg"`
		OverBudget bool    `json:"over_budget"`
		Left       string  `json:"left,omitempty"`
		Artist     string  `json:"artist,omitempty"` // what the budget leaves for the artist's fee
		Why        string  `json:"why,omitempty"`
	}
	largestJSON struct {
		HeightM   float64 `json:"height_m"` // 0 where nothing fits
		Price     string  `json:"price"`
		Total     string  `json:"total"`
		NextStep  string  `json:"next_step"`
		SmallestM float64 `json:"smallest_m"` // below it the wall fills the form
		Least     string  `json:"least"`      // what the smallest takes of the budget
		Stop      string  `json:"stop,omitempty"`
		blocked   bool
	}
)

// runOptions compares heights of a commission, and finds the largest that a
// budget holds.
func runOptions(ctx context.Context, out io.Writer, args []string) error {
	rest, opt, err := parseOptions(args, []string{"--db", "--heights", "--budget", "--start"}, []string{"--json", "--before-tax"})
	if err != nil {
		return err
	}
	if len(rest) != 1 {
		return usageError("it takes one commission file")
	}
	return quoteAndDesk(ctx, rest[0], opt["--db"], func(c estimate.Commission, words map[string]string, d *desk.Desk) error {
		c, err := withAnswers(c, d.Shop(), opt)
		if err != nil {
			return err
		}
		o, err := optionsOf(c, d.Shop())
		if err != nil {
			return err
		}
		if err := o.addWeeks(ctx, c, d, opt["--start"], words[desk.Start]); err != nil {
			return err
		}
		if opt["--json"] != "" {
			return writeJSON(out, o)
		}
		return printOptions(out, o)
	})
}

// withAnswers puts what the flags say into the commission. Heights may be words
// of scale.
func withAnswers(c estimate.Commission, s *shop.Shop, opt map[string]string) (estimate.Commission, error) {
	if opt["--budget"] != "" {
		c = c.With(estimate.Whole, "price.budget", opt["--budget"])
		if _, err := estimate.NewModel(c, s); err == nil && estimate.RuleOf(c, s).Budget == 0 {
			return c, fault.Fault{Field: "Budget", Value: opt["--budget"], Problem: "holds nothing", Remedy: "give a sum such as 150000"}
		}
	}
	if opt["--before-tax"] != "" {
		c = c.With(estimate.Whole, "price.budget_is", "before tax")
	}
	if opt["--heights"] == "" {
		return c, nil
	}
	c.Options = nil
	var faults fault.List
	for i, h := range strings.Split(opt["--heights"], ",") {
		text, err := options.HeightOf(estimate.RuleOf(c, s), h)
		for _, f := range fault.All(err) {
			f.Field = fmt.Sprintf("Height of option %d", i+1)
			faults = append(faults, f)
		}
		c.Options = append(c.Options, estimate.Option{Height: text})
	}
	return c, faults.Err()
}

func optionsOf(c estimate.Commission, s *shop.Shop) (optionsJSON, error) {
	results := options.Compare(c, s)
	if err := options.Faults(results).Err(); err != nil {
		return optionsJSON{}, err
	}
	e := results[0].Estimate
	rule := estimate.RuleOf(c, s)
	o := optionsJSON{Currency: e.Currency.Code}
	for _, r := range results {
		j := optionOf(r, e.Currency)
		if r.Budgeted {
			a, err := options.ArtistShare(r.Commission, s, rule.Budget, rule.BeforeTax)
			if err != nil {
				return o, err
			}
			j.Artist = e.Currency.Text(a.Fee)
		}
		o.Options = append(o.Options, j)
	}
	if rule.Budget == 0 {
		return o, nil
	}
	o.Budget = e.Currency.Text(rule.Budget)
	fit, err := options.Largest(c, s, rule.Budget, rule.BeforeTax)
	if err != nil {
		return o, err
	}
	o.Largest = largestOf(fit, e)
	return o, nil
}

// addWeeks says how long each option takes from the day given, or from the one in
// the file, after what the store has accepted; nothing where there is neither.
func (o *optionsJSON) addWeeks(ctx context.Context, c estimate.Commission, d *desk.Desk, given, written string) error {
	var start time.Time
	var err error
	switch {
	case given != "":
		start, err = dateOf("Start", given)
	case written != "":
		start, err = desk.ReadDate("Commission file, “words."+desk.Start+"”", written)
	default:
		return nil
	}
	if err != nil {
		return err
	}
	booked, err := d.Booked(ctx, quote.Quote{Commission: c}, start)
	if err != nil {
		return err
	}
	s := d.Shop()
	for i, r := range options.Compare(c, s) {
		p, err := lead.Plan(r.Commission, r.Estimate, s, start, booked.Bookings)
		if err != nil {
			return err
		}
		o.Options[i].Weeks = tidy(p.Weeks)
	}
	return nil
}

func largestOf(fit options.Fit, e *estimate.Estimate) *largestJSON {
	l := &largestJSON{
		HeightM: tidy(float64(fit.Height)), Price: e.Currency.Text(fit.Price), Total: e.Currency.Text(fit.Total),
		SmallestM: tidy(float64(fit.Smallest)), Least: e.Currency.Text(fit.Least),
		NextStep: fit.NextStep.Words(options.Names(e), e.System), blocked: fit.Blocked(),
	}
	if len(fit.Stop) > 0 {
		l.Stop = fit.Stop[0].Error()
	}
	return l
}

func optionOf(r options.Result, cur money.Currency) optionJSON {
	e := r.Estimate
	j := optionJSON{
		Name: r.Name, HeightM: tidy(float64(r.Height)), Scale: tidy(r.Scale), Price: cur.Text(e.Price), Total: cur.Text(e.Total),
		Sections: e.Sections, Heats: len(e.Heats), PourDays: e.PourDays, Lifting: e.Lift.By, LiftKg: tidy(e.Lift.Kg), Why: r.Why,
	}
	finished, poured, base := 0.0, 0.0, 0.0
	for _, p := range e.Pieces {
		finished += float64(p.Finished) * float64(p.Casts)
		poured += float64(p.Poured) * float64(p.Casts)
		base += float64(p.Plinth) * float64(p.Casts)
	}
	j.FinishedKg, j.PouredKg, j.BaseKg = tidy(finished), tidy(poured), tidy(base)
	if r.Budgeted {
		j.OverBudget, j.Left = r.Left < 0, cur.Text(r.Left)
	}
	return j
}

func printOptions(w io.Writer, o optionsJSON) error {
	p := &printer{w: w}
	p.f("%-26s %9s %14s %14s %10s %9s %6s  %s\n", "Option", "Height", "Price", "Total", "Bronze", "Sections", "Heats", "Lifting")
	for _, x := range o.Options {
		p.f("%-26s %7.3f m %14s %14s %7.1f kg %9d %6d  %s", x.Name, x.HeightM, x.Price, x.Total, x.FinishedKg, x.Sections, x.Heats, x.Lifting)
		if x.Weeks > 0 {
			p.f("  ready in %.1f weeks", x.Weeks)
		}
		switch {
		case x.OverBudget:
			p.f("  %s over the budget", strings.TrimPrefix(x.Left, "-"))
		case x.Left != "":
			p.f("  %s of the budget left", x.Left)
		}
		p.f("\n")
	}
	if o.Largest != nil {
		printLargest(p, o)
	}
	return p.err
}

func printLargest(p *printer, o optionsJSON) {
	l := o.Largest
	metres := func(v float64) string { return quantity.Print(quantity.KindLength, v, quantity.Metric) }
	switch {
	case l.SmallestM == 0:
		p.f("\nIt cannot be made at any height as it stands.\n")
		return
	case l.HeightM == 0:
		p.f("\nNo height fits a budget of %s %s: the smallest whose walls fit the form, %s, takes %s.\n", o.Budget, o.Currency, metres(l.SmallestM), l.Least)
		return
	}
	p.f("\nWithin %s %s: up to %s, %s before tax, %s in all.", o.Budget, o.Currency, metres(l.HeightM), l.Price, l.Total)
	switch {
	case l.Stop != "":
		p.f(" Taller it cannot be made: %s.", l.Stop)
	case l.blocked:
		p.f(" In the way: %s.", l.NextStep)
	case l.NextStep != "":
		p.f(" There the budget ends. Next: %s.", l.NextStep)
	}
	p.f("\n")
}
