package sqlite

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/quote"
)

// may is a deadline, seven weeks after march.
var may = time.Date(2026, time.May, 2, 0, 0, 0, 0, time.UTC)

func called(t testing.TB, s *Store, c quote.Call) quote.Call {
	t.Helper()
	kept, err := s.SaveCall(t.Context(), c)
	require.NoError(t, err)
	return kept
}

func callTitles(t testing.TB, s *Store, words string, removed bool) (all []string) {
	t.Helper()
	calls, err := s.Calls(t.Context(), words, removed, march)
	require.NoError(t, err)
	for _, c := range calls {
		all = append(all, c.Title)
	}
	return all
}

func summaryOf(t testing.TB, s *Store, id quote.ID) quote.Summary {
	t.Helper()
	rows, _, err := s.List(t.Context(), quote.Filter{Limit: 1 << 20})
	require.NoError(t, err)
	for _, r := range rows {
		if r.ID == id {
			return r
		}
	}
	t.Fatal("the quote is not on the list")
	return quote.Summary{}
}

func TestACallIsKeptWholeAndFoundByItsWords(t *testing.T) {
	s := newStore(t)
	town := keep(t, s, quote.Client{Name: "Town of Grönhaven"})
	c := called(t, s, quote.Call{
		Title: "A figure for the harbour", Client: town.ID, Site: "Quay", Deadline: "2 May 2026", Due: may,
		Budget: "$150,000", Link: "https://gronhaven.example/call", Notes: "two stages",
	})
	all, err := s.Calls(t.Context(), "", false, march)
	require.NoError(t, err)
	assert.Equal(t, []quote.Call{c}, all)
	for _, words := range []string{"figure harb", "GRON", "quay", "stages 150"} {
		assert.Len(t, callTitles(t, s, words, false), 1, words)
	}
	assert.Empty(t, callTitles(t, s, "figure millbrook", false))
	town.Name = "Port of Ash Ferry"
	keep(t, s, town)
	assert.Len(t, callTitles(t, s, "ash", false), 1, "under its client's name of today")
	sound(t, s)
}

func TestCallsStandWithTheNextDeadlineFirstAndThoseThatAreOverLast(t *testing.T) {
	s := newStore(t)
	for title, due := range map[string]time.Time{"Over": may.AddDate(0, -3, 0), "Later": may, "Sooner": may.AddDate(0, -1, 0), "Today": dayOf(march), "Open": {}} {
		called(t, s, quote.Call{Title: title, Due: due})
	}
	assert.Equal(t, []string{"Today", "Sooner", "Later", "Open", "Over"}, callTitles(t, s, "", false))
}

func TestACallNeedsATitleAndIsNotOverwritten(t *testing.T) {
	s := newStore(t)
	_, err := s.SaveCall(t.Context(), quote.Call{Notes: "x"})
	says(t, err, nil, "title")
	_, err = s.SaveCall(t.Context(), quote.Call{Title: "x", Client: 9})
	says(t, err, quote.ErrNotFound, "Client")
	_, err = s.SaveCall(t.Context(), quote.Call{ID: 9, Title: "x", Version: 1})
	says(t, err, quote.ErrNotFound, "Call")
	c := called(t, s, quote.Call{Title: "Harbour"})
	called(t, s, c)
	_, err = s.SaveCall(t.Context(), c)
	says(t, err, quote.ErrOutdated, "Harbour")
}

func TestWhatIsRemovedFromTheListsHasAWayBack(t *testing.T) {
	s := newStore(t)
	town := keep(t, s, quote.Client{Name: "Town of Grönhaven"})
	c := called(t, s, quote.Call{Title: "Harbour", Client: town.ID})
	q, err := s.Save(t.Context(), quote.Quote{Commission: harbour(), Client: town.ID, Call: c.ID}, "", march)
	require.NoError(t, err)
	require.NoError(t, s.DeleteCall(t.Context(), c.ID, march))
	require.NoError(t, s.DeleteClient(t.Context(), town.ID, march))
	assert.Empty(t, callTitles(t, s, "", false))
	assert.Empty(t, names(t, s, ""))
	assert.Equal(t, []string{"Harbour"}, callTitles(t, s, "", true))
	gone, err := s.Clients(t.Context(), "gron", true)
	require.NoError(t, err)
	assert.Len(t, gone, 1)
	assert.Len(t, titles(t, s, quote.Filter{Words: "gronhaven harbour"}), 1, "its quote goes on")
	_, err = s.Save(t.Context(), q, "", march)
	require.NoError(t, err)
	require.NoError(t, s.RestoreCall(t.Context(), c.ID))
	require.NoError(t, s.RestoreClient(t.Context(), town.ID))
	assert.Len(t, callTitles(t, s, "", false), 1)
	assert.Len(t, names(t, s, ""), 1)
	says(t, s.DeleteCall(t.Context(), 99, march), quote.ErrNotFound)
	sound(t, s)
}

func TestAQuoteIsFoundAndSortedByTheCallThatItAnswers(t *testing.T) {
	s := newStore(t)
	c := called(t, s, quote.Call{Title: "Lighthouse for Kestrel Bay", Due: may})
	q, err := s.Save(t.Context(), quote.Quote{Commission: harbour(), Call: c.ID}, "", march)
	require.NoError(t, err)
	assert.Equal(t, []string{"Standing figure with dog"}, titles(t, s, quote.Filter{Words: "kestrel dog"}))
	c.Title, c.Due = "Beacon", may.AddDate(0, 1, 0)
	called(t, s, c)
	assert.Empty(t, titles(t, s, quote.Filter{Words: "kestrel"}))
	row := summaryOf(t, s, q.ID)
	assert.Equal(t, "Beacon", row.Call)
	assert.Equal(t, c.Due, row.Due)
	_, err = s.Save(t.Context(), quote.Quote{Call: 99}, "", march)
	says(t, err, quote.ErrNotFound, "Call")
	sound(t, s)
}
