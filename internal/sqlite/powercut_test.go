package sqlite

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/quote"
)

// A power cut leaves what had been flushed, and of what was under way some
// part, or nothing, or rubbish. These tests copy the file and its log as such
// a moment would leave them, and open the copy.

// onDisk is the file and its log at one moment.
type onDisk struct{ file, log []byte }

func lookAtDisk(t testing.TB, path string) (d onDisk) {
	t.Helper()
	var err error
	d.file, err = os.ReadFile(path)
	require.NoError(t, err)
	d.log, err = os.ReadFile(path + logSuffix)
	require.NoError(t, err)
	return d
}

// reopened opens a copy of what was on the disk.
func (d onDisk) reopened(t testing.TB) *Store {
	t.Helper()
	path := filepath.Join(t.TempDir(), "quotes.db")
	require.NoError(t, os.WriteFile(path, d.file, 0o600))
	require.NoError(t, os.WriteFile(path+logSuffix, d.log, 0o600))
	return opened(t, path)
}

func TestAPowerCutInTheMiddleOfASaveKeepsEverySaveBefore(t *testing.T) {
	s := newStore(t)
	q := saved(t, s, "Owl", march)
	for i := range 5 {
		q.Commission.Title = fmt.Sprint("Owl ", i)
		var err error
		q, err = s.Save(t.Context(), q, "", at(i))
		require.NoError(t, err)
	}
	acknowledged := lookAtDisk(t, s.Path())
	q.Commission.Title = "Owl, under way"
	_, err := s.Save(t.Context(), q, "", at(9))
	require.NoError(t, err)
	after := lookAtDisk(t, s.Path())
	require.Equal(t, acknowledged.file, after.file, "all of it is in the log yet")
	safe := len(acknowledged.log)
	require.Equal(t, acknowledged.log, after.log[:safe])
	require.Greater(t, len(after.log), safe)

	rapid.Check(t, func(rt *rapid.T) {
		d := onDisk{after.file, bytes.Clone(after.log)}
		d.log = d.log[:rapid.IntRange(safe, len(d.log)).Draw(rt, "length")]
		for sector := safe / 512 * 512; sector < len(d.log); sector += 512 {
			if rapid.Bool().Draw(rt, "rubbish") {
				for i := max(sector, safe); i < min(sector+512, len(d.log)); i++ {
					d.log[i] = byte(i * 7)
				}
			}
		}
		s := d.reopened(t)
		defer s.Close()
		kept, err := s.Quote(t.Context(), q.ID)
		require.NoError(rt, err)
		if kept.Version != q.Version+1 {
			assert.Equal(rt, "Owl 4", kept.Commission.Title)
			assert.Equal(rt, q.Version, kept.Version)
		} else {
			assert.Equal(rt, "Owl, under way", kept.Commission.Title, "all of it or nothing")
		}
		sound(t, s)
	})
}

func TestAPowerCutWhileTheLogIsWrittenBackKeepsEverySave(t *testing.T) {
	s := newStore(t)
	fillWith(t, s, 40)
	_, err := s.db.ExecContext(t.Context(), `PRAGMA wal_checkpoint(TRUNCATE)`)
	require.NoError(t, err)
	for i := range 30 {
		saved(t, s, fmt.Sprint("Owl ", i), at(i))
	}
	before := lookAtDisk(t, s.Path())
	_, err = s.db.ExecContext(t.Context(), `PRAGMA wal_checkpoint(PASSIVE)`)
	require.NoError(t, err)
	after := lookAtDisk(t, s.Path())
	require.NotEqual(t, before.file, after.file)

	rapid.Check(t, func(rt *rapid.T) {
		// Some pages have reached the file and some have not; one is half written.
		d := onDisk{bytes.Clone(after.file), before.log}
		for start := 0; start < len(before.file); start += 4096 {
			switch rapid.IntRange(0, 2).Draw(rt, "page") {
			case 0:
				copy(d.file[start:start+4096], before.file[start:])
			case 1:
				copy(d.file[start:start+2048], before.file[start:])
			}
		}
		if rapid.Bool().Draw(rt, "short") {
			d.file = d.file[:len(before.file)]
		}
		s := d.reopened(t)
		defer s.Close()
		_, total, err := s.List(t.Context(), quote.Filter{Words: "owl"})
		require.NoError(rt, err)
		assert.GreaterOrEqual(rt, total, 30)
		sound(t, s)
	})
}

// The log of another moment must never be taken for this file's: SQLite marks
// each log, and a file from a backup has none.
func TestARestoredFileIsNotMixedWithTheLogOfTheOneBefore(t *testing.T) {
	s := newStore(t)
	saved(t, s, "Owl", march)
	made, err := s.KeepBackup(t.Context(), march)
	require.NoError(t, err)
	saved(t, s, "Otter", at(1))
	d := lookAtDisk(t, s.Path())
	require.NotEmpty(t, d.log)
	require.NoError(t, s.Close())
	require.NoError(t, os.WriteFile(s.Path(), []byte("SQLite format 3\x00 and then nothing of use"), 0o600))
	require.NoError(t, os.WriteFile(s.Path()+logSuffix, d.log, 0o600))
	_, err = Restore(t.Context(), s.Path(), made, at(2))
	require.NoError(t, err)
	again := opened(t, s.Path())
	assert.Equal(t, []string{"Owl"}, titles(t, again, quote.Filter{}))
	sound(t, again)
}
