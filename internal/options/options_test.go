package options

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/estimate"
	"meltwright/internal/mesh"
	"meltwright/internal/money"
)

// nude is the figure of the check values: 175 cm, 75 kg, a wall of 3/16 in in
// C87300 at 0.302 lb/in³, no thickening.
func nude(options ...estimate.Option) estimate.Commission {
	c := figure("175 cm")
	c.Pieces[0].Inputs["form.body_height"], c.Pieces[0].Inputs["form.body_mass"] = "175 cm", "75 kg"
	c.Pieces[0].Inputs["form.wall"], c.Pieces[0].Inputs["form.thickening"] = "3/16 in", "0 %"
	c.Options = options
	return c
}

func TestANudeLifeSizeAndAQuarterMoreWeighAsDerived(t *testing.T) {
	// Du Bois & Du Bois, Arch Intern Med 17:863–871, 1916, gives 1.9031 m²; times
	// 3/16 in and 8.3593 g/cm³ that is 75.77 kg. Areas go by the square of the
	// scale, the wall stays: 2.9736 m² and 118.4 kg at 1.25, derived from the
	// rounded figures.
	list := Compare(nude(estimate.Option{Height: "175 cm"}, estimate.Option{Height: "218.75 cm"}), startingShop(t))
	life, more := list[0].Estimate.Pieces[0], list[1].Estimate.Pieces[0]
	assert.InDelta(t, 1.9031, float64(life.Area), 0.00005)
	assert.InDelta(t, 75.77, float64(life.Finished), 0.005)
	assert.InDelta(t, 2.9736, float64(more.Area), 0.0001)
	assert.InDelta(t, 118.4, float64(more.Finished), 0.05)
	assert.Equal(t, "Life size", list[0].Name)
	assert.Equal(t, "Life and a quarter", list[1].Name)
	assert.InDelta(t, 1.25, list[1].Scale, 1e-12)
}

func TestAreaAndMetalGoByTheSquareOfTheScaleAtOneWall(t *testing.T) {
	s := startingShop(t)
	rapid.Check(t, func(t *rapid.T) {
		scale := rapid.Float64Range(0.5, 3).Draw(t, "scale")
		height := math.Round(scale*1.75e6) / 1e6
		list := Compare(nude(estimate.Option{Height: "1.75 m"}, estimate.Option{Height: fmt.Sprintf("%.6f m", height)}), s)
		one, two := list[0].Estimate.Pieces[0], list[1].Estimate.Pieces[0]
		square := (height / 1.75) * (height / 1.75)
		require.InEpsilon(t, square, float64(two.Area/one.Area), 1e-9)
		require.InEpsilon(t, square, float64(two.Finished/one.Finished), 1e-9)
	})
}

func TestAnOptionIsTheEstimateOfItsOwnCommission(t *testing.T) {
	s, c := startingShop(t), group()
	c.Options = []estimate.Option{
		{Name: "As it is"},
		{Height: "1.1 m"},
		{Height: "2.6 m", Inputs: map[string]string{"price.tax": "none"}, Pieces: []map[string]string{{"form.wall": "6 mm", "base.plinth": "no plinth"}, nil, {"form.casts": "2"}}},
	}
	list := Compare(c, s)
	alone := group()
	for _, r := range list {
		require.Empty(t, r.Faults)
	}
	e, err := estimate.Of(alone, s)
	require.NoError(t, err)
	assert.Equal(t, e.Total, list[0].Estimate.Total)

	alone = group().With(estimate.Whole, "price.tax", "none").With(0, "form.wall", "6 mm").With(0, "base.plinth", "no plinth").With(2, "form.casts", "2")
	alone = alone.With(0, "form.height", "2.6 m").With(1, "form.height", fmt.Sprintf("%.6f m", 0.78*2.6/2.19)).With(2, "form.height", fmt.Sprintf("%.6f m", 0.45*2.6/2.19))
	e, err = estimate.Of(alone, s)
	require.NoError(t, err)
	assert.Equal(t, e.Total, list[2].Estimate.Total)
	assert.Equal(t, e.Lines, list[2].Estimate.Lines, "line by line")
	assert.Empty(t, list[2].Estimate.Taxes)
}

func TestAPieceThatStaysAsItIsDoesNotGrow(t *testing.T) {
	c := group().With(1, "form.in_options", "stays as it is")
	c.Options = []estimate.Option{{Height: "1.095 m"}}
	e := Compare(c, startingShop(t))[0].Estimate
	assert.InDelta(t, 1.095, float64(e.Pieces[0].Height), 1e-9)
	assert.InDelta(t, 0.78, float64(e.Pieces[1].Height), 1e-9)
	assert.InDelta(t, 0.225, float64(e.Pieces[2].Height), 1e-9)
}

func TestEditingOneOptionNeverDisturbsAnother(t *testing.T) {
	s := startingShop(t)
	paths := map[string][]string{
		"form.wall": {"5 mm", "1/4 in", ""}, "form.alloy": {"C90500 gunmetal 88-10-0-2"}, "patina.colours": {"1", "3"},
		"base.plinth": {"block", "no plinth"}, "form.casts": {"1", "4"}, "form.start": {"their wax", "their mould"},
	}
	rapid.Check(t, func(t *rapid.T) {
		c := group()
		c.Options = []estimate.Option{{Height: "1 m"}, {Height: "1.75 m"}, {}, {Height: "2.4 m"}}
		edits := rapid.IntRange(1, 6).Draw(t, "edits")
		one := rapid.IntRange(0, 3).Draw(t, "option")
		before := Compare(c, s)
		for range edits {
			path := rapid.SampledFrom([]string{"form.wall", "form.alloy", "patina.colours", "base.plinth", "form.casts", "form.start"}).Draw(t, "path")
			text := rapid.SampledFrom(paths[path]).Draw(t, "text")
			c.Options[one] = c.Options[one].With(rapid.IntRange(0, 2).Draw(t, "piece"), path, text)
		}
		after := Compare(c, s)
		for i := range after {
			if i != one {
				require.Equal(t, before[i].Estimate.Lines, after[i].Estimate.Lines)
				require.Equal(t, before[i].Commission, after[i].Commission)
			}
		}
		plain := group()
		require.Equal(t, plain.Pieces, c.Pieces, "the commission itself is untouched")
	})
}

func TestTheBudgetLeavesOrLacksToTheCent(t *testing.T) {
	c := figure("1.75 m").With(estimate.Whole, "price.tax", "Ontario").With(estimate.Whole, "price.budget", "60000")
	c.Options = []estimate.Option{{Height: "1 m"}, {Height: "3 m"}, {Height: "1 m", Inputs: map[string]string{"price.budget_is": "before tax"}}}
	list := Compare(c, startingShop(t))
	for i, r := range list {
		require.True(t, r.Budgeted)
		held := r.Estimate.Total
		if i == 2 {
			held = r.Estimate.Price
		}
		assert.Equal(t, money.Amount(6_000_000)-held, r.Left)
	}
	assert.True(t, list[0].Fits())
	assert.False(t, list[1].Fits())
	without := Compare(figure("1.75 m"), startingShop(t))[0]
	assert.False(t, without.Budgeted)
	assert.True(t, without.Fits())
}

func TestFaultsNameTheirOption(t *testing.T) {
	c := figure("1.75 m")
	c.Options = []estimate.Option{
		{Height: "tall"},
		{Name: "Thin", Height: "1 m", Pieces: []map[string]string{{"form.wall": "-3 mm"}}},
		{Inputs: map[string]string{"form.hieght": "2 m"}},
		{Pieces: []map[string]string{nil, {"form.wall": "5 mm"}}},
		{Height: "1 m"},
	}
	list := Compare(c, startingShop(t))
	words := func(i int) string { return list[i].Faults[0].Error() }
	assert.Contains(t, words(0), "Height of option 1 “tall” is not a length")
	assert.Contains(t, words(1), "Wall thickness of option 2 (Thin) “-3 mm” is below zero")
	assert.Contains(t, words(2), "of option 3 (Life size) “form.hieght” is no input here; did you mean form.height?")
	assert.Contains(t, words(3), "Piece 2 of option 4 is not in the commission")
	assert.Equal(t, "options.1.0.form.wall", list[1].Faults[0].Where)
	assert.Equal(t, "options.0.height", list[0].Faults[0].Where)
	assert.Empty(t, list[4].Faults)
	assert.False(t, list[1].Fits())
}

func TestFaultsOfTheCommissionAreItsOwn(t *testing.T) {
	c := figure("1.75 m").With(estimate.Whole, "pour.yield", "0 %")
	c.Options = []estimate.Option{{Height: "1 m"}, {Height: "2 m", Pieces: []map[string]string{{"form.casts": "two"}}}}
	list := Compare(c, startingShop(t))
	assert.Equal(t, "pour.yield", list[0].Faults[0].Where)
	assert.NotContains(t, list[0].Faults[0].Error(), "option")
	_, ok := list[1].Faults.At("options.1.0.form.casts")
	assert.True(t, ok)
	_, ok = list[1].Faults.At("pour.yield")
	assert.True(t, ok)
}

func TestAnEmptyInputOfAnOptionIsTheStartingValue(t *testing.T) {
	c := figure("1.75 m").With(0, "form.wall", "8 mm")
	c.Options = []estimate.Option{{}, {Pieces: []map[string]string{{"form.wall": ""}}}}
	list := Compare(c, startingShop(t))
	assert.InDelta(t, 0.008, float64(list[0].Estimate.Pieces[0].Wall), 1e-12)
	assert.InDelta(t, 0.0047625, float64(list[1].Estimate.Pieces[0].Wall), 1e-12, "3/16 in by the shop book")
	back := c.Options[1].Without(0, "form.wall")
	assert.Empty(t, back.Pieces)
	_, says := c.Options[1].Says(0, "form.wall")
	assert.True(t, says)
	_, says = back.Says(0, "form.wall")
	assert.False(t, says)
}

func TestWithoutOptionsThereIsTheCommissionItself(t *testing.T) {
	list := Compare(figure("2.625 m"), startingShop(t))
	require.Len(t, list, 1)
	assert.Equal(t, "Life and a half", list[0].Name)
	assert.InDelta(t, 2.625, float64(list[0].Height), 1e-12)
}

func BenchmarkFiveOptions(b *testing.B) {
	s, c := startingShop(b), figure("1.75 m")
	for _, h := range []string{"0.875 m", "1.75 m", "2.1875 m", "2.625 m", "3.5 m"} {
		c.Options = append(c.Options, estimate.Option{Height: h})
	}
	for b.Loop() {
		Compare(c, s)
	}
}

func BenchmarkFiveOptionsOfThreePieces(b *testing.B) {
	s, c := startingShop(b), group()
	for _, h := range []string{"0.875 m", "1.75 m", "2.1875 m", "2.625 m", "3.5 m"} {
		c.Options = append(c.Options, estimate.Option{Height: h})
	}
	for b.Loop() {
		Compare(c, s)
	}
}

func TestAScanGrowsFromTheHeightItWasScannedAt(t *testing.T) {
	c := estimate.Commission{Pieces: []estimate.Piece{{Name: "Egg", Scan: egg(), Inputs: map[string]string{"form.known_by": "scan"}}}}
	c.Options = []estimate.Option{{}, {Height: "0.6 m"}}
	s := startingShop(t)
	list := Compare(c, s)
	require.Empty(t, Faults(list))
	assert.InDelta(t, 0.3, float64(list[0].Height), 1e-6)
	one, two := list[0].Estimate.Pieces[0], list[1].Estimate.Pieces[0]
	assert.InDelta(t, 0.6, float64(two.Height), 1e-6)
	assert.InEpsilon(t, 4, float64(two.Area/one.Area), 1e-6)
	fit, err := Largest(c, s, list[1].Estimate.Total, false)
	require.NoError(t, err)
	assert.GreaterOrEqual(t, float64(fit.Height), 0.6)
	scan(t, mustTry(t, c, s, false), fit, list[1].Estimate.Total, 100)

	d := c.Clone()
	d.Options[1].Height = "0.7 m"
	assert.Equal(t, []bool{true, false}, Unchanged(d, c))
	d.Pieces[0].Scan = &mesh.Scan{}
	assert.Equal(t, []bool{false, false}, Unchanged(d, c))
}

func TestTheRuleOfAnOptionIsThatOfItsCommission(t *testing.T) {
	s := startingShop(t)
	rapid.Check(t, func(t *rapid.T) {
		c := drawCommission(t)
		o := estimate.Option{Height: fmt.Sprintf("%.4f m", rapid.Float64Range(0.2, 4).Draw(t, "height"))}
		if rapid.Bool().Draw(t, "made otherwise") {
			o = o.With(0, "form.wall", "6 mm").With(estimate.Whole, "price.budget", "70000")
		}
		d, rule, err := o.Scaled(c, s)
		require.NoError(t, err)
		require.Equal(t, estimate.RuleOf(d, s), rule)
		d2, rule2, err := o.ScaledBy(estimate.RuleOf(c, s), c, s)
		require.NoError(t, err)
		require.Equal(t, d, d2, "the same where the commission's rule is known")
		require.Equal(t, rule, rule2)
	})
}

func TestOnlyWhatHasChangedIsEstimatedAgain(t *testing.T) {
	s, c := startingShop(t), group()
	c.Options = []estimate.Option{{Height: "1 m"}, {Height: "2 m"}, {Height: "tall"}}
	before := Compare(c, s)
	d := c.Clone()
	d.Options[1].Height = "2.2 m"
	unchanged := Unchanged(d, c)
	assert.Equal(t, []bool{true, false, true}, unchanged)
	after := Again(d, s, before, unchanged)
	assert.True(t, before[0].Estimate == after[0].Estimate, "the very same")
	assert.Equal(t, Compare(d, s)[1].Estimate.Total, after[1].Estimate.Total)
	assert.Equal(t, before[2].Faults, after[2].Faults)

	d.Options[1].Height = "2.2 n"
	after = Again(d, s, before, Unchanged(d, c))
	assert.Contains(t, after[1].Faults[0].Error(), "option 2")
	assert.Equal(t, []bool{false, false, false}, Unchanged(d.With(0, "form.wall", "6 mm"), c), "the quote itself has changed")
	d.Options = d.Options[:2]
	assert.Len(t, Again(d, s, before, Unchanged(d, c)), 2)
}
