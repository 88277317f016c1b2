package money

import (
	"math/big"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Source: calcreal.com.
func TestCost40AtAMarkupOf50PerCentSellsFor60(t *testing.T) {
	price := Amount(4000) + Part(4000, dec("0.5"))
	assert.Equal(t, Amount(6000), price)
	margin := decimal.New(int64(price-4000), 0).DivRound(decimal.New(int64(price), 0), 4)
	assert.Equal(t, "0.3333", margin.String())
	markup, err := MarkupOf(dec("1").DivRound(dec("3"), 16))
	require.NoError(t, err)
	assert.Equal(t, "0.5", markup.Round(10).String())
}

// Exact: 100/(1 − 0.40).
func TestCost100AtAMarginOf40PerCentSellsFor166_67(t *testing.T) {
	price, err := GrossUp(10000, dec("0.40"))
	require.NoError(t, err)
	assert.Equal(t, Amount(16667), price)
	markup, err := MarkupOf(dec("0.40"))
	require.NoError(t, err)
	assert.Equal(t, "0.6667", markup.Round(4).String())
}

// Source: srcity.org, a public art contract paid in three parts.
func TestAContractOf130000PaidAt25And70And5PerCent(t *testing.T) {
	assert.Equal(t, []Amount{3250000, 9100000, 650000}, Split(13000000, []Decimal{dec("25"), dec("70"), dec("5")}))
}

// Source: City of Columbia, budget of a percent-for-art call.
func TestABudgetOf70000LessItsDeductionsLeaves47000(t *testing.T) {
	usd := must(t, "USD")
	left, err := usd.Parse("$70,000")
	require.NoError(t, err)
	for _, text := range []string{"7,000", "3,500", "6,000", "500", "6,000"} {
		a, err := usd.Parse(text)
		require.NoError(t, err)
		left -= a
	}
	assert.Equal(t, "$47,000", usd.Whole(left, "en-US"))
}

// Rates: Canada.ca tables; Nova Scotia 14 % from 1 April 2025. The two taxes of
// Quebec are each on the same base.
func TestAThousandDollarsWithTheSalesTaxesOfFourProvinces(t *testing.T) {
	cad := must(t, "CAD")
	for province, c := range map[string]struct {
		rates []string
		total string
	}{
		"ON": {[]string{"0.13"}, "1130.00"},
		"NS": {[]string{"0.14"}, "1140.00"},
		"QC": {[]string{"0.05", "0.09975"}, "1149.75"},
		"BC": {[]string{"0.05", "0.07"}, "1120.00"},
	} {
		total := Amount(100000)
		for _, rate := range c.rates {
			total += Part(100000, dec(rate))
		}
		assert.Equal(t, c.total, cad.Text(total), province)
	}
}

func TestSharesOfTheWholePriceOrMoreAreAnError(t *testing.T) {
	for _, share := range []string{"1", "1.0", "1.5"} {
		_, err := GrossUp(10000, dec(share))
		assert.ErrorIs(t, err, ErrShares)
		_, err = MarkupOf(dec(share))
		assert.ErrorIs(t, err, ErrShares)
	}
	_, err := GrossUp(10000, dec("0.999999999999999"))
	assert.ErrorIs(t, err, ErrTooMuch)
	price, err := GrossUp(10000, dec("0"))
	require.NoError(t, err)
	assert.Equal(t, Amount(10000), price)
}

// 1/0.6666667 is 1.499999925: rounded to six places on the way, it would be two.
func TestGrossUpRoundsOnce(t *testing.T) {
	price, err := GrossUp(1, dec("0.3333333"))
	require.NoError(t, err)
	assert.Equal(t, Amount(1), price)
}

func TestPricesRoundToTheShopsStep(t *testing.T) {
	for _, c := range []struct {
		a, step     Amount
		nearest, up Amount
	}{
		{12345, 1000, 12000, 13000},
		{12500, 1000, 13000, 13000},
		{12499, 1000, 12000, 13000},
		{12000, 1000, 12000, 12000},
		{-12500, 1000, -13000, -12000},
		{-12499, 1000, -12000, -12000},
		{5, 3, 6, 6},
		{4, 3, 3, 6},
		{0, 500, 0, 0},
		{12345, 0, 12345, 12345},
		{12345, -5, 12345, 12345},
		{12345, 1, 12345, 12345},
	} {
		assert.Equal(t, c.nearest, Step(c.a, c.step, false), "%d to the nearest %d", c.a, c.step)
		assert.Equal(t, c.up, Step(c.a, c.step, true), "%d up to %d", c.a, c.step)
	}
}

func TestASteppedPriceIsTheNearestMultiple(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := Amount(rapid.Int64Range(-int64(Most), int64(Most)).Draw(t, "amount"))
		step := Amount(rapid.Int64Range(1, 1e7).Draw(t, "step"))
		near, up := Step(a, step, false), Step(a, step, true)
		assert.Zero(t, near%step)
		assert.LessOrEqual(t, 2*max(near-a, a-near), step)
		assert.Zero(t, up%step)
		assert.True(t, up >= a && up-a < step)
	})
}

func TestSplitsThatCannotBeAreNil(t *testing.T) {
	assert.Nil(t, Split(100, nil))
	assert.Nil(t, Split(100, []Decimal{dec("0"), dec("0")}))
	assert.Nil(t, Split(100, []Decimal{dec("1"), dec("-1"), dec("3")}))
	assert.Equal(t, []Amount{34, 33, 33}, Split(100, []Decimal{dec("1"), dec("1"), dec("1")}))
	assert.Equal(t, []Amount{-33, -33, -34}, Split(-100, []Decimal{dec("1"), dec("1"), dec("1")}))
	assert.Equal(t, []Amount{0, 100, 0}, Split(100, []Decimal{dec("0"), dec("0.001"), dec("0")}))
	assert.Equal(t, []Amount{0, 0}, Split(0, []Decimal{dec("1"), dec("2")}))
}

// naiveSplit gives the cents left over one at a time, to the part that is
// furthest below its exact share.
func naiveSplit(total int64, weights []Decimal) []Amount {
	sum := new(big.Rat)
	for _, w := range weights {
		sum.Add(sum, w.Rat())
	}
	parts := make([]Amount, len(weights))
	lack := make([]*big.Rat, len(weights))
	left := total
	for i, w := range weights {
		exact := new(big.Rat).Mul(big.NewRat(total, 1), w.Rat())
		exact.Quo(exact, sum)
		floor := new(big.Int).Div(exact.Num(), exact.Denom()) // Euclid's: downwards
		parts[i] = Amount(floor.Int64())
		lack[i] = exact.Sub(exact, new(big.Rat).SetInt(floor))
		left -= floor.Int64()
	}
	for ; left > 0; left-- {
		most := 0
		for i := range lack {
			if lack[i].Cmp(lack[most]) > 0 {
				most = i
			}
		}
		parts[most]++
		lack[most] = new(big.Rat).Sub(lack[most], big.NewRat(1, 1))
	}
	return parts
}

func anyWeights(t *rapid.T) []Decimal {
	weights := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Decimal {
		return decimal.New(rapid.Int64Range(0, 1e6).Draw(t, "weight"), -int32(rapid.IntRange(0, 6).Draw(t, "places")))
	}), 0, 12).Draw(t, "weights")
	return append(weights, decimal.New(1, 0))
}

func TestPartsAddToTheWholeToTheCent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		total := rapid.Int64Range(-int64(Most), int64(Most)).Draw(t, "total")
		weights := anyWeights(t)
		parts := Split(Amount(total), weights)
		sum := Amount(0)
		for i, p := range parts {
			sum += p
			if weights[i].IsZero() {
				assert.Zero(t, p, "nothing is given to a part of no weight")
			}
		}
		assert.Equal(t, Amount(total), sum)
		assert.Equal(t, naiveSplit(total, weights), parts)
	})
}

func TestPartAndGrossUpAgreeWithExactFractions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cost := rapid.Int64Range(-1e12, 1e12).Draw(t, "cost")
		share := decimal.New(rapid.Int64Range(-1e6, 999999).Draw(t, "share"), -6)
		exact := new(big.Rat).Mul(big.NewRat(cost, 1), share.Rat())
		assert.Equal(t, halfAway(exact).Int64(), int64(Part(Amount(cost), share)))

		exact = new(big.Rat).Quo(big.NewRat(cost, 1), new(big.Rat).Sub(big.NewRat(1, 1), share.Rat()))
		price, err := GrossUp(Amount(cost), share)
		if want := halfAway(exact); want.CmpAbs(big.NewInt(int64(Most))) <= 0 {
			require.NoError(t, err)
			assert.Equal(t, want.Int64(), int64(price))
			back := Amount(cost) + Part(price, share)
			assert.InDelta(t, int64(price), int64(back), 1+share.Abs().InexactFloat64(), "the price pays its shares and the cost")
			return
		}
		assert.ErrorIs(t, err, ErrTooMuch)
	})
}
