package desk

import (
	"context"
	"fmt"
	"io"

	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/field"
	"meltwright/internal/parcel"
	"meltwright/internal/quantity"
	"meltwright/internal/quote"
	"meltwright/internal/shop"
)

// Send writes the quote as one file for somebody else to open, with its pictures,
// the scan files that are kept with it, and other files that go along. Of the
// shop's own it holds the shop book and the margins only where they are asked for;
// it says itself what was left out.
func (s *Sheet) Send(w io.Writer, withBook, withMargins bool, along ...parcel.Attachment) error {
	return s.Sending(withBook, withMargins)(context.Background(), w, along...)
}

// Sending takes all that is sent from the sheet as it stands; what it gives back
// writes it, and may run on any goroutine while somebody types on.
func (s *Sheet) Sending(withBook, withMargins bool) func(ctx context.Context, w io.Writer, along ...parcel.Attachment) error {
	book, q, d := s.desk.book, s.quote, s.desk
	c := parcel.Contents{From: book.Shop, Number: q.Number, Letter: q.Letter, Commission: s.stated(), Words: q.Words, Book: &book}
	return func(ctx context.Context, w io.Writer, along ...parcel.Attachment) error {
		own, err := d.along(ctx, q)
		if err != nil {
			return err
		}
		c.Attached = append(own, along...)
		return parcel.Write(w, c, parcel.Options{WithBook: withBook, WithMargins: withMargins})
	}
}

// Receive opens what somebody else has sent, and keeps it as a new draft, with its
// pictures and the files of its scans. Nothing here is changed by it: the sender's
// shop book is only given back, to be looked at; so are the files that came along,
// which can be opened while r can be read.
func (d *Desk) Receive(ctx context.Context, r io.ReaderAt, size int64) (*Sheet, parcel.Contents, error) {
	c, err := parcel.Read(r, size)
	if err != nil {
		return nil, parcel.Contents{}, err
	}
	if err := d.bears(c.Commission); err != nil {
		return nil, parcel.Contents{}, err
	}
	q := quote.Quote{Commission: c.Commission, Words: c.Words}
	if q.Pictures, err = d.takeIn(ctx, &c); err != nil {
		return nil, parcel.Contents{}, err
	}
	s, err := d.Take(ctx, q)
	if err != nil {
		return nil, parcel.Contents{}, err
	}
	return s, c, d.takeScans(ctx, s.Quote(), &c)
}

// bears tries whether a commission from elsewhere can be reckoned at all, so that
// none is kept which cannot be opened again.
func (d *Desk) bears(c estimate.Commission) (err error) {
	defer func() {
		if x := recover(); x != nil {
			err = fault.Fault{Field: "Parcel", Problem: fmt.Sprintf("holds a quote that cannot be reckoned (%v)", x), Remedy: "ask for it again, and tell the program's makers"}
		}
	}()
	d.sheet(quote.Quote{Commission: c})
	return nil
}

// stated is the commission with that said aloud which, here, goes without saying
// and elsewhere may be otherwise: its currency and units, and of each piece what
// it is to be made of.
func (s *Sheet) stated() estimate.Commission {
	c := s.quote.Commission.Clone()
	if c.Currency == "" {
		c.Currency = s.desk.shop.Currency.Code
	}
	if c.Units == "" {
		c.Units = s.desk.shop.System.String()
	}
	for i := range c.Pieces {
		for _, id := range []string{"form", "base"} {
			st, _ := estimate.StageByID(id)
			for _, e := range estimate.Entries(c, s.desk.shop, st, i, nil) {
				if text := s.ofTheBook(e, c); e.Typed == "" && text != "" {
					c = c.With(i, e.Field.Path(), text)
				}
			}
		}
	}
	return c
}

// ofTheBook is what the shop book says of an input that says what the work is,
// as the wall, the alloy and the stone do; empty of any other.
func (s *Sheet) ofTheBook(e estimate.Entry, c estimate.Commission) string {
	f := e.Field
	if f.Group != estimate.Choices || f.Book == shop.Unset && f.FromBook == nil {
		return ""
	}
	if f.Book == shop.Unset {
		return e.Start
	}
	// The book's own words are more exact than what is printed, where they mean
	// the same in the commission's units.
	text := s.desk.book.Settings[f.Book.Def().Key].Text
	sys, _ := quantity.ParseSystem(c.Units)
	if v, err := f.Read(text, field.Context{System: sys, Currency: s.desk.shop.Currency}); err == nil && v.Num == s.desk.shop.Num(f.Book) {
		return text
	}
	return e.Start
}
