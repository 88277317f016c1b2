package ui

import (
	"errors"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/fault"
	"meltwright/internal/quote"
)

func TestANewQuoteHasAPriceThatMovesWithEveryKey(t *testing.T) {
	b := sit(t)
	b.menu("New quote")
	b.typed("The Ferry Pilot")
	assert.Contains(t, b.said(), "The Ferry Pilot")
	b.menu("Next stage")
	assert.Equal(t, "form", b.quote().stage)
	first := b.price()
	b.fill("form.height", "2.19 m")
	taller := b.price()
	assert.NotEqual(t, first, taller)
	b.fill("form.wall", "8 mm")
	thicker := b.price()
	assert.NotEqual(t, taller, thicker)
	assert.Contains(t, b.said(), thicker, "the panel says it")
}

func TestAWrongWallIsToldBesideItAndTheLastGoodPriceStays(t *testing.T) {
	b := sit(t)
	b.menu("New quote")
	b.menu("Next stage")
	b.fill("form.wall", "6 mm")
	good := b.price()
	b.fill("form.wall", "-6 mm")
	assert.Equal(t, "is below zero; give more than 0 m", b.field("form.wall").Fault())
	assert.Equal(t, good, b.price())
	assert.Contains(t, b.said(), "This is the last good price.")
	assert.Equal(t, "-6 mm", b.field("form.wall").Text(), "what was typed stays")

	b.menu("Undo")
	assert.Empty(t, b.field("form.wall").Fault())
	assert.NotContains(t, b.said(), "last good price")
}

func TestUndoAndRedoGoThroughTheFields(t *testing.T) {
	b := sit(t)
	b.menu("New quote")
	b.menu("Next stage")
	first := b.price()
	b.fill("form.height", "3 m")
	b.fill("form.wall", "9 mm")
	last := b.price()
	b.menu("Undo")
	assert.Empty(t, b.field("form.wall").Text())
	assert.Equal(t, "3 m", b.field("form.height").Text())
	b.menu("Undo")
	assert.Empty(t, b.field("form.height").Text())
	assert.Equal(t, first, b.price())
	b.menu("Redo")
	b.menu("Redo")
	assert.Equal(t, last, b.price())
	assert.Equal(t, "9 mm", b.field("form.wall").Text())
	for range 5 {
		b.menu("Undo")
	}
	assert.Equal(t, "There is nothing to undo.", b.w.toast.Said())
}

func TestADraftKeepsItselfAMomentAfterTheLastKey(t *testing.T) {
	b := sit(t)
	b.menu("New quote")
	require.NotZero(t, b.quote().sheet.Quote().ID, "a new quote is kept at once")
	b.typed("Heron")
	assert.Empty(t, b.kept().Commission.Title)
	b.clock.pass(time.Second)
	assert.Equal(t, "Heron", b.kept().Commission.Title)

	b.typed("Herons")
	b.menu("All quotes")
	assert.Contains(t, b.said(), "Herons", "leaving keeps it at once, and the list shows it")
}

func TestADraftThatCannotBeKeptIsToldAndTriedAgain(t *testing.T) {
	b := sit(t)
	b.menu("New quote")
	b.store.fail = fault.Fault{Problem: "the disk is full", Remedy: "make some room"}
	b.typed("Heron")
	b.clock.pass(time.Second)
	assert.Contains(t, b.said(), "Not kept yet: “Heron”. The disk is full; make some room.")
	b.menu("All quotes")
	assert.Contains(t, b.said(), "Not kept yet", "on every screen")
	b.clock.pass(time.Minute)
	assert.Contains(t, b.said(), "Not kept yet")

	b.store.fail = nil
	b.clock.pass(time.Minute)
	assert.NotContains(t, b.said(), "Not kept yet")
	b.w.list.reload()
	assert.Contains(t, b.said(), "Heron")
}

func TestClosingWaitsUntilAllIsKeptOrAsks(t *testing.T) {
	b := sit(t)
	b.menu("New quote")
	b.store.fail = errors.New("the disk is full")
	b.typed("Heron")
	b.w.close()
	assert.False(t, b.closed)
	assert.Contains(t, b.said(), "Close without keeping it?")
	b.tap("Stay")
	assert.Equal(t, "Heron", b.quote().sheet.Commission().Title)

	b.store.fail = nil
	b.w.close()
	assert.True(t, b.closed)
	assert.Equal(t, "Heron", b.kept().Commission.Title)
}

func TestAQuoteChangedElsewhereCanBeKeptAsACopy(t *testing.T) {
	b := sit(t)
	b.menu("New quote")
	b.typed("Heron")
	b.clock.pass(time.Second)
	other := b.kept()
	other.Commission.Title = "Stork"
	_, err := b.store.Store.Save(t.Context(), other, "", noon)
	require.NoError(t, err)

	b.typed("Herons")
	b.clock.pass(time.Second)
	assert.Contains(t, b.said(), "was changed in another window")
	b.tap("Keep as a copy")
	assert.NotContains(t, b.said(), "another window")
	b.menu("All quotes")
	assert.Contains(t, b.said(), "Stork")
	assert.Contains(t, b.said(), "Herons (copy)")
}

func TestADeletedQuoteHasAWayBack(t *testing.T) {
	b := sit(t, withDemo)
	title := b.quote().sheet.Commission().Title
	b.menu("Put into the bin")
	assert.Equal(t, b.w.list, b.w.screen)
	assert.NotContains(t, b.said(), title+" 2026", "it is off the list")
	b.tap("Bring back")
	assert.Contains(t, b.said(), "“"+title+"” is back.")

	b.menu("Put into the bin")
	b.menu("Bin")
	assert.Contains(t, b.said(), "1 quote in the bin")
	b.w.list.list.OnOpen(0)
	b.menu("All quotes")
	assert.Contains(t, b.said(), "2 quotes")
}

func TestADuplicateIsAnotherQuote(t *testing.T) {
	b := sit(t, withDemo)
	was := b.quote().sheet.Quote().ID
	b.menu("Duplicate")
	assert.NotEqual(t, was, b.quote().sheet.Quote().ID)
	assert.Equal(t, "The Weir Keeper (copy)", b.quote().sheet.Commission().Title)
	b.menu("All quotes")
	assert.Contains(t, b.said(), "3 quotes")
}

func TestSearchingFindsByEveryWordAsItIsTyped(t *testing.T) {
	b := sit(t, withDemo)
	b.menu("All quotes")
	b.typed("haskel weir")
	assert.Contains(t, b.said(), "1 quote")
	assert.NotContains(t, b.said(), "Otter")
	b.press(fyne.KeyReturn)
	assert.Equal(t, "The Weir Keeper", b.quote().sheet.Commission().Title, "Enter opens the first")
	b.menu("All quotes")
	b.typed("no such thing")
	assert.Contains(t, b.said(), "No quote has “no such thing”")
}

func TestPiecesAreAddedNamedAndTakenAwayWithAWayBack(t *testing.T) {
	b := sit(t)
	b.menu("New quote")
	b.menu("Next stage")
	one := b.price()
	b.tap("Add a piece")
	b.fill("piece.name", "Dog")
	assert.NotEqual(t, one, b.price())
	assert.Equal(t, []string{"Figure", "Dog"}, b.quote().pieceNames())
	b.menu("Previous piece")
	assert.Equal(t, "Figure", b.field("piece.name").Text())
	b.menu("Next piece")
	b.tap("Earlier")
	assert.Equal(t, []string{"Dog", "Figure"}, b.quote().pieceNames())
	b.tap("Remove")
	assert.Equal(t, one, b.price())
	b.menu("Undo")
	assert.Equal(t, []string{"Dog", "Figure"}, b.quote().pieceNames())
}

func TestSolidsAndOwnLinesAreTyped(t *testing.T) {
	b := sit(t)
	b.menu("New quote")
	b.menu("Next stage")
	b.pick("form.known_by", "solids")
	assert.Contains(t, b.said(), "are none")
	b.tap("Add a solid")
	b.fill("solid.diameter", "1 m")
	assert.Contains(t, b.said(), "3.142 m²", "a sphere of one metre")
	b.pick("solid.shape", "cylinder")
	assert.Equal(t, "is missing; give a length such as 0.4 m", b.field("solid.height").Fault())
	b.fill("solid.height", "2 m")
	assert.Contains(t, b.said(), "7.854 m²")

	b.menu("Next stage")
	before := b.quote().sheet.Latest().Direct
	b.tap("Add a line of your own")
	b.fill("own.item", "Model")
	b.fill("own.rate", "250.50")
	b.fill("own.quantity", "2")
	assert.Equal(t, before+50100, b.quote().sheet.Latest().Direct)
	b.fill("own.rate", "a lot")
	assert.Contains(t, b.said(), "Own line “Model”, rate “a lot” is not a rate")
	b.fill("own.rate", "1")
	b.tap("Remove this line")
	assert.Equal(t, before, b.quote().sheet.Latest().Direct)
}

func TestEveryPageOfEveryDemoQuoteCanBeShown(t *testing.T) {
	b := sit(t)
	for _, q := range desk.Demo() {
		b.w.show(newQuoteScreen(b.w, b.w.desk.Put(quote.Quote{State: quote.Draft, Commission: q.Commission, Words: q.Words})))
		for _, id := range order() {
			b.quote().choose(id)
			for i := range b.quote().pieces() {
				b.quote().choosePiece(i)
				assert.Equal(t, i, b.quote().piece)
			}
			assert.Empty(t, b.quote().sheet.Faults())
		}
	}
}

func TestABrokenHandlerIsToldAndTheDraftKept(t *testing.T) {
	b := sit(t)
	b.menu("New quote")
	b.typed("Heron")
	b.w.guarded(func() { panic("a bolt has sheared") })()
	assert.Contains(t, b.said(), "a bolt has sheared")
	assert.Equal(t, "Heron", b.kept().Commission.Title)
	b.tap("Close")
	b.typed("Herons")
	assert.Equal(t, "Herons", b.quote().sheet.Commission().Title, "and the window goes on")
}
