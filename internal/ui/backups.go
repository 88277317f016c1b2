package ui

import (
	"context"
	"errors"
	"slices"
	"time"

	"meltwright/internal/quote"
	"meltwright/internal/ui/kit"
)

// Backups are the copies of a file of quotes that lie beside it. The file need
// not be sound, or open.
type Backups interface {
	// List looks into every backup of the file at path, the last one first.
	List(ctx context.Context, path string) ([]Backup, error)
	// Look looks into any file that might be restored.
	Look(ctx context.Context, path string) Backup
	// Restore puts a backup in the place of the file at path, which has to be
	// closed. What was there is set aside, at the path given back.
	Restore(ctx context.Context, path, backup string, now time.Time) (setAside string, err error)
}

// Backup is what a look into one shows.
type Backup struct {
	Path    string
	Date    string // of its making, ISO
	What    string // "of the day"
	Quotes  int
	Latest  string    // number and title of the quote that was changed last
	Changed time.Time // when that was
	Size    int64     // bytes
	Err     error     // why it cannot be restored
}

// backupAfter is how long after the window is up the backup of the day is made.
const backupAfter = 2 * time.Second

// keepBackup makes the backup of the day, once the window has been drawn.
func (w *Window) keepBackup() {
	d := w.desk
	if w.readOnly {
		return
	}
	w.after(backupAfter, w.guarded(func() {
		w.aside(func() func() {
			err := d.KeepBackup(context.Background())
			if err == nil {
				return nil
			}
			return func() {
				if d == w.desk {
					w.say("Today's backup could not be made. " + sentence(err))
				}
			}
		})
	}))
}

// showBackups shows the backups of the file that is open, or could not be.
func (w *Window) showBackups() { w.showBackupsOf(w.list.path) }

func (w *Window) showBackupsOf(path string) {
	if path == "" {
		path = w.options.Path
	}
	w.show(newBackupsScreen(w, path))
}

// withBackups offers the backups of a file that cannot be opened because it is
// damaged, or not ours.
func (w *Window) withBackups(path string, err error, ways []kit.Choice) []kit.Choice {
	if w.options.Backups == nil || !errors.Is(err, quote.ErrDamaged) && !errors.Is(err, quote.ErrNotOurs) {
		return ways
	}
	return slices.Insert(ways, 1, kit.Choice{Text: "Backups", Do: func() { w.showBackupsOf(path) }})
}

// askRestore asks whether to restore a backup.
func (b *backupsScreen) askRestore(chosen Backup) {
	if chosen.Err != nil {
		b.w.tell("This cannot be restored", sentence(chosen.Err))
		return
	}
	b.w.ask(&kit.Ask{
		Title: "Restore this backup?",
		Text:  lookWords(chosen) + "\n\nIt takes the place of what is open now; that is set aside whole among the backups first, and can be restored in turn.",
		Choices: []kit.Choice{
			{Text: "Leave it as it is", Safe: true},
			{Text: "Restore it", Style: kit.Danger, Do: func() { b.restore(chosen) }},
		},
	})
}

// restore closes the store, puts the backup in its place and opens it again.
func (b *backupsScreen) restore(chosen Backup) {
	w, path := b.w, b.path
	if !w.allKept() {
		w.tell("This was not restored", "Something could not be kept yet. See what the bar above says.")
		return
	}
	d := w.desk
	w.desk, w.list.path = nil, ""
	w.options.Demo = false // it has been filled
	b.say("Restoring …")
	o := w.options
	w.do(func() func() {
		ctx := context.Background()
		if d != nil {
			if err := d.Close(); err != nil {
				return func() { b.restored(path, "", err) }
			}
		}
		aside, err := o.Backups.Restore(ctx, path, chosen.Path, o.Now())
		return func() { b.restored(path, aside, err) }
	})
}

// restored opens the file again, whatever came of it, and says that.
func (b *backupsScreen) restored(path, aside string, err error) {
	w := b.w
	w.showList()
	w.open(path, false)
	switch {
	case err != nil:
		w.tell("This was not restored", sentence(err))
	case aside == "":
		w.say("The backup is restored.")
	default:
		w.say("The backup is restored. What was there lies in " + aside + ".")
	}
}

// backupsOffer is how the menu comes to the backups; nil where there are none.
func (w *Window) backupsOffer() func() {
	if w.options.Backups == nil {
		return nil
	}
	return w.showBackups
}
