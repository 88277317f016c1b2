package estimate

import (
	"math"

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
	rate, exponent, ok2 := money.Small(it.rate.Dec)
	if factor != 1 && ok2 {
		rate, ok2 = coefficientOf(plain(rate, exponent)*factor, 4)
		exponent = -4
	}
	if unit := it.rate.Unit; unit.Size != 0 && unit.Symbol != to.Symbol && ok2 {
		rate, ok2 = coefficientOf(plain(rate, exponent)*to.Size/unit.Size, 4)
		exponent = -4
	}
	if ok1 && ok2 && r.exchange.Sign() == 0 {
		if a, ok := money.Product(q, rate, places-exponent-r.currency.Digits); ok {
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

// plain is a small decimal as the nearest float64: both parts are exact, and
// division rounds once.
func plain(coefficient uint64, exponent int32) float64 {
	return float64(coefficient) / float64(money.Tens[-exponent])
}

// coefficientOf is the coefficient of money.Round(v, places) of a v from 0 up;
// false where that is large.
func coefficientOf(v float64, places int32) (uint64, bool) {
	scaled := v * float64(money.Tens[places])
	if !(scaled >= 0 && scaled < 1e15 && v < 9e12) {
		return 0, false
	}
	return uint64(math.Round(scaled + min(scaled*1e-12, 1e-6))), true
}
