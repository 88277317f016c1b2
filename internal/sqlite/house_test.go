package sqlite

import (
	"context"
	"fmt"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/quote"
)

// march is the day on which these tests happen, a little later at every step.
var march = time.Date(2026, time.March, 14, 9, 26, 53, 0, time.UTC)

func at(step int) time.Time { return march.Add(time.Duration(step) * time.Minute) }

// newFile gives a path for a file in a folder that is not there yet.
func newFile(t testing.TB) string {
	t.Helper()
	return filepath.Join(t.TempDir(), "shop", "quotes.db")
}

// opened opens the file at path, and closes it at the end of the test.
func opened(t testing.TB, path string) *Store {
	t.Helper()
	s, err := Open(t.Context(), path)
	require.NoError(t, err)
	t.Cleanup(func() { s.Close() })
	return s
}

func newStore(t testing.TB) *Store {
	t.Helper()
	return opened(t, newFile(t))
}

// harbour is the commission of an invented town.
func harbour() estimate.Commission {
	return estimate.Commission{
		Title: "Standing figure with dog", Client: "Town of Grönhaven", Place: "Harbour steps", Currency: "CAD", Units: "metric",
		Inputs: map[string]string{"price.margin": "15 %"},
		Pieces: []estimate.Piece{
			{Name: "Figure", Inputs: map[string]string{"form.height": `7'4"`, "form.wall": "5 mm"}},
			{Name: "Dog", Solids: []map[string]string{{"shape": "sphere", "d": "30 cm"}}},
			{Name: "Bench"},
		},
		Extras: []estimate.Extra{{Stage: "delivery", Item: "Ferry", Quantity: "2", Unit: "each", Rate: "180"}},
	}
}

// saved keeps a commission of a title as a new quote.
func saved(t testing.TB, s *Store, title string, now time.Time) quote.Quote {
	t.Helper()
	c := harbour()
	c.Title = title
	q, err := s.Save(t.Context(), quote.Quote{Commission: c}, "$128,400", now)
	require.NoError(t, err)
	return q
}

// titles lists the titles that a search finds, in the order of the list.
func titles(t testing.TB, s *Store, f quote.Filter) []string {
	t.Helper()
	rows, _, err := s.List(t.Context(), f)
	require.NoError(t, err)
	all := []string{}
	for _, r := range rows {
		all = append(all, r.Title)
	}
	return all
}

// says holds an error against its kind, and against the words of its sentence.
func says(t testing.TB, err, kind error, words ...string) {
	t.Helper()
	require.Error(t, err)
	if kind != nil {
		assert.ErrorIs(t, err, kind)
	}
	var f fault.Fault
	require.ErrorAs(t, err, &f, "every error has a sentence")
	assert.NotEmpty(t, f.Problem)
	assert.NotEmpty(t, f.Remedy, "a way on")
	for _, w := range words {
		assert.Contains(t, err.Error(), w)
	}
}

// sound fails the test unless the store's check finds nothing.
func sound(t testing.TB, s *Store) Report {
	t.Helper()
	r, err := s.Check(t.Context())
	require.NoError(t, err)
	require.Empty(t, r.Wrong)
	return r
}

// tell changes the file at path behind the store's back.
func tell(t testing.TB, path string, statements ...string) {
	t.Helper()
	db, err := connect(path, toCreate, loose)
	require.NoError(t, err)
	defer db.Close()
	for _, s := range statements {
		_, err := db.ExecContext(context.Background(), s)
		require.NoError(t, err, s)
	}
}

// fillWith keeps n quotes of every sort in one go, as years of work would leave them.
func fillWith(t testing.TB, s *Store, n int) {
	t.Helper()
	tx, err := s.db.BeginTx(t.Context(), nil)
	require.NoError(t, err)
	defer tx.Rollback()
	for i := range n {
		c := harbour()
		c.Title, c.Client, c.Place = invented(i)
		_, err := insertQuote(t.Context(), tx, quote.Quote{Commission: c}, "$128,400", march.Add(time.Duration(i-n)*time.Hour))
		require.NoError(t, err)
	}
	require.NoError(t, tx.Commit())
}

var (
	things = []string{"Standing figure", "Seated figure", "Torso", "Bust", "Fountain", "Horse", "Owl", "Otter", "Dancer", "Gate", "Relief", "Émigré"}
	bodies = []string{"Town", "City", "Library", "College", "Hospital", "Parish", "Museum", "Port"}
	towns  = []string{"Grönhaven", "Ash Ferry", "Pont-aux-Merles", "Millbrook", "Val-d'Ombre", "Łęgowo", "Saint-Éloi", "Kestrel Bay", "Dunmore", "Fairlea"}
)

func invented(i int) (title, client, place string) {
	town := towns[i%len(towns)]
	return fmt.Sprintf("%s no. %d", things[i%len(things)], i), bodies[i%len(bodies)] + " of " + town, fmt.Sprintf("%s, pier %d", town, i%97)
}
