package options

import (
	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

// Heights are looked at in whole millimetres, up to the tallest.
const (
	millimetre = quantity.Length(0.001)
	tallest    = 30000
	// Tallest is the height up to which Largest looks.
	Tallest = tallest * millimetre
)

func length(mm int) quantity.Length { return quantity.Length(mm) / 1000 }

// finder tries heights of one commission, each once.
type finder struct {
	commission estimate.Commission
	model      *estimate.Model
	rule       estimate.Rule
	beforeTax  bool
	kept       map[int]tried
}

// tried is a trial with what a budget is held against.
type tried struct {
	estimate.Trial
	asked, floor money.Amount
}

func newFinder(c estimate.Commission, s *shop.Shop, beforeTax bool) (*finder, error) {
	c.Options = nil
	m, err := estimate.NewModel(c, s)
	if err != nil {
		return nil, err
	}
	return &finder{c, m, estimate.RuleOf(c, s), beforeTax, map[int]tried{}}, nil
}

func (f *finder) try(mm int) tried {
	if t, ok := f.kept[mm]; ok {
		return t
	}
	t := tried{Trial: f.model.TryAt(f.rule, length(mm))}
	t.asked, t.floor = t.Total, t.FloorTotal
	if f.beforeTax {
		t.asked, t.floor = t.Price, t.Floor
	}
	f.kept[mm] = t
	return t
}

// own is the commission's own height, to the millimetre.
func (f *finder) own() int { return max(1, min(int(f.rule.Height/millimetre+0.5), tallest)) }

// smallest is the least height whose walls fit the form; false where nothing can
// be made at it.
func (f *finder) smallest() (int, bool) {
	fits := func(mm int) bool { return f.model.WallFits(f.rule, length(mm)) }
	low, high := 0, f.own()
	for !fits(high) {
		if high == tallest {
			return 0, false
		}
		low, high = high, min(2*high, tallest)
	}
	for high-low > 1 {
		if mid := (low + high) / 2; fits(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return high, f.try(high).Holds
}

// last is the last height from low on for which is holds, which holds up to some
// height and not beyond; below low if it never does. It feels its way up from
// the commission's own height, because what is large takes longer to estimate.
func (f *finder) last(low int, is func(tried) bool) int {
	if !is(f.try(low)) {
		return low - 1
	}
	high := max(low, f.own())
	for high < tallest && is(f.try(high)) {
		low, high = high, min(high*4/3+1, tallest)
	}
	return f.lastWithin(low, high, is)
}

// lastWithin is the last height for which is holds between low, for which it
// does, and high.
func (f *finder) lastWithin(low, high int, is func(tried) bool) int {
	if is(f.try(high)) {
		return high
	}
	for high-low > 1 {
		if mid := (low + high) / 2; is(f.try(mid)) {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// stepBelow is the lowest height from which on to mm nothing jumps, as far as
// that can be told.
func (f *finder) stepBelow(mm int) int {
	now := f.try(mm).Steps
	if now.Uneven {
		return mm
	}
	same, other, by := mm, mm-1, 1
	for other > 0 && f.try(other).Steps.Same(now) {
		same, by = other, by*2
		other = mm - by
	}
	other = max(other, 0)
	for same-other > 1 {
		if mid := (same + other) / 2; f.try(mid).Steps.Same(now) {
			same = mid
		} else {
			other = mid
		}
	}
	return same
}

// stepAbove is the first height above mm, and no higher than most, at which
// something jumps; 0 if nothing does.
func (f *finder) stepAbove(mm, most int) int {
	now := f.try(mm).Steps
	same, other, by := mm, min(mm+1, most), 1
	for f.try(other).Steps.Same(now) {
		if other == most {
			return 0
		}
		same, by = other, by*2
		other = min(mm+by, most)
	}
	for other-same > 1 {
		if mid := (same + other) / 2; f.try(mid).Steps.Same(now) {
			same = mid
		} else {
			other = mid
		}
	}
	return other
}
