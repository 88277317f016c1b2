package main

import (
	"context"
	"io"
	"strings"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/money"
	"meltwright/internal/options"
	"meltwright/internal/quantity"
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
		Lifting    string  `json:"lifting"`
		BaseKg     float64 `json:"base_kg"`
		OverBudget bool    `json:"over_budget"`
		Left       string  `json:"left,omitempty"`
		Why        string  `json:"why,omitempty"`
	}
	largestJSON struct {
		HeightM  float64 `json:"height_m"`
		Price    string  `json:"price"`
		Total    string  `json:"total"`
		NextStep string  `json:"next_step"`
	}
)

// runOptions compares heights of a commission, and finds the largest that a
// budget holds.
func runOptions(ctx context.Context, out io.Writer, args []string) error {
	rest, opt, err := parseOptions(args, []string{"--db", "--heights", "--budget"}, []string{"--json", "--before-tax"})
	if err != nil {
		return err
	}
	if len(rest) != 1 {
		return usageError("it takes one commission file")
	}
	return commissionAndDesk(ctx, rest[0], opt["--db"], func(c estimate.Commission, d *desk.Desk) error {
		if opt["--budget"] != "" {
			c = c.With(estimate.Whole, "price.budget", opt["--budget"])
		}
		if opt["--before-tax"] != "" {
			c = c.With(estimate.Whole, "price.budget_is", "before tax")
		}
		if opt["--heights"] != "" {
			c.Options = nil
			for _, h := range strings.Split(opt["--heights"], ",") {
				c.Options = append(c.Options, estimate.Option{Height: strings.TrimSpace(h)})
			}
		}
		o, err := optionsOf(c, d)
		if err != nil {
			return err
		}
		if opt["--json"] != "" {
			return writeJSON(out, o)
		}
		return printOptions(out, o)
	})
}

func optionsOf(c estimate.Commission, d *desk.Desk) (optionsJSON, error) {
	results := options.Compare(c, d.Shop())
	var faults fault.List
	for _, r := range results {
		faults = append(faults, r.Faults...)
	}
	if err := faults.Err(); err != nil {
		return optionsJSON{}, err
	}
	cur := results[0].Estimate.Currency
	o := optionsJSON{Currency: cur.Code}
	for _, r := range results {
		o.Options = append(o.Options, optionOf(r, cur))
	}
	rule := estimate.RuleOf(c, d.Shop())
	if rule.Budget == 0 {
		return o, nil
	}
	o.Budget = cur.Text(rule.Budget)
	fit, err := options.Largest(c, d.Shop(), rule.Budget, rule.BeforeTax)
	if err != nil {
		return o, err
	}
	o.Largest = &largestJSON{tidy(float64(fit.Height)), cur.Text(fit.Price), cur.Text(fit.Total), fit.NextStep.Words(options.Names(results[0].Estimate), results[0].Estimate.System)}
	return o, nil
}

func optionOf(r options.Result, cur money.Currency) optionJSON {
	e := r.Estimate
	j := optionJSON{
		Name: r.Name, HeightM: tidy(float64(r.Height)), Scale: tidy(r.Scale), Price: cur.Text(e.Price), Total: cur.Text(e.Total),
		Sections: e.Sections, Heats: len(e.Heats), PourDays: e.PourDays, Lifting: e.Lift.By, Why: r.Why,
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
		if x.Left != "" {
			p.f("  %s of the budget left", x.Left)
		}
		p.f("\n")
	}
	if l := o.Largest; l != nil {
		if l.HeightM == 0 {
			p.f("\nNo height fits a budget of %s %s.\n", o.Budget, o.Currency)
			return p.err
		}
		p.f("\nWithin %s %s: up to %s, %s in all. Next: %s.\n", o.Budget, o.Currency, quantity.Print(quantity.KindLength, l.HeightM, quantity.Metric), l.Total, l.NextStep)
	}
	return p.err
}
