package desk

import (
	"context"

	"meltwright/internal/money"
	"meltwright/internal/quote"
)

// Difference is one line that two revisions do not have alike.
type Difference struct {
	Stage, Piece, Item string
	Before, After      string // quantity × rate, as printed; empty where the line is not there
	From, To           money.Amount
}

// Change is how much the line rose.
func (d Difference) Change() money.Amount { return d.To - d.From }

// Changed is one text that two revisions do not have alike.
type Changed struct {
	// Where is the path of an input, "form.wall" or "Figure: form.wall", a part of
	// the words, "words.idea", and else in words: "own line added".
	Where         string
	Before, After string
}

// Comparison is what changed between two revisions, by how much, and why.
type Comparison struct {
	Currency   money.Currency
	Lines      []Difference
	Steps      []Difference // from direct cost to price
	Inputs     []Changed    // what was typed otherwise
	Words      []Changed    // what the papers say and show otherwise
	Book       []Changed    // what the shop book has otherwise
	Before, To money.Amount // price before tax
	OtherMoney bool         // the currencies differ, so amounts cannot be compared
}

// Alike tells whether nothing at all differs.
func (c Comparison) Alike() bool {
	return !c.OtherMoney && len(c.Lines)+len(c.Steps)+len(c.Inputs)+len(c.Words)+len(c.Book) == 0
}

// Compare sets two revisions of a quote beside each other, line by line. The
// empty letter is the draft on the desk.
func (s *Sheet) Compare(ctx context.Context, before, after string) (Comparison, error) {
	a, ea, err := s.whole(ctx, before)
	if err != nil {
		return Comparison{}, err
	}
	b, eb, err := s.whole(ctx, after)
	if err != nil {
		return Comparison{}, err
	}
	c, err := money.NewCurrency(eb.Currency)
	if err != nil {
		return Comparison{}, err
	}
	return Comparison{
		Currency: c, Before: ea.Price, To: eb.Price, OtherMoney: ea.Currency != eb.Currency,
		Lines: between(ea.Lines, eb.Lines), Steps: between(ea.Steps, eb.Steps),
		Inputs: inputsBetween(a.Commission, b.Commission), Book: bookBetween(a.Book, b.Book),
		Words: append(wordsBetween(a, b), picturesBetween(ea.Pictures, eb.Pictures)...),
	}, nil
}

// whole gives a revision with its estimate and pictures.
func (s *Sheet) whole(ctx context.Context, letter string) (quote.Revision, *quote.Frozen, error) {
	if letter == "" {
		r := quote.Revision{Commission: s.quote.Commission, Book: s.desk.book, Words: s.quote.Words}
		f, err := frozen(r)
		if err == nil {
			f.Pictures = keptPictures(s.quote.Pictures)
		}
		return r, f, err
	}
	r, err := s.desk.store.Revision(ctx, s.quote.ID, letter)
	if err != nil {
		return r, nil, err
	}
	f, err := frozen(r)
	return r, f, err
}

// between pairs rows of the same name in their order, and gives those that are
// not alike.
func between(a, b []quote.FrozenLine) (out []Difference) {
	name := func(r quote.FrozenLine) [3]string { return [3]string{r.Stage, r.Piece, r.Item} }
	was := map[[3]string]quote.FrozenLine{}
	for _, r := range a {
		was[name(r)] = r
	}
	for _, r := range b {
		old, ok := was[name(r)]
		delete(was, name(r))
		if !ok || old.Text != r.Text || old.Amount != r.Amount {
			out = append(out, Difference{r.Stage, r.Piece, r.Item, old.Text, r.Text, old.Amount, r.Amount})
		}
	}
	for _, r := range a {
		if _, ok := was[name(r)]; ok {
			out = append(out, Difference{r.Stage, r.Piece, r.Item, r.Text, "", r.Amount, 0})
		}
	}
	return out
}
