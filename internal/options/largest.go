package options

import (
	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

// Fit is the tallest height whose price keeps within a budget.
type Fit struct {
	Height   quantity.Length // to the millimetre; 0 where not even the smallest fits
	Price    money.Amount
	Total    money.Amount
	Steps    estimate.Steps  // at Height
	Smallest quantity.Length // the least height whose walls fit the form; 0 where nothing can be made
	Least    money.Amount    // what the budget would be held against at Smallest
	NextStep Step            // what jumps next above Height; none where its height is 0
	Stop     fault.List      // why taller cannot be made at all, where it is that and not the budget
}

// Blocked tells whether it is the next step that the budget does not hold, and
// not the height alone.
func (f Fit) Blocked() bool {
	return f.Height > 0 && f.NextStep.Height > 0 && f.NextStep.Height < f.Height+1.5*millimetre
}

// Largest finds the tallest height of the first piece, in whole millimetres, at
// which the commission is within the budget, before tax or with it, up to
// Tallest. It is exact across the steps that sections, heats, pour days and
// cranes make, where the price may fall with height: it begins at the height
// from which no saving could bring it within the budget any more, and goes down
// from there, step by step, to the first that is. The error is the commission's
// faults.
func Largest(c estimate.Commission, s *shop.Shop, budget money.Amount, beforeTax bool) (Fit, error) {
	f, err := newFinder(c, s, beforeTax)
	if err != nil {
		return Fit{}, err
	}
	low, ok := f.smallest()
	if !ok {
		return Fit{}, nil
	}
	fit := Fit{Smallest: length(low), Least: f.try(low).asked}
	best := f.largest(low, budget)
	if best == 0 {
		return fit, nil
	}
	t := f.try(best)
	fit.Height, fit.Price, fit.Total, fit.Steps = length(best), t.Price, t.Total, t.Steps
	fit.NextStep = f.nextStep(best, tallest)
	if best < tallest && !f.try(best+1).Holds {
		_, err := estimate.Of(f.rule.At(f.commission, length(best+1)), s)
		fit.Stop = fault.All(err)
	}
	return fit, nil
}

// Smallest is the least height of the first piece, in whole millimetres, at which
// the walls of all pieces fit their forms; 0 where nothing can be made at it. The
// error is the commission's faults.
func Smallest(c estimate.Commission, s *shop.Shop) (quantity.Length, error) {
	f, err := newFinder(c, s, false)
	if err != nil {
		return 0, err
	}
	mm, ok := f.smallest()
	if !ok {
		return 0, nil
	}
	return length(mm), nil
}

// largest goes down from the last height that could be within the budget.
func (f *finder) largest(low int, budget money.Amount) int {
	high := f.last(low, func(t tried) bool { return t.Holds && t.floor <= budget })
	for high >= low {
		from := max(f.stepBelow(high), low)
		if f.try(from).asked <= budget {
			// Between two steps the price only rises.
			return f.lastWithin(from, high, func(t tried) bool { return t.asked <= budget })
		}
		high = from - 1
	}
	return 0
}
