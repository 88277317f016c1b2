// Package options answers a committee's question, what would another height
// cost, and a budget's, how large can it be. Every option is estimated whole;
// nothing is read off a curve between two.
package options

import (
	"fmt"
	"math"

	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

// Result is one option, estimated.
type Result struct {
	Name        string
	Height      quantity.Length // of the first piece, in bronze as asked
	Scale       float64         // of life, or of the size it was measured at
	Estimate    *estimate.Estimate
	Commission  estimate.Commission
	Recommended bool
	Why         string
	Left        money.Amount // of the budget; below 0 where it is over
	Budgeted    bool         // there is a budget
	Faults      fault.List   // where it cannot be made so
}

// Compare estimates every option of a commission, in their order. With no
// options there is one, the commission itself.
func Compare(c estimate.Commission, s *shop.Shop) []Result {
	list := c.Options
	if len(list) == 0 {
		list = []estimate.Option{{}}
	}
	out := make([]Result, len(list))
	for i, o := range list {
		out[i] = one(c, o, i, s)
	}
	return out
}

func one(c estimate.Commission, o estimate.Option, at int, s *shop.Shop) Result {
	r := Result{Name: o.Name, Recommended: o.Recommended, Why: o.Why}
	d, err := o.Apply(c, s)
	if err != nil {
		f := fault.All(err)[0]
		f.Where, f.Field = fmt.Sprintf("options.%d.height", at), "Height of option "+fmt.Sprint(at+1)
		r.Faults = fault.List{f}
		return r
	}
	rule := estimate.RuleOf(d, s)
	r.Commission, r.Height = d, rule.Height
	if rule.Life > 0 {
		r.Scale = float64(rule.Height / rule.Life)
	}
	if r.Name == "" {
		r.Name = ScaleName(r.Scale, rule.Figure, rule.Height)
	}
	e, err := estimate.Of(d, s)
	r.Estimate, r.Faults = e, fault.All(err)
	if rule.Budget > 0 {
		r.Budgeted, r.Left = true, rule.Budget-asked(e, rule.BeforeTax)
	}
	return r
}

// asked is the amount that a budget is held against.
func asked(e *estimate.Estimate, beforeTax bool) money.Amount {
	if beforeTax {
		return e.Price
	}
	return e.Total
}

// scaleNames are the trade's words for scales of life.
var scaleNames = []struct {
	scale float64
	name  string
}{
	{0.25, "Quarter life size"},
	{1.0 / 3, "One-third life size"},
	{0.5, "Half life size"},
	{0.75, "Three-quarter life size"},
	{1, "Life size"},
	{1.25, "Life and a quarter"},
	{1.5, "Life and a half"},
	{2, "Twice life size"},
}

// ScaleName is the trade's word for a scale where one fits within a hundredth,
// and the height otherwise. Only figures are named by life.
func ScaleName(scale float64, figure bool, h quantity.Length) string {
	for _, n := range scaleNames {
		if figure && math.Abs(scale/n.scale-1) < 0.01 {
			return n.name
		}
	}
	return quantity.Print(quantity.KindLength, float64(h), quantity.Metric)
}
