package desk

import (
	"bytes"
	"context"
	"maps"
	"reflect"
	"slices"

	"meltwright/internal/fault"
	"meltwright/internal/quote"
)

// Issuing takes all that is issued from the sheet as it stands; what it gives
// back keeps and issues it, and may run on any goroutine. What that gives, the
// revision and the quote as it has moved on, belongs to Sheet.Issued. The error
// is the sheet's faults.
func (s *Sheet) Issuing() (func(context.Context) (quote.Revision, quote.Quote, error), error) {
	print, err := s.Ready(Proposal)
	if err != nil {
		return nil, err
	}
	store, now, c := s.desk.store, s.desk.now(), s.Copy()
	r := quote.Revision{
		IssuedAt: now, ValidUntil: now.AddDate(0, 0, s.good.ValidDays),
		Commission: s.quote.Commission, Book: s.desk.book, Words: s.quote.Words,
		Price: s.good.Currency.Text(s.good.Price), Total: s.good.Currency.Text(s.good.Total), Frozen: issuedOf(s.good, s.quote.Pictures), By: s.desk.who,
	}
	return func(ctx context.Context) (quote.Revision, quote.Quote, error) {
		var pdf bytes.Buffer
		if err := print(&pdf); err != nil {
			return r, quote.Quote{}, err
		}
		kept, err := store.Save(ctx, c.quote, c.price, now)
		if err != nil {
			return r, quote.Quote{}, err
		}
		r.Quote, r.Letter, r.Proposal = kept.ID, kept.Letter, pdf.Bytes()
		if err := store.Issue(ctx, r); err != nil {
			return r, quote.Quote{}, err
		}
		q, err := store.Quote(ctx, kept.ID)
		return r, q, err
	}, nil
}

// Issued takes over a quote that has moved on in the store. What was typed since
// stays, as a draft of the next letter.
func (s *Sheet) Issued(q quote.Quote) {
	if s.unsaved {
		q.Commission, q.Words, q.State = s.quote.Commission, s.quote.Words, quote.Draft
		q.Client, q.Call, q.Pictures = s.quote.Client, s.quote.Call, s.quote.Pictures
	}
	s.quote = q
}

// Become moves the quote to another state, where the table of states lets it;
// it is kept with the next Copy. Issued is what Issuing makes of a draft, and
// what the others may go back to.
func (s *Sheet) Become(to quote.State) error {
	if !slices.Contains(s.May(), to) {
		return fault.Fault{Field: "Quote", Value: s.quote.Number, Problem: "is " + string(s.quote.State) + " and cannot become " + string(to), Remedy: "see what it may become"}
	}
	s.quote.Words = s.dated(to)
	s.quote.State, s.unsaved = to, true
	return nil
}

// May lists the states that the quote can be put into as it stands: not into
// draft, which it becomes when it is changed, and from draft not into issued.
func (s *Sheet) May() []quote.State {
	return slices.DeleteFunc(s.quote.State.Next(), func(to quote.State) bool {
		return to == quote.Draft && s.quote.State != quote.Withdrawn || to == quote.Issued && s.quote.State == quote.Draft
	})
}

// reopen makes a quote that was issued a draft again when what is offered is
// changed: its next letter is being worked on. Dates and ranges are not offered.
func (s *Sheet) reopen(to state) {
	if s.quote.State == quote.Draft || !s.quote.State.May(quote.Draft) {
		return
	}
	if !reflect.DeepEqual(unranged(s.quote.Commission), unranged(to.commission)) || !maps.Equal(offered(s.quote.Words), offered(to.words)) {
		s.quote.State = quote.Draft
	}
}

// offered are the words that a client reads.
func offered(words map[string]string) map[string]string {
	w := maps.Clone(words)
	maps.DeleteFunc(w, func(part, text string) bool { return part == Start || part == Required || text == "" })
	return w
}

// Revisions lists what was issued of a quote, the first letter first; it touches
// the store alone, so that any goroutine may call it.
func (d *Desk) Revisions(ctx context.Context, id quote.ID) ([]quote.Revision, error) {
	if id == 0 {
		return nil, nil
	}
	return d.store.Revisions(ctx, id)
}

// Revision gives one revision whole; any goroutine may call it.
func (d *Desk) Revision(ctx context.Context, id quote.ID, letter string) (quote.Revision, error) {
	return d.store.Revision(ctx, id, letter)
}

// Steps lists the states that a quote has been in; any goroutine may call it.
func (d *Desk) Steps(ctx context.Context, id quote.ID) ([]quote.Step, error) {
	if id == 0 {
		return nil, nil
	}
	return d.store.Steps(ctx, id)
}

// Comparing takes the draft and the shop book as they stand, and gives back
// Compare with them for another goroutine.
func (s *Sheet) Comparing() func(ctx context.Context, before, after string) (Comparison, error) {
	still := &Sheet{quote: s.quote, desk: &Desk{store: s.desk.store, book: s.desk.book}}
	return still.Compare
}
