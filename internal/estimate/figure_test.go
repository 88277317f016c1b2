package estimate_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/shop"
)

func startingShop(t testing.TB) *shop.Shop {
	t.Helper()
	s, err := shop.Read(shop.Start())
	require.NoError(t, err)
	return s
}

func TestClothedLifeSizeFigureComesToAboutAHundredKilosAndThreeHundredHours(t *testing.T) {
	c := estimate.Commission{Pieces: []estimate.Piece{{Name: "Figure", Inputs: map[string]string{"form.dress": "coat and boots"}}}}
	e, err := estimate.Of(c, startingShop(t))
	require.NoError(t, err)
	assert.InDelta(t, 2.57, float64(e.Pieces[0].Area), 0.01)
	assert.InDelta(t, 125, float64(e.Pieces[0].Finished), 25, "kilograms")
	assert.InDelta(t, 350, float64(e.Foundry), 50, "foundry hours")
	assert.InDelta(t, 2.5, e.WaxToMetal, 0.5, "weeks")
}

func TestEveryLineIsItsPrintedQuantityTimesItsPrintedRateAndLinesAddUp(t *testing.T) {
	c := estimate.Commission{Pieces: []estimate.Piece{{Name: "Figure"}}, Inputs: map[string]string{"price.tax": "Québec"}}
	e, err := estimate.Of(c, startingShop(t))
	require.NoError(t, err)
	sum := money.Amount(0)
	for _, l := range e.Lines {
		assert.Equal(t, e.Currency.Times(l.Quantity, l.Rate), l.Amount, l.Item)
		sum += l.Amount
	}
	assert.Equal(t, e.Direct, sum)
	for _, p := range e.PriceLines {
		sum += p.Amount
	}
	assert.Equal(t, e.Price, sum)
}
