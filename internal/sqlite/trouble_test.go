package sqlite

import (
	"context"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/quote"
)

// bothWays tries to open a file to write, and to read.
func bothWays(t *testing.T, path string, kind error, words ...string) {
	t.Helper()
	for _, open := range []func(context.Context, string) (*Store, error){Open, OpenReadOnly} {
		s, err := open(t.Context(), path)
		assert.Nil(t, s)
		says(t, err, kind, append(words, path)...)
	}
}

func TestAnyNameWillDoForAFile(t *testing.T) {
	for _, name := range []string{"50 % off?.db", "a#b.db", "c&mode=memory.db", "é 日本 🐎.db", "file:x.db", "plain", "two  spaces .db", "%41.db", ":memory:"} {
		if runtime.GOOS == "windows" && strings.ContainsAny(name, "?:") {
			continue
		}
		path := filepath.Join(t.TempDir(), "q?#%20 &", name)
		s := opened(t, path)
		saved(t, s, "Owl", march)
		require.NoError(t, s.Close())
		assert.FileExists(t, path)
		entries, err := os.ReadDir(filepath.Dir(path))
		require.NoError(t, err)
		assert.Len(t, entries, 1, "and no other file came to be")
		assert.Equal(t, []string{"Owl"}, titles(t, opened(t, path), quote.Filter{}))
	}
}

func TestATextFileIsNoMeltwrightFileAndIsLeftAlone(t *testing.T) {
	path := filepath.Join(t.TempDir(), "letter.txt")
	letter := []byte(strings.Repeat("Dear committee, ", 1000))
	require.NoError(t, os.WriteFile(path, letter, 0o600))
	bothWays(t, path, quote.ErrNotOurs, "no Meltwright file", "choose another")
	is, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, letter, is)
	entries, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	assert.Len(t, entries, 1)
}

func TestADatabaseOfAnotherProgramIsLeftAlone(t *testing.T) {
	for _, marks := range []string{`PRAGMA application_id = 252006675`, `PRAGMA user_version = 1`, `PRAGMA encoding = 'UTF-16'`} {
		path := filepath.Join(t.TempDir(), "other.db")
		tell(t, path, marks, `CREATE TABLE quotes (id)`)
		was, err := os.ReadFile(path)
		require.NoError(t, err)
		bothWays(t, path, quote.ErrNotOurs)
		is, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, was, is, "not a byte of it changed, not even its journal's kind")
	}
}

func TestAnEmptyFileIsANewOne(t *testing.T) {
	path := filepath.Join(t.TempDir(), "quotes.db")
	require.NoError(t, os.WriteFile(path, nil, 0o600))
	s := opened(t, path)
	saved(t, s, "Owl", march)
	sound(t, s)
}

func TestAFileThatIsNotThereIsMadeToWriteAndMissedToRead(t *testing.T) {
	path := newFile(t)
	_, err := OpenReadOnly(t.Context(), path)
	says(t, err, fs.ErrNotExist, "does not exist")
	assert.NoDirExists(t, filepath.Dir(path))
	opened(t, path)
	if runtime.GOOS != "windows" {
		info, err := os.Stat(filepath.Dir(path))
		require.NoError(t, err)
		assert.Equal(t, fs.FileMode(0o700), info.Mode().Perm(), "quotes are nobody else's business")
	}
}

func TestAFolderIsNoFile(t *testing.T) {
	bothWays(t, t.TempDir(), errFolder, "is a folder")
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, []byte("x"), 0o600))
	_, err := Open(t.Context(), filepath.Join(file, "quotes.db"))
	says(t, err, nil, filepath.Join(file, "quotes.db"))
}

func TestAFileHeldByAnotherProgramIsInUse(t *testing.T) {
	s := newStore(t)
	q := saved(t, s, "Owl", march)
	hold, err := s.db.BeginTx(t.Context(), nil) // another window in the middle of a change
	require.NoError(t, err)
	other := opened(t, s.Path())
	hurry(t, other)
	_, err = other.Save(t.Context(), q, "", at(1))
	says(t, err, quote.ErrLocked, "in use", "try again")
	assert.Equal(t, []string{"Owl"}, titles(t, other, quote.Filter{}), "it can be read meanwhile")
	require.NoError(t, hold.Rollback())
	_, err = other.Save(t.Context(), q, "", at(1))
	assert.NoError(t, err)
}

// hurry takes a store's patience away.
func hurry(t testing.TB, s *Store) {
	t.Helper()
	s.db.SetMaxOpenConns(1)
	_, err := s.db.ExecContext(t.Context(), `PRAGMA busy_timeout = 0`)
	require.NoError(t, err)
}

func TestASaveThatIsCalledOffKeepsNothingAndSaysSo(t *testing.T) {
	s := newStore(t)
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, err := s.Save(ctx, quote.Quote{Commission: harbour()}, "", march)
	assert.ErrorIs(t, err, context.Canceled)
	assert.Empty(t, titles(t, s, quote.Filter{}))
}

func TestAClosedStoreSaysSo(t *testing.T) {
	s := newStore(t)
	require.NoError(t, s.Close())
	_, err := s.Save(t.Context(), quote.Quote{Commission: harbour()}, "", march)
	says(t, err, nil, "has been closed")
	_, _, err = s.List(t.Context(), quote.Filter{})
	says(t, err, nil, "has been closed")
}

func TestAFileMovedAwayWhileOpenIsNotWrittenToInTheDark(t *testing.T) {
	if runtime.GOOS == "windows" {
		return // there it cannot be moved
	}
	s := newStore(t)
	q := saved(t, s, "Owl", march)
	away := s.Path() + ".away"
	require.NoError(t, os.Rename(s.Path(), away))
	_, err := s.Save(t.Context(), q, "", at(1))
	says(t, err, nil, "moved or removed", "put it back")
	require.NoError(t, copyFile(away, s.Path()))
	_, err = s.Save(t.Context(), q, "", at(1))
	says(t, err, nil, "moved or removed")
	require.NoError(t, os.Rename(away, s.Path()))
	_, err = s.Save(t.Context(), q, "", at(1))
	assert.NoError(t, err)
}

func TestAFileThatANewerProgramBroughtUpToDateMeanwhileIsNotWritten(t *testing.T) {
	s := newStore(t)
	q := saved(t, s, "Owl", march)
	tell(t, s.Path(), fmt.Sprintf(`PRAGMA user_version = %d`, len(migrations)+1))
	_, err := s.Save(t.Context(), q, "", at(1))
	says(t, err, quote.ErrNewer)
}

// The numbers are those of "Result and Error Codes", sqlite.org/rescode.html.
func TestEachResultCodeMeansWhatItsPublishedTableSays(t *testing.T) {
	path := ofVersion(t, 1)
	for kind, codes := range map[error][]int{
		quote.ErrDamaged:  {11, 267, 523, 779, 522, 8202, 8458, 26}, // CORRUPT and its kinds, SHORT_READ, IOERR_DATA, CORRUPTFS; NOTADB of what begins like one
		quote.ErrLocked:   {5, 261, 517, 773, 6, 262, 518, 15},      // BUSY, LOCKED, PROTOCOL
		quote.ErrFull:     {13, 4874},                               // FULL, IOERR_SHMSIZE
		quote.ErrReadOnly: {8, 264, 520, 776, 1288, 1544, 3, 14},    // READONLY, PERM, CANTOPEN
		quote.ErrDisk:     {10, 266, 778, 1034, 1290, 6410, 8714},   // IOERR
		errMoved:          {1032},                                   // READONLY_DBMOVED
		nil:               {1, 19, 21},                              // ERROR, CONSTRAINT, MISUSE
	} {
		for _, code := range codes {
			assert.Equal(t, kind, kindOfCode(code, path), code)
		}
	}
}
