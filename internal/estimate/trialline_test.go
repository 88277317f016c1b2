package estimate

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/field"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

func startShop(t require.TestingT) *shop.Shop {
	s, err := shop.Read(shop.Start())
	require.NoError(t, err)
	return s
}

// tried is a commission of many sorts of line, some in other units and money.
func tried(t *rapid.T) Commission {
	pick := func(name string, of ...string) string { return rapid.SampledFrom(of).Draw(t, name) }
	c := Commission{
		Units: pick("units", "metric", "inch-pound"),
		Inputs: map[string]string{
			"pour.crucible": pick("crucible", "Bilge no. 30", "Bilge no. 90"), "delivery.by": pick("delivered", "delivered and installed", "by others"),
			"delivery.distance": "140 km", "delivery.nights": "2", "delivery.permits": "450.55", "price.fee": pick("fee", "none", "a share of the price", "a share of cost"),
			"price.tax": pick("tax", "none", "Québec"), "price.overhead_base": pick("overhead on", "labour", "direct cost"), "price.profit_way": pick("profit", "margin", "markup"),
			"wax.price": pick("wax", "11.50 / kg", "5.2163 / lb", "0"),
		},
		Extras: []Extra{{Stage: "patina", Item: "Gold leaf", Quantity: "3", Rate: "41.255"}},
	}
	if pick("money", "CAD", "JPY") == "JPY" {
		c.Currency, c.Inputs["price.exchange"] = "JPY", "109.37"
	}
	for range rapid.IntRange(1, 3).Draw(t, "pieces") {
		c.Pieces = append(c.Pieces, Piece{Inputs: map[string]string{
			"form.height": pick("height", "0.4 m", "1.7 m", "2.4 m"), "form.casts": pick("casts", "1", "4"), "form.repeat": "92 %",
			"form.start": pick("start", startClay, startMould, startFile), "base.plinth": pick("plinth", "no plinth", "drum"), "base.footing": pick("footing", "none", "by us"),
			"patina.colours": pick("colours", "1", "3"), "form.difficulty": pick("difficulty", "1", "1.3"),
		}})
	}
	return c
}

// varied draws a variation of any sort.
func variedBy(t *rapid.T, pieces int) Variation {
	v := Still(pieces)
	factor := func() float64 { return rapid.Float64Range(0.5, 2).Draw(t, "factor") }
	for i := range pieces {
		v.Area[i], v.Wall[i], v.Recasts[i] = factor(), factor(), rapid.IntRange(-1, 9).Draw(t, "recasts")
	}
	for i := range v.Hours {
		v.Hours[i] = factor()
	}
	v.Material, v.Metal, v.Freight, v.Site = factor(), factor(), factor(), factor()
	return v
}

func TestATrialThatChangesNothingComesToTheEstimate(t *testing.T) {
	s := startShop(t)
	rapid.Check(t, func(t *rapid.T) {
		c := tried(t)
		e, err := Of(c, s)
		require.NoError(t, err)
		m, err := NewModel(c, s)
		require.NoError(t, err)
		still := Still(m.Pieces())
		hours := 0.0
		for _, l := range e.Lines {
			hours += l.Hours
		}
		for range 2 { // the second in the memory of the first
			o := m.Try(&still)
			require.Equal(t, []money.Amount{e.Direct, e.Price, e.Total, m.CostOf(e)}, []money.Amount{o.Direct, o.Price, o.Total, o.Cost})
			require.Equal(t, []int{len(e.Heats), e.PourDays}, []int{o.Heats, o.Days})
			require.Equal(t, e.Recasts, o.Recasts)
			require.InDelta(t, hours, o.Hours, 0.01*float64(len(e.Lines)), "printed hours are rounded")
			v := variedBy(t, m.Pieces())
			m.Try(&v)
		}
	})
}

// The second reckoning of a varied line is by decimals, as printed lines are.
func TestALineOfATrialComesToTheCentThatDecimalsComeTo(t *testing.T) {
	s := startShop(t)
	units := []*quantity.Unit{none, kilogram, squareMetre, cubicMetre, hour, kilometre, kilowattHour, metre}
	rapid.Check(t, func(t *rapid.T) {
		r := read(tried(t), s)
		r.bare = true
		u := rapid.SampledFrom(units).Draw(t, "unit")
		it := item{q: expr{v: rapid.OneOf(rapid.Float64Range(0, 1e5), rapid.Float64Range(0, 1e17)).Draw(t, "quantity")}, unit: u}
		it.rate.Dec = money.Round(rapid.Float64Range(0, 5000).Draw(t, "rate"), rapid.Int32Range(0, 6).Draw(t, "places"))
		it.rate.Unit = *u
		if u == kilogram && rapid.Bool().Draw(t, "pounds") {
			it.rate.Unit = quantity.Pound
		}
		factor, varied := rapid.SampledFrom([]float64{1, 0.87, 1.2345}).Draw(t, "factor"), it.rate
		if factor != 1 {
			varied.Dec = money.Round(varied.Dec.InexactFloat64()*factor, 4)
		}
		dec, unit := r.priceRate(varied, it.unit)
		_, places := r.printedIn(u)
		want := r.currency.Times(money.Round(it.q.v*u.Size/unit.Size, places), dec)
		require.Equal(t, want, r.amount(&it, factor))
	})
}

func TestWholeNumbersRoundAsDecimalsDo(t *testing.T) {
	cad := money.Currency{Code: "CAD", Digits: 2}
	rapid.Check(t, func(t *rapid.T) {
		places := rapid.Int32Range(0, 4).Draw(t, "places")
		v := float64(rapid.Int64Range(0, 1e9).Draw(t, "thousandths")) / 1000 // halves among them
		k, ok := coefficientOf(v, places)
		require.True(t, ok)
		require.True(t, money.Round(v, places).Equal(money.Round(float64(k), 0).Shift(-places)), "%v to %d", v, places)

		a := money.Amount(rapid.Int64Range(0, 1e14).Draw(t, "amount"))
		n := float64(rapid.IntRange(1, 5000).Draw(t, "n"))
		exact := &run{job: &job{currency: cad}}
		quick := &run{job: &job{currency: cad}, vary: &Variation{}}
		require.True(t, exact.shareOf(a, n).Equal(quick.shareOf(a, n)), "%d ÷ %v", a, n)
	})
	_, ok := coefficientOf(math.NaN(), 2)
	assert.False(t, ok)
	_, ok = coefficientOf(-1, 2)
	assert.False(t, ok)
}

func TestSmallDecimalsAreTheirNearestFloats(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := money.Round(rapid.Float64Range(0, 1e6).Draw(t, "number"), rapid.Int32Range(0, 8).Draw(t, "places"))
		k, e, ok := money.Small(d)
		require.True(t, ok)
		require.Equal(t, d.InexactFloat64(), plain(k, e))
	})
}

func TestValueGivesAnInputAsRead(t *testing.T) {
	m, err := NewModel(Commission{Pieces: []Piece{{Inputs: map[string]string{"shell.coats_a_day": "2.5"}}}}, startShop(t))
	require.NoError(t, err)
	assert.Equal(t, 2.5, m.Value(0, "shell.coats_a_day").Num)
	assert.Equal(t, 0.02, m.Value(Whole, "pour.loss").Num)
	assert.Equal(t, field.Value{}, m.Value(Whole, "pour.nothing"))
}
