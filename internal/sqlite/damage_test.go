package sqlite

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/quote"
)

func TestADestroyedHeaderIsToldFromAStranger(t *testing.T) {
	path := ofVersion(t, 1)
	scribble(t, path, 16, make([]byte, 84))
	bothWays(t, path, quote.ErrDamaged, "is damaged", "restore one of its backups")
	scribble(t, path, 0, make([]byte, 16))
	bothWays(t, path, quote.ErrNotOurs, "if it was one, restore")
}

func scribble(t testing.TB, path string, offset int64, what []byte) {
	t.Helper()
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	require.NoError(t, err)
	defer f.Close()
	_, err = f.WriteAt(what, offset)
	require.NoError(t, err)
}

// Whatever is written over pages of the file, nothing panics, no error is
// without its sentence, and Check does not pass the file.
func TestDamagedPagesAreFoundAndSaidSo(t *testing.T) {
	whole := filepath.Join(t.TempDir(), "whole.db")
	s, err := Open(t.Context(), whole)
	require.NoError(t, err)
	fillWith(t, s, 60)
	furnish(t, s)
	require.NoError(t, s.Backup(t.Context(), whole+".full")) // a copy has no page that is out of use
	require.NoError(t, s.Close())
	content, err := os.ReadFile(whole + ".full")
	require.NoError(t, err)
	chance := rand.New(rand.NewPCG(1, 2))
	pages := len(content) / 4096
	for round := range 120 {
		path := filepath.Join(t.TempDir(), "damaged.db")
		damaged := append([]byte{}, content...)
		page := round % pages
		junk := damaged[page*4096 : page*4096+4096]
		if page == 0 {
			junk = junk[100:] // the header has a test of its own
		}
		for i := range junk {
			junk[i] = byte(chance.Uint32()) | 1
		}
		require.NoError(t, os.WriteFile(path, damaged, 0o600))
		assert.True(t, foundDamaged(t, path), "page %d", page+1)
	}
}

func foundDamaged(t *testing.T, path string) bool {
	s, err := Open(t.Context(), path)
	if err != nil {
		says(t, err, quote.ErrDamaged)
		return true
	}
	defer s.Close()
	found := false
	see := func(err error) {
		if err != nil {
			says(t, err, nil)
			found = true
		}
	}
	rows, _, err := s.List(t.Context(), quote.Filter{Limit: 1000})
	see(err)
	for _, r := range rows {
		_, err := s.Quote(t.Context(), r.ID)
		see(err)
	}
	_, _, err = s.List(t.Context(), quote.Filter{Words: "owl fig"})
	see(err)
	_, err = s.Book(t.Context())
	see(err)
	report, err := s.Check(t.Context())
	see(err)
	for _, f := range report.Wrong {
		assert.NotEmpty(t, f.Problem)
		assert.NotEmpty(t, f.Remedy)
	}
	return found || len(report.Wrong) > 0
}

func TestOneDamagedQuoteLeavesTheOthers(t *testing.T) {
	s := newStore(t)
	owl, otter := saved(t, s, "Owl", at(1)), saved(t, s, "Otter", at(2))
	tell(t, s.Path(), `UPDATE sheets SET commission = '["nothing"]' WHERE quote = 1`)
	_, err := s.Quote(t.Context(), owl.ID)
	says(t, err, quote.ErrDamaged, "2026-001", "the rest of the file can be used")
	_, err = s.Quote(t.Context(), otter.ID)
	assert.NoError(t, err)
	tell(t, s.Path(), `DELETE FROM sheets WHERE quote = 1`)
	_, err = s.Quote(t.Context(), owl.ID)
	says(t, err, quote.ErrDamaged, "2026-001")
}

func TestCheckSaysExactlyWhatIsWrong(t *testing.T) {
	for what, statement := range map[string]string{
		"Quote 2026-001 has no sheet":                          `DELETE FROM sheets WHERE quote = 1`,
		"What the file holds of quote 2026-001 cannot be read": `UPDATE sheets SET commission = '3' WHERE quote = 1`,
		"The numbers of 2026 could be given again: 2026-003":   `DROP TRIGGER numbers_go_up; UPDATE numbers SET last = 2`,
		"Row 1 of quotes belongs to a row of clients":          `DELETE FROM clients`,
		"is found under “Town of Grönhaven”, and its client":   `UPDATE clients SET name = 'Town'`,
		"Revision A of quote 2026-001 is not what was issued":  `DROP TRIGGER revisions_never_change; UPDATE revisions SET price = '1'`,
		"Revision A of quote 2026-001 was issued, and":         `UPDATE quotes SET letter = 'A' WHERE id = 1`,
		"the shop book, version 1, cannot be read":             `DROP TRIGGER shop_books_never_change; UPDATE shop_books SET book = '[]'`,
		"The index of words in quotes does not hold":           `DROP TRIGGER search_changed; UPDATE quotes SET title = 'Heron' WHERE id = 1`,
		"The file's structure is damaged":                      `PRAGMA ignore_check_constraints = 1; UPDATE quotes SET state = 'sold'`,
	} {
		s := opened(t, ofVersion(t, 1))
		tell(t, s.Path(), statement)
		report, err := s.Check(t.Context())
		require.NoError(t, err)
		require.NotEmpty(t, report.Wrong, what)
		assert.Contains(t, report.Wrong.Error(), what)
		require.NoError(t, s.Close())
	}
}

func TestAnIndexOfWordsThatWentWrongIsMade(t *testing.T) {
	s := opened(t, ofVersion(t, 1))
	tell(t, s.Path(), `DROP TRIGGER search_changed`, `UPDATE quotes SET title = 'Heron' WHERE id = 3`)
	assert.Empty(t, titles(t, s, quote.Filter{Words: "heron"}))
	require.NoError(t, s.Reindex(t.Context()))
	assert.Equal(t, []string{"Heron"}, titles(t, s, quote.Filter{Words: "heron"}))
	sound(t, s)
}
