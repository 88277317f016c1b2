package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Who types a word and Enter faster than the store answers gets the quote that the
// word finds, not the one that was marked before.
func TestEnterBeforeTheAnswerOpensWhatTheWordFinds(t *testing.T) {
	b := sit(t, withDemo)
	store := &held{}
	b.w.showList()
	first, ok := b.w.list.pager.at(b.w.list.list.Selected())
	require.True(t, ok)
	word := "otter"
	if first.Title == "Otter, Floating" {
		word = "weir"
	}
	b.w.work = store
	defer func() { b.w.work = atOnce{} }()
	b.w.list.list.Focus()
	b.typed(word)
	b.press(fyne.KeyReturn)
	assert.Contains(t, b.said(), "New quote", "nothing is opened yet")
	for len(store.jobs) > 0 {
		store.let()
	}
	assert.NotEqual(t, first.Title, b.quote().sheet.Commission().Title)
}
