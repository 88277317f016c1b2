package proposal

import (
	"fmt"
	"maps"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/shop"
)

// added is what printed parts come to.
func added(parts []partPrice) (sum money.Amount) {
	for _, p := range parts {
		sum += p.amount
	}
	return sum
}

func TestPartsAddToThePrice(t *testing.T) {
	for name, q := range stories() {
		e := paperOf(t, q).Estimate
		assert.Equal(t, e.Price, added(priceByPart(e, clientParts)), name)
	}
}

func TestPartsAddToThePriceWhateverTheSharesFeesAndSteps(t *testing.T) {
	s, err := shop.Read(shop.Start())
	require.NoError(t, err)
	rapid.Check(t, func(t *rapid.T) {
		c := waterfront().Commission.Clone()
		maps.Copy(c.Inputs, map[string]string{
			"price.fee":       rapid.SampledFrom([]string{"none", "a fixed sum", "a share of cost", "a share of the price"}).Draw(t, "fee"),
			"price.fee_sum":   fmt.Sprintf("%d.%02d", rapid.IntRange(0, 90000).Draw(t, "sum"), rapid.IntRange(0, 99).Draw(t, "cents")),
			"price.fee_share": fmt.Sprintf("%d %%", rapid.IntRange(0, 30).Draw(t, "fee share")),
			"price.overhead":  fmt.Sprintf("%d %%", rapid.IntRange(0, 60).Draw(t, "overhead")),
			"price.gallery":   fmt.Sprintf("%d %%", rapid.IntRange(0, 45).Draw(t, "gallery")),
			"price.step":      rapid.SampledFrom([]string{"0.01", "1", "10", "2500"}).Draw(t, "step"),
			"price.round":     rapid.SampledFrom([]string{"up", "to the nearest"}).Draw(t, "round"),
		})
		c.Pieces[0].Inputs["form.start"] = rapid.SampledFrom([]string{"nothing: we make the original", "their original", "their mould", "their wax"}).Draw(t, "start")
		e, err := estimate.Of(c, s)
		if sum := added(priceByPart(e, clientParts)); err == nil && sum != e.Price {
			t.Fatalf("parts add to %d, the price is %d", sum, e.Price)
		}
	})
}

func TestPartsHoldTheirShareOfTheDirectCost(t *testing.T) {
	e := &estimate.Estimate{
		Currency: money.Currency{Code: "CAD", Digits: 2}, Price: 20000,
		PriceLines: []estimate.PriceLine{{Name: "Overhead", Amount: 4000}, {Name: feeLine, Amount: 5000}, {Name: "Rounding", Amount: 1}},
		Stages: []estimate.StageResult{
			{ID: "original", ByOthers: true}, {ID: "wax", Amount: 3000}, {ID: "pour", Amount: 1000}, {ID: "patina", Amount: 2000}, {ID: "base"},
		},
	}
	assert.Equal(t, []partPrice{
		{key: "original", byOthers: true},
		{key: "mould", byOthers: true}, // no stage of it is there
		{key: "casting", amount: 10000},
		{key: "metalwork", byOthers: true},
		{key: "patina", amount: 5000},
		{key: "delivery", byOthers: true},
		{key: "fee", amount: 5000},
	}, priceByPart(e, clientParts))
}

func TestAPriceWithoutAnyCostIsOnePart(t *testing.T) {
	e := &estimate.Estimate{Currency: money.Currency{Code: "CAD", Digits: 2}, Price: 900, Stages: []estimate.StageResult{{ID: "original"}}}
	assert.Equal(t, []partPrice{{key: wholeWork, amount: 900}}, priceByPart(e, []part{{"original", []string{"original"}}}))
}

func TestTheEstimateHasTheLinesAProposalSpeaksOf(t *testing.T) {
	var items []string
	for _, l := range paperOf(t, waterfront()).Estimate.Lines {
		items = append(items, l.Item)
	}
	for _, item := range []string{
		itemEngineer, itemPermits, itemSiteWorks, itemRecords, itemFrame, itemAnchors, itemFooting, itemMounting, itemCrates, itemCrew,
		itemMetal + "C87300 silicon bronze 95-1-4",
	} {
		assert.Contains(t, items, item)
	}
	assert.True(t, slices.ContainsFunc(paperOf(t, waterfront()).Estimate.PriceLines, func(l estimate.PriceLine) bool { return l.Name == feeLine }))
}

func TestEveryStageWithLinesBelongsToOnePart(t *testing.T) {
	count := map[string]int{}
	for _, p := range clientParts {
		for _, s := range p.stages {
			count[s]++
		}
	}
	for _, st := range estimate.Stages {
		if st.ID != "form" && st.ID != "price" {
			assert.Equal(t, 1, count[st.ID], st.Name)
		}
	}
}
