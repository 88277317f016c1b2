package ui

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/risk"
)

func TestEachOptionSaysBetweenWhichPricesEightInTenLie(t *testing.T) {
	b, o := weigh(t, "life size")
	assert.Contains(t, b.said(), "8 in 10 within")
	assert.Contains(t, b.said(), "being drawn …")
	b.clock.pass(rest)
	assert.NotContains(t, b.said(), "being drawn …")
	for _, x := range o.list {
		want, err := risk.Draw(t.Context(), x.Commission, b.w.desk.Shop(), risk.Ask{Trials: 200})
		require.NoError(t, err)
		assert.Equal(t, want.Price, x.Range.Price, x.Name)
		c := x.Estimate.Currency
		assert.Contains(t, b.said(), whole(c, want.Price.P10)+" – "+wholePlain(c, want.Price.P90))
	}
}

func TestARangeIsDrawnAgainOnlyForWhatHasChanged(t *testing.T) {
	b, o := weigh(t, "life size", "life and a half")
	b.clock.pass(rest)
	kept := o.list[1].Range
	require.NotNil(t, kept)
	o.choose(2)
	b.fill("option.height", "2.4 m")
	assert.Nil(t, o.list[2].Range, "none while somebody types")
	assert.Same(t, kept, o.list[1].Range)
	b.clock.pass(rest)
	assert.NotNil(t, o.list[2].Range)
	assert.Same(t, kept, o.list[1].Range)
}

func TestWhatCannotBeMadeHasNoRange(t *testing.T) {
	b, o := weigh(t, "life size")
	o.choose(1)
	b.fill("option.height", "1 mm")
	b.clock.pass(rest)
	require.NotEmpty(t, o.now().Faults)
	assert.Nil(t, o.now().Range)
	assert.NotNil(t, o.list[0].Range)
	assert.NotContains(t, b.said(), "being drawn …")
}
