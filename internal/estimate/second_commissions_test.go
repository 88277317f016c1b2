package estimate_test

import (
	"math"
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
)

// secondly is a commission, typed and as numbers.
type secondly struct {
	typed  estimate.Commission
	pieces []plainPiece
	shop   plainShop
	terms  plainTerms
}

func TestSecondReckoningOfANudeLifeSizeFigure(t *testing.T) {
	secondly{
		typed:  estimate.Commission{Pieces: []estimate.Piece{{Name: "Figure"}}, Inputs: map[string]string{"price.tax": "Ontario"}},
		pieces: []plainPiece{figure("Figure", 1)},
		shop:   startingPlainShop(),
		terms:  startingPlainTerms().taxed("0.13"),
	}.compare(t)
}

func TestSecondReckoningOfAClothedFigureAtOneAndAQuarter(t *testing.T) {
	p := figure("Figure", 1.35)
	p.height, p.colours, p.difficulty = 1.25*1.75, 2, 1.2
	p.stone = graniteBlock(1.1, 0.9, 0.7)
	p.footing = true
	s, m := startingPlainShop(), startingPlainTerms().taxed("0.05", "0.09975")
	s.km, s.nights, s.days = 120, 2, 2
	m.feeOfPrice, m.shares = "0.15", []string{"0.015", "0.01", "0.05", "0"}
	secondly{
		typed: estimate.Commission{
			Pieces: []estimate.Piece{{Name: "Figure", Inputs: map[string]string{
				"form.dress": "coat and boots", "form.height": "2187.5 mm", "form.difficulty": "1.2", "patina.colours": "2",
				"base.plinth": "block", "base.width": "1.1 m", "base.depth": "0.9 m", "base.height": "0.7 m", "base.footing": "by us",
			}}},
			Inputs: map[string]string{
				"delivery.distance": "120 km", "delivery.nights": "2", "delivery.days": "2", "price.tax": "Québec",
				"price.fee": "a share of the price", "price.bond": "1 %", "price.agent": "5 %",
			},
		},
		pieces: []plainPiece{p}, shop: s, terms: m,
	}.compare(t)
}

func TestSecondReckoningOfABustInAnEditionOfTwelve(t *testing.T) {
	p := standing("Bust", 0.55, 0.42)
	p.height, p.clay, p.wall, p.casts, p.colours = 0.62, true, 4.5, 12, 3
	p.room = 19.5
	p.rubber, p.rubberDensity = "46", 1.24
	p.stone = plainStone{"Hardwood", "9.50", 750, math.Pi / 4 * 0.3 * 0.3 * 0.12, math.Pi*0.3*0.12 + math.Pi/4*0.3*0.3, 0, 0}
	for k := 1.0; k <= 12; k++ { // Crawford: the hours of the k-th are k^(log2 0.9)
		p.repeat += math.Pow(k, math.Log(0.9)/math.Log(2)) / 12
	}
	p.repeat--
	s, m := startingPlainShop(), startingPlainTerms().taxed("0.20")
	s.deliver = false
	m.onLabour, m.markup, m.profit, m.feeOfCost, m.step = true, true, "0.35", "0.125", 1
	m.payments = []string{"33.3", "33.3", "33.4"}
	secondly{
		typed: estimate.Commission{
			Pieces: []estimate.Piece{{Name: "Bust", Inputs: map[string]string{
				"form.known_by": "typed area", "form.area": "0.42 m²", "form.measured_height": "55 cm", "form.height": "62 cm",
				"form.height_is": "the clay original's", "form.volume": "19.5 L", "form.wall": "4,5 mm", "form.casts": "12", "form.repeat": "90 %",
				"mould.rubber": "Silicone, platinum-cured", "patina.colours": "3",
				"base.plinth": "drum", "base.stone": "Hardwood", "base.width": "0.3 m", "base.height": "12 cm",
			}}},
			Inputs: map[string]string{
				"delivery.by": "by others", "price.tax": "United Kingdom", "price.overhead_base": "labour", "price.profit_way": "markup",
				"price.profit": "35 %", "price.fee": "a share of cost", "price.fee_share": "12.5 %", "price.step": "0",
				"price.payments": "On signing 33.3; Waxes approved 33.3; On delivery 33.4",
			},
		},
		pieces: []plainPiece{p}, shop: s, terms: m,
	}.compare(t)
}

func TestSecondReckoningOfAFigureWithADogAndABench(t *testing.T) {
	man, dog, bench := figure("Figure", 1.15), standing("Dog", 0.62, 0.101*math.Cbrt(32*32)), standing("Bench", 0.45, 0)
	man.height, man.stone, man.footing = 2.19, graniteBlock(1.6, 1.2, 0.4), true
	dog.height, dog.room, dog.difficulty = 0.78, 32, 1.1
	bench.wall, bench.alloy, bench.wide, bench.deep = 6, redBrass, 1.6, 0.42
	seat, legs := [3]float64{1.6, 0.42, 0.09}, 4.0
	bench.area = 2*(seat[0]*seat[1]+seat[1]*seat[2]+seat[2]*seat[0]) + legs*math.Pi*0.08*0.36
	inner := [3]float64{seat[0] - 0.012, seat[1] - 0.012, seat[2] - 0.012}
	bench.metal = 1000 * (seat[0]*seat[1]*seat[2] - inner[0]*inner[1]*inner[2] + legs*math.Pi/4*(0.08*0.08-0.068*0.068)*0.36)
	bench.inside = 2*(inner[0]*inner[1]+inner[1]*inner[2]+inner[2]*inner[0]) + legs*math.Pi*0.068*0.36
	s, m := startingPlainShop(), startingPlainTerms().taxed("0.14")
	s.km = 85
	m.feeSum = "9500"
	secondly{
		typed: estimate.Commission{
			Pieces: []estimate.Piece{
				{Name: "Figure", Inputs: map[string]string{
					"form.dress": "light clothes", "form.height": "2.19 m",
					"base.plinth": "block", "base.width": "1.6 m", "base.depth": "1.2 m", "base.height": "40 cm", "base.footing": "by us",
				}},
				{Name: "Dog", Inputs: map[string]string{
					"form.known_by": "animal", "form.animal_mass": "32 kg", "form.measured_height": "0.62 m", "form.height": "0.78 m", "form.difficulty": "1.1",
				}},
				{Name: "Bench", Inputs: map[string]string{
					"form.known_by": "solids", "form.measured_height": "0.45 m", "form.wall": "6 mm", "form.alloy": redBrass.name,
				}, Solids: []map[string]string{
					{"shape": "box", "length": "1.6 m", "width": "42 cm", "height": "9 cm"},
					{"shape": "cylinder", "count": "4", "ends": "open", "diameter": "80 mm", "height": "36 cm"},
				}},
			},
			Inputs: map[string]string{"delivery.distance": "85 km", "price.tax": "Nova Scotia", "price.fee": "a fixed sum", "price.fee_sum": "9500"},
		},
		pieces: []plainPiece{man, dog, bench}, shop: s, terms: m,
	}.compare(t)
}

func TestSecondReckoningOfAFoundryJobThatStartsAtTheArtistsMould(t *testing.T) {
	p := standing("Heron", 1, 0.9)
	p.height, p.casts, p.start, p.difficulty, p.sections, p.weld, p.lugs = 1.4, 3, 2, 1.25, 7, 3.1, 2
	p.patinaByOthers, p.baseByOthers = true, true
	s, m := startingPlainShop(), startingPlainTerms()
	s.deliver, s.usable = false, 180*0.45359237*0.9
	m.profit = "0.2"
	secondly{
		typed: estimate.Commission{
			Pieces: []estimate.Piece{{Name: "Heron", Inputs: map[string]string{
				"form.known_by": "typed area", "form.area": "0.9 m²", "form.height": "1.4 m", "form.casts": "3", "form.start": "their mould",
				"form.difficulty": "1.25", "form.sections": "7", "form.weld": "3.1 m", "form.lugs": "2 kg",
				"patina.by": "by others", "base.by": "by others",
			}}},
			Inputs: map[string]string{"pour.crucible": "Bilge no. 60", "delivery.by": "by others", "price.profit": "20 %"},
		},
		pieces: []plainPiece{p}, shop: s, terms: m,
	}.compare(t)
}

func TestSecondReckoningInPoundsAndDollarsOfABearFromAFileAndABallInTheirWax(t *testing.T) {
	const inch = 0.0254
	bear, ball := standing("Bear", 10*inch, 0.086/0.100), standing("Ball", 12*inch, math.Pi*12*12*inch*inch)
	bear.height, bear.clay, bear.milled, bear.casts, bear.repeat = 18*inch, true, true, 4, 0.85*0.85 // Wright: two doublings
	k := 0.7
	slant := math.Sqrt(18*18+2.25*2.25) * inch
	bear.stone = plainStone{"Limestone", "1.60", 2400, 15 * 15 * 18 * inch * inch * inch * (1 + k + k*k) / 3, 4*15*inch*(1+k)/2*slant + 15*15*inch*inch*k*k, 0, 0}
	ball.wall, ball.alloy, ball.start, ball.wide, ball.deep = 6.35, gunmetal, 3, 12*inch, 12*inch
	ball.metal = 1000 * math.Pi / 6 * (12*12*12 - 11.5*11.5*11.5) * inch * inch * inch
	ball.inside = math.Pi * 11.5 * 11.5 * inch * inch
	s, m := startingPlainShop(), startingPlainTerms()
	s.inchPound, s.exchange = true, "0.7312"
	s.km, s.nights, s.trips, s.permits = 40*1.609344, 1, 2, "450"
	m.step = 2500
	secondly{
		typed: estimate.Commission{
			Units: "inch-pound", Currency: "USD",
			Pieces: []estimate.Piece{
				{Name: "Bear", Inputs: map[string]string{
					"form.known_by": "covered maquette", "form.cover_mass": "86 g", "form.measured_height": "10", "form.height": `1'6"`,
					"form.height_is": "the clay original's", "form.start": "their digital file", "original.made": "milled foam",
					"form.casts": "4", "form.repeat": "85 %", "form.curve": "cumulative average (Wright)",
					"base.plinth": "tapered block", "base.stone": "Limestone", "base.width": "15 in", "base.depth": "15 in", "base.height": "18 in", "base.top": "70 %",
				}},
				{Name: "Ball", Inputs: map[string]string{
					"form.known_by": "solids", "form.measured_height": "12 in", "form.wall": "1/4", "form.start": "their wax", "form.alloy": gunmetal.name,
				}, Solids: []map[string]string{{"shape": "sphere", "diameter": "12"}}},
			},
			Inputs: map[string]string{
				"price.exchange": "0.7312", "price.step": "25", "delivery.distance": "40", "delivery.nights": "1", "delivery.trips": "2", "delivery.permits": "$450",
			},
		},
		pieces: []plainPiece{bear, ball}, shop: s, terms: m,
	}.compare(t)
}

// figure is the program's proposed body, 1.75 m and 75 kg, with a dress factor;
// it displaces its weight in water, and its clothes with it.
func figure(name string, dress float64) plainPiece {
	p := standing(name, 1.75, bodySurface(175, 75)*dress)
	p.room = 75 * dress
	return p
}

func graniteBlock(width, depth, height float64) plainStone {
	return plainStone{"Granite", "2.60", 2691, width * depth * height, 2*(width+depth)*height + width*depth, width, depth}
}

func (m plainTerms) taxed(rates ...string) plainTerms { m.taxes = rates; return m }

// compare holds the program's estimate against the second reckoning, line by
// line and to the cent.
func (c secondly) compare(t *testing.T) {
	t.Helper()
	e, err := estimate.Of(c.typed, startingShop(t))
	require.NoError(t, err)
	var pieces []weighed
	for _, p := range c.pieces {
		pieces = append(pieces, c.shop.weigh(p))
	}
	sheet := c.shop.sheet(pieces)
	c.comparePieces(t, e, pieces)
	compareLines(t, e, sheet)
	assert.Len(t, e.Heats, sheet.heats)
	assert.EqualValues(t, sheet.pours, e.PourDays)
	c.comparePrice(t, e, c.terms.price(sheet))
}

func (c secondly) comparePieces(t *testing.T, e *estimate.Estimate, pieces []weighed) {
	t.Helper()
	used, once := 0.0, 1/c.shop.yield
	for i, w := range pieces {
		p := e.Pieces[i]
		for what, pair := range map[string][2]float64{
			"height":          {w.high, float64(p.Height)},
			"original height": {w.clayHigh, float64(p.OriginalHeight)},
			"area":            {w.skin, float64(p.Area)},
			"original area":   {w.claySkin, float64(p.OriginalArea)},
			"finished":        {w.finished, float64(p.Finished)},
			"poured":          {w.poured, float64(p.Poured)},
			"sections":        {w.n, float64(p.Sections)},
			"weld":            {w.seam, float64(p.Weld)},
			"inside":          {w.within, float64(p.Inside)},
			"shelled":         {w.dipped, float64(p.Shelled)},
			"coats":           {w.coats, float64(p.Coats)},
			"plinth":          {w.stoneKg, float64(p.Plinth)},
			"chargeable":      {w.carrier, float64(p.Chargeable)},
		} {
			assert.InDelta(t, pair[0], pair[1], 1e-7*(1+pair[0]), "%s of %s", what, w.name)
		}
		used += w.casts * (w.finished + w.lost*once)
	}
	assert.InDelta(t, used, float64(e.MetalUsed), 1e-6*used, "metal used up, failures counted")
}

func compareLines(t *testing.T, e *estimate.Estimate, sheet *plainSheet) {
	t.Helper()
	find := func(l plainLine) (estimate.Line, bool) {
		for _, x := range e.Lines {
			if x.Stage == l.stage && x.Piece == l.piece && (x.Item == l.item || l.item == "Rubber" && strings.HasPrefix(x.Item, "Rubber")) {
				return x, true
			}
		}
		return estimate.Line{}, false
	}
	stages, foundry := map[string]int64{}, 0.0
	for _, l := range sheet.lines {
		stages[l.stage] += l.cents
		if h, _ := l.quantity.Float64(); l.labour && l.stage != "original" && l.stage != "base" && l.stage != "delivery" {
			foundry += h
		}
		x, ok := find(l)
		if !assert.True(t, ok, "%s, piece %d: no line %s of %s", l.stage, l.piece, l.item, l.quantity.FloatString(3)) {
			continue
		}
		assert.Equal(t, l.quantity.FloatString(int(x.Places)), x.QuantityText(), "quantity: %s, piece %d: %s", l.stage, l.piece, l.item)
		assert.EqualValues(t, l.cents, x.Amount, "amount: %s, piece %d: %s", l.stage, l.piece, l.item)
	}
	assert.Len(t, e.Lines, len(sheet.lines))
	assert.InDelta(t, foundry, float64(e.Foundry), 1e-6, "foundry hours")
	for _, s := range e.Stages[:len(e.Stages)-1] {
		assert.EqualValues(t, stages[s.ID], s.Amount, s.Name)
	}
}

func (c secondly) comparePrice(t *testing.T, e *estimate.Estimate, p plainPrice) {
	t.Helper()
	assert.EqualValues(t, p.direct, e.Direct, "direct cost")
	assert.EqualValues(t, p.price, e.Price, "price")
	assert.EqualValues(t, p.price-p.direct, e.Stages[len(e.Stages)-1].Amount, "from direct cost to price")
	assert.EqualValues(t, p.total, e.Total, "total")
	var steps []int64
	for _, n := range append(append([]int64{p.overhead, p.contingency, p.fee, p.profit}, p.shares...), p.rounding) {
		if n != 0 {
			steps = append(steps, n)
		}
	}
	var got []int64
	for _, l := range e.PriceLines {
		if l.Amount != 0 {
			got = append(got, int64(l.Amount))
		}
	}
	assert.Equal(t, steps, got, "the steps of the price")
	var taxes, payments []int64
	for _, x := range e.Taxes {
		taxes = append(taxes, int64(x.Amount))
	}
	for _, x := range e.Payments {
		payments = append(payments, int64(x.Amount))
	}
	assert.Equal(t, p.taxes, taxes)
	assert.Equal(t, p.payments, payments)
}

// TestSecondReckoningKnowsItsOwnSums: the arithmetic it stands on.
func TestSecondReckoningKnowsItsOwnSums(t *testing.T) {
	assert.Len(t, loads([]float64{20}, []int{7}, 60), 3)
	assert.Equal(t, []float64{60, 60}, loads([]float64{35, 25, 30}, []int{1, 1, 2}, 60))
	assert.EqualValues(t, 3, daysOf([]float64{80, 80, 80, 80, 80}, 200), "a heat is not parted")
	assert.Equal(t, big.NewRat(5, 2), toHalfUp(big.NewRat(245, 100), 1))
	assert.Equal(t, []int64{3334, 3333, 3333}, byLargestRemainder(10000, []string{"33.333333333334", "33.333333333333", "33.333333333333"}))
}
