// Package desk is what a person does with the program, without a window: list
// quotes, open one, change it, see its price at once, undo, keep, print. The
// window and the command line are two ways to sit at it.
package desk

import (
	"context"
	"io"
	"time"

	"meltwright/internal/quote"
	"meltwright/internal/shop"
)

// Papers writes the documents of a quote. It is handed in, so that nothing here
// knows how a page is made.
type Papers interface {
	// Proposal writes the client's proposal as PDF.
	Proposal(w io.Writer, p Paper) error
	// CostSheet writes the shop's own sheet, every line with its working, as PDF.
	CostSheet(w io.Writer, p Paper) error
	// Workbook writes the cost sheet as a spreadsheet with live formulas.
	Workbook(w io.Writer, p Paper) error
}

// Desk is one person at one store.
type Desk struct {
	store  quote.Store
	papers Papers
	now    func() time.Time
	who    string // is at the desk
	album  *album
	book   shop.Book
	shop   *shop.Shop
}

// New sits down at a store. The clock is handed in so that tests need not wait.
func New(ctx context.Context, store quote.Store, papers Papers, now func() time.Time) (*Desk, error) {
	d := &Desk{store: store, papers: papers, now: now, album: &album{store: store}}
	b, err := store.Book(ctx)
	if err != nil {
		return nil, err
	}
	d.book = b
	// A book that has faults was kept with them as typed; its starting values
	// stand in, and the shop book's page shows what is wrong.
	d.shop, _ = shop.Read(b)
	return d, nil
}

// Shop is the shop book as read; Book is it as typed.
func (d *Desk) Shop() *shop.Shop { return d.shop }

// Book is the shop book as typed.
func (d *Desk) Book() shop.Book { return d.book }

// Today is the desk's date as the shop book dates its values: "2026-03-14".
func (d *Desk) Today() string { return d.now().Format(time.DateOnly) }

// SetBook keeps a changed shop book. The error of a book with faults is their
// list, and the book is kept as typed all the same.
func (d *Desk) SetBook(ctx context.Context, b shop.Book) error {
	if err := d.store.SaveBook(ctx, b, d.now()); err != nil {
		return err
	}
	d.book = b
	var err error
	d.shop, err = shop.Read(b)
	return err
}

// List gives the quotes that match a filter, and how many match in all.
func (d *Desk) List(ctx context.Context, f quote.Filter) ([]quote.Summary, int, error) {
	return d.store.List(ctx, f)
}

// Delete puts a quote into the bin.
func (d *Desk) Delete(ctx context.Context, id quote.ID) error {
	return d.store.Delete(ctx, id, d.now())
}

// Restore takes a quote out of the bin.
func (d *Desk) Restore(ctx context.Context, id quote.ID) error { return d.store.Restore(ctx, id) }

// Open opens a quote.
func (d *Desk) Open(ctx context.Context, id quote.ID) (*Sheet, error) {
	q, err := d.store.Quote(ctx, id)
	if err != nil {
		return nil, err
	}
	return d.sheet(q), nil
}

// Create keeps a new quote of one piece and opens it.
func (d *Desk) Create(ctx context.Context) (*Sheet, error) {
	return d.Take(ctx, quote.Quote{Commission: Blank()})
}

// Duplicate keeps a copy of a quote, as a new draft, and opens it.
func (d *Desk) Duplicate(ctx context.Context, id quote.ID) (*Sheet, error) {
	q, err := d.store.Quote(ctx, id)
	if err != nil {
		return nil, err
	}
	c := q.Commission.Clone()
	c.Title = copyOf(c.Title)
	return d.Take(ctx, quote.Quote{Commission: c, Words: q.Words, Client: q.Client, Call: q.Call, Pictures: q.Pictures})
}

func copyOf(title string) string {
	if title == "" {
		return ""
	}
	return title + " (copy)"
}

// Take keeps a quote as a new draft and opens it.
func (d *Desk) Take(ctx context.Context, q quote.Quote) (*Sheet, error) {
	q.ID, q.Version, q.State = 0, 0, quote.Draft
	s := d.sheet(q)
	return s, s.Save(ctx)
}

// Close lets go of the store.
func (d *Desk) Close() error { return d.store.Close() }
