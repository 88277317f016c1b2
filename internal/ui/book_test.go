package ui

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/shop"
)

func TestARateOfTheShopBookMovesTheQuoteItWasOpenedFrom(t *testing.T) {
	b := sit(t, withDemo)
	before := b.price()
	b.menu("Shop book")
	b.book().choose("Labour")
	b.fill("labour.metal", "95")
	assert.Contains(t, b.said(), "set by the shop, 2026-03-14")
	assert.Contains(t, b.said(), "= 95 / h")
	b.clock.pass(time.Second)
	kept, err := b.store.Book(t.Context())
	require.NoError(t, err)
	assert.Equal(t, "95", kept.Settings["labour.metal"].Text)
	b.book().goBack()
	assert.NotEqual(t, before, b.price())
}

func TestAWrongSettingIsToldBesideItAndInTheRail(t *testing.T) {
	b := sit(t)
	b.menu("Shop book")
	b.book().choose("Pour")
	b.fill("pour.yield", "120 %")
	assert.Contains(t, b.field("pour.yield").Fault(), "is too much")
	assert.Contains(t, b.said(), "Good castings is too much")
	b.fill("pour.yield", "")
	assert.Empty(t, b.field("pour.yield").Fault())
	assert.Equal(t, shop.Start().Settings["pour.yield"], b.book().ledger.Book().Settings["pour.yield"], "empty is the starting value again")
}

func TestAnAlloyIsAddedAndChosenInAQuote(t *testing.T) {
	b := sit(t)
	b.menu("Shop book")
	b.book().choose("alloys")
	b.tap("Add an alloy")
	assert.Contains(t, b.said(), "(no name yet)")
	for id, text := range map[string]string{"name": "Everdur", "density": "8.5 g/cm³", "solidus": "970 °C", "liquidus": "1020 °C", "shrinkage": "2 %", "price": "19 / kg"} {
		b.fill(id, text)
	}
	assert.Empty(t, b.book().ledger.Faults())
	b.tap("Up")
	b.menu("Undo")
	b.menu("New quote")
	b.menu("Next stage")
	b.pick("form.alloy", "Everdur")
	assert.Equal(t, "Everdur", b.quote().sheet.Latest().Pieces[0].Alloy)
}

func TestTheShopsParticularsAreKept(t *testing.T) {
	b := sit(t)
	b.menu("Shop book")
	b.typed("Tern Street Foundry")
	b.pick("house.units", "inch-pound")
	b.menu("All quotes")
	assert.Contains(t, b.said(), "Tern Street Foundry · quotes.db")
	b.menu("New quote")
	assert.Contains(t, b.said(), " lb")
	kept, err := b.store.Book(t.Context())
	require.NoError(t, err)
	assert.Equal(t, "inch-pound", kept.Units)
}

func TestASearchInTheShopBookFindsSettingsAndRows(t *testing.T) {
	b := sit(t)
	b.menu("Shop book")
	b.menu("Find")
	b.typed("wax loss")
	assert.Contains(t, b.said(), "Wax lost after reclaim")
	b.fill("wax.loss", "9 %")
	assert.Equal(t, "9 %", b.book().ledger.Book().Settings["wax.loss"].Text)
	b.menu("Find")
	b.press(fyne.KeyEscape)
	b.typed("granite")
	assert.Contains(t, b.said(), "Stones and bases: Granite")
	b.book().found.tables.OnOpen("stones/0")
	assert.Equal(t, "Granite", b.field("name").Text())
	b.menu("Find")
	b.typed("zzz")
	assert.Contains(t, b.said(), "Nothing of that name")
}

func TestEveryPageOfTheShopBookCanBeShownAndGoneThrough(t *testing.T) {
	b := sit(t)
	b.menu("Shop book")
	rows := b.book().railRows()
	for _, r := range rows[1:] {
		b.menu("Next stage")
		assert.Equal(t, r.ID, b.book().part)
	}
	assert.Len(t, rows, 2+len(groups())+len(shop.Tables()), "the shop, its logo, settings and tables")
}
