package quote

import (
	"context"
	"errors"
	"time"

	"meltwright/internal/shop"
)

// What a store's errors mean, whatever it keeps things in. Each is wrapped with
// a fault.Fault that says it in a sentence.
var (
	ErrNotFound = errors.New("no such quote")
	ErrOutdated = errors.New("the quote was changed elsewhere since it was opened")
	ErrNewer    = errors.New("the file was written by a newer version")
	ErrNotOurs  = errors.New("the file is no Meltwright file")
	ErrDamaged  = errors.New("the file is damaged")
	ErrLocked   = errors.New("the file is in use")
	ErrFull     = errors.New("the disk is full")
	ErrReadOnly = errors.New("the file cannot be written")
	ErrDisk     = errors.New("the disk failed")
)

// Store keeps quotes. A call that returns without an error has been kept: it
// survives a crash of the program or the machine.
type Store interface {
	// List gives the quotes that match, the last changed first, and how many
	// match in all.
	List(ctx context.Context, f Filter) (rows []Summary, total int, err error)
	// Quote gives one quote.
	Quote(ctx context.Context, id ID) (Quote, error)
	// Save keeps a quote, new or changed, with the price its list shows. It gives
	// the quote back with its ID, number, letter, times and version. A Version
	// that is not the kept one is ErrOutdated.
	Save(ctx context.Context, q Quote, price string, now time.Time) (Quote, error)
	// Accepted gives the quotes that are accepted, whole, in the order that they
	// were accepted in; those in the bin are not among them.
	Accepted(ctx context.Context) ([]Acceptance, error)
	// Delete puts a quote into the bin; Restore takes it out; Empty removes what
	// has lain in the bin since before a time, for good.
	Delete(ctx context.Context, id ID, now time.Time) error
	Restore(ctx context.Context, id ID) error
	Empty(ctx context.Context, before time.Time) (int, error)
	// Issue keeps a revision and moves the quote on: its state is issued, its
	// letter the next, its version counted up, so it has to be opened again. A
	// letter that is not the quote's is ErrOutdated.
	Issue(ctx context.Context, r Revision) error
	// Revisions lists what was issued of a quote, without commissions, books and
	// papers; Revision gives one whole.
	Revisions(ctx context.Context, id ID) ([]Revision, error)
	Revision(ctx context.Context, id ID, letter string) (Revision, error)
	// Steps lists the states that a quote has been in, in their order.
	Steps(ctx context.Context, id ID) ([]Step, error)
	// Lapse puts the issued quotes whose last day is over into the state lapsed, and
	// tells how many they were. Windows that have one open may go on.
	Lapse(ctx context.Context, now time.Time) (int, error)
	// Reminders lists what falls due until a day: deadlines of calls that have no
	// quote issued, last days of issued quotes, and quotes that lapsed of late.
	Reminders(ctx context.Context, now, until time.Time) ([]Reminder, error)
	// Clients lists clients by name, those that match every word, or of those that
	// were removed; SaveClient keeps one. A Version that is not the kept one is
	// ErrOutdated. DeleteClient removes one from the list, RestoreClient brings it
	// back; quotes that are made for it go on.
	Clients(ctx context.Context, words string, removed bool) ([]Client, error)
	SaveClient(ctx context.Context, c Client) (Client, error)
	DeleteClient(ctx context.Context, id ClientID, now time.Time) error
	RestoreClient(ctx context.Context, id ClientID) error
	// Calls, the next deadline first, those that are over last; the rest as of
	// clients.
	Calls(ctx context.Context, words string, removed bool, now time.Time) ([]Call, error)
	SaveCall(ctx context.Context, c Call) (Call, error)
	DeleteCall(ctx context.Context, id CallID, now time.Time) error
	RestoreCall(ctx context.Context, id CallID) error
	// KeepPicture keeps a picture's file, once however often it is kept; Picture
	// gives it.
	KeepPicture(ctx context.Context, data []byte) (PictureID, error)
	Picture(ctx context.Context, id PictureID) ([]byte, error)
	// Marks gives the shop's own pictures by name; SetMark sets one, or with no
	// picture takes it away.
	Marks(ctx context.Context) (map[string]PictureID, error)
	SetMark(ctx context.Context, name string, id PictureID) error
	// Book gives the shop book, the starting one if none was ever kept; SaveBook
	// keeps a new version of it, and the old ones stay.
	Book(ctx context.Context) (shop.Book, error)
	// One that another window has saved since Book gave it here is ErrOutdated.
	SaveBook(ctx context.Context, b shop.Book, now time.Time) error
	// Close lets go of the file.
	Close() error
	ScanFiles
}
