// Package risk says how sure an estimate is: it varies every uncertain input of
// a commission, draws which castings fail, estimates the whole anew each time,
// with its heats, pour days and cranes, and reports where the cost and the price
// come to lie.
package risk

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Points are what somebody holds possible of a number: at least, most likely, at
// most.
type Points struct {
	Low, Likely, High float64
}

// Sure is a number known for certain.
func Sure(v float64) Points { return Points{v, v, v} }

// Sane tells whether low ≤ likely ≤ high and all are finite.
func (p Points) Sane() bool {
	return p.Low <= p.Likely && p.Likely <= p.High && !math.IsInf(p.High-p.Low, 0) && !math.IsNaN(p.High-p.Low)
}

// Mean is (a + 4m + b)/6 and Deviation (b − a)/6: Malcolm, Roseboom, Clark &
// Fazar, Operations Research 7(5):646–669, 1959.
func (p Points) Mean() float64 { return (p.Low + 4*p.Likely + p.High) / 6 }

// Deviation is the standard deviation the three points stand for.
func (p Points) Deviation() float64 { return (p.High - p.Low) / 6 }

// tableSize is how many steps the quantiles are tabulated in; between them they
// are straight lines.
const tableSize = 2048

// quantiles is the inverse of a PERT distribution's cumulative function,
// tabulated: a trial asks for it ten thousand times a factor.
type quantiles struct {
	at [tableSize + 1]float64
}

// Quantiles tabulates the PERT distribution of p: Beta(1 + 4(m−a)/(b−a), 1 +
// 4(b−m)/(b−a)) between a and b. Points that agree make a constant.
func (p Points) quantiles() *quantiles {
	q := &quantiles{}
	span := p.High - p.Low
	if span == 0 {
		for i := range q.at {
			q.at[i] = p.Low
		}
		return q
	}
	b := distuv.Beta{Alpha: 1 + 4*(p.Likely-p.Low)/span, Beta: 1 + 4*(p.High-p.Likely)/span}
	for i := range q.at {
		switch u := float64(i) / tableSize; u {
		case 0:
			q.at[i] = p.Low
		case 1:
			q.at[i] = p.High
		default:
			q.at[i] = p.Low + span*b.Quantile(u)
		}
	}
	return q
}

// of gives the quantile at u from 0 to 1.
func (q *quantiles) of(u float64) float64 {
	x := math.Min(math.Max(u, 0), 1) * tableSize
	i := min(int(x), tableSize-1)
	return q.at[i] + (q.at[i+1]-q.at[i])*(x-float64(i))
}

// normalCDF is Φ.
func normalCDF(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }
