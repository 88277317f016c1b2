package desk

import (
	"context"
	"io"
	"time"

	"meltwright/internal/estimate"
	"meltwright/internal/quote"
	"meltwright/internal/shop"
)

// NoStore keeps nothing: for commissions that are only looked at. Its shop book
// is the starting one.
type NoStore struct{}

var _ quote.Store = NoStore{}

// List has no quotes.
func (NoStore) List(context.Context, quote.Filter) ([]quote.Summary, int, error) { return nil, 0, nil }

// Quote finds none.
func (NoStore) Quote(context.Context, quote.ID) (quote.Quote, error) {
	return quote.Quote{}, quote.ErrNotFound
}

// Save keeps nothing and is refused, so that nobody believes it did.
func (NoStore) Save(context.Context, quote.Quote, string, time.Time) (quote.Quote, error) {
	return quote.Quote{}, quote.ErrReadOnly
}

// Accepted has none.
func (NoStore) Accepted(context.Context) ([]quote.Acceptance, error) { return nil, nil }

// Delete finds none.
func (NoStore) Delete(context.Context, quote.ID, time.Time) error { return quote.ErrNotFound }

// Restore finds none.
func (NoStore) Restore(context.Context, quote.ID) error { return quote.ErrNotFound }

// Empty has nothing to remove.
func (NoStore) Empty(context.Context, time.Time) (int, error) { return 0, nil }

// Issue is refused.
func (NoStore) Issue(context.Context, quote.Revision) error { return quote.ErrReadOnly }

// Revisions has none.
func (NoStore) Revisions(context.Context, quote.ID) ([]quote.Revision, error) { return nil, nil }

// Revision finds none.
func (NoStore) Revision(context.Context, quote.ID, string) (quote.Revision, error) {
	return quote.Revision{}, quote.ErrNotFound
}

// Steps has none.
func (NoStore) Steps(context.Context, quote.ID) ([]quote.Step, error) { return nil, nil }

// Lapse has nothing that could.
func (NoStore) Lapse(context.Context, time.Time) (int, error) { return 0, nil }

// Reminders has none.
func (NoStore) Reminders(context.Context, time.Time, time.Time) ([]quote.Reminder, error) {
	return nil, nil
}

// Clients has none.
func (NoStore) Clients(context.Context, string, bool) ([]quote.Client, error) { return nil, nil }

// SaveClient is refused.
func (NoStore) SaveClient(context.Context, quote.Client) (quote.Client, error) {
	return quote.Client{}, quote.ErrReadOnly
}

// DeleteClient finds none.
func (NoStore) DeleteClient(context.Context, quote.ClientID, time.Time) error {
	return quote.ErrNotFound
}

// RestoreClient finds none.
func (NoStore) RestoreClient(context.Context, quote.ClientID) error { return quote.ErrNotFound }

// Calls has none.
func (NoStore) Calls(context.Context, string, bool, time.Time) ([]quote.Call, error) {
	return nil, nil
}

// SaveCall is refused.
func (NoStore) SaveCall(context.Context, quote.Call) (quote.Call, error) {
	return quote.Call{}, quote.ErrReadOnly
}

// DeleteCall finds none.
func (NoStore) DeleteCall(context.Context, quote.CallID, time.Time) error { return quote.ErrNotFound }

// RestoreCall finds none.
func (NoStore) RestoreCall(context.Context, quote.CallID) error { return quote.ErrNotFound }

// KeepPicture is refused.
func (NoStore) KeepPicture(context.Context, []byte) (quote.PictureID, error) {
	return "", quote.ErrReadOnly
}

// Picture finds none.
func (NoStore) Picture(context.Context, quote.PictureID) ([]byte, error) {
	return nil, quote.ErrNotFound
}

// Marks has none.
func (NoStore) Marks(context.Context) (map[string]quote.PictureID, error) { return nil, nil }

// SetMark is refused.
func (NoStore) SetMark(context.Context, string, quote.PictureID) error { return quote.ErrReadOnly }

// Book is the starting shop book.
func (NoStore) Book(context.Context) (shop.Book, error) { return shop.Start(), nil }

// SaveBook is refused.
func (NoStore) SaveBook(context.Context, shop.Book, time.Time) error { return quote.ErrReadOnly }

// Close has nothing to let go of.
func (NoStore) Close() error { return nil }

// Lay lays a commission on the desk without keeping it.
func (d *Desk) Lay(c estimate.Commission) *Sheet {
	return d.sheet(quote.Quote{Commission: c, State: quote.Draft})
}

// KeepScanFile is refused.
func (NoStore) KeepScanFile(context.Context, quote.ID, quote.ScanFile, io.Reader) error {
	return quote.ErrReadOnly
}

// KeptScanFiles has none.
func (NoStore) KeptScanFiles(context.Context, quote.ID) ([]quote.ScanFile, error) { return nil, nil }

// WriteScanFile finds none.
func (NoStore) WriteScanFile(context.Context, quote.ID, string, io.Writer) error {
	return quote.ErrNotFound
}

// DropScanFile has nothing to drop.
func (NoStore) DropScanFile(context.Context, quote.ID, string) error { return nil }
