package options

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

// scan holds a fit against a scan of heights: every millimetre for a while above
// it, then coarser up to twice and a half that height, where the surface has
// grown six times. No height that fits may be above it.
func scan(t require.TestingT, f *finder, fit Fit, budget money.Amount, every int) {
	best := int(math.Round(float64(fit.Height) * 1000))
	fits := func(mm int) bool { return f.try(mm).Holds && f.try(mm).asked <= budget }
	if best > 0 {
		require.True(t, fits(best), "%d mm is within the budget", best)
	}
	from := max(best, int(math.Round(float64(fit.Smallest)*1000))-1)
	for mm, by := from+1, 1; mm <= min(tallest, 2*from+from/2+500); mm += by {
		require.False(t, fits(mm), "%d mm would fit, above %d mm", mm, best)
		if mm > from+every {
			by = 1 + by*9/8
		}
	}
}

func TestTheLargestIsThatOfAScanOnAThousandCommissions(t *testing.T) {
	n, checks := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		checks++
		for range 12 { // commissions for each of rapid's hundred checks
			c, s := drawCommission(t), drawShop(t)
			before := c.Inputs["price.budget_is"] == "before tax"
			f, err := newFinder(c, s, before)
			require.NoError(t, err)
			own := f.try(f.own())
			if !own.Holds {
				continue
			}
			budget := money.Amount(float64(own.asked) * rapid.Float64Range(0.4, 1.8).Draw(t, "budget"))
			fit, err := Largest(c, s, budget, before)
			require.NoError(t, err)
			every := 40
			if n%20 == 0 {
				every = 1000 // of one in twenty, every millimetre of the metre above
			}
			scan(t, f, fit, budget, every)
			n++
		}
	})
	require.GreaterOrEqual(t, n, 10*checks, "those that can be made at their own size: a thousand")
}

func TestEveryMillimetreOfTheGroupIsScanned(t *testing.T) {
	for i, s := range steepShops {
		f := mustTry(t, group(), s, false)
		for _, part := range []float64{0.7, 1, 1.3} {
			budget := money.Amount(float64(f.try(2190).asked) * part)
			fit, err := Largest(group(), s, budget, false)
			require.NoError(t, err)
			t.Log(i, part, fit.Height)
			scan(t, f, fit, budget, 700)
		}
	}
}

// falls lists heights at which the price falls by a millimetre more.
func falls(f *finder, from, to int) (list []int) {
	for mm := from + 1; mm <= to; mm++ {
		if f.try(mm).asked < f.try(mm-1).asked {
			list = append(list, mm)
		}
	}
	return list
}

func TestAFallOfThePriceIsNotMissed(t *testing.T) {
	// Where one more section lets two share a heat, a taller figure costs less
	// than the one before. The budget that just holds the dip finds it.
	s := steepShops[1]
	f := mustTry(t, figure("1.75 m"), s, false)
	dips := falls(f, 900, 2600)
	require.NotEmpty(t, dips)
	for _, mm := range dips {
		fit, err := Largest(figure("1.75 m"), s, f.try(mm).asked, false)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, fit.Height, length(mm))
		scan(t, f, fit, f.try(mm).asked, 200)
	}
}

func TestNoPriceIsBelowTheFloorOfASmallerHeight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, s := drawCommission(t), drawShop(t)
		f, err := newFinder(c, s, rapid.Bool().Draw(t, "before tax"))
		require.NoError(t, err)
		mm := rapid.IntRange(100, 3000).Draw(t, "mm")
		low := f.try(mm)
		if !low.Holds {
			return
		}
		for range 20 {
			high := mm + rapid.IntRange(0, 2000).Draw(t, "more")
			if h := f.try(high); h.Holds {
				require.LessOrEqual(t, low.floor, h.asked, "%d and %d mm", mm, high)
			}
		}
	})
}

func TestTheBudgetCountsBeforeTaxOrWithIt(t *testing.T) {
	s, c := startingShop(t), figure("1.75 m").With(estimate.Whole, "price.tax", "Ontario")
	with, err := Largest(c, s, 6_000_000, false)
	require.NoError(t, err)
	before, err := Largest(c, s, 6_000_000, true)
	require.NoError(t, err)
	assert.Greater(t, before.Height, with.Height)
	assert.LessOrEqual(t, with.Total, money.Amount(6_000_000))
	assert.LessOrEqual(t, before.Price, money.Amount(6_000_000))
	assert.Greater(t, before.Total, money.Amount(6_000_000))
	// 60,000 with 13 % is 53,097.35 before: the same height.
	same, err := Largest(c, s, 5_309_735, true)
	require.NoError(t, err)
	assert.Equal(t, with.Height, same.Height)
}

func TestTheSmallestHeightIsWhereTheWallFillsTheForm(t *testing.T) {
	// A ball is filled by a wall of its radius: 20 mm fills a ball of 40 mm, which
	// casts solid; a smaller one does not hold such a wall.
	c := estimate.Commission{Pieces: []estimate.Piece{{
		Inputs: map[string]string{"form.known_by": "solids", "form.measured_height": "1 m", "form.height": "1 m", "form.wall": "20 mm"},
		Solids: []map[string]string{{"shape": "sphere", "diameter": "1 m"}},
	}}}
	fit, err := Largest(c, startingShop(t), 1e9, false)
	require.NoError(t, err)
	assert.InDelta(t, 0.040, float64(fit.Smallest), 1e-9)
	least, err := Smallest(c, startingShop(t))
	require.NoError(t, err)
	assert.Equal(t, fit.Smallest, least)
	f := mustTry(t, c, startingShop(t), false)
	assert.False(t, f.model.WallFits(f.rule, 0.039))
	assert.True(t, f.model.WallFits(f.rule, 0.040))
}

func TestABudgetTooSmallForAnythingSaysWhatTheSmallestTakes(t *testing.T) {
	fit, err := Largest(figure("1.75 m"), startingShop(t), 100, false)
	require.NoError(t, err)
	assert.Zero(t, fit.Height)
	assert.Greater(t, fit.Smallest, quantity.Length(0))
	assert.Greater(t, fit.Least, money.Amount(100))
	assert.False(t, fit.Blocked())
}

func TestWhatCannotBeMadeTallerSaysWhy(t *testing.T) {
	c := figure("1.75 m")
	c.Pieces[0].Inputs["form.sections"] = "4"
	s := startingShop(t)
	fit, err := Largest(c, s, 1e12, false)
	require.NoError(t, err)
	require.NotEmpty(t, fit.Stop)
	assert.Contains(t, fit.Stop[0].Error(), "crucible")
	f := mustTry(t, c, s, false)
	mm := int(math.Round(float64(fit.Height) * 1000))
	assert.True(t, f.try(mm).Holds)
	assert.False(t, f.try(mm+1).Holds)
	assert.Zero(t, fit.NextStep.Height)
}

func TestNothingIsLargestOfWhatCannotBeMadeAtAll(t *testing.T) {
	c := figure("1.75 m")
	c.Pieces = append(c.Pieces, estimate.Piece{Name: "Plate", Inputs: map[string]string{"form.known_by": "typed area", "form.area": "1 cm²", "form.wall": "2 cm", "form.in_options": "stays as it is"}})
	fit, err := Largest(c, startingShop(t), 1e9, false)
	require.NoError(t, err)
	assert.Equal(t, Fit{}, fit)
	_, err = Largest(figure("tall"), startingShop(t), 1e9, false)
	assert.ErrorContains(t, err, "tall")
}

func TestTheNextStepIsTheFirstJumpAboveTheLargest(t *testing.T) {
	s := startingShop(t)
	for _, budget := range []money.Amount{3_000_000, 5_000_000, 9_000_000} {
		f := mustTry(t, figure("1.75 m"), s, false)
		fit, err := Largest(figure("1.75 m"), s, budget, false)
		require.NoError(t, err)
		mm, next := int(math.Round(float64(fit.Height)*1000)), int(math.Round(float64(fit.NextStep.Height)*1000))
		for at := mm; at < next; at++ {
			require.True(t, f.try(at).Steps.Same(fit.Steps), "%d", at)
		}
		assert.False(t, f.try(next).Steps.Same(fit.Steps))
		assert.Equal(t, f.try(next).asked-f.try(next-1).asked, fit.NextStep.Jump)
		assert.NotEmpty(t, fit.NextStep.Words([]string{"Figure"}, quantity.Metric))
	}
}

func TestABudgetThatEndsBelowAStepIsBlockedByIt(t *testing.T) {
	s := startingShop(t)
	f := mustTry(t, figure("1.75 m"), s, false)
	step := f.nextStep(1900, tallest)
	mm := int(math.Round(float64(step.Height) * 1000))
	require.Greater(t, step.Jump, money.Amount(0))
	fit, err := Largest(figure("1.75 m"), s, f.try(mm-1).asked+step.Jump/2, false)
	require.NoError(t, err)
	assert.True(t, fit.Blocked())
	assert.Equal(t, step.Height, fit.NextStep.Height)
}

func BenchmarkBudgetFit(b *testing.B) {
	for name, c := range map[string]estimate.Commission{"figure": figure("1.75 m"), "group": group()} {
		for i, s := range []*shop.Shop{steepShops[0], steepShops[1]} {
			b.Run(fmt.Sprint(name, i), func(b *testing.B) {
				for b.Loop() {
					if _, err := Largest(c, s, 15_000_000, false); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
