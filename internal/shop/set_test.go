package shop_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/shop"
)

func TestASettingACellAndTheShopsNameAreSetByTheirKeys(t *testing.T) {
	b := shop.Start()
	for _, x := range [][2]string{{"form.wall", "6 mm"}, {"alloys.0.price", "19.40 / kg"}, {"shop", "Tern Foundry"}, {"units", "inch-pound"}, {"currency", "EUR"}} {
		var err error
		b, err = b.Set(x[0], x[1], "2026-05-01")
		require.NoError(t, err, x[0])
	}
	assert.Equal(t, shop.Setting{Text: "6 mm", Source: "set by the shop", Dated: "2026-05-01"}, b.Settings["form.wall"])
	assert.Equal(t, "19.40 / kg", b.Tables[shop.AlloyTable][0]["price"])
	assert.Equal(t, []string{"Tern Foundry", "inch-pound", "EUR", "2026-05-01"}, []string{b.Shop, b.Units, b.Currency, b.Dated})
	assert.Equal(t, "17.80 / kg", shop.Start().Tables[shop.AlloyTable][0]["price"], "the book it was made from stays")
}

func TestAValueThatCannotBeReadIsRefusedAndTheBookStays(t *testing.T) {
	b := shop.Start()
	for key, want := range map[string]struct{ text, says string }{
		"form.wall":        {"-3 mm", `Shop book, Wall thickness “-3 mm” is below zero`},
		"alloys.0.density": {"heavy", "Shop book, Alloys, row 1, Density “heavy” is not a density"},
		"alloys.0.name":    {"", "Shop book, Alloys, row 1, Alloy is empty"},
		"currency":         {"shells", "Shop book, currency “shells”"},
		"units":            {"cubits", "Shop book, units “cubits” are unknown; give metric or inch-pound"},
		"form.hight":       {"2 m", "Shop book “form.hight” is none of its keys"},
		"alloys.99.price":  {"1", "is none of its keys"},
		"alloys.0.colour":  {"red", "is none of its keys"},
		"alloys":           {"none", "is none of its keys"},
	} {
		got, err := b.Set(key, want.text, "2026-05-01")
		assert.ErrorContains(t, err, want.says, key)
		assert.Equal(t, shop.Start(), got, key)
	}
}

func TestWhatWasWrongElsewhereInABookDoesNotKeepAValueFromBeingSet(t *testing.T) {
	b := shop.Start().With("form.wall", "thick", "2026-05-01")
	b, err := b.Set("shop", "Tern Foundry", "2026-05-02")
	require.NoError(t, err)
	assert.Equal(t, "thick", b.Settings["form.wall"].Text)
	assert.Equal(t, "Tern Foundry", b.Shop)
}
