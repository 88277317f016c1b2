package estimate

import (
	"math"
	"math/bits"

	"meltwright/internal/money"
)

// A trial needs sums only. Its lines come to the same cents as those of the
// estimate, but are reckoned in whole numbers wherever those are small enough,
// as nearly all are, and hold nothing that would only be printed.

// tally writes a line of a trial.
func (r *run) tally(st *Stage, it *item) {
	factor := r.varied(st, it)
	l := Line{Stage: st.ID, Piece: Whole, Item: it.name, Amount: r.amount(it, factor), Class: it.class, Once: st.Once}
	if it.piece != nil {
		l.Piece = it.piece.index
	}
	if it.class == Labour {
		l.Hours = it.q.v
	}
	r.est.Lines = append(r.est.Lines, l)
}

// amount is what a line comes to at so many times its rate.
func (r *run) amount(it *item, factor float64) money.Amount {
	to, places := r.printedIn(it.unit)
	q, ok1 := coefficientOf(it.q.v*it.unit.Size/to.Size, places)
	rate, exponent, ok2 := small(it.rate.Dec)
	if factor != 1 && ok2 {
		rate, ok2 = coefficientOf(plain(rate, exponent)*factor, 4)
		exponent = -4
	}
	if unit := it.rate.Unit; unit.Size != 0 && unit.Symbol != to.Symbol && ok2 {
		rate, ok2 = coefficientOf(plain(rate, exponent)*to.Size/unit.Size, 4)
		exponent = -4
	}
	if ok1 && ok2 && r.exchange.Sign() == 0 {
		if a, ok := product(q, rate, places-exponent-r.currency.Digits); ok {
			return a
		}
	}
	varied := it.rate
	if factor != 1 {
		varied.Dec = money.Round(varied.Dec.InexactFloat64()*factor, 4)
	}
	dec, unit := r.priceRate(varied, it.unit)
	return r.currency.Times(money.Round(it.q.v*it.unit.Size/unit.Size, places), dec)
}

// product is a × b with so many decimals dropped, half away from zero; false
// where that is more than can be reckoned so.
func product(a, b uint64, decimals int32) (money.Amount, bool) {
	if decimals < 0 || decimals > 18 {
		return 0, false
	}
	high, low := bits.Mul64(a, b)
	if unit := tens[decimals]; high == 0 && low < math.MaxInt64/2 {
		amount := money.Amount((low + unit/2) / unit)
		return amount, amount <= money.Most
	}
	return 0, false
}

// partOf is money.Part.
func partOf(a money.Amount, share money.Decimal) money.Amount {
	if s, exponent, ok := small(share); ok && a >= 0 {
		if part, ok := product(uint64(a), s, -exponent); ok {
			return part
		}
	}
	return money.Part(a, share)
}

// small is the coefficient and the exponent of a decimal that is not negative
// and whose coefficient is a float64 too.
func small(d money.Decimal) (coefficient uint64, exponent int32, ok bool) {
	if d.Sign() < 0 || d.Exponent() > 0 || d.Exponent() < -15 || d.NumDigits() > 15 {
		return 0, 0, false
	}
	return uint64(d.CoefficientInt64()), d.Exponent(), true
}

// plain is a small decimal as the nearest float64: both parts are exact, and
// division rounds once.
func plain(coefficient uint64, exponent int32) float64 {
	return float64(coefficient) / float64(tens[-exponent])
}

// coefficientOf is the coefficient of money.Round(v, places) of a v from 0 up;
// false where that is large.
func coefficientOf(v float64, places int32) (uint64, bool) {
	scaled := v * float64(tens[places])
	if !(scaled >= 0 && scaled < 1e15 && v < 9e12) {
		return 0, false
	}
	return uint64(math.Round(scaled + min(scaled*1e-12, 1e-6))), true
}

// tens are the powers of ten.
var tens = func() (t [19]uint64) {
	t[0] = 1
	for i := 1; i < len(t); i++ {
		t[i] = 10 * t[i-1]
	}
	return t
}()
