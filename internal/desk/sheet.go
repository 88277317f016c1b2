package desk

import (
	"context"
	"io"
	"maps"
	"strings"
	"time"

	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/quote"
)

// Blank is a commission with one piece and nothing typed.
func Blank() estimate.Commission {
	return estimate.Commission{Title: "", Pieces: []estimate.Piece{{Name: "Figure"}}}
}

// Sheet is a quote on the desk: it can be changed, and is reckoned anew at every
// change. It is used by one goroutine.
type Sheet struct {
	desk    *Desk
	quote   quote.Quote
	latest  *estimate.Estimate
	good    *estimate.Estimate // the last without faults; nil if there was none
	faults  fault.List
	undo    []step
	redo    []step
	last    string // what the last change was to, so that typing is one step
	unsaved bool
}

// step is what undo goes back to.
type step struct {
	state
	refers
}

// state is what the quote says.
type state struct {
	commission estimate.Commission
	words      map[string]string
}

// Paper is what documents are made of.
type Paper = quote.Paper

func (d *Desk) sheet(q quote.Quote) *Sheet {
	s := &Sheet{desk: d, quote: q}
	s.reckon()
	return s
}

// Quote gives the quote as it stands.
func (s *Sheet) Quote() quote.Quote { return s.quote }

// Commission gives the commission as it stands.
func (s *Sheet) Commission() estimate.Commission { return s.quote.Commission }

// Estimate gives the last estimate without faults, and false if the one on the
// desk has faults or there never was one: then it may be nil.
func (s *Sheet) Estimate() (*estimate.Estimate, bool) { return s.good, len(s.faults) == 0 }

// Latest gives the estimate of what is typed now, with starting values in the
// place of what could not be read. Its amounts hold only without faults.
func (s *Sheet) Latest() *estimate.Estimate { return s.latest }

// Faults lists what is wrong with what is typed now.
func (s *Sheet) Faults() fault.List { return s.faults }

// Entries lists the inputs of a stage, of a piece or of the whole commission.
func (s *Sheet) Entries(st *estimate.Stage, piece int) []estimate.Entry {
	return estimate.Entries(s.quote.Commission, s.desk.shop, st, piece, s.faults)
}

func (s *Sheet) reckon() {
	e, err := estimate.Of(s.quote.Commission, s.desk.shop)
	s.latest, s.faults = e, fault.All(err)
	if err == nil {
		s.good = e
	}
}

// Reckon reckons the sheet anew, after the shop book has changed.
func (s *Sheet) Reckon() { s.reckon() }

// change makes one undoable step of setting the commission or the words. Steps
// with the same non-empty name one after the other, as in typing, are one.
func (s *Sheet) change(name string, to state) { s.turn(name, step{to, s.refers()}) }

// turn is change, for what the quote refers to as well.
func (s *Sheet) turn(name string, to step) {
	if name == "" || name != s.last {
		s.undo = append(s.undo, s.stands())
	}
	s.last, s.redo = name, nil
	s.set(to)
}

// stands is the quote as undo would come back to it.
func (s *Sheet) stands() step {
	return step{state{s.quote.Commission, s.quote.Words}, s.refers()}
}

func (s *Sheet) set(to step) {
	s.reopen(to.state)
	s.refer(to.refers)
	s.quote.Commission, s.quote.Words, s.unsaved = to.commission, to.words, true
	s.reckon()
}

// Set types text into the input at path, of a piece or of the whole commission.
// Empty text gives it its starting value again. Typing on in the same input is
// one step of undo.
func (s *Sheet) Set(piece int, path, text string) {
	c := s.quote.Commission.With(piece, path, text)
	s.change(estimate.WhereOf(piece, path), state{c, s.quote.Words})
}

// Change changes the commission in one step of undo: its title, pieces, solids,
// currency. The function is given a copy of its own.
func (s *Sheet) Change(name string, f func(c *estimate.Commission)) {
	c := s.quote.Commission.Clone()
	f(&c)
	s.change(name, state{c, s.quote.Words})
}

// SetWords types text for a part of the papers.
func (s *Sheet) SetWords(part, text string) {
	w := maps.Clone(s.quote.Words)
	if w == nil {
		w = map[string]string{}
	}
	w[part] = text
	s.change("words."+part, state{s.quote.Commission, w})
}

// EndTyping ends a step of undo: what is typed next is another.
func (s *Sheet) EndTyping() { s.last = "" }

// Undo goes one step back, and tells whether there was one.
func (s *Sheet) Undo() bool {
	return s.step(&s.undo, &s.redo)
}

// Redo goes forward again.
func (s *Sheet) Redo() bool {
	return s.step(&s.redo, &s.undo)
}

func (s *Sheet) step(from, to *[]step) bool {
	if len(*from) == 0 {
		return false
	}
	*to = append(*to, s.stands())
	back := (*from)[len(*from)-1]
	*from = (*from)[:len(*from)-1]
	s.last = ""
	s.set(back)
	return true
}

// CanUndo and CanRedo tell whether there are steps to go.
func (s *Sheet) CanUndo() bool { return len(s.undo) > 0 }

// CanRedo tells whether there are steps to go forward.
func (s *Sheet) CanRedo() bool { return len(s.redo) > 0 }

// Unsaved tells whether there are changes that have not been kept.
func (s *Sheet) Unsaved() bool { return s.unsaved }

// Save keeps the quote. After an error everything typed is still on the sheet.
func (s *Sheet) Save(ctx context.Context) error {
	price := ""
	if len(s.faults) == 0 {
		price = s.good.Currency.Whole(s.good.Price, Locale)
	}
	q, err := s.desk.store.Save(ctx, s.signed(), price, s.desk.now())
	if err != nil {
		return err
	}
	s.quote, s.unsaved = q, false
	return nil
}

// Locale is how the window and the lists write amounts.
const Locale = "en-CA"

// Paper gives what the documents of the sheet are made of, or its faults.
func (s *Sheet) Paper() (Paper, error) {
	if len(s.faults) > 0 {
		return Paper{}, s.faults
	}
	now := s.desk.now()
	return Paper{
		Quote: s.quote, Estimate: s.good, Shop: s.desk.shop,
		Date: now.Format("2006-01-02"), Until: now.AddDate(0, 0, s.good.ValidDays).Format("2006-01-02"),
		Start: s.typedStart(),
	}, nil
}

// typedStart is the start as papers have it, ISO; empty where none was typed, or
// none that can be read, of which the papers tell.
func (s *Sheet) typedStart() string {
	if strings.TrimSpace(s.quote.Words[Start]) == "" {
		return ""
	}
	t, err := s.StartDate()
	if err != nil {
		return ""
	}
	return t.Format(time.DateOnly)
}

// WriteProposal writes the proposal; the faults of the sheet come back as error.
func (s *Sheet) WriteProposal(w io.Writer) error { return s.write(w, Proposal, s.desk.papers.Proposal) }

// WriteCostSheet writes the shop's own sheet.
func (s *Sheet) WriteCostSheet(w io.Writer) error {
	return s.write(w, CostSheet, s.desk.papers.CostSheet)
}

// WriteWorkbook writes the cost sheet as a spreadsheet.
func (s *Sheet) WriteWorkbook(w io.Writer) error { return s.write(w, Workbook, s.desk.papers.Workbook) }

func (s *Sheet) write(w io.Writer, which Print, write func(io.Writer, Paper) error) error {
	p, err := s.Paper()
	if err == nil {
		p, err = s.filling(which, p)(context.Background())
	}
	if err != nil {
		return err
	}
	return write(w, p)
}
