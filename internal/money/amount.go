// Package money holds exact amounts: whole minor units of one currency (cents,
// yen, fils), never binary fractions. It multiplies them by decimal quantities,
// takes shares, solves prices that contain shares of themselves, rounds to a
// step and splits so that the parts add to the whole.
//
// Rounding is half away from zero everywhere: what a desk calculator does.
package money

import (
	"math"
	"slices"
	"strings"

	"github.com/bojanz/currency"
	"github.com/shopspring/decimal"

	"meltwright/internal/fault"
)

// Amount is a sum of money in minor units of the currency it is kept with.
type Amount int64

// Most is the largest amount the program works with; dearer input is an error,
// so that no sum of a few thousand lines can overflow. What is reckoned and
// comes to more is Most + 1, or its negative, whatever it would have been: no
// amount ever wraps round.
const Most Amount = 1e15

var beyond = decimal.New(int64(Most)+1, 0)

// whole rounds d, in minor units, to an Amount.
func whole(d Decimal) Amount {
	d = d.Round(0)
	switch {
	case d.Cmp(beyond) >= 0:
		return Most + 1
	case d.Neg().Cmp(beyond) >= 0:
		return -Most - 1
	}
	return Amount(d.IntPart())
}

// Decimal is an exact decimal number: a quantity, a rate or a share.
type Decimal = decimal.Decimal

// Currency is an ISO 4217 currency with its number of decimals (0 to 4; two for
// most, none for the yen, three for the dinars).
type Currency struct {
	Code   string
	Digits int32
}

// NewCurrency finds a currency by its ISO 4217 code. The error is a Fault.
func NewCurrency(code string) (Currency, error) {
	upper := strings.ToUpper(strings.TrimSpace(code))
	d, ok := currency.GetDigits(upper)
	if !ok {
		return Currency{}, fault.Fault{Field: "Currency", Value: shown(code), Problem: "is no currency code", Remedy: "give three letters such as CAD, USD, EUR or JPY"}
	}
	return Currency{upper, int32(d)}, nil
}

// Codes lists every currency code, in alphabetical order.
func Codes() []string { return slices.Sorted(slices.Values(currency.GetCurrencyCodes())) }

// Of rounds a decimal number of whole units ("12.345" dollars) to an Amount.
func (c Currency) Of(d Decimal) Amount { return whole(d.Shift(c.Digits)) }

// Decimal gives a in whole units of the currency.
func (c Currency) Decimal(a Amount) Decimal { return decimal.New(int64(a), -c.Digits) }

// Times is quantity × rate, rounded to the smallest unit: a line of an estimate.
func (c Currency) Times(quantity, rate Decimal) Amount {
	q, e1, ok1 := Small(quantity)
	r, e2, ok2 := Small(rate)
	if ok1 && ok2 {
		if a, ok := Product(q, r, -e1-e2-c.Digits); ok {
			return a
		}
	}
	return c.Of(quantity.Mul(rate))
}

// Round makes a Decimal of v with places decimals, half away from zero. A
// number beyond reckoning (infinite, or more than nine million million) is cut
// to that, so that no conversion is undefined.
func Round(v float64, places int32) Decimal {
	const most = 9e12
	switch {
	case math.IsNaN(v):
		v = 0
	case v > most:
		v = most
	case v < -most:
		v = -most
	}
	scaled := v * math.Pow10(int(places))
	if math.Abs(scaled) >= math.MaxInt64/2 {
		return decimal.NewFromFloat(v).Round(places)
	}
	// A product that is a half but for the last bits of a float64 is a half.
	scaled += math.Copysign(min(math.Abs(scaled)*1e-12, 1e-6), scaled)
	return decimal.New(int64(math.Round(scaled)), -places)
}
