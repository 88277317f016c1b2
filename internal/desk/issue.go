package desk

import (
	"bytes"
	"context"
	"slices"

	"meltwright/internal/fault"
	"meltwright/internal/quote"
)

// Issue freezes the quote as it stands: commission, shop book, words, price and
// the proposal itself, under its number and letter. The quote is kept first and
// opened again after, at the next letter. Faults come back as the error, and
// nothing is issued.
func (s *Sheet) Issue(ctx context.Context) (quote.Revision, error) {
	var pdf bytes.Buffer
	if err := s.WriteProposal(&pdf); err != nil {
		return quote.Revision{}, err
	}
	if err := s.Save(ctx); err != nil {
		return quote.Revision{}, err
	}
	now := s.desk.now()
	r := quote.Revision{
		Quote: s.quote.ID, Letter: s.quote.Letter, IssuedAt: now, ValidUntil: now.AddDate(0, 0, s.good.ValidDays),
		Commission: s.quote.Commission, Book: s.desk.book, Words: s.quote.Words,
		Price: s.good.Currency.Text(s.good.Price), Total: s.good.Currency.Text(s.good.Total), Frozen: issuedOf(s.good, s.quote.Pictures), By: s.desk.who, Proposal: pdf.Bytes(),
	}
	if err := s.desk.store.Issue(ctx, r); err != nil {
		return quote.Revision{}, err
	}
	return r, s.Reopen(ctx)
}

// Reopen takes the quote from the store again, after it was moved on there. What
// undo remembers stays.
func (s *Sheet) Reopen(ctx context.Context) error {
	q, err := s.desk.store.Quote(ctx, s.quote.ID)
	if err != nil {
		return err
	}
	s.quote, s.unsaved = q, false
	s.reckon()
	return nil
}

// SetState moves the quote to another state, where the table of states lets it.
func (s *Sheet) SetState(ctx context.Context, to quote.State) error {
	if !slices.Contains(s.quote.State.Next(), to) {
		return fault.Fault{Field: "Quote", Value: s.quote.Number, Problem: "is " + string(s.quote.State) + " and cannot become " + string(to), Remedy: "see what it may become"}
	}
	before, words := s.quote.State, s.quote.Words
	s.quote.State, s.quote.Words = to, s.dated(to)
	if err := s.Save(ctx); err != nil {
		s.quote.State, s.quote.Words = before, words
		return err
	}
	return nil
}

// Revisions lists what was issued of the quote.
func (s *Sheet) Revisions(ctx context.Context) ([]quote.Revision, error) {
	return s.desk.store.Revisions(ctx, s.quote.ID)
}
