package estimate_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
	"meltwright/internal/shop"
)

func TestARateTypedForAQuoteIsInTheQuotesMoneyAndTheShopBooksIsExchanged(t *testing.T) {
	c := estimate.Commission{Currency: "USD", Inputs: map[string]string{"price.exchange": "0.5", "mould.labour": "60 / h"}, Pieces: []estimate.Piece{{Name: "Figure"}}}
	e, err := estimate.Of(c, startingShop(t))
	require.NoError(t, err)
	rates := map[string]string{}
	for _, l := range e.Lines {
		rates[l.Item] = l.RateText(2)
	}
	assert.Equal(t, "60.00", rates["Mould making"])
	assert.Equal(t, "26.00", rates["Gating the sections"], "52 / h in the shop book")
}

func TestTheSmallestCraneThatHoldsTheLoadIsTakenWhateverTheOrderOfTheTable(t *testing.T) {
	b := shop.Start()
	rows := b.Tables[shop.CraneTable]
	turned := make([]shop.Row, len(rows))
	for i, r := range rows {
		turned[len(rows)-1-i] = r
	}
	s, err := shop.Read(b.WithTable(shop.CraneTable, turned, "2026-01-01"))
	require.NoError(t, err)
	c := estimate.Commission{Pieces: []estimate.Piece{{Name: "Figure", Inputs: map[string]string{"base.plinth": "block"}}}}
	e, err := estimate.Of(c, s)
	require.NoError(t, err)
	assert.Equal(t, "Truck with loader crane", e.Lift.By)
}
