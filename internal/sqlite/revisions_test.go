package sqlite

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/quote"
	"meltwright/internal/shop"
)

func revisionOf(q quote.Quote) quote.Revision {
	return quote.Revision{
		Quote: q.ID, Letter: q.Letter, IssuedAt: moment(micros(at(10))), ValidUntil: moment(micros(at(10).AddDate(0, 0, 60))),
		Commission: q.Commission, Book: shop.Start(), Words: map[string]string{"idea": "It looks back."},
		Price: "128400.00", Total: "145092.00", Proposal: []byte("%PDF-1.3 the pages"),
	}
}

// issued keeps a quote and issues its first revision.
func issued(t testing.TB, s *Store) (quote.Quote, quote.Revision) {
	t.Helper()
	q := saved(t, s, "Owl", march)
	r := revisionOf(q)
	require.NoError(t, s.Issue(t.Context(), r))
	q, err := s.Quote(t.Context(), q.ID)
	require.NoError(t, err)
	return q, r
}

func TestAnIssuedRevisionIsKeptWhole(t *testing.T) {
	s := newStore(t)
	q, r := issued(t, s)
	kept, err := s.Revision(t.Context(), q.ID, "A")
	require.NoError(t, err)
	assert.Equal(t, r, kept)
	sound(t, s)
}

func TestIssuingMovesTheQuoteToTheNextLetter(t *testing.T) {
	s := newStore(t)
	q, _ := issued(t, s)
	assert.Equal(t, "B", q.Letter)
	assert.Equal(t, quote.Issued, q.State)
	assert.EqualValues(t, 2, q.Version)
	rows, _, err := s.List(t.Context(), quote.Filter{})
	require.NoError(t, err)
	assert.Equal(t, "A", rows[0].Issued)
	assert.Equal(t, "B", rows[0].Letter)
	q.State, q.Commission.Title = quote.Draft, "Owl and owlet"
	q, err = s.Save(t.Context(), q, "$140,000", at(20))
	require.NoError(t, err)
	r := revisionOf(q)
	r.Price = "140000.00"
	require.NoError(t, s.Issue(t.Context(), r))
	all, err := s.Revisions(t.Context(), q.ID)
	require.NoError(t, err)
	require.Len(t, all, 2)
	assert.Equal(t, quote.Revision{Quote: q.ID, Letter: "B", IssuedAt: r.IssuedAt, ValidUntil: r.ValidUntil, Price: "140000.00", Total: r.Total}, all[1])
	first, err := s.Revision(t.Context(), q.ID, "A")
	require.NoError(t, err)
	assert.Equal(t, "Owl", first.Commission.Title, "what was issued stays")
	steps, err := s.Steps(t.Context(), q.ID)
	require.NoError(t, err)
	got := ""
	for _, step := range steps {
		got += string(step.State) + " " + step.Letter + ", "
	}
	assert.Equal(t, "draft A, issued A, draft B, issued B, ", got)
	sound(t, s)
}

func TestALetterIsIssuedOnce(t *testing.T) {
	s := newStore(t)
	_, r := issued(t, s)
	says(t, s.Issue(t.Context(), r), quote.ErrOutdated, "2026-001", "stands at B")
}

func TestAWindowThatHadTheQuoteOpenMustOpenItAgainAfterIssue(t *testing.T) {
	s := newStore(t)
	q, _ := issued(t, s)
	q.Version--
	_, err := s.Save(t.Context(), q, "", at(11))
	says(t, err, quote.ErrOutdated)
}

func TestOnlyAQuoteThatMayBeIssuedIs(t *testing.T) {
	s := newStore(t)
	q, _ := issued(t, s)
	says(t, s.Issue(t.Context(), quote.Revision{Quote: 99, Letter: "A"}), quote.ErrNotFound)
	q.State = quote.Withdrawn
	q, err := s.Save(t.Context(), q, "", at(11))
	require.NoError(t, err)
	says(t, s.Issue(t.Context(), revisionOf(q)), nil, "withdrawn")
	require.NoError(t, s.Delete(t.Context(), q.ID, at(12)))
	says(t, s.Issue(t.Context(), revisionOf(q)), nil, "bin")
	_, err = s.Revision(t.Context(), q.ID, "B")
	says(t, err, quote.ErrNotFound, "2026-001", "B")
}

func TestTheFileItselfRefusesToChangeWhatWasIssuedOrCounted(t *testing.T) {
	s := newStore(t)
	q, _ := issued(t, s)
	require.NoError(t, s.SaveBook(t.Context(), shop.Start(), march))
	for statement, why := range map[string]string{
		`UPDATE revisions SET price = '1'`:                   "an issued revision never changes",
		`DELETE FROM revisions`:                              "an issued revision stays with its quote",
		`UPDATE shop_books SET book = '{}'`:                  "a saved shop book never changes",
		`DELETE FROM shop_books`:                             "a saved shop book stays",
		`UPDATE numbers SET last = last - 1`:                 "only goes up",
		`DELETE FROM numbers`:                                "stays",
		`UPDATE quotes SET number = '2026-009'`:              "a quote keeps its number",
		`DELETE FROM quotes`:                                 "only a quote in the bin",
		`UPDATE quotes SET state = 'sold'`:                   "CHECK",
		`UPDATE quotes SET spot = -spot`:                     "CHECK",
		`UPDATE quotes SET changed = 'yesterday'`:            "INTEGER",
		`UPDATE sheets SET commission = 'no JSON'`:           "CHECK",
		`UPDATE quotes SET client_id = 77`:                   "FOREIGN KEY",
		`UPDATE search_data SET block = x'00' WHERE id = 10`: "may not be modified",
	} {
		_, err := s.db.ExecContext(t.Context(), statement)
		assert.ErrorContains(t, err, why, statement)
	}
	require.NoError(t, s.Delete(t.Context(), q.ID, at(12)))
	n, err := s.Empty(t.Context(), at(13))
	require.NoError(t, err)
	assert.Equal(t, 1, n, "with its revisions, once it is removed for good")
	sound(t, s)
}
