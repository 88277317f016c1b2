package risk

import (
	"cmp"
	"math"
	"slices"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
)

// Driver is how far one input alone swings the price, from its tenth to its
// ninetieth part in a hundred.
type Driver struct {
	Key       string // of the factor; empty for failed castings
	Piece     int    // of the factor
	Name      string
	Low, High money.Amount // change of price
}

// Swing is the whole width of the swing.
func (d Driver) Swing() money.Amount { return max(d.High-d.Low, d.Low-d.High) }

// drivers swings each input alone between its tenth and ninetieth part in a
// hundred, all others as estimated, and sorts by the width of the swing.
func (t *Trials) drivers() []Driver {
	still := estimate.Still(t.model.Pieces())
	base := t.model.Try(&still).Price
	var out []Driver
	for k, f := range t.factors {
		v := estimate.Still(t.model.Pieces())
		swing := func(u float64) money.Amount {
			f.apply(&v, t.tables[k].of(u))
			return t.model.Try(&v).Price - base
		}
		out = append(out, Driver{f.Key, f.Piece, f.Name, swing(0.1), swing(0.9)})
	}
	failed := func(u float64) money.Amount {
		v := estimate.Still(t.model.Pieces())
		v.Fail = func(_, sections int) int { return failuresAt(u, sections, t.model.Yield()) }
		return t.model.Try(&v).Price - base
	}
	out = append(out, Driver{"", estimate.Whole, "Failed castings", failed(0.1), failed(0.9)})
	slices.SortStableFunc(out, func(a, b Driver) int { return cmp.Compare(b.Swing(), a.Swing()) })
	return out
}

// failuresAt is the quantile at u of how many castings fail before n are good:
// the negative binomial, summed from none up. Where none at all is too unlikely
// for that, it is as good as normal.
func failuresAt(u float64, n int, y float64) int {
	if y >= 1 || n == 0 {
		return 0
	}
	k := float64(n)
	none := k * math.Log(y)
	if none < -600 {
		mean, deviation := k*(1-y)/y, math.Sqrt(k*(1-y))/y
		return int(math.Ceil(mean + deviation*math.Sqrt2*math.Erfinv(2*u-1)))
	}
	p := math.Exp(none)
	failed := 0
	for sum := p; sum < u && p > 0; sum += p {
		p *= (k + float64(failed)) / float64(failed+1) * (1 - y)
		failed++
	}
	return failed
}
