package options

import (
	"slices"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

// Fit is the tallest height whose price keeps within a budget.
type Fit struct {
	Height   quantity.Length // to the millimetre; 0 where not even the smallest fits
	Price    money.Amount
	Total    money.Amount
	Smallest quantity.Length // below it the wall does not fit the form
	NextStep Step            // what comes next above Height
	Steps    estimate.Steps  // at Height
}

// Step is a height at which the price jumps.
type Step struct {
	Height quantity.Length
	Before estimate.Steps
	After  estimate.Steps
	Jump   money.Amount // of what the budget is held against, over one millimetre
}

const millimetre = quantity.Length(0.001)

// tallest is the largest height that is looked at.
const tallest = 30000 // millimetres

// finder looks for heights in whole millimetres.
type finder struct {
	model  *estimate.Model
	rule   estimate.Rule
	budget money.Amount
	before bool
	kept   map[int]tried
}

type tried struct {
	asked money.Amount
	heats int
	total money.Amount
	price money.Amount
	steps estimate.Steps
	ok    bool
}

// Largest finds the tallest height of the first piece, in whole millimetres, at
// which the commission is within the budget, before tax or with it. It is exact
// across the steps that sections, heats, pour days and cranes make: the price
// falls with height only where another section lets fewer heats hold the whole,
// and every such place that could bring it within the budget is looked at.
func Largest(c estimate.Commission, s *shop.Shop, budget money.Amount, beforeTax bool) (Fit, error) {
	rule := estimate.RuleOf(c, s)
	c.Options = nil
	m, err := estimate.NewModel(c, s)
	if err != nil {
		return Fit{}, err
	}
	f := &finder{m, rule, budget, beforeTax, map[int]tried{}}
	low := f.smallest()
	fit := Fit{Smallest: quantity.Length(low) * millimetre}
	best := f.bisect(low, f.over(low))
	best = f.above(best)
	if best < low || !f.fits(best) {
		return fit, nil
	}
	t := f.try(best)
	fit.Height, fit.Price, fit.Total, fit.Steps = quantity.Length(best)*millimetre, t.price, t.total, t.steps
	fit.NextStep = f.nextStep(best)
	return fit, nil
}

func (f *finder) try(mm int) tried {
	if t, ok := f.kept[mm]; ok {
		return t
	}
	o, steps, ok := f.model.TryAt(f.rule, quantity.Length(mm)*millimetre)
	t := tried{asked: o.Total, heats: o.Heats, total: o.Total, price: o.Price, steps: steps, ok: ok}
	if f.before {
		t.asked = o.Price
	}
	f.kept[mm] = t
	return t
}

func (f *finder) fits(mm int) bool {
	t := f.try(mm)
	return t.ok && t.asked <= f.budget
}

// smallest is the least height whose walls fit the form.
func (f *finder) smallest() int {
	low, high := 1, max(2, int(f.rule.Height/millimetre))
	for !f.try(high).ok && high < tallest {
		high *= 2
	}
	for low < high {
		mid := (low + high) / 2
		if f.try(mid).ok {
			high = mid
		} else {
			low = mid + 1
		}
	}
	return low
}

// over is a height that is too dear, or the tallest of all.
func (f *finder) over(low int) int {
	high := max(low+1, int(f.rule.Height/millimetre))
	for high < tallest && f.fits(high) {
		high = high * 3 / 2
	}
	return min(high, tallest)
}

// bisect finds the last height that fits between one that does and one that
// does not, as if the price never fell.
func (f *finder) bisect(low, high int) int {
	if !f.fits(low) {
		return low - 1
	}
	if f.fits(high) {
		return high
	}
	for high-low > 1 {
		mid := (low + high) / 2
		if f.fits(mid) {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// above looks beyond best for heights where another section saves heats. The
// price cannot fall by more than its heats cost: past that nothing fits.
func (f *finder) above(best int) int {
	at := max(best, 1)
	for at < tallest {
		at = f.nextSections(at)
		t := f.try(at)
		if !t.ok || t.asked-f.heatsCost(at) > f.budget {
			return best
		}
		if f.fits(at) {
			end := f.nextSections(at) - 1
			best = f.bisect(at, end)
			at = best
		}
	}
	return best
}

// heatsCost bounds what a height pays for its heats: what the price would fall
// by if all but one were saved, measured on the estimate itself.
func (f *finder) heatsCost(mm int) money.Amount {
	t := f.try(mm)
	return f.model.HeatPrice() * money.Amount(max(t.heats-1, 0))
}

// nextSections is the next height above mm at which some piece has more
// sections.
func (f *finder) nextSections(mm int) int {
	now := f.sections(mm)
	step := 1
	high := mm + step
	for high < tallest && slices.Equal(f.sections(high), now) {
		step *= 2
		high = mm + step
	}
	low := mm
	for high-low > 1 {
		mid := (low + high) / 2
		if slices.Equal(f.sections(mid), now) {
			low = mid
		} else {
			high = mid
		}
	}
	return min(high, tallest)
}

func (f *finder) sections(mm int) []int {
	return f.model.SectionsAt(f.rule, quantity.Length(mm)*millimetre)
}

// nextStep is the next height above mm at which something jumps.
func (f *finder) nextStep(mm int) Step {
	now := f.try(mm).steps
	step, high := 1, mm+1
	for high < tallest && same(f.try(high).steps, now) {
		step *= 2
		high = mm + step
	}
	low := mm
	for high-low > 1 {
		mid := (low + high) / 2
		if same(f.try(mid).steps, now) {
			low = mid
		} else {
			high = mid
		}
	}
	a, b := f.try(high-1), f.try(high)
	return Step{quantity.Length(high) * millimetre, a.steps, b.steps, b.asked - a.asked}
}

func same(a, b estimate.Steps) bool {
	return a.Heats == b.Heats && a.Days == b.Days && a.Loads == b.Loads && a.Lift == b.Lift && a.Frames == b.Frames && a.Stamps == b.Stamps &&
		slices.Equal(a.Sections, b.Sections) && slices.Equal(a.Coats, b.Coats)
}
