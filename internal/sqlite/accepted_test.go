package sqlite

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/quote"
)

// become moves a quote to another state.
func become(t testing.TB, s *Store, q quote.Quote, to quote.State, minute int) quote.Quote {
	t.Helper()
	q.State = to
	q, err := s.Save(t.Context(), q, "", at(minute))
	require.NoError(t, err)
	return q
}

// sent saves and issues a quote.
func sent(t testing.TB, s *Store, title string) quote.Quote {
	t.Helper()
	q := saved(t, s, title, march)
	require.NoError(t, s.Issue(t.Context(), revisionOf(q)))
	q, err := s.Quote(t.Context(), q.ID)
	require.NoError(t, err)
	return q
}

// order lists the titles of the accepted quotes, in their order.
func order(t testing.TB, s *Store) (titles []string) {
	t.Helper()
	all, err := s.Accepted(t.Context())
	require.NoError(t, err)
	for _, a := range all {
		titles = append(titles, a.Quote.Commission.Title)
	}
	return titles
}

func TestAcceptedQuotesComeInTheOrderTheyWereAccepted(t *testing.T) {
	s := newStore(t)
	assert.Empty(t, order(t, s))
	owl, hare, crow, fox := sent(t, s, "Owl"), sent(t, s, "Hare"), sent(t, s, "Crow"), sent(t, s, "Fox")
	saved(t, s, "Otter", march)
	owl = become(t, s, owl, quote.Accepted, 30)
	hare = become(t, s, hare, quote.Accepted, 20)
	crow = become(t, s, crow, quote.Accepted, 40)
	become(t, s, fox, quote.Declined, 25)
	assert.Equal(t, []string{"Hare", "Owl", "Crow"}, order(t, s))

	all, err := s.Accepted(t.Context())
	require.NoError(t, err)
	whole, err := s.Quote(t.Context(), hare.ID)
	require.NoError(t, err)
	assert.Equal(t, quote.Acceptance{Quote: whole, At: moment(micros(at(20)))}, all[0])

	// Kept again it keeps its place; taken back and accepted again it is the last.
	hare.Words = map[string]string{"start": "2 March 2026"}
	hare, err = s.Save(t.Context(), hare, "", at(50))
	require.NoError(t, err)
	assert.Equal(t, []string{"Hare", "Owl", "Crow"}, order(t, s))
	become(t, s, become(t, s, hare, quote.Issued, 60), quote.Accepted, 61)
	assert.Equal(t, []string{"Owl", "Crow", "Hare"}, order(t, s))

	require.NoError(t, s.Delete(t.Context(), owl.ID, at(70)))
	become(t, s, crow, quote.Withdrawn, 71)
	assert.Equal(t, []string{"Hare"}, order(t, s), "not from the bin, not what is withdrawn")
}
