package sqlite

import (
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/quote"
	"meltwright/internal/reference"
)

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

func TestATinyDiskFillsUpAndLosesNothing(t *testing.T) {
	folder := reference.Disk(t, "1m")
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
	folder := reference.Disk(t, "64k")
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
	folder := reference.Disk(t, "8m")
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
	path := ofVersion(t, len(migrations))
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
