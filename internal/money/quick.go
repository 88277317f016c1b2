package money

import (
	"math"
	"math/bits"
)

// Small is the coefficient and the exponent of a decimal that is not negative
// and whose coefficient is a float64 too; false of any other.
func Small(d Decimal) (coefficient uint64, exponent int32, ok bool) {
	if d.Sign() < 0 || d.Exponent() > 0 || d.Exponent() < -15 || d.NumDigits() > 15 {
		return 0, 0, false
	}
	return uint64(d.CoefficientInt64()), d.Exponent(), true
}

// Product is a × b with so many decimals dropped, half away from zero; false
// where that is more than can be reckoned so.
func Product(a, b uint64, decimals int32) (Amount, bool) {
	if decimals < 0 || decimals > 18 {
		return 0, false
	}
	high, low := bits.Mul64(a, b)
	if unit := Tens[decimals]; high == 0 && low < math.MaxInt64/2 {
		amount := Amount((low + unit/2) / unit)
		return amount, amount <= Most
	}
	return 0, false
}

// quickGrossUp is GrossUp in whole numbers; false where that is more than can be
// reckoned so, or where nothing of the price is left.
func quickGrossUp(cost Amount, share Decimal) (Amount, bool) {
	k, exponent, ok := Small(share)
	if !ok || cost < 0 || k >= Tens[-exponent] {
		return 0, false
	}
	high, low := bits.Mul64(uint64(cost), Tens[-exponent])
	left := Tens[-exponent] - k
	if high >= left {
		return 0, false
	}
	p, rest := bits.Div64(high, low, left)
	if rest >= left-rest {
		p++
	}
	return Amount(p), p <= uint64(Most)
}

// Tens are the powers of ten.
var Tens = func() (t [19]uint64) {
	t[0] = 1
	for i := 1; i < len(t); i++ {
		t[i] = 10 * t[i-1]
	}
	return t
}()
