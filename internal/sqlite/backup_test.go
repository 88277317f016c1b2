package sqlite

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/quote"
	"meltwright/internal/shop"
)

// day counts on from the day of these tests.
func day(n int) time.Time { return march.AddDate(0, 0, n) }

func TestABackupIsTheFileAsItStoodAndOpensByItself(t *testing.T) {
	s := newStore(t)
	furnish(t, s)
	copied := filepath.Join(t.TempDir(), "other disk", "copy #1.db")
	require.NoError(t, s.Backup(t.Context(), copied))
	saved(t, s, "Heron", at(5))
	require.NoError(t, s.Backup(t.Context(), copied), "replaces the one of that name")
	saved(t, s, "Gull", at(6))
	entries, err := os.ReadDir(filepath.Dir(copied))
	require.NoError(t, err)
	assert.Len(t, entries, 1, "one file, no log, nothing unfinished")
	b := opened(t, copied)
	assert.Equal(t, []string{"Heron", "Otter", "Standing figure with dog"}, slices.Sorted(slices.Values(titles(t, b, quote.Filter{}))))
	sound(t, b)
}

func TestABackupNeverReplacesTheFileItself(t *testing.T) {
	s := newStore(t)
	saved(t, s, "Owl", march)
	link := filepath.Join(t.TempDir(), "link.db")
	require.NoError(t, os.Symlink(s.Path(), link))
	for _, to := range []string{s.Path(), s.Path() + logSuffix, link} {
		says(t, s.Backup(t.Context(), to), nil, "is the file itself", "another name")
	}
	_, err := Restore(t.Context(), s.Path(), link, march)
	says(t, err, nil, "is the file itself")
	sound(t, s)
}

func TestABackupOfADamagedFileLeavesTheLastGoodOne(t *testing.T) {
	path := ofVersion(t, 1)
	copied := filepath.Join(t.TempDir(), "copy.db")
	s := opened(t, path)
	require.NoError(t, s.Backup(t.Context(), copied))
	was, err := os.ReadFile(copied)
	require.NoError(t, err)
	require.NoError(t, s.Close())
	rubbish := make([]byte, 8*4096)
	for i := range rubbish {
		rubbish[i] = 0xA5
	}
	scribble(t, path, 4096, rubbish)
	s = opened(t, path)
	says(t, s.Backup(t.Context(), copied), quote.ErrDamaged, "no copy of it was made")
	is, err := os.ReadFile(copied)
	require.NoError(t, err)
	assert.Equal(t, was, is)
}

func TestABackupIsMadeOnceADayOnWhichSomethingChanged(t *testing.T) {
	s := newStore(t)
	keepBackup := func(n int) string {
		made, err := s.KeepBackup(t.Context(), day(n))
		require.NoError(t, err)
		return filepath.Base(made)
	}
	assert.Equal(t, ".", keepBackup(0), "an empty file needs none")
	saved(t, s, "Owl", day(0))
	assert.Equal(t, "quotes-2026-03-14.db", keepBackup(0))
	saved(t, s, "Otter", day(0))
	assert.Equal(t, ".", keepBackup(0), "that day has its own")
	assert.Equal(t, "quotes-2026-03-15.db", keepBackup(1))
	assert.Equal(t, ".", keepBackup(2), "nothing has changed")
	require.NoError(t, s.SaveBook(t.Context(), shop.Start(), day(3)))
	assert.Equal(t, "quotes-2026-03-17.db", keepBackup(3))
}

func TestALookIntoEachBackupComesBeforeARestore(t *testing.T) {
	s := newStore(t)
	saved(t, s, "Owl", day(0))
	_, err := s.KeepBackup(t.Context(), day(0))
	require.NoError(t, err)
	saved(t, s, "Otter", day(1))
	_, err = s.KeepBackup(t.Context(), day(1))
	require.NoError(t, err)
	folder := BackupFolder(s.Path())
	require.NoError(t, os.WriteFile(filepath.Join(folder, "quotes-2026-03-20.db"), []byte("not a database, whatever its name"), 0o600))
	for _, stranger := range []string{"quotes-2026-03-20.db.txt", "other-2026-03-20.db", "quotes.db", "quotes-2026-03-20-mine.db"} {
		require.NoError(t, os.WriteFile(filepath.Join(folder, stranger), nil, 0o600))
	}
	all, err := Backups(t.Context(), s.Path())
	require.NoError(t, err)
	require.Len(t, all, 3)
	says(t, all[0].Err, quote.ErrNotOurs)
	assert.NoError(t, all[1].Err)
	assert.Equal(t, "2026-03-15", all[1].Date)
	assert.Equal(t, "of the day", all[1].What)
	assert.Equal(t, 2, all[1].Quotes)
	assert.Equal(t, "2026-002 Otter", all[1].Latest)
	assert.True(t, all[1].Changed.Equal(day(1)))
	assert.Greater(t, all[1].Size, int64(4096))
	assert.Equal(t, 1, all[2].Quotes)
	none, err := Backups(t.Context(), newFile(t))
	require.NoError(t, err)
	assert.Empty(t, none)
}

func TestTheLastTenBackupsStayAndOneOfEachMonthForTwoYears(t *testing.T) {
	dates := []string{}
	for n := range 900 {
		dates = append(dates, day(n).Format(time.DateOnly))
	}
	gone := spare(dates)
	left := slices.DeleteFunc(slices.Clone(dates), func(d string) bool { return slices.Contains(gone, d) })
	assert.Equal(t, dates[len(dates)-10:], left[len(left)-10:])
	assert.Equal(t, []string{"2026-09-30", "2026-10-31", "2026-11-30"}, left[:3])
	assert.Len(t, left, 10+24)
}

// Kept one by one, as days go by, the backups are those of the rule applied once.
func TestTheRuleOfBackupsIsSteady(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var left []string
		for range rapid.IntRange(1, 120).Draw(t, "days") {
			left = append(left, day(rapid.IntRange(0, 700).Draw(t, "day")).Format(time.DateOnly))
			gone := spare(left)
			left = slices.DeleteFunc(left, func(d string) bool { return slices.Contains(gone, d) })
			slices.Sort(left)
			left = slices.Compact(left)
			assert.Empty(t, spare(left))
			assert.LessOrEqual(t, len(left), daysKept+monthsKept)
		}
	})
}

func TestOldBackupsGoAndOthersFilesStay(t *testing.T) {
	s := newStore(t)
	folder := BackupFolder(s.Path())
	require.NoError(t, makeFolder(folder))
	mine := []string{"letter.pdf", "quotes-2020-01-01-before-2.db", "quotes-2020-01-01-aside-101112.db", "other-2020-01-01.db", ".other-2020-01-01.db-123.part"}
	for _, name := range append([]string{".quotes-2026-03-14.db-123.part"}, mine...) {
		require.NoError(t, os.WriteFile(filepath.Join(folder, name), []byte("x"), 0o600))
		require.NoError(t, os.Chtimes(filepath.Join(folder, name), day(-9), day(-9)))
	}
	for n := range 40 {
		saved(t, s, "Owl", day(n))
		_, err := s.KeepBackup(t.Context(), day(n))
		require.NoError(t, err)
	}
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	names := []string{}
	for _, e := range entries {
		names = append(names, e.Name())
	}
	want := append([]string{"quotes-2026-03-31.db"}, mine...)
	for n := range 10 {
		want = append(want, "quotes-"+day(30+n).Format(time.DateOnly)+".db")
	}
	want = append(want, "quotes-"+day(29).Format(time.DateOnly)+".db")
	assert.ElementsMatch(t, want, names, "the last ten, the last of March, and the last of April before them")
}

func TestARestoreBringsBackTheFileAndSetsTheOtherAside(t *testing.T) {
	s := newStore(t)
	owl := saved(t, s, "Owl", day(0))
	c := keep(t, s, quote.Client{Name: "Town of Grönhaven"})
	made, err := s.KeepBackup(t.Context(), day(0))
	require.NoError(t, err)
	otter := saved(t, s, "Otter", day(1))
	changed := owl
	changed.Commission.Title = "Owl, spoilt"
	changed, err = s.Save(t.Context(), changed, "", day(1))
	require.NoError(t, err)

	aside, err := Restore(t.Context(), s.Path(), made, day(2))
	require.NoError(t, err)
	assert.Equal(t, []string{"Owl"}, titles(t, s, quote.Filter{}), "a window that had it open sees it")
	sound(t, s)
	assert.ElementsMatch(t, []string{"Otter", "Owl, spoilt"}, titles(t, opened(t, aside), quote.Filter{}))
	assert.Equal(t, "quotes-2026-03-16-aside-092653.db", filepath.Base(aside))

	for _, stale := range []quote.Quote{owl, changed} {
		_, err = s.Save(t.Context(), stale, "", day(3))
		says(t, err, quote.ErrOutdated)
	}
	_, err = s.Save(t.Context(), otter, "", day(3))
	says(t, err, quote.ErrNotFound)
	_, err = s.SaveClient(t.Context(), c)
	says(t, err, quote.ErrOutdated)
	next := saved(t, s, "Heron", day(3))
	assert.Equal(t, "2026-003", next.Number, "2026-002 was given, and is not given again")
	assert.NotEqual(t, otter.ID, next.ID)

	_, err = Restore(t.Context(), s.Path(), aside, day(4))
	require.NoError(t, err)
	assert.ElementsMatch(t, []string{"Otter", "Owl, spoilt"}, titles(t, s, quote.Filter{}), "and there is a way back")
	sound(t, s)
}

func TestARestoreReplacesAFileThatIsDamagedOrGone(t *testing.T) {
	for what, spoil := range map[string]func(path string){
		"gone":      func(path string) { require.NoError(t, os.Remove(path)) },
		"empty":     func(path string) { require.NoError(t, os.Truncate(path, 0)) },
		"cut":       func(path string) { require.NoError(t, os.Truncate(path, 9000)) },
		"no file":   func(path string) { scribble(t, path, 0, make([]byte, 4096)) },
		"some page": func(path string) { scribble(t, path, 4096, []byte(strings.Repeat("x", 20*4096))) },
	} {
		path := newFile(t)
		s := opened(t, path)
		saved(t, s, "Owl", march)
		made, err := s.KeepBackup(t.Context(), march)
		require.NoError(t, err)
		require.NoError(t, s.Close())
		spoil(path)
		was, _ := os.ReadFile(path)
		aside, err := Restore(t.Context(), path, made, at(1))
		require.NoError(t, err, what)
		if aside != "" {
			is, err := os.ReadFile(aside)
			require.NoError(t, err)
			assert.Equal(t, was, is, "set aside byte for byte")
		}
		s = opened(t, path)
		assert.Equal(t, []string{"Owl"}, titles(t, s, quote.Filter{}), what)
		sound(t, s)
		require.NoError(t, s.Close())
		entries, err := os.ReadDir(filepath.Dir(path))
		require.NoError(t, err)
		assert.Len(t, entries, 2, "the file and its backups")
	}
}

func TestWhatIsNoBackupIsNotRestored(t *testing.T) {
	s := newStore(t)
	saved(t, s, "Owl", march)
	text := filepath.Join(t.TempDir(), "letter.txt")
	require.NoError(t, os.WriteFile(text, []byte("Dear committee, this is long enough to be read as something."), 0o600))
	empty := filepath.Join(t.TempDir(), "empty.db")
	require.NoError(t, os.WriteFile(empty, nil, 0o600))
	newer := ofVersion(t, 1)
	tell(t, newer, `PRAGMA user_version = 9`)
	damaged := ofVersion(t, 1)
	scribble(t, damaged, 4096, []byte(strings.Repeat("x", 20*4096)))
	for path, kind := range map[string]error{text: quote.ErrNotOurs, empty: quote.ErrNotOurs, newer: quote.ErrNewer, damaged: quote.ErrDamaged, filepath.Join(t.TempDir(), "none.db"): nil} {
		_, err := Restore(t.Context(), s.Path(), path, at(1))
		says(t, err, kind)
		assert.Equal(t, []string{"Owl"}, titles(t, s, quote.Filter{}))
	}
	assert.NoDirExists(t, BackupFolder(s.Path()))
}

func TestABackupOfAnOlderVersionIsRestoredUpToDate(t *testing.T) {
	old := ofVersion(t, 1)
	later(t, `ALTER TABLE clients ADD COLUMN mood TEXT NOT NULL DEFAULT 'fine'`)
	s := newStore(t)
	saved(t, s, "Owl", march)
	_, err := Restore(t.Context(), s.Path(), old, at(1))
	require.NoError(t, err)
	assert.Equal(t, len(migrations), versionOf(t, s.Path()))
	assert.Equal(t, 1, versionOf(t, old), "the backup itself stays")
	assert.Equal(t, []string{"Otter", "Standing figure with dog"}, slices.Sorted(slices.Values(titles(t, s, quote.Filter{}))))
	sound(t, s)
}

func TestARestoreWaitsForWhoeverIsInTheMiddleOfAChange(t *testing.T) {
	s := newStore(t)
	saved(t, s, "Owl", march)
	made, err := s.KeepBackup(t.Context(), march)
	require.NoError(t, err)
	hold, err := s.db.BeginTx(t.Context(), nil)
	require.NoError(t, err)
	restored := make(chan error)
	go func() {
		_, err := Restore(context.Background(), s.Path(), made, at(1))
		restored <- err
	}()
	_, err = hold.ExecContext(t.Context(), `UPDATE quotes SET title = 'Otter'`)
	require.NoError(t, err)
	require.NoError(t, hold.Commit())
	require.NoError(t, <-restored)
	sound(t, s)
}
