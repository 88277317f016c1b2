package desk

import (
	"context"
	"slices"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/quote"
	"meltwright/internal/shop"
)

// Difference is one line that two revisions do not have alike.
type Difference struct {
	Stage, Piece, Item string
	Before, After      string // quantity × rate, as printed; empty where the line is not there
	From, To           money.Amount
}

// Change is how much the line rose.
func (d Difference) Change() money.Amount { return d.To - d.From }

// Changed is one input that two revisions do not have alike.
type Changed struct {
	Where         string // "form.wall", or "Figure: form.wall"
	Before, After string
}

// Comparison is what changed between two revisions, by how much, and why.
type Comparison struct {
	Currency   money.Currency
	Lines      []Difference
	Steps      []Difference // from direct cost to price
	Inputs     []Changed    // what was typed otherwise
	Book       []Changed    // what the shop book has otherwise
	Before, To money.Amount // price before tax
	OtherMoney bool         // the currencies differ, so amounts cannot be compared
}

// Compare sets two revisions of a quote beside each other, line by line. The
// empty letter is the draft on the desk.
func (s *Sheet) Compare(ctx context.Context, before, after string) (Comparison, error) {
	a, err := s.revision(ctx, before)
	if err != nil {
		return Comparison{}, err
	}
	b, err := s.revision(ctx, after)
	if err != nil {
		return Comparison{}, err
	}
	ea, err := frozen(a)
	if err != nil {
		return Comparison{}, err
	}
	eb, err := frozen(b)
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
	}, nil
}

func (s *Sheet) revision(ctx context.Context, letter string) (quote.Revision, error) {
	if letter == "" {
		return quote.Revision{Commission: s.quote.Commission, Book: s.desk.book}, nil
	}
	return s.desk.store.Revision(ctx, s.quote.ID, letter)
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

func inputsBetween(a, b estimate.Commission) []Changed {
	out := textsBetween("", a.Inputs, b.Inputs)
	for i := range max(len(a.Pieces), len(b.Pieces)) {
		var pa, pb estimate.Piece
		if i < len(a.Pieces) {
			pa = a.Pieces[i]
		}
		if i < len(b.Pieces) {
			pb = b.Pieces[i]
		}
		name := pb.Name
		if name == "" {
			name = pa.Name
		}
		if pa.Name != pb.Name {
			out = append(out, Changed{"piece", pa.Name, pb.Name})
		}
		out = append(out, textsBetween(name+": ", pa.Inputs, pb.Inputs)...)
	}
	return out
}

func textsBetween(prefix string, a, b map[string]string) (out []Changed) {
	var paths []string
	for p := range a {
		paths = append(paths, p)
	}
	for p := range b {
		if _, ok := a[p]; !ok {
			paths = append(paths, p)
		}
	}
	slices.Sort(paths)
	for _, p := range paths {
		if a[p] != b[p] {
			out = append(out, Changed{prefix + p, a[p], b[p]})
		}
	}
	return out
}

func bookBetween(a, b shop.Book) (out []Changed) {
	for _, d := range shop.Settings() {
		if x, y := a.Settings[d.Key].Text, b.Settings[d.Key].Text; x != y {
			out = append(out, Changed{d.Label, x, y})
		}
	}
	return out
}
