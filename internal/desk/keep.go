package desk

import (
	"context"

	"meltwright/internal/quote"
)

// Copy is a quote as it stood at one moment, for another goroutine to keep while
// somebody types on.
type Copy struct {
	quote quote.Quote
	price string
}

// Copy gives the quote as it stands. The sheet counts as saved from here on,
// until it is changed again or told that it was NotKept.
func (s *Sheet) Copy() Copy {
	price := ""
	if len(s.faults) == 0 {
		price = s.good.Currency.Whole(s.good.Price, Locale)
	}
	s.unsaved = false
	return Copy{s.signed(), price}
}

// Keep keeps a copy. It touches the store alone, so that any goroutine may call
// it; what it gives back belongs to Sheet.Kept.
func (d *Desk) Keep(ctx context.Context, c Copy) (quote.Quote, error) {
	return d.store.Save(ctx, c.quote, c.price, d.now())
}

// Kept takes over what the store said of a copy that was kept: its number,
// letter, times and version. What was typed since stays, and the state it made.
func (s *Sheet) Kept(q quote.Quote) {
	q.Commission, q.Words = s.quote.Commission, s.quote.Words
	q.Client, q.Call, q.Pictures = s.quote.Client, s.quote.Call, s.quote.Pictures
	if s.unsaved {
		q.State = s.quote.State // what was typed since has made it a draft
	}
	s.quote = q
}

// NotKept tells the sheet that its last copy could not be kept.
func (s *Sheet) NotKept() { s.unsaved = true }

// Part makes the sheet a new draft that has not been kept: for when the quote
// was changed elsewhere and both are wanted.
func (s *Sheet) Part() {
	q := quote.Quote{State: quote.Draft, Commission: s.quote.Commission, Words: s.quote.Words, Client: s.quote.Client, Call: s.quote.Call, Pictures: s.quote.Pictures}
	q.Commission.Title = copyOf(q.Commission.Title)
	s.quote, s.unsaved = q, true
}

// Fetch reads a quote from the store, and nothing else: any goroutine may call
// it. Put puts what it gives on the desk.
func (d *Desk) Fetch(ctx context.Context, id quote.ID) (quote.Quote, error) {
	return d.store.Quote(ctx, id)
}

// Put puts a quote on the desk.
func (d *Desk) Put(q quote.Quote) *Sheet { return d.sheet(q) }

// PutNew puts a new draft of one piece on the desk. It is not kept yet.
func (d *Desk) PutNew() *Sheet {
	s := d.sheet(quote.Quote{State: quote.Draft, Commission: Blank()})
	s.unsaved = true
	return s
}

// PutCopy puts a copy of a quote on the desk, as a new draft that is not kept yet.
func (d *Desk) PutCopy(q quote.Quote) *Sheet {
	s := d.sheet(q)
	s.quote.Commission = q.Commission.Clone()
	s.Part()
	return s
}
