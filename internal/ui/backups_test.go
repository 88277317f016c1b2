package ui

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/fault"
	"meltwright/internal/quote"
	"meltwright/internal/sqlite"
	"meltwright/internal/ui/kit"
	"meltwright/internal/ui/look"
)

// copies are the backups of SQLite.
type copies struct{}

func (copies) List(ctx context.Context, path string) (all []Backup, err error) {
	list, err := sqlite.Backups(ctx, path)
	for _, x := range list {
		all = append(all, Backup(x))
	}
	return all, err
}

func (copies) Look(ctx context.Context, path string) Backup {
	return Backup(sqlite.LookInto(ctx, path))
}

func (copies) Restore(ctx context.Context, path, backup string, now time.Time) (string, error) {
	return sqlite.Restore(ctx, path, backup, now)
}

// withCopies opens the demo in a store that makes backups.
func withCopies(o *Options) {
	o.Demo, o.Backups = true, copies{}
	o.Open = func(ctx context.Context, path string, readOnly bool) (quote.Store, error) {
		if readOnly {
			return sqlite.OpenReadOnly(ctx, path)
		}
		s, err := sqlite.Open(ctx, path)
		if err != nil {
			return nil, err
		}
		return s, nil
	}
}

func TestTheBackupOfTheDayIsMadeOnceTheWindowIsUp(t *testing.T) {
	b := sit(t, withCopies)
	assert.NoDirExists(t, sqlite.BackupFolder(b.path))
	b.clock.pass(backupAfter)
	files, err := os.ReadDir(sqlite.BackupFolder(b.path))
	require.NoError(t, err)
	assert.Len(t, files, 1)
}

func TestABackupIsLookedIntoAndRestored(t *testing.T) {
	b := sit(t, withCopies)
	b.clock.pass(backupAfter)
	b.menu("All quotes")
	b.menu("Put into the bin")
	b.menu("Backups")
	assert.Contains(t, b.said(), "14 March 2026, of the day")
	assert.Contains(t, b.said(), "2 quotes; the one changed last is 2026-002 The Weir Keeper")
	b.press(fyne.KeyReturn)
	assert.Contains(t, b.said(), "Restore this backup?")
	b.tap("Leave it as it is")
	b.tap("Restore")
	b.tap("Restore it")
	assert.Contains(t, b.said(), "The backup is restored. What was there lies in ")
	assert.Contains(t, b.said(), "2 quotes")

	b.menu("Backups")
	assert.Contains(t, b.said(), "set aside by a restore", "and can be restored in turn")
}

func TestADamagedFileOffersItsBackups(t *testing.T) {
	b := sit(t, withCopies)
	b.clock.pass(backupAfter)
	require.NoError(t, b.w.desk.Close())
	b.w.desk, b.w.list.path = nil, ""
	require.NoError(t, os.WriteFile(b.path, []byte("no database at all, but long enough to be one of some kind"), 0o600))
	for _, side := range []string{"-wal", "-shm"} {
		_ = os.Remove(b.path + side) // may not be there
	}
	b.w.open(b.path, false)
	assert.Contains(t, b.said(), "Your quotes cannot be opened")
	b.tap("Backups")
	b.tap("Restore")
	b.tap("Restore it")
	assert.Contains(t, b.said(), "2 quotes")
}

func TestWhatIsNoBackupIsNotRestored(t *testing.T) {
	b := sit(t, withCopies)
	b.menu("Backups")
	assert.Contains(t, b.said(), "There are no backups yet.")
	b.tap("Restore")
	assert.Contains(t, b.said(), "There is nothing to restore.")
	other := filepath.Join(t.TempDir(), "letter.db")
	require.NoError(t, os.WriteFile(other, []byte("Dear Sir"), 0o600))
	b.tap("Another file …")
	b.answer(other)
	assert.Contains(t, b.said(), "This cannot be restored")
}

func TestWithoutBackupsTheMenuDoesNotOfferThem(t *testing.T) {
	b := sit(t)
	assert.Nil(t, b.w.backupsOffer())
}

func TestTheBackupsStayInTheWindow(t *testing.T) {
	for _, percent := range []int{100, 200} {
		b := sit(t, withCopies)
		b.clock.pass(backupAfter)
		b.wear(look.Dark, percent)
		b.win.Resize(fyne.NewSize(1024, 700))
		b.menu("Backups")
		b.holdsItsWords(1024)
		b.picture(map[int]string{100: "backups-100", 200: "backups-200"}[percent])
		assert.Equal(t, []string{"[]", "[Another file …]", "[Restore]", "rows"}, b.around())
		assert.IsType(t, &kit.Sheet{}, b.w.screen.content())
	}
}

// shelved are backups of fixed days and sizes.
type shelved struct{ copies }

func (shelved) List(context.Context, string) ([]Backup, error) {
	return []Backup{
		{Path: "quotes-2026-03-14.db", Date: "2026-03-14", What: "of that day", Quotes: 12, Size: 184_320, Latest: "2026-012 The Weir Keeper", Changed: noon},
		{Path: "quotes-2026-03-13-before-2.db", Date: "2026-03-13", What: "before an update", Quotes: 11, Size: 172_032, Latest: "2026-011 Otter, Floating", Changed: noon.AddDate(0, 0, -1)},
		{Path: "quotes-2026-02-28.db", Date: "2026-02-28", What: "of that day", Err: fault.Fault{Field: "The copy", Problem: "is damaged", Remedy: "take another"}},
	}, nil
}

func TestTheBackupsLookAsTheyDid(t *testing.T) {
	for variant, mode := range bothModes {
		t.Run(variant, func(t *testing.T) {
			b := sit(t, withCopies, func(o *Options) { o.Backups = shelved{} })
			b.wear(mode, 100)
			b.win.Resize(fyne.NewSize(1280, 820))
			b.menu("Backups")
			b.picture("backups-1280-" + variant)
			test.AssertRendersToMarkup(t, "backups-"+variant+".xml", b.win.Canvas())
		})
	}
}
