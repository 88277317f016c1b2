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
	ea, err := reckoned(a)
	if err != nil {
		return Comparison{}, err
	}
	eb, err := reckoned(b)
	if err != nil {
		return Comparison{}, err
	}
	return Comparison{
		Currency: eb.Currency, Before: ea.Price, To: eb.Price, OtherMoney: ea.Currency != eb.Currency,
		Lines: between(linesOf(ea), linesOf(eb)), Steps: between(stepsOf(ea), stepsOf(eb)),
		Inputs: inputsBetween(a.Commission, b.Commission), Book: bookBetween(a.Book, b.Book),
	}, nil
}

func (s *Sheet) revision(ctx context.Context, letter string) (quote.Revision, error) {
	if letter == "" {
		return quote.Revision{Commission: s.quote.Commission, Book: s.desk.book}, nil
	}
	return s.desk.store.Revision(ctx, s.quote.ID, letter)
}

func reckoned(r quote.Revision) (*estimate.Estimate, error) {
	s, err := shop.Read(r.Book)
	if err != nil {
		return nil, err
	}
	return estimate.Of(r.Commission, s)
}

// row is a line under the name it is found again by.
type row struct {
	stage, piece, item string
	text               string
	amount             money.Amount
}

func linesOf(e *estimate.Estimate) []row {
	out := make([]row, len(e.Lines))
	for i, l := range e.Lines {
		r := row{stage: l.Stage, item: l.Item, amount: l.Amount}
		r.text = l.QuantityText() + " " + l.Unit + " × " + l.RateText(e.Currency.Digits)
		if l.Piece != estimate.Whole {
			r.piece = e.Pieces[l.Piece].Name
		}
		out[i] = r
	}
	return out
}

func stepsOf(e *estimate.Estimate) []row {
	out := make([]row, len(e.PriceLines))
	for i, l := range e.PriceLines {
		out[i] = row{stage: "price", item: l.Name, text: l.Share, amount: l.Amount}
	}
	return out
}

// between pairs rows of the same name in their order, and gives those that are
// not alike.
func between(a, b []row) (out []Difference) {
	name := func(r row) [3]string { return [3]string{r.stage, r.piece, r.item} }
	was := map[[3]string]row{}
	for _, r := range a {
		was[name(r)] = r
	}
	for _, r := range b {
		old, ok := was[name(r)]
		delete(was, name(r))
		if !ok || old.text != r.text || old.amount != r.amount {
			out = append(out, Difference{r.stage, r.piece, r.item, old.text, r.text, old.amount, r.amount})
		}
	}
	for _, r := range a {
		if _, ok := was[name(r)]; ok {
			out = append(out, Difference{r.stage, r.piece, r.item, r.text, "", r.amount, 0})
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
