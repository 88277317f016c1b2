package options

import (
	"maps"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/estimate"
	"meltwright/internal/field"
	"meltwright/internal/money"
	"meltwright/internal/shop"
)

// freeShop is a shop book in which nothing costs anything and nothing is taken
// on top, so that an estimate is what its own lines say.
func freeShop(t require.TestingT) *shop.Shop {
	const day = "2026-01-05"
	b := shop.Start()
	for _, d := range shop.Settings() {
		if d.Sort == field.Rate {
			b = b.With(d.Key, "0", day)
		}
	}
	for _, key := range []string{"price.overhead", "price.contingency", "price.profit", "price.insurance", "price.step"} {
		b = b.With(key, "0", day)
	}
	for table, rows := range b.Tables {
		for i, r := range rows {
			for _, column := range []string{"price", "day"} {
				if _, ok := r[column]; ok {
					rows[i] = maps.Clone(shop.Row(r))
					rows[i][column] = "0"
				}
			}
		}
		b.Tables[table] = rows
	}
	s, err := shop.Read(b)
	require.NoError(t, err)
	return s
}

// lines is a commission of own lines alone.
func lines(inputs map[string]string, sums ...string) estimate.Commission {
	c := figure("1.75 m")
	c.Inputs = inputs
	for _, sum := range sums {
		c.Extras = append(c.Extras, estimate.Extra{Stage: "metalwork", Item: "As budgeted", Quantity: "1", Rate: sum})
	}
	return c
}

func TestABudgetOf130000At25And70And5Percent(t *testing.T) {
	// srcity.org, a public call: $130,000 at 25/70/5 is 32,500, 91,000 and 6,500.
	c := lines(map[string]string{"price.fee": "a share of the price", "price.fee_share": "25 %", "price.bond": "5 %"}, "91000")
	e, err := estimate.Of(c, freeShop(t))
	require.NoError(t, err)
	assert.Equal(t, money.Amount(13_000_000), e.Price)
	byName := map[string]money.Amount{}
	for _, l := range e.PriceLines {
		byName[l.Name] = l.Amount
	}
	assert.Equal(t, map[string]money.Amount{"Artist's fee": 3_250_000, "Bond": 650_000}, byName)

	// The other way round: what 130,000 leaves when 91,000 and 5 % are spoken for.
	a, err := ArtistShare(c, freeShop(t), 13_000_000, true)
	require.NoError(t, err)
	assert.Equal(t, money.Amount(3_250_000), a.Fee)
	assert.Equal(t, "0.25", a.Share.String())

	// And as three payments of that total.
	c.Inputs["price.payments"] = "First 25; Second 70; Third 5"
	e, err = estimate.Of(c, freeShop(t))
	require.NoError(t, err)
	assert.Equal(t, []money.Amount{3_250_000, 9_100_000, 650_000}, []money.Amount{e.Payments[0].Amount, e.Payments[1].Amount, e.Payments[2].Amount})
}

func TestABudgetOf70000Leaves47000ForTheArtist(t *testing.T) {
	// City of Columbia, Short Street garage, 2012 (columbiaheartbeat.com quotes
	// its Office of Cultural Affairs): of $70,000 go 7,000 for lifetime
	// maintenance, 3,500 for administration, 6,000 contingency, 500 for travel and
	// 6,000 for honoraria; 47,000 are left for the artist.
	for way, off := range map[string]float64{"a fixed sum": 0, "a share of the price": 1000, "none": 1000} { // of cents: shares go by hundredths of a per cent
		c := lines(map[string]string{"price.fee": way}, "7000", "3500", "6000", "500", "6000")
		a, err := ArtistShare(c, freeShop(t), 7_000_000, true)
		require.NoError(t, err)
		assert.InDelta(t, 4_700_000, int64(a.Fee), off, way)
		assert.LessOrEqual(t, a.Price, money.Amount(7_000_000), way)
	}
}

func TestTheArtistsInputsBringTheBudgetAndNoMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, s := drawCommission(t), drawShop(t)
		before := rapid.Bool().Draw(t, "before tax")
		e, err := estimate.Of(c, s)
		if err != nil {
			return
		}
		budget := money.Amount(float64(asked(e, before)) * rapid.Float64Range(0.5, 3).Draw(t, "budget"))
		a, err := ArtistShare(c, s, budget, before)
		require.NoError(t, err)
		for path, text := range a.Inputs {
			c = c.With(estimate.Whole, path, text)
		}
		with, err := estimate.Of(c, s)
		require.NoError(t, err)
		require.Equal(t, a.Price, with.Price)
		require.Equal(t, a.Total, with.Total)
		if a.Short > 0 {
			require.Equal(t, budget+a.Short, asked(with, before))
			require.Zero(t, a.Fee)
			return
		}
		require.LessOrEqual(t, asked(with, before), budget)
		_, sum, share := estimate.FeePaths()
		more := c.With(estimate.Whole, share, moreThan(a.Share, "0.0001").Shift(2).String()+" %")
		if a.Way == estimate.FeeFixed {
			fee, err := money.ParseDecimal(a.Inputs[sum])
			require.NoError(t, err)
			more = c.With(estimate.Whole, sum, moreThan(fee, "0.01").String())
		}
		if e, err := estimate.Of(more, s); err == nil {
			require.Greater(t, asked(e, before), budget, "%v", a)
		}
	})
}

func moreThan(d money.Decimal, by string) money.Decimal {
	more, _ := money.ParseDecimal(by)
	return d.Add(more)
}

func TestABudgetThatIsTooSmallLeavesTheArtistNothing(t *testing.T) {
	s := startingShop(t)
	e, err := estimate.Of(figure("1.75 m"), s)
	require.NoError(t, err)
	a, err := ArtistShare(figure("1.75 m"), s, e.Total-100_000, false)
	require.NoError(t, err)
	assert.Zero(t, a.Fee)
	assert.Equal(t, money.Amount(100_000), a.Short)
	_, err = ArtistShare(figure("1 mm"), s, 1e9, false)
	assert.ErrorContains(t, err, "is too little for a wall of")
}
