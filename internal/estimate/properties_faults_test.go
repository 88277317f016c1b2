package estimate_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/money"
	"meltwright/internal/shop"
)

// Everything that is wrong is told at once, each with its field, what was typed,
// and what would be right.
func TestEverythingThatIsWrongIsToldAtOnce(t *testing.T) {
	c := estimate.Commission{
		Currency: "XXQ", Units: "cubits",
		Inputs: texts{"pour.yield": "0 %", "pour.holds": "-3 kg", "price.payments": "Signed 30; Done 60", "price.insurance": "60 %", "price.bond": "40 %", "price.profit": "100 %", "pour.smelt": "1"},
		Pieces: []estimate.Piece{
			{Name: "Figure", Inputs: texts{"form.wall": "-5 mm", "form.body_mass": "heavy", "form.casts": "0", "form.alloy": "gold", "patina.colours": "2.5"}},
			{Name: "Ball", Inputs: texts{"form.known_by": "solids", "form.wall": "60 mm"}, Solids: []map[string]string{{"shape": "sphere", "diameter": "0.1 m"}, {"shape": "sphere", "diameter": "none"}}},
			{Name: "Bell", Inputs: texts{"form.known_by": "typed area", "form.area": "3 m²", "form.sections": "1"}},
			{Name: "Nothing", Inputs: texts{"form.known_by": "solids"}},
		},
		Extras: []estimate.Extra{{Stage: "gilding", Item: "Leaf", Quantity: "1", Rate: "1"}, {Stage: "patina", Item: "Leaf", Quantity: "-1", Rate: "1"}, {Stage: "patina", Item: "Leaf", Quantity: "1", Rate: "much"}},
	}
	_, err := estimate.Of(c, theShop(t))
	require.Error(t, err)
	faults := fault.All(err)
	for where, want := range map[string]string{
		"currency":            "Currency “XXQ” is no currency code",
		"units":               "Units “cubits” are unknown",
		"pour.yield":          "Good castings “0 %” is too little",
		"pour.holds":          "It holds “-3 kg” is below zero",
		"price.payments":      "Payments “Signed 30; Done 60” adds to 90 %, not to 100 %",
		"price.insurance":     "Shares of the price “100 %” leave nothing of the price",
		"price.profit":        "Margin or markup “100 %” of 100 % or more leaves nothing of the price for the cost",
		"pour.smelt":          "Input “pour.smelt” is no input",
		"0.form.wall":         "Figure, wall thickness “-5 mm” is below zero",
		"0.form.body_mass":    "Figure, mass of the body “heavy” is not",
		"0.form.casts":        "Figure, casts “0” is too little",
		"0.form.alloy":        "Figure, alloy “gold” is not one of the choices",
		"0.patina.colours":    "Figure, colours “2.5” is not a whole number",
		"1.form.wall":         "Ball, wall thickness “60 mm” is thicker than the form",
		"1.solids.1.diameter": "Ball, solid 2, diameter “none” is not a length",
		"2.form.sections":     "Bell, sections “1” leaves a section of",
		"3.solids.0.shape":    "Solids of Nothing are none",
		"extras.0":            "Own line “Leaf”, stage “gilding” is no stage",
		"extras.1":            "Own line “Leaf”, quantity “-1” is not a quantity",
		"extras.2":            "Own line “Leaf”, rate “much” is not a rate",
	} {
		f, ok := faults.At(where)
		if assert.True(t, ok, "nothing of %s", where) {
			assert.True(t, strings.HasPrefix(f.Error(), want), f.Error())
			assert.NotEmpty(t, f.Remedy, where)
		}
	}
	_, err = estimate.Of(estimate.Commission{}, theShop(t))
	assert.ErrorContains(t, err, "Pieces are none; add at least one")
}

// A figure's wall is bounded by the figure's own depth, not by that of the ball
// of its surface; solids have cells of solids;
// other money is not taken for the quote's.
func TestWhatCannotBeIsRefusedWhereItWasTyped(t *testing.T) {
	nude := func(in texts) estimate.Commission {
		return estimate.Commission{Pieces: []estimate.Piece{{Name: "Nude", Inputs: in}}}
	}
	ball := func(rows ...map[string]string) estimate.Commission {
		return estimate.Commission{Pieces: []estimate.Piece{{Name: "Ball", Inputs: texts{"form.known_by": "solids"}, Solids: rows}}}
	}
	for want, c := range map[string]estimate.Commission{
		"Wall thickness “30 cm” is thicker than the form, which a wall of 11.8 cm fills; give a thinner wall or a larger height":                                                               nude(texts{"form.wall": "30 cm"}),
		"Solid 1, cell “diametre” is in no solid; give shape, count, ends, diameter, length, width, height, foot, top, ring, bore or thickness":                                                ball(map[string]string{"shape": "sphere", "diameter": "1 m", "diametre": "1 m"}),
		"Solids of Ball are none; add at least one, such as a sphere of 0.5 m":                                                                                                                 ball(),
		"Mould maker “€52 / h” is in another currency than CAD; give money for each unit, such as 12.50 / h":                                                                                   {Inputs: texts{"mould.labour": "€52 / h"}, Pieces: []estimate.Piece{{}}},
		"Displaced volume, as measured “2 m³” is more than 1 m² of surface can hold: a ball holds the most, 94.03 L; check the volume and the surface, both at the size they were measured at": nude(texts{"form.known_by": "typed area", "form.area": "1 m²", "form.volume": "2 m³"}),
		"Height to make “1 cm” is too little for a wall of 4.76 mm: at that size one of 0.676 mm fills the form; give a larger height or a thinner wall":                                       nude(texts{"form.height": "1 cm"}),
		"Good castings “2 %” is too little; give from 10 %, up to 100 %":                                                                                                                       {Inputs: texts{"pour.yield": "2 %"}, Pieces: []estimate.Piece{{}}},
	} {
		_, err := estimate.Of(c, theShop(t))
		assert.EqualError(t, err, want)
	}
	for _, c := range []estimate.Commission{
		{Inputs: texts{"price.exchange": "kept, not read", "mould.labour": "CAD 52 / h"}, Pieces: []estimate.Piece{{}}},
		ball(map[string]string{"shape": "sphere", "diameter": "1 m", "bore": "kept, not read", "// from": "the maquette"}),
		nude(texts{"form.wall": "100 mm"}),
	} {
		_, err := estimate.Of(c, theShop(t))
		assert.NoError(t, err)
	}
}

// A price too large to reckon with is told of as that, once, and never shown.
func TestMoreMoneyThanCanBeReckonedWithIsAFault(t *testing.T) {
	for _, in := range []texts{
		{"delivery.nights": "1000000000", "delivery.night": "1000000000"},
		{"original.labour": "1000000000 / h", "price.profit": "99.9 %"},
		{"delivery.nights": "1000000000", "delivery.night": "1000000000", "price.overhead": "0 %", "price.contingency": "0 %", "price.profit": "0 %", "price.insurance": "0 %"},
	} {
		_, err := estimate.Of(estimate.Commission{Inputs: in, Pieces: []estimate.Piece{{Inputs: texts{"original.hours": "1000 h/m²"}}}}, theShop(t))
		assert.EqualError(t, err, "Price comes to more money than can be reckoned with; look for a zero too many among hours, rates and numbers")
	}
}

// What a field says of a choice that does not apply to the piece does not count.
func TestWhatIsTypedForAnotherWayOfKnowingIsKeptAndNotRead(t *testing.T) {
	e := one(t, theShop(t), texts{"form.known_by": "typed area", "form.body_mass": "heavy", "form.animal": "Unicorn"}, nil)
	assert.InDelta(t, 1, float64(e.Pieces[0].Area), 1e-12)
}

// oddTexts are what slips, pastes and mischief put into a field.
func oddTexts() *rapid.Generator[string] {
	return rapid.OneOf(
		rapid.SampledFrom([]string{
			"", " ", "0", "-1", "1", "2", "1e9", "999999999", "0.000001", "1/0", "NaN", "Inf", "-0", "12,5", "1 000 000 000 000", "0.0000000000001 mm",
			"1000000 m", "1 thou", "100 %", "99.999999 %", "1000 %", "99999 kg", "5'10\"", "3/16 in", "1000 t", "1 mg", "−40 °F", "1600 °C", "10000", "2000", "0.3", "4",
			"human figure", "solids", "animal", "typed area", "covered maquette", "by others", "by us", "block", "tapered block", "markup", "a share of the price",
			"their wax", "the clay original's", "Ontario", "1 / kg", "1000000000 / h", "999999999.99", "a 50; b 50", "\x00", "🗿", strings.Repeat("9", 70),
		}),
		rapid.String(),
		rapid.StringMatching(`-?[0-9]{1,9}([.,][0-9]{1,6})? ?(mm|m|in|ft|kg|lb|g|%|h|m²|L|kWh|°C|/ kg|/ h|g/cm³|kg/m²|h/m²)?`),
	)
}

// oddCommission has odd texts in some of all fields there are.
func oddCommission(t *rapid.T) estimate.Commission {
	odd := oddTexts()
	fields := func(perPiece bool, most int) texts {
		var paths []string
		for _, st := range estimate.Stages {
			for _, f := range st.Fields(perPiece) {
				paths = append(paths, f.Path())
			}
		}
		in := texts{}
		for range rapid.IntRange(0, most).Draw(t, "fields") {
			in[rapid.SampledFrom(paths).Draw(t, "field")] = odd.Draw(t, "typed")
		}
		return in
	}
	c := estimate.Commission{Inputs: fields(false, 12)}
	for range rapid.IntRange(0, 3).Draw(t, "pieces") {
		p := estimate.Piece{Inputs: fields(true, 12)}
		if rapid.Bool().Draw(t, "solids") {
			p.Solids = []map[string]string{{"shape": rapid.SampledFrom([]string{"sphere", "box", "tube", "ellipsoid", "blob"}).Draw(t, "shape"), "diameter": odd.Draw(t, "d"), "bore": "1 cm", "length": odd.Draw(t, "l"), "width": odd.Draw(t, "w"), "height": "1 m", "count": odd.Draw(t, "n")}}
		}
		c.Pieces = append(c.Pieces, p)
	}
	if rapid.Bool().Draw(t, "own line") {
		c.Extras = []estimate.Extra{{Stage: "pour", Item: odd.Draw(t, "item"), Quantity: odd.Draw(t, "quantity"), Rate: odd.Draw(t, "rate")}}
	}
	return c
}

// Whatever is typed into whatever field, there is an estimate that can be shown
// and worked out, or faults that say what would be right.
func TestWhateverIsTypedThereIsAnEstimateOrAFaultToActOn(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		c := oddCommission(rt)
		e, err := estimate.Of(c, theShop(t))
		faults := fault.All(err)
		for _, f := range faults {
			if f.Where == "" || f.Field == "" || f.Problem == "" || f.Remedy == "" {
				rt.Fatalf("%+v", f)
			}
		}
		direct := money.Amount(0)
		for _, l := range e.Lines {
			direct += l.Amount
			if l.Amount < 0 || math.IsNaN(l.Hours) || strings.Contains(e.Working(l).String(), "NaN") {
				rt.Fatalf("%+v", l)
			}
			if err == nil && l.Amount != e.Currency.Times(l.Quantity, l.Rate) {
				rt.Fatalf("%s: %v × %v is not %v, and nothing is said of it", l.Item, l.Quantity, l.Rate, l.Amount)
			}
		}
		if direct != e.Direct {
			rt.Fatalf("lines %v, direct %v", direct, e.Direct)
		}
		if err == nil && (e.Price < 0 || e.Total < e.Price || e.Price > money.Most || len(e.Heats) == 0) {
			rt.Fatalf("direct %v, price %v, total %v, %d heats", direct, e.Price, e.Total, len(e.Heats))
		}
		for _, p := range e.Pieces {
			for _, what := range []string{"finished", "poured", "area", "sections", "weld"} {
				if w, ok := e.WorkingOf(p, what); !ok || w.Numbers == "" {
					rt.Fatal(what)
				}
			}
		}
		checkPages(rt, t, c, faults)
	})
}

// checkPages: every page of every stage can be shown.
func checkPages(rt *rapid.T, t *testing.T, c estimate.Commission, faults fault.List) {
	for _, st := range estimate.Stages {
		for piece := estimate.Whole; piece < len(c.Pieces); piece++ {
			for _, x := range estimate.Entries(c, theShop(t), st, piece, faults) {
				if x.Field.Label == "" || x.Fault != nil && x.Fault.Where != x.Where() {
					rt.Fatalf("%+v", x)
				}
			}
		}
	}
}

// A shop book with nothing in its tables is told of, not fallen over and not
// taken for one that pours for nothing.
func TestAShopThatHasNothingSaysWhatItLacks(t *testing.T) {
	b := shop.Start()
	for _, table := range shop.Tables() {
		b = b.WithTable(table.Key, nil, "")
	}
	s, err := shop.Read(b)
	require.NoError(t, err)
	c := estimate.Commission{Pieces: []estimate.Piece{{Name: "Dog", Inputs: texts{"form.known_by": "animal", "base.plinth": "block"}}}}
	_, err = estimate.Of(c, s)
	for _, where := range []string{"pour.crucible", "0.form.animal", "0.form.alloy", "0.mould.rubber", "0.base.stone"} {
		f, ok := fault.All(err).At(where)
		assert.True(t, ok, where)
		assert.Contains(t, f.Error(), " has nothing to choose from; put a row into that table of the shop book")
	}
	_, err = estimate.Of(c.With(estimate.Whole, "pour.holds", "90 lb").With(0, "form.start", "their mould"), s)
	for _, where := range []string{"pour.crucible", "0.mould.rubber"} {
		_, ok := fault.All(err).At(where)
		assert.False(t, ok, "%s is not needed", where)
	}
}
