package sqlite

import (
	"context"
	"errors"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

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

func TestAFullDiskRefusesASaveAndKeepsWhatWasSaved(t *testing.T) {
	s := newStore(t)
	s.db.SetMaxOpenConns(1)
	q := saved(t, s, "Owl", march)
	_, err := s.db.ExecContext(t.Context(), `PRAGMA max_page_count = 1`) // no page more than there are
	require.NoError(t, err)
	for err == nil {
		_, err = s.Save(t.Context(), quote.Quote{Commission: harbour()}, "", march)
	}
	says(t, err, quote.ErrFull, "the disk is full", "make room")
	kept, err := s.Quote(t.Context(), q.ID)
	require.NoError(t, err)
	assert.Equal(t, q, kept)
	sound(t, s)
}

// mounted gives a small disk of its own, or leaves the test out.
func mounted(t testing.TB, size string) string {
	t.Helper()
	folder := t.TempDir()
	mount, err := exec.LookPath("mount")
	if err == nil {
		var said []byte
		said, err = exec.Command(mount, "-t", "tmpfs", "-o", "size="+size, "meltwright-test", folder).CombinedOutput()
		if err != nil {
			err = errors.New(string(said))
		}
	}
	if err != nil {
		required(t, "a disk of its own takes a Linux machine and its administrator: "+err.Error())
	}
	t.Cleanup(func() { assert.NoError(t, exec.Command("umount", "-l", folder).Run()) })
	return folder
}

func TestATinyDiskFillsUpAndLosesNothing(t *testing.T) {
	folder := mounted(t, "1m")
	path := filepath.Join(folder, "quotes.db")
	s := opened(t, path)
	var kept []quote.Quote
	var err error
	for err == nil {
		var q quote.Quote
		if q, err = s.Save(t.Context(), quote.Quote{Commission: harbour()}, "", march); err == nil {
			kept = append(kept, q)
		}
	}
	says(t, err, quote.ErrFull, path, "the disk is full")
	require.NotEmpty(t, kept)
	says(t, s.Backup(t.Context(), filepath.Join(folder, "copy.db")), quote.ErrFull, "copy.db")
	assert.NoFileExists(t, filepath.Join(folder, "copy.db"))
	s.Close()
	require.NoError(t, exec.Command("mount", "-o", "remount,size=4m", folder).Run(), "room is made")
	s = opened(t, path)
	sound(t, s)
	for _, q := range kept {
		got, err := s.Quote(t.Context(), q.ID)
		require.NoError(t, err)
		assert.Equal(t, q, got)
	}
	saved(t, s, "Otter", march)
	require.NoError(t, s.Close())
}

func TestADiskWithNoRoomAtAllRefusesANewFile(t *testing.T) {
	folder := mounted(t, "64k")
	require.Error(t, os.WriteFile(filepath.Join(folder, "ballast"), make([]byte, 1<<20), 0o600))
	_, err := Open(t.Context(), filepath.Join(folder, "quotes.db"))
	says(t, err, quote.ErrFull)
}

// readOnlyFolder gives a folder with a file that cannot be written, nor any
// other beside it: one taken off the disk's leave, or on a disk of its own.
func readOnlyFolder(t testing.TB, prepare func(folder string)) string {
	t.Helper()
	if os.Getuid() != 0 && runtime.GOOS != "windows" {
		folder := t.TempDir()
		prepare(folder)
		require.NoError(t, os.Chmod(folder, 0o500))
		t.Cleanup(func() { os.Chmod(folder, 0o700) })
		return folder
	}
	folder := mounted(t, "8m")
	prepare(folder)
	require.NoError(t, exec.Command("mount", "-o", "remount,ro", folder).Run())
	return folder
}

func TestAFileInAReadOnlyFolderOpensToRead(t *testing.T) {
	for _, left := range []string{"closed", "cut off"} {
		folder := readOnlyFolder(t, func(folder string) {
			s, err := Open(t.Context(), filepath.Join(folder, "quotes.db"))
			require.NoError(t, err)
			saved(t, s, "Owl", march)
			if left == "cut off" { // as a crash leaves it, with the change in the log alone
				require.NoError(t, os.Mkdir(filepath.Join(folder, "x"), 0o700))
				require.NoError(t, copyWithLog(s.Path(), filepath.Join(folder, "x", "quotes.db")))
			}
			require.NoError(t, s.Close())
			if left == "cut off" {
				require.NoError(t, copyWithLog(filepath.Join(folder, "x", "quotes.db"), s.Path()))
			}
		})
		path := filepath.Join(folder, "quotes.db")
		_, err := Open(t.Context(), path)
		says(t, err, quote.ErrReadOnly, path, "open it to read only")
		s, err := OpenReadOnly(t.Context(), path)
		require.NoError(t, err)
		assert.Equal(t, []string{"Owl"}, titles(t, s, quote.Filter{}))
		sound(t, s)
		assert.NoError(t, s.Close())
		_, err = Open(t.Context(), filepath.Join(folder, "new.db"))
		says(t, err, quote.ErrReadOnly, "new.db")
		_, err = Open(t.Context(), filepath.Join(folder, "new", "new.db"))
		says(t, err, quote.ErrReadOnly)
	}
}

func TestAStoreOpenToReadRefusesEveryChange(t *testing.T) {
	path := ofVersion(t, 1)
	s, err := OpenReadOnly(t.Context(), path)
	require.NoError(t, err)
	defer s.Close()
	assert.True(t, s.ReadOnly())
	q, err := s.Quote(t.Context(), 3)
	require.NoError(t, err)
	changes := map[string]func() error{
		"Save":       func() error { _, err := s.Save(t.Context(), q, "", march); return err },
		"Delete":     func() error { return s.Delete(t.Context(), 3, march) },
		"Restore":    func() error { return s.Restore(t.Context(), 2) },
		"Empty":      func() error { _, err := s.Empty(t.Context(), time.Now()); return err },
		"Issue":      func() error { return s.Issue(t.Context(), revisionOf(q)) },
		"SaveClient": func() error { _, err := s.SaveClient(t.Context(), quote.Client{Name: "x"}); return err },
		"SaveBook":   func() error { b, _ := s.Book(t.Context()); b.Shop = "x"; return s.SaveBook(t.Context(), b, march) },
		"Reindex":    func() error { return s.Reindex(t.Context()) },
	}
	for name, change := range changes {
		says(t, change(), quote.ErrReadOnly, "open to read only")
		assert.NotEmpty(t, name)
	}
	sound(t, s)
	require.NoError(t, s.Backup(t.Context(), filepath.Join(t.TempDir(), "copy.db")), "a copy can be made")
	made, err := s.KeepBackup(t.Context(), march)
	require.NoError(t, err)
	assert.Empty(t, made)
}

func TestAFileWithoutLeaveToWriteSaysSoWhenItIsOpened(t *testing.T) {
	if os.Getuid() == 0 || runtime.GOOS == "windows" {
		return // an administrator may write whatever the file says; the folder's test holds there
	}
	path := ofVersion(t, 1)
	require.NoError(t, os.Chmod(path, 0o400))
	_, err := Open(t.Context(), path)
	says(t, err, quote.ErrReadOnly)
}
