package estimate_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
	"meltwright/internal/field"
	"meltwright/internal/money"
	"meltwright/internal/shop"
)

func TestACopyOfACommissionSharesNothingWithIt(t *testing.T) {
	make := func() estimate.Commission {
		return estimate.Commission{
			Title: "Quay", Inputs: texts{"price.tax": "Ontario"},
			Pieces:  []estimate.Piece{{Name: "Ball", Inputs: texts{"form.known_by": "solids"}, Solids: []map[string]string{{"shape": "sphere"}}}},
			Extras:  []estimate.Extra{{Stage: "patina", Item: "Gilding"}},
			Options: []estimate.Option{{Name: "Larger", Inputs: texts{"price.step": "1"}, Pieces: []map[string]string{{"form.wall": "5 mm"}}}},
		}
	}
	c := make()
	d := c.Clone()
	assert.Equal(t, c, d)
	d.Inputs["price.tax"] = "none"
	d.Pieces[0].Inputs["form.wall"] = "9 mm"
	d.Pieces[0].Solids[0]["shape"] = "box"
	d.Pieces[0].Name = "Box"
	d.Extras[0].Item = "Leaf"
	d.Options[0].Inputs["price.step"] = "100"
	d.Options[0].Pieces[0]["form.wall"] = "1 mm"
	_ = c.With(0, "form.wall", "7 mm").With(estimate.Whole, "price.tax", "")
	assert.Equal(t, make(), c)
}

func TestAnInputThatIsEmptiedHasItsProposedValueAgain(t *testing.T) {
	c := estimate.Commission{Pieces: []estimate.Piece{{}}}
	d := c.With(0, "form.wall", "9 mm").With(estimate.Whole, "price.step", "100")
	assert.Equal(t, "9 mm", d.Pieces[0].Inputs["form.wall"])
	assert.Empty(t, d.With(0, "form.wall", "").With(estimate.Whole, "price.step", "").Pieces[0].Inputs)
	a, err := estimate.Of(c, theShop(t))
	require.NoError(t, err)
	b, err := estimate.Of(d.With(0, "form.wall", "").With(estimate.Whole, "price.step", "  "), theShop(t))
	require.NoError(t, err)
	assert.Equal(t, a.Price, b.Price)
}

func TestEveryFieldIsFoundByItsPathAndExplainsItself(t *testing.T) {
	book, err := shop.Read(shop.Start())
	require.NoError(t, err)
	for _, perPiece := range []bool{true, false} {
		seen := map[string]bool{}
		for _, st := range estimate.Stages {
			found, ok := estimate.StageByID(st.ID)
			assert.True(t, ok)
			assert.Same(t, st, found)
			for _, f := range st.Fields(perPiece) {
				assert.False(t, seen[f.Path()], "%s is there twice", f.Path())
				seen[f.Path()] = true
				got, ok := estimate.FieldByPath(f.Path(), perPiece)
				assert.True(t, ok)
				assert.Same(t, f, got)
				assert.True(t, strings.HasPrefix(f.Explain(book), f.Label), f.Path())
				if len(f.Choices) > 0 || f.FromBook != nil {
					assert.Contains(t, f.Explain(book), "one of", f.Path())
				}
			}
		}
	}
	_, ok := estimate.FieldByPath("form.colour", true)
	assert.False(t, ok)
	_, ok = estimate.StageByID("gilding")
	assert.False(t, ok)
	f, _ := estimate.FieldByPath("metalwork.rod_price", false)
	assert.Contains(t, f.Explain(book), "money for each kg; starts with the shop book's “42 / kg”")
	f, _ = estimate.FieldByPath("form.alloy", true)
	for _, a := range book.Alloys {
		assert.Contains(t, f.Explain(book), a.Name)
	}
	f, _ = estimate.FieldByPath("form.wall", true)
	assert.Contains(t, f.Explain(book), "a length, such as 1.8 m, 72 in or 5'10\"; starts with the shop book's “3/16 in”")
	own, err := shop.Read(shop.Start().With("form.wall", "6 mm", "2026-05-01"))
	require.NoError(t, err)
	assert.Contains(t, f.Explain(own), "starts with the shop book's “6 mm”", "the shop's own")
}

// Every setting of the shop book is used: a rate that no stage takes would be a
// lie on the shop book's page.
func TestEverySettingOfTheBookCanBeSetForACommission(t *testing.T) {
	used := map[shop.Key]bool{}
	for _, st := range estimate.Stages {
		for _, perPiece := range []bool{true, false} {
			for _, f := range st.Fields(perPiece) {
				used[f.Book] = true
				if f.Book != shop.Unset {
					assert.Equal(t, f.Sort, f.Book.Def().Sort, f.Path())
					assert.Equal(t, f.Kind, f.Book.Def().Kind, f.Path())
				}
			}
		}
	}
	for i, d := range shop.Settings() {
		switch d.Group {
		case "Original", "Mould", "Wax", "Gating", "Shell", "Pour", "Metalwork", "Patina", "Labour":
			// The length of the flange and the coarse coats are proposed by it.
			proposed := strings.HasPrefix(d.Key, "shell.coarse") || strings.HasSuffix(d.Key, "_piece") || d.Key == "mould.flange_length"
			assert.True(t, used[shop.Key(i)] || proposed, d.Key)
		}
	}
}

func TestAnInputOfNoStageIsToldWhereItBelongsUnlessItIsAComment(t *testing.T) {
	_, err := estimate.Of(estimate.Commission{Pieces: []estimate.Piece{{Inputs: texts{"form.wal": "5 mm", "// note": "by hand", "price.tax": "none"}}}}, theShop(t))
	assert.EqualError(t, err, "Input “form.wal” is no input here; did you mean form.wall?\nInput “price.tax” is no input here; it belongs among the inputs of the whole commission")
}

func TestAQuoteInOtherMoneyAsksForTheExchange(t *testing.T) {
	_, err := estimate.Of(estimate.Commission{Currency: "EUR", Pieces: []estimate.Piece{{}}}, theShop(t))
	assert.EqualError(t, err, "Exchange rate is missing; the shop book is in CAD and this quote in EUR: give what one CAD buys")
}

// Metal clause: metal used up × (price on the day − basis).
func TestThePriceFollowsTheMetal(t *testing.T) {
	cad, err := money.NewCurrency("CAD")
	require.NoError(t, err)
	at := func(text string) money.Decimal { d, _ := money.ParseDecimal(text); return d }
	assert.EqualValues(t, 1_000_000+12_345, estimate.MetalPrice(cad, 1_000_000, 123.45, at("17.80"), at("18.80")))
	assert.EqualValues(t, 1_000_000-12_345, estimate.MetalPrice(cad, 1_000_000, 123.45, at("18.80"), at("17.80")))
	e := one(t, theShop(t), nil, nil)
	assert.Equal(t, siliconBronze.name+" at 17.80 CAD / kg", e.MetalClause)
	assert.Empty(t, one(t, theShop(t), nil, texts{"price.metal_clause": "0 %"}).MetalClause)
}

func TestPaymentPlansSayWhatIsWrongWithThem(t *testing.T) {
	for plan, want := range map[string]string{
		"Signed 30; Done 60":      "adds to 90 %, not to 100 %",
		"":                        "adds to 0 %, not to 100 %",
		"Signed; Done 100":        "has a part without a share, “Signed”",
		"100":                     "has a part without a share, “100”",
		"Back -10; Done 110":      "has a part without a share, “Back -10”",
		"Signed fifty; Done 50 %": "has a part without a share, “Signed fifty”",
	} {
		_, err := estimate.ParsePayments(plan)
		assert.EqualError(t, err, want, plan)
	}
	parts, err := estimate.ParsePayments("On signing 33.3 %\n When cast 33,3%;; Installed 33.4 ;")
	require.NoError(t, err)
	assert.Len(t, parts, 3)
	assert.Equal(t, "When cast", parts[1].When)
}

// Those who can be hurt are told, where the work is.
func TestCautionsStandWithTheWorkTheyAreFor(t *testing.T) {
	about := func(e *estimate.Estimate) (all string) {
		for _, c := range e.Cautions {
			assert.NotEmpty(t, c.Stage)
			all += c.Stage + ": " + c.Text + "\n"
		}
		return all
	}
	plain := about(one(t, theShop(t), nil, nil))
	for _, words := range []string{"shell: Respirable crystalline silica", "mould: Urethane hardeners hold isocyanates", "styrene", "pour: Molten bronze", "copper fume", "patina: Nitrates", "base: ", "licensed engineer", "wax: Hot wax"} {
		assert.Contains(t, plain, words)
	}
	assert.NotContains(t, plain, "lead fume")
	assert.Contains(t, about(one(t, theShop(t), texts{"form.alloy": redBrass.name}, nil)), "holds 4–6 % lead: lead fume")
	assert.NotContains(t, about(one(t, theShop(t), texts{"patina.by": "by others", "form.start": "their mould"}, nil)), "Nitrates")
	small, err := estimate.Of(estimate.Commission{Units: "inch-pound", Pieces: []estimate.Piece{{Inputs: texts{"form.height": "14 cm"}}, {Inputs: texts{"form.height": "14 cm", "base.plinth": "block", "base.height": "4 cm"}}}}, theShop(t))
	require.NoError(t, err)
	large, err := estimate.Of(estimate.Commission{Units: "inch-pound", Pieces: []estimate.Piece{{Inputs: texts{"form.height": "6 ft"}}}}, theShop(t))
	require.NoError(t, err)
	of := func(e *estimate.Estimate) (text string) {
		for _, c := range e.Cautions {
			if c.Stage == "base" {
				text += c.Text
			}
		}
		return text
	}
	assert.Empty(t, of(small), "what stands on a shelf needs no engineer")
	assert.Contains(t, of(large), "mph presses with")
	assert.Contains(t, of(large), "lb/ft²")
}

// Each input says where it comes from, in the shop book or on the page.
func TestEntriesShowWhatIsUnderstoodAndWhatHoldsWhereNothingIsTyped(t *testing.T) {
	c := estimate.Commission{Pieces: []estimate.Piece{{Inputs: texts{"form.wall": "3/16 in", "form.height": "6'"}}}}
	st, _ := estimate.StageByID("form")
	got := map[string]estimate.Entry{}
	for _, e := range estimate.Entries(c, theShop(t), st, 0, nil) {
		got[e.Field.Path()] = e
	}
	assert.Equal(t, "4.76 mm", got["form.wall"].Understood)
	assert.Equal(t, field.Typed, got["form.wall"].Origin.From)
	assert.Equal(t, "1.829 m", got["form.height"].Understood)
	assert.Equal(t, "as measured", got["form.height"].Start)
	assert.Equal(t, "3.5 %", got["form.shrinkage"].Start)
	assert.Equal(t, field.ShopBook, got["form.shrinkage"].Origin.From)
	assert.Equal(t, "0.form.wall", got["form.wall"].Where())
	assert.Len(t, got["form.alloy"].Choices, 7)
	assert.NotContains(t, got, "form.animal", "it is a human figure")
}
