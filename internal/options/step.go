package options

import (
	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
)

// Step is a height at which the price jumps.
type Step struct {
	Height quantity.Length // the first that has it; 0 is no step
	Before estimate.Steps
	After  estimate.Steps
	Jump   money.Amount // of what the budget is held against, over one millimetre
}

// nextStep is the next height above mm, and no higher than most, at which
// something jumps and the work can still be made.
func (f *finder) nextStep(mm, most int) Step {
	at := 0
	if mm < most {
		at = f.stepAbove(mm, most)
	}
	if at == 0 || !f.try(at).Holds {
		return Step{}
	}
	a, b := f.try(at-1), f.try(at)
	return Step{length(at), a.Steps, b.Steps, b.asked - a.asked}
}
