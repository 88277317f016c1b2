package field

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/fault"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
)

var (
	wall    = Def{Key: "wall", Label: "Wall thickness", Kind: quantity.KindLength, Bounds: AboveZero, Bare: [2]string{"mm", "in"}}
	share   = Def{Label: "Tax", Kind: quantity.KindShare, Bounds: PartOf1}
	wage    = Def{Label: "Welder", Sort: Rate, Per: quantity.Hour, Bounds: ZeroUp}
	ingot   = Def{Label: "Ingot", Sort: Rate, Per: quantity.Kilogram, Bounds: ZeroUp}
	each    = Def{Label: "Anchor", Sort: Rate, Per: quantity.None, Bounds: ZeroUp}
	permits = Def{Label: "Permits", Sort: Money, Bounds: ZeroUp}
	patina  = Def{Label: "Patina is", Sort: Choice, Choices: []string{"by us", "by others"}}
	open    = Def{Label: "Alloy", Sort: Choice}
	words   = Def{Label: "Payments", Sort: Text}
)

func in(t testing.TB, code string, sys quantity.System) Context {
	c, err := money.NewCurrency(code)
	require.NoError(t, err)
	return Context{System: sys, Currency: c}
}

func TestEachSortOfFieldReadsWhatBelongsInIt(t *testing.T) {
	ctx := in(t, "CAD", quantity.Metric)
	for _, x := range []struct {
		d    Def
		text string
		num  float64
		dec  string
		unit string
		word string
	}{
		{wall, " 3/16 in ", 0.0047625, "0", "", ""},
		{wall, "5", 0.005, "0", "", ""},
		{wall, `1/4"`, 0.00635, "0", "", ""},
		{share, "9.975 %", 0.09975, "0.09975", "", ""},
		{share, "9.975", 0.09975, "0.09975", "", ""},
		{wage, "58 / h", 58, "58", "h", ""},
		{wage, "58 per hour", 58, "58", "h", ""},
		{wage, "$58.50", 58.5, "58.5", "h", ""},
		{wage, "1 / min", 1, "1", "min", ""},
		{ingot, "8.07/lb", 8.07, "8.07", "lb", ""},
		{each, "38", 38, "38", "", ""},
		{permits, "$1,200.50", 1200.5, "1200.5", "", ""},
		{permits, "1 200,505", 1200.51, "1200.51", "", ""},
		{patina, "By Others", 0, "0", "", "by others"},
		{open, "Any bronze", 0, "0", "", "Any bronze"},
		{words, " Signed 50; Done 50 ", 0, "0", "", "Signed 50; Done 50"},
	} {
		v, err := x.d.Read(x.text, ctx)
		require.NoError(t, err, x.text)
		assert.InDelta(t, x.num, v.Num, 1e-12, x.text)
		assert.Equal(t, x.dec, v.Dec.String(), x.text)
		assert.Equal(t, x.unit, v.Unit.Symbol, x.text)
		assert.Equal(t, x.word, v.Text, x.text)
	}
}

func TestABareNumberIsInTheUnitItsFieldIsUsuallyTypedIn(t *testing.T) {
	metric, err := wall.Read("5", in(t, "CAD", quantity.Metric))
	require.NoError(t, err)
	pound, err := wall.Read("3/16", in(t, "USD", quantity.InchPound))
	require.NoError(t, err)
	assert.InDelta(t, 0.005, metric.Num, 1e-15)
	assert.InDelta(t, 0.0047625, pound.Num, 1e-15)
	height := Def{Kind: quantity.KindLength, Bounds: AboveZero}
	v, err := height.Read("72", in(t, "USD", quantity.InchPound))
	require.NoError(t, err)
	assert.InDelta(t, 1.8288, v.Num, 1e-12, "inches, where the field has no unit of its own")
}

// Every fault is one sentence of field, value, what is wrong, what is right.
func TestWhatWillNotDoIsToldWithFieldValueAndRemedy(t *testing.T) {
	metric := in(t, "CAD", quantity.Metric)
	for sentence, x := range map[string]struct {
		d    Def
		text string
	}{
		"Wall thickness “-3 mm” is below zero; give more than 0 m":                                   {wall, "-3 mm"},
		"Wall thickness “0” is too little; give more than 0 m":                                       {wall, "0"},
		"Tax “100 %” is too much; give from 0 %, less than 100 %":                                    {share, "100 %"},
		"Welder “fifty” is not a rate; give money for each unit, such as 12.50 / h":                  {wage, "fifty"},
		"Welder “58 / kg” is stated for something else; give money for each unit, such as 12.50 / h": {wage, "58 / kg"},
		"Anchor “4 / h” is stated for something else; give money for each unit, such as 12.50":       {each, "4 / h"},
		"Permits “9000000000000” is too much; give from 0, up to 1,000,000,000":                      {permits, "9000000000000"},
		"Welder “-1” is below zero; give 0 or more":                                                  {wage, "-1"},
		"Patina is “by them” is not one of the choices; choose by us or by others":                   {patina, "by them"},
		"Yield “0 %” is too little; give more than 0 %, up to 100 %":                                 {Def{Label: "Yield", Kind: quantity.KindShare, Bounds: YieldOf1}, "0 %"},
		"Difficulty “9” is too much; give from 0.3, up to 4":                                         {Def{Label: "Difficulty", Bounds: Bounds{Min: 0.3, Max: 4}}, "9"},
		"Crew “0” is too little; give 1 or more":                                                     {Def{Label: "Crew", Kind: quantity.KindCount, Bounds: AtLeast1}, "0"},
		"Only one “x” is not one of the choices; choose this":                                        {Def{Label: "Only one", Sort: Choice, Choices: []string{"this"}}, "x"},
	} {
		_, err := x.d.Read(x.text, metric)
		require.Error(t, err, x.text)
		assert.Equal(t, sentence, err.Error())
	}
}

func TestMoneyIsReadInTheMoneyOfTheQuote(t *testing.T) {
	v, err := permits.Read("1250", in(t, "JPY", quantity.Metric))
	require.NoError(t, err)
	assert.Equal(t, "1250", v.Dec.String())
	v, err = permits.Read("1.2345", in(t, "KWD", quantity.Metric))
	require.NoError(t, err)
	assert.Equal(t, "1.235", v.Dec.String(), "three decimals")
}

// Whatever is typed, anywhere, a field reads it or says what would be right.
func TestWhateverIsTypedIsReadOrToldInASentence(t *testing.T) {
	odd := []string{"", " ", "-", "/", "1/", "/kg", "1//kg", "per", "∞", "NaN", "1e999", "1/0", "9999999999999", "9 % %", "\x00", "🎨", "1,2,3.4.5", "2 h 90", "−0"}
	texts := rapid.OneOf(rapid.SampledFrom(odd), rapid.String(), rapid.StringMatching(`-?[0-9]{1,4}([.,][0-9]{1,3})? ?(/|per)? ?(mm|in|kg|h|%)?`))
	rapid.Check(t, func(rt *rapid.T) {
		d := rapid.SampledFrom([]Def{wall, share, wage, ingot, each, permits, patina, open, words}).Draw(rt, "field")
		ctx := in(t, rapid.SampledFrom([]string{"CAD", "JPY", "KWD"}).Draw(rt, "money"), rapid.SampledFrom([]quantity.System{quantity.Metric, quantity.InchPound}).Draw(rt, "system"))
		v, err := d.Read(texts.Draw(rt, "typed"), ctx)
		if err != nil {
			f := fault.All(err)[0]
			if f.Field != d.Label || f.Problem == "" || f.Remedy == "" {
				rt.Fatalf("says only: %v", err)
			}
			return
		}
		if d.Sort != Text && d.Sort != Choice && !(v.Num >= 0 && v.Num < 1e16) {
			rt.Fatalf("understood %v", v.Num)
		}
	})
}

// What is printed is read back as the same, to the digits printed.
func TestWhatIsPrintedReadsBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		d := rapid.SampledFrom([]Def{wall, share, wage, ingot, each, permits, patina, words}).Draw(rt, "field")
		ctx := in(t, "CAD", rapid.SampledFrom([]quantity.System{quantity.Metric, quantity.InchPound}).Draw(rt, "system"))
		text := map[Sort]string{
			Quantity: rapid.StringMatching(`[1-9][0-9]{0,2}\.[0-9]`).Draw(rt, "number"),
			Rate:     rapid.StringMatching(`[1-9][0-9]{0,3}\.[0-9]{2}`).Draw(rt, "rate"),
			Money:    rapid.StringMatching(`[1-9][0-9]{0,5}\.[0-9]{2}`).Draw(rt, "money"),
			Choice:   "by others", Text: "half 50; half 50",
		}[d.Sort]
		if d.Kind == quantity.KindShare {
			text = "0." + text[:1]
		}
		v, err := d.Read(text, ctx)
		if err != nil {
			rt.Fatal(err)
		}
		again, err := d.Read(d.Print(v, ctx.System), ctx)
		if err != nil {
			rt.Fatal(err)
		}
		// A length in inches is to the sixteenth.
		if diff := again.Num - v.Num; diff > 0.001+v.Num/1000 || -diff > 0.001+v.Num/1000 || again.Text != v.Text || again.Unit.Symbol != v.Unit.Symbol {
			rt.Fatalf("%q is %v, prints %q, is %v", text, v, d.Print(v, ctx.System), again)
		}
	})
}

func TestOriginsSayWhereAValueComesFrom(t *testing.T) {
	for want, o := range map[string]Origin{
		"worked out":                                        {},
		"typed: 2.19 m":                                     {From: Typed, Source: "2.19 m"},
		"shop book, 2026-03-14: set by the shop":            {From: ShopBook, Source: "set by the shop", Dated: "2026-03-14"},
		"shop book: common practice, no source":             {From: ShopBook, Source: NoSource},
		"published: Mosteller, N Engl J Med 317:1098, 1987": {From: Published, Source: "Mosteller, N Engl J Med 317:1098, 1987"},
		"scan: angel.stl":                                   {From: Scanned, Source: "angel.stl"},
	} {
		assert.Equal(t, want, o.String())
	}
	assert.Greater(t, Typed, Scanned)
	assert.Greater(t, Scanned, Published)
	assert.Greater(t, Published, ShopBook)
	assert.Greater(t, ShopBook, Proposed)
}
