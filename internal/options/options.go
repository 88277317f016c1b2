// Package options answers a committee's question, what would another height
// cost, and a budget's, how large can it be. Every option is estimated whole;
// nothing is read off a curve between two.
package options

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

// Result is one option, estimated.
type Result struct {
	Name        string
	Height      quantity.Length // of the first piece, as asked
	Scale       float64         // of life, or of the size it was measured at
	Estimate    *estimate.Estimate
	Commission  estimate.Commission
	Recommended bool
	Why         string
	Left        money.Amount // of the budget; below 0 where it is over
	Budgeted    bool         // there is a budget to hold it against
	Faults      fault.List   // where it cannot be made so; its amounts do not hold then
}

// Fits tells whether the option can be made within the budget, or at all where
// there is none.
func (r Result) Fits() bool { return len(r.Faults) == 0 && (!r.Budgeted || r.Left >= 0) }

// Faults are those of all options, each once.
func Faults(list []Result) (all fault.List) {
	for _, r := range list {
		for _, f := range r.Faults {
			if !has(all, f) {
				all = append(all, f)
			}
		}
	}
	return all
}

// Compare estimates every option of a commission, in their order. With no
// options there is one, the commission itself. Faults that the commission has
// without its options are told as its own, all others with the option's number
// and name.
func Compare(c estimate.Commission, s *shop.Shop) []Result {
	rule := estimate.RuleOf(c, s)
	if len(c.Options) == 0 {
		return []Result{reckon(c, rule, estimate.Option{}, s)}
	}
	out := make([]Result, len(c.Options))
	for i, o := range c.Options {
		out[i] = reckon(c, rule, o, s)
	}
	nameFaults(out, 0, c, s)
	return out
}

// Unchanged tells which options of a commission are what they were in another,
// by their number, so that their results still hold: for a window in which one
// of them is being changed.
func Unchanged(c, was estimate.Commission) []bool {
	same := make([]bool, len(c.Options))
	if len(c.Options) != len(was.Options) || !SameQuote(c, was) {
		return same
	}
	for i := range same {
		same[i] = alike(c.Options[i], was.Options[i])
	}
	return same
}

// SameQuote tells whether two commissions are the same but for their options.
// Scans are large and never change: they are the same where they are one.
func SameQuote(a, b estimate.Commission) bool {
	if len(a.Pieces) != len(b.Pieces) {
		return false
	}
	a.Options, b.Options = nil, nil
	a.Pieces, b.Pieces = slices.Clone(a.Pieces), slices.Clone(b.Pieces)
	for i := range a.Pieces {
		if a.Pieces[i].Scan != b.Pieces[i].Scan {
			return false
		}
		a.Pieces[i].Scan, b.Pieces[i].Scan = nil, nil
	}
	return alike(a, b)
}

// alike tells whether two values would be written alike into a file.
func alike(a, b any) bool {
	x, err1 := json.Marshal(a)
	y, err2 := json.Marshal(b)
	return err1 == nil && err2 == nil && bytes.Equal(x, y)
}

// Again is Compare, but takes over those results of before that are unchanged.
func Again(c estimate.Commission, s *shop.Shop, before []Result, unchanged []bool) []Result {
	if len(unchanged) != len(c.Options) || len(before) != len(unchanged) {
		return Compare(c, s)
	}
	out, rule := slices.Clone(before), estimate.RuleOf(c, s)
	for i, o := range c.Options {
		if !unchanged[i] {
			one := []Result{reckon(c, rule, o, s)}
			nameFaults(one, i, c, s)
			out[i] = one[0]
		}
	}
	return out
}

// reckon estimates one option of a commission whose rule is given.
func reckon(c estimate.Commission, rule estimate.Rule, o estimate.Option, s *shop.Shop) Result {
	r := Result{Name: strings.TrimSpace(o.Name), Recommended: o.Recommended, Why: o.Why}
	d, rule, err := o.ScaledBy(rule, c, s)
	if err != nil {
		r.Faults = fault.All(err)
		return r
	}
	r.Commission, r.Height = d, rule.Height
	if rule.Life > 0 {
		r.Scale = float64(rule.Height / rule.Life)
	}
	if r.Name == "" {
		r.Name = ScaleName(rule)
	}
	e, err := estimate.Of(d, s)
	r.Estimate, r.Faults = e, fault.All(err)
	if rule.Budget > 0 && err == nil {
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

// nameFaults gives the faults of options, counted from first, the options' names,
// but for those that the commission has anyway.
func nameFaults(list []Result, first int, c estimate.Commission, s *shop.Shop) {
	var own fault.List
	read := false
	for i := range list {
		if len(list[i].Faults) == 0 {
			continue
		}
		if !read {
			c.Options = nil
			_, err := estimate.Of(c, s)
			own, read = fault.All(err), true
		}
		for k, f := range list[i].Faults {
			if !has(own, f) {
				list[i].Faults[k] = named(f, first+i, list[i].Name)
			}
		}
	}
}

func has(list fault.List, f fault.Fault) bool { return slices.Contains(list, f) }

// named is a fault of option i.
func named(f fault.Fault, i int, name string) fault.Fault {
	f.Where = fmt.Sprintf("options.%d.%s", i, f.Where)
	option := fmt.Sprintf("option %d", i+1)
	if name != "" {
		option += " (" + name + ")"
	}
	f.Field = f.Field + " of " + option
	return f
}
