package desk_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/shop"
)

func TestARateSetInTheShopBookIsDatedAndCountsAtOnce(t *testing.T) {
	d, store := sitDown(t)
	l := d.Ledger()
	s := d.PutNew()
	before := s.Latest().Price
	l.Set("labour.metal", "90 / h")
	s.Reckon()
	assert.Greater(t, s.Latest().Price, before)
	assert.Equal(t, shop.Setting{Text: "90 / h", Source: "set by the shop", Dated: "2026-03-14"}, l.Book().Settings["labour.metal"])

	require.True(t, l.Unsaved())
	require.NoError(t, d.KeepBook(t.Context(), l.Copy()))
	assert.False(t, l.Unsaved())
	assert.Equal(t, "90 / h", store.book.Settings["labour.metal"].Text)
}

func TestAnEmptiedSettingHasItsStartingValueAndSourceAgain(t *testing.T) {
	d, _ := sitDown(t)
	l := d.Ledger()
	l.Set("form.shrinkage", "4 %")
	l.Set("form.shrinkage", "")
	assert.Equal(t, shop.Start().Settings["form.shrinkage"], l.Book().Settings["form.shrinkage"])
}

func TestABookWithFaultsIsKeptAsTypedAndReckonedWithStartingValues(t *testing.T) {
	d, _ := sitDown(t)
	l := d.Ledger()
	l.Set("pour.yield", "120 %")
	require.Len(t, l.Faults(), 1)
	assert.Equal(t, "book.pour.yield", l.Faults()[0].Where)
	assert.Equal(t, "120 %", l.Book().Settings["pour.yield"].Text)
	assert.InDelta(t, 0.95, d.Shop().Num(shop.Yield), 1e-9)
}

func TestRowsOfATableAreAddedMovedAndTakenAwayAndAllOfItUndone(t *testing.T) {
	d, _ := sitDown(t)
	l := d.Ledger()
	first := l.Book()
	n := l.AddRow(shop.CrucibleTable)
	require.NotEmpty(t, l.Faults(), "a row without a name")
	l.SetCell(shop.CrucibleTable, n, "name", "A-shape 70")
	l.SetCell(shop.CrucibleTable, n, "holds", "95 kg")
	require.Empty(t, l.Faults())
	assert.Equal(t, 0, l.MoveRow(shop.CrucibleTable, n, -99))
	assert.Equal(t, "A-shape 70", d.Shop().Crucibles[0].Name)
	l.RemoveRow(shop.CrucibleTable, 1)
	l.SetHouse("name", desk.House{Name: "Tern Street Foundry", Currency: "CAD", Units: "metric"})
	assert.Equal(t, "Tern Street Foundry", l.House().Name)
	last := l.Book()

	steps := 0
	for l.Undo() {
		steps++
	}
	assert.Equal(t, first, l.Book())
	for range steps {
		require.True(t, l.Redo())
	}
	assert.Equal(t, last, l.Book())
}

func TestACalendarThatCannotBeReadIsToldInTheShopBook(t *testing.T) {
	d, _ := sitDown(t)
	l := d.Ledger()
	l.Set("calendar.pour_days", "whenever")
	require.Len(t, l.Faults(), 1)
	assert.Equal(t, "book.calendar.pour_days", l.Faults()[0].Where)
	assert.Contains(t, l.Faults()[0].Error(), "names no days of the week; give days such as")
	l.Set("calendar.pour_days", "Sunday")
	assert.Contains(t, l.Faults()[0].Error(), "is no working day")
	l.Set("calendar.pour_days", "Tuesday")
	assert.Empty(t, l.Faults())
}
