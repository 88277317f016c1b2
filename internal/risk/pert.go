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

// Mean is (a + 4m + b)/6: Malcolm, Roseboom, Clark & Fazar, Operations Research
// 7(5):646–669, 1959. The mean of what is drawn is the same.
func (p Points) Mean() float64 { return (p.Low + 4*p.Likely + p.High) / 6 }

// Deviation is (b − a)/6, of the same source: the standard deviation that three
// points stand for in a reckoning by hand. Draws have the Beta distribution's
// own, √((μ − a)(b − μ)/7).
func (p Points) Deviation() float64 { return (p.High - p.Low) / 6 }

// The quantiles are tabulated at the deviates of a normal distribution from −6
// to 6, a hundred and twenty-eighth apart, and are straight lines between:
// within 10⁻⁵ of the span. One draw in five hundred million lies beyond.
const (
	reach = 6
	fine  = 128
)

// quantiles is the inverse of a PERT distribution's cumulative function, by the
// normal deviate of the same chance: a trial asks for it ten thousand times a
// factor.
type quantiles struct {
	x [2*reach*fine + 1]float64
}

// tabulate fills in the PERT distribution of p: Beta(1 + 4(m−a)/(b−a), 1 +
// 4(b−m)/(b−a)) between a and b. Points that agree make a constant.
func (q *quantiles) tabulate(p Points) {
	span := p.High - p.Low
	if span < 1e-9 {
		for i := range q.x {
			q.x[i] = p.Likely
		}
		return
	}
	below := distuv.Beta{Alpha: 1 + 4*(p.Likely-p.Low)/span, Beta: 1 + 4*(p.High-p.Likely)/span}
	above := distuv.Beta{Alpha: below.Beta, Beta: below.Alpha}
	for i := range q.x {
		// Each half from its own end, where small chances are exact.
		if z := float64(i)/fine - reach; z <= 0 {
			q.x[i] = p.Low + float64(span*below.Quantile(normalCDF(z)))
		} else {
			q.x[i] = p.High - float64(span*above.Quantile(normalCDF(-z)))
		}
	}
}

// at gives the quantile at a normal deviate, to nine decimals: what machines
// differ by in the last bits of a float64 does not come through.
func (q *quantiles) at(z float64) float64 {
	k := float64((math.Min(math.Max(z, -reach), reach) + reach) * fine)
	i := min(int(k), len(q.x)-2)
	step := float64((q.x[i+1] - q.x[i]) * (k - float64(i)))
	return math.Round(float64((q.x[i]+step)*1e9)) / 1e9
}

// of gives the quantile at a chance from 0 to 1.
func (q *quantiles) of(u float64) float64 { return q.at(math.Sqrt2 * math.Erfinv(2*u-1)) }

// normalCDF is Φ.
func normalCDF(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }
