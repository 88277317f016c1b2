package sqlite

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/quote"
)

func TestAFirstSaveGivesNumberLetterAndTimes(t *testing.T) {
	s := newStore(t)
	q := saved(t, s, "Otter", march)
	assert.Equal(t, "2026-001", q.Number)
	assert.Equal(t, "A", q.Letter)
	assert.Equal(t, quote.Draft, q.State)
	assert.True(t, q.Created.Equal(march) && q.Changed.Equal(march), "%v", q)
	assert.True(t, q.Deleted.IsZero())
	kept, err := s.Quote(t.Context(), q.ID)
	require.NoError(t, err)
	assert.Equal(t, q, kept)
	sound(t, s)
}

func TestNumbersRunThroughEachYear(t *testing.T) {
	s := newStore(t)
	numbers := []string{}
	for i, year := range []int{2026, 2026, 2027, 2026, 2027} {
		numbers = append(numbers, saved(t, s, "Owl", time.Date(year, 5, i+1, 0, 0, 0, 0, time.UTC)).Number)
	}
	assert.Equal(t, []string{"2026-001", "2026-002", "2027-001", "2026-003", "2027-002"}, numbers)
}

func TestTheThousandthQuoteOfAYearIsNumbered1000(t *testing.T) {
	s := newStore(t)
	fillWith(t, s, 1)
	tell(t, s.Path(), `UPDATE numbers SET last = 998`)
	assert.Equal(t, "2026-999", saved(t, s, "Owl", march).Number)
	assert.Equal(t, "2026-1000", saved(t, s, "Owl", march).Number)
	sound(t, s)
}

func TestANumberIsNotGivenTwiceAfterItsQuoteIsRemoved(t *testing.T) {
	s := newStore(t)
	q := saved(t, s, "Owl", march)
	require.NoError(t, s.Delete(t.Context(), q.ID, march))
	n, err := s.Empty(t.Context(), at(1))
	require.NoError(t, err)
	assert.Equal(t, 1, n)
	next := saved(t, s, "Owl", march)
	assert.Equal(t, "2026-002", next.Number)
	assert.NotEqual(t, q.ID, next.ID)
}

func TestASaveChangesWhatWasTypedAndNothingElse(t *testing.T) {
	s := newStore(t)
	q := saved(t, s, "Owl", march)
	other := saved(t, s, "Otter", march)
	q.Commission.Title, q.Words = "Great owl", map[string]string{"idea": "It looks back."}
	q.Number, q.Letter, q.Created = "1999-001", "Q", time.Time{}
	q, err := s.Save(t.Context(), q, "$9,000", at(5))
	require.NoError(t, err)
	assert.Equal(t, "2026-001", q.Number, "the store's to give")
	assert.Equal(t, "A", q.Letter)
	assert.True(t, q.Created.Equal(march))
	assert.True(t, q.Changed.Equal(at(5)))
	assert.EqualValues(t, 2, q.Version)
	kept, err := s.Quote(t.Context(), q.ID)
	require.NoError(t, err)
	assert.Equal(t, q, kept)
	untouched, err := s.Quote(t.Context(), other.ID)
	require.NoError(t, err)
	assert.Equal(t, other, untouched)
}

func TestAWindowThatIsBehindCannotSaveOverAnother(t *testing.T) {
	s := newStore(t)
	here := saved(t, s, "Owl", march)
	there := here
	there.Commission.Title = "Owl, seen from the other window"
	_, err := s.Save(t.Context(), there, "", at(1))
	require.NoError(t, err)
	here.Commission.Title = "Owl, seen from this one"
	_, err = s.Save(t.Context(), here, "", at(2))
	says(t, err, quote.ErrOutdated, "2026-001", "another window")
	kept, err := s.Quote(t.Context(), here.ID)
	require.NoError(t, err)
	assert.Equal(t, there.Commission, kept.Commission)
	here.ID, here.Version = 0, 0
	_, err = s.Save(t.Context(), here, "", at(2))
	assert.NoError(t, err, "both can be kept")
}

func TestAQuoteThatIsNotThereIsSaidSo(t *testing.T) {
	s := newStore(t)
	_, err := s.Quote(t.Context(), 7)
	says(t, err, quote.ErrNotFound, "7")
	_, err = s.Save(t.Context(), quote.Quote{ID: 7, Version: 1}, "", march)
	says(t, err, quote.ErrNotFound)
	says(t, s.Delete(t.Context(), 7, march), quote.ErrNotFound)
	says(t, s.Restore(t.Context(), 7), quote.ErrNotFound)
	_, err = s.Revisions(t.Context(), 7)
	says(t, err, quote.ErrNotFound)
	_, err = s.Steps(t.Context(), 7)
	says(t, err, quote.ErrNotFound)
}

func TestTheStateGoesOnlyWhereItMay(t *testing.T) {
	s := newStore(t)
	q := saved(t, s, "Owl", march)
	for _, to := range []quote.State{quote.Issued, quote.Accepted, "sold"} {
		q.State = to
		_, err := s.Save(t.Context(), q, "", at(1))
		says(t, err, nil, string(to))
	}
	q.State = quote.Withdrawn
	q, err := s.Save(t.Context(), q, "", at(2))
	require.NoError(t, err)
	q.State = ""
	q, err = s.Save(t.Context(), q, "", at(3))
	require.NoError(t, err)
	assert.Equal(t, quote.Withdrawn, q.State, "left as it is")
	_, err = s.Save(t.Context(), quote.Quote{State: "sold"}, "", march)
	says(t, err, nil, "sold")
	steps, err := s.Steps(t.Context(), q.ID)
	require.NoError(t, err)
	assert.Equal(t, []quote.Step{{At: moment(micros(march)), State: quote.Draft, Letter: "A"}, {At: moment(micros(at(2))), State: quote.Withdrawn, Letter: "A"}}, steps)
}

func TestTheBinHoldsAQuoteUntilItIsEmptied(t *testing.T) {
	s := newStore(t)
	q := saved(t, s, "Owl", march)
	saved(t, s, "Otter", at(1))
	require.NoError(t, s.Delete(t.Context(), q.ID, at(2)))
	require.NoError(t, s.Delete(t.Context(), q.ID, at(9)), "once more changes nothing")
	assert.Equal(t, []string{"Otter"}, titles(t, s, quote.Filter{}))
	assert.Equal(t, []string{"Owl"}, titles(t, s, quote.Filter{Bin: true}))
	binned, err := s.Quote(t.Context(), q.ID)
	require.NoError(t, err)
	assert.True(t, binned.Deleted.Equal(at(2)))
	n, err := s.Empty(t.Context(), at(2))
	require.NoError(t, err)
	assert.Zero(t, n, "it has not lain there before")
	require.NoError(t, s.Restore(t.Context(), q.ID))
	require.NoError(t, s.Restore(t.Context(), q.ID), "once more changes nothing")
	back, err := s.Quote(t.Context(), q.ID)
	require.NoError(t, err)
	assert.Equal(t, q, back, "as if it had never lain there")
	sound(t, s)
}

func TestTypingOnInAQuoteThatWasBinnedElsewhereIsKeptInTheBin(t *testing.T) {
	s := newStore(t)
	q := saved(t, s, "Owl", march)
	require.NoError(t, s.Delete(t.Context(), q.ID, at(1)))
	q.Commission.Title = "Owl at dusk"
	q, err := s.Save(t.Context(), q, "", at(2))
	require.NoError(t, err)
	assert.True(t, q.Deleted.Equal(at(1)), "the window can see where it lies")
	assert.Equal(t, []string{"Owl at dusk"}, titles(t, s, quote.Filter{Bin: true}))
	assert.Empty(t, titles(t, s, quote.Filter{}))
	sound(t, s)
}

func TestManyQuotesOfOneMomentKeepTheirOrder(t *testing.T) {
	s := newStore(t)
	want := []string{}
	for i := range 20 {
		q := saved(t, s, fmt.Sprint("Owl ", i), march)
		want = append([]string{q.Commission.Title}, want...)
		if i%3 == 0 {
			require.NoError(t, s.Delete(t.Context(), q.ID, march))
			require.NoError(t, s.Restore(t.Context(), q.ID))
		}
	}
	rows, total, err := s.List(t.Context(), quote.Filter{})
	require.NoError(t, err)
	assert.Equal(t, 20, total)
	assert.Len(t, rows, 20)
	for _, q := range rows {
		require.NoError(t, s.Delete(t.Context(), q.ID, march))
	}
	assert.ElementsMatch(t, want, titles(t, s, quote.Filter{Bin: true}))
	sound(t, s)
}

func TestAClockBeforeTheEpochIsNoFault(t *testing.T) {
	s := newStore(t)
	q := saved(t, s, "Owl", time.Date(1902, 1, 1, 0, 0, 0, 0, time.UTC))
	assert.Equal(t, "1902-001", q.Number)
	require.NoError(t, s.Delete(t.Context(), q.ID, time.Date(1902, 1, 2, 0, 0, 0, 0, time.UTC)))
	sound(t, s)
}

func TestAClockThatGoesBackwardsLosesNothing(t *testing.T) {
	s := newStore(t)
	q := saved(t, s, "Owl", at(60))
	q.Commission.Title = "Owl, an hour earlier"
	q, err := s.Save(t.Context(), q, "", at(0))
	require.NoError(t, err)
	kept, err := s.Quote(t.Context(), q.ID)
	require.NoError(t, err)
	assert.Equal(t, q, kept)
	sound(t, s)
}
