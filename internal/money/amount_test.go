package money

import (
	"math"
	"math/big"
	"slices"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func must(t testing.TB, code string) Currency {
	t.Helper()
	c, err := NewCurrency(code)
	require.NoError(t, err)
	return c
}

func dec(s string) Decimal { return decimal.RequireFromString(s) }

// Minor units of ISO 4217, from memory.
func TestCurrenciesHaveTheirISO4217MinorUnits(t *testing.T) {
	for digits, codes := range map[int32][]string{
		0: {"JPY", "KRW", "CLP", "ISK", "VND", "XOF", "PYG"},
		2: {"CAD", "USD", "EUR", "GBP", "CHF", "MXN", "AUD", "SEK", "INR", "CNY", "HUF"},
		3: {"KWD", "BHD", "OMR", "JOD", "TND", "IQD", "LYD"},
		4: {"CLF", "UYW"},
	} {
		for _, code := range codes {
			assert.Equal(t, digits, must(t, code).Digits, code)
		}
	}
	assert.True(t, slices.IsSorted(Codes()))
	assert.Greater(t, len(Codes()), 150)
}

func TestACurrencyIsFoundByItsCodeHoweverTyped(t *testing.T) {
	assert.Equal(t, Currency{"CAD", 2}, must(t, " cad "))
	// XXX is what ISO 4217 writes where no currency is meant; the last is of wide letters.
	for _, code := range []string{"", "dollar", "CA", "XXX", "C$", "ＣＡＤ"} {
		_, err := NewCurrency(code)
		assert.ErrorContains(t, err, "is no currency code; give three letters such as CAD, USD, EUR or JPY", code)
	}
}

func TestALineIsItsPrintedQuantityTimesItsPrintedRate(t *testing.T) {
	cad := must(t, "CAD")
	assert.Equal(t, Amount(24794), cad.Times(dec("41.8"), dec("5.9316")))
	assert.Equal(t, Amount(1), cad.Times(dec("0.5"), dec("0.01")), "half a cent is a cent")
	assert.Equal(t, Amount(-1), cad.Times(dec("-0.5"), dec("0.01")))
	assert.Equal(t, Amount(0), cad.Times(dec("0.49"), dec("0.01")))
	assert.Equal(t, Amount(248), must(t, "JPY").Times(dec("41.8"), dec("5.9316")))
	assert.Equal(t, Amount(247941), must(t, "KWD").Times(dec("41.8"), dec("5.9316")))
	assert.Equal(t, "247.94", cad.Text(24794))
	assert.Equal(t, "0.05", cad.Text(5))
	assert.Equal(t, "-12.345", must(t, "KWD").Text(-12345))
	assert.Equal(t, "12345", must(t, "JPY").Text(12345))
}

func TestNothingReckonedWrapsRound(t *testing.T) {
	cad := must(t, "CAD")
	assert.Equal(t, Most+1, cad.Times(dec("9000000000000"), dec("9000000000000")))
	assert.Equal(t, -Most-1, cad.Times(dec("-9000000000000"), dec("9000000000000")))
	assert.Equal(t, Most+1, Part(Most, dec("1000000")))
	assert.Equal(t, Most, cad.Of(cad.Decimal(Most)))
	assert.Equal(t, -Most, cad.Of(cad.Decimal(-Most)))
	assert.Equal(t, Most, cad.Of(cad.Decimal(Most).Add(dec("0.0049"))))
}

// halfAway is a second way to round: add a half and cut, in exact fractions.
func halfAway(r *big.Rat) *big.Int {
	up := new(big.Rat).Add(new(big.Rat).Abs(r), big.NewRat(1, 2))
	n := new(big.Int).Quo(up.Num(), up.Denom())
	if r.Sign() < 0 {
		n.Neg(n)
	}
	return n
}

func anyDecimal(t *rapid.T, label string, most int64, places int) Decimal {
	return decimal.New(rapid.Int64Range(-most, most).Draw(t, label), -int32(rapid.IntRange(0, places).Draw(t, label+" places")))
}

func TestTimesRoundsHalfAwayFromZeroAgainstExactFractions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Currency{"CAD", rapid.SampledFrom([]int32{0, 2, 3}).Draw(t, "digits")}
		q, r := anyDecimal(t, "quantity", 1e6, 4), anyDecimal(t, "rate", 1e6, 4)
		exact := new(big.Rat).Mul(q.Rat(), r.Rat())
		exact.Mul(exact, new(big.Rat).SetFloat64(math.Pow10(int(c.Digits))))
		assert.Equal(t, halfAway(exact).Int64(), int64(c.Times(q, r)))
	})
}

func TestMeasuredNumbersBecomeDecimalsHalfAwayFromZero(t *testing.T) {
	for _, c := range []struct {
		v      float64
		places int32
		want   string
	}{
		{1.005, 2, "1.01"},
		{-1.005, 2, "-1.01"},
		{0.125, 2, "0.13"},
		{1.15 * 3, 1, "3.5"}, // 3.4499999999999997
		{0.1 + 0.2, 1, "0.3"},
		{2.4999, 0, "2"},
		{75.7749, 2, "75.77"},
		{1234567, -3, "1235000"},
		{123456789012.34, 2, "123456789012.34"},
		{8999999999999.25, 2, "8999999999999.25"},
		{0.1, 30, "0.1"},
		{1e-300, 6, "0"},
		{math.NaN(), 2, "0"},
		{math.Inf(1), 2, "9000000000000"},
		{math.Inf(-1), 2, "-9000000000000"},
		{1e300, 9, "9000000000000"},
	} {
		assert.Equal(t, c.want, Round(c.v, c.places).String(), "%v to %d places", c.v, c.places)
	}
}

func TestRoundIsTheNearestDecimal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-1e12, 1e12).Draw(t, "v")
		places := int32(rapid.IntRange(0, 6).Draw(t, "places"))
		got, _ := Round(v, places).Float64()
		half := 0.5 * math.Pow10(-int(places))
		assert.InDelta(t, v, got, half*(1+4e-6)+math.Abs(v)*1e-15)
		assert.Equal(t, Round(v, places).Neg().String(), Round(-v, places).String())
	})
}
