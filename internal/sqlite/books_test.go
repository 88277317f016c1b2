package sqlite

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/quote"
	"meltwright/internal/shop"
)

func TestTheStartingBookHoldsUntilOneIsSaved(t *testing.T) {
	s := newStore(t)
	b, err := s.Book(t.Context())
	require.NoError(t, err)
	assert.Equal(t, shop.Start(), b)
}

func TestEverySavedVersionOfTheBookStaysWithItsDate(t *testing.T) {
	s := newStore(t)
	first := shop.Start().WithHouse("Ash Ferry Foundry", "2 Slip Road", "CAD", "metric", "2026-03-14")
	second := first.WithHouse("Ash Ferry Foundry", "3 Slip Road", "CAD", "inch-pound", "2026-03-15")
	require.NoError(t, s.SaveBook(t.Context(), first, at(1)))
	require.NoError(t, s.SaveBook(t.Context(), second, at(2)))
	require.NoError(t, s.SaveBook(t.Context(), second, at(3)), "the same to the letter is no new version")
	now, err := s.Book(t.Context())
	require.NoError(t, err)
	assert.Equal(t, second, now)
	all, err := s.Books(t.Context())
	require.NoError(t, err)
	require.Len(t, all, 2)
	assert.True(t, all[0].Saved.Equal(at(2)) && all[1].Saved.Equal(at(1)), "%v", all)
	old, err := s.BookAt(t.Context(), all[1].ID)
	require.NoError(t, err)
	assert.Equal(t, first, old)
	_, err = s.BookAt(t.Context(), 99)
	says(t, err, quote.ErrNotFound)
	sound(t, s)
}

func TestAShopBookChangedInAnotherWindowIsNotOverwritten(t *testing.T) {
	one := newStore(t)
	other := opened(t, one.Path())
	for _, s := range []*Store{one, other} {
		_, err := s.Book(t.Context())
		require.NoError(t, err)
	}
	theirs := shop.Start().With("labour.wax", "44 / h", "2026-03-14")
	require.NoError(t, one.SaveBook(t.Context(), theirs, at(1)))
	mine := shop.Start().With("labour.mould", "51 / h", "2026-03-14")
	says(t, other.SaveBook(t.Context(), mine, at(2)), quote.ErrOutdated, "shop book")
	kept, err := other.Book(t.Context())
	require.NoError(t, err)
	assert.Equal(t, theirs, kept)
	require.NoError(t, other.SaveBook(t.Context(), mine, at(3)), "once it was looked at")
	require.NoError(t, other.SaveBook(t.Context(), theirs, at(4)))
}
