// Package money holds exact amounts: whole minor units of one currency (cents,
// yen, fils), never binary fractions. It multiplies them by decimal quantities,
// takes shares, solves prices that contain shares of themselves, rounds to a
// step and splits so that the parts add to the whole.
//
// Rounding is half away from zero everywhere: what a desk calculator does.
package money

import (
	"math"
	"strings"

	"github.com/bojanz/currency"
	"github.com/shopspring/decimal"

	"meltwright/internal/fault"
	"meltwright/internal/quantity"
)

// Amount is a sum of money in minor units of the currency it is kept with.
type Amount int64

// Most is the largest amount the program works with; dearer input is an error,
// so that no sum of a few thousand lines can overflow.
const Most Amount = 1e15

// Decimal is an exact decimal number: a quantity, a rate or a share.
type Decimal = decimal.Decimal

// Currency is an ISO 4217 currency with its number of decimals (0 to 4).
type Currency struct {
	Code   string
	Digits int32
}

// NewCurrency finds a currency by its ISO 4217 code. The error is a Fault.
func NewCurrency(code string) (Currency, error) {
	code = strings.ToUpper(strings.TrimSpace(code))
	d, ok := currency.GetDigits(code)
	if !ok {
		return Currency{}, fault.Fault{Field: "Currency", Value: code, Problem: "is no currency code", Remedy: "give three letters such as CAD, USD, EUR or JPY"}
	}
	return Currency{code, int32(d)}, nil
}

// Codes lists every currency code, in alphabetical order.
func Codes() []string { return currency.GetCurrencyCodes() }

// Of rounds a decimal number of whole units ("12.345" dollars) to an Amount.
func (c Currency) Of(d Decimal) Amount {
	return Amount(d.Shift(c.Digits).Round(0).IntPart())
}

// Decimal gives a in whole units of the currency.
func (c Currency) Decimal(a Amount) Decimal { return decimal.New(int64(a), -c.Digits) }

// Times is quantity × rate, rounded to the smallest unit: a line of an estimate.
func (c Currency) Times(quantity, rate Decimal) Amount { return c.Of(quantity.Mul(rate)) }

// Text gives a as plain decimal text with a point, for files: "1130.00".
func (c Currency) Text(a Amount) string { return c.Decimal(a).StringFixed(c.Digits) }

// Print gives a as people of locale ("en-CA", "fr-CA", "es") write it, with the
// currency's symbol.
func (c Currency) Print(a Amount, locale string) string {
	v, err := currency.NewAmount(c.Text(a), c.Code)
	if err != nil {
		return c.Text(a) + " " + c.Code
	}
	return formatter(locale).Format(v)
}

// Plain gives a as Print does, but without the symbol: for columns of figures.
func (c Currency) Plain(a Amount, locale string) string {
	v, err := currency.NewAmount(c.Text(a), c.Code)
	if err != nil {
		return c.Text(a)
	}
	f := formatter(locale)
	f.CurrencyDisplay = currency.DisplayNone
	return strings.TrimSpace(f.Format(v))
}

// Whole gives a to the nearest whole unit, for a headline: "$128,400".
func (c Currency) Whole(a Amount, locale string) string {
	v, err := currency.NewAmount(c.Decimal(a).Round(0).String(), c.Code)
	if err != nil {
		return c.Text(a)
	}
	f := formatter(locale)
	f.MinDigits, f.MaxDigits = 0, 0
	return f.Format(v)
}

func formatter(locale string) *currency.Formatter {
	f := currency.NewFormatter(currency.NewLocale(locale))
	f.MaxDigits = currency.DefaultDigits
	return f
}

// Parse reads an amount as typed: "1200", "$1,200.50", "1 200,50 €", "CAD 90".
// The error is a Fault without a field.
func (c Currency) Parse(text string) (Amount, error) {
	d, err := ParseDecimal(strings.ReplaceAll(strings.ToUpper(text), c.Code, ""))
	if err != nil {
		return 0, fault.Fault{Value: strings.TrimSpace(text), Problem: "is not an amount of money", Remedy: "give one such as 1,200 or 1200.50"}
	}
	if d.Abs().Shift(c.Digits).GreaterThan(decimal.New(int64(Most), 0)) {
		return 0, fault.Fault{Value: strings.TrimSpace(text), Problem: "is too much money to reckon with", Remedy: "check the number of zeros"}
	}
	return c.Of(d), nil
}

// ParseDecimal reads a decimal number, currency symbols and digit groups allowed.
func ParseDecimal(text string) (Decimal, error) {
	s := strings.Map(func(r rune) rune {
		if strings.ContainsRune("$€£¥₩₽₹ ", r) {
			return -1
		}
		return r
	}, quantity.PlainNumber(strings.TrimSpace(text)))
	s = quantity.PlainNumber(s)
	if len(s) > 40 || strings.ContainsAny(s, "eExX_") {
		return Decimal{}, fault.Fault{Value: text, Problem: "is not a number", Remedy: "give one such as 12.50"}
	}
	d, err := decimal.NewFromString(strings.Replace(s, "−", "-", 1))
	if err != nil {
		return Decimal{}, fault.Fault{Value: text, Problem: "is not a number", Remedy: "give one such as 12.50"}
	}
	return d, nil
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
	// A product that is a half but for the last bits of a float64 is a half.
	scaled += math.Copysign(math.Abs(scaled)*1e-12, scaled)
	return decimal.New(int64(math.Round(scaled)), -places)
}
