package ui

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/quote"
)

func TestAQuoteIsSentAsOneFileAndReceivedInAnotherWindow(t *testing.T) {
	artist := sit(t, withDemo, withMaker)
	artist.quote().choose(picturesID)
	artist.tap("Add a picture …")
	artist.answer(photograph(t, "clay.jpg", 120))
	artist.fill("picture.caption", "In clay")
	artist.menu("Send as one file …")
	assert.Contains(t, artist.said(), "Your rates and margins stay here unless you tick them.")
	artist.tap("Choose where …")
	path := filepath.Join(t.TempDir(), "weir.meltparcel")
	artist.answer(path)
	assert.Contains(t, artist.said(), "Kept back:")
	assert.Contains(t, artist.said(), "The shop book")

	foundry := sit(t, withMaker)
	foundry.menu("Open what was sent to you …")
	foundry.answer(path)
	assert.Contains(t, foundry.said(), "“The Weir Keeper” was received")
	assert.Contains(t, foundry.said(), "It is your quote 2026-001 now")
	foundry.tap("Close")
	foundry.quote().choose(picturesID)
	assert.Contains(t, foundry.said(), "In clay")

	// Received twice it is there twice: nothing is written over.
	foundry.menu("All quotes")
	foundry.menu("Open what was sent to you …")
	foundry.answer(path)
	_, total, err := foundry.store.List(t.Context(), quote.Filter{})
	require.NoError(t, err)
	assert.Equal(t, 2, total)
}

func TestWhatIsNoParcelIsRefusedInASentence(t *testing.T) {
	b := sit(t)
	letter := filepath.Join(t.TempDir(), "letter.meltparcel")
	require.NoError(t, os.WriteFile(letter, []byte("Dear foundry"), 0o600))
	b.menu("Open what was sent to you …")
	b.answer(letter)
	assert.Contains(t, b.said(), "This was not received")
	assert.Contains(t, b.said(), "Parcel is no parcel")
	b.tap("Close")
	_, total, err := b.store.List(t.Context(), quote.Filter{})
	require.NoError(t, err)
	assert.Zero(t, total)
}
