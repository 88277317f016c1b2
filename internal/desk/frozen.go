package desk

import (
	"meltwright/internal/estimate"
	"meltwright/internal/quote"
	"meltwright/internal/shop"
)

// issuedOf is an estimate as it is frozen, with the pictures of its papers.
func issuedOf(e *estimate.Estimate, pictures []quote.Shown) *quote.Frozen {
	f := frozenOf(e)
	f.Pictures = keptPictures(pictures)
	return f
}

// keptPictures are never nil, which would say that they were not kept.
func keptPictures(pictures []quote.Shown) []quote.Shown {
	return append([]quote.Shown{}, pictures...)
}

// frozenOf is an estimate in the words and sums that papers print.
func frozenOf(e *estimate.Estimate) *quote.Frozen {
	return &quote.Frozen{Currency: e.Currency.Code, Price: e.Price, Lines: linesOf(e), Steps: stepsOf(e)}
}

// frozen is the estimate of a revision as it was issued. What was issued before
// estimates were kept is reckoned anew, with the shop book of then.
func frozen(r quote.Revision) (*quote.Frozen, error) {
	if r.Frozen != nil {
		return r.Frozen, nil
	}
	s, err := shop.Read(r.Book)
	if err != nil {
		return nil, err
	}
	e, err := estimate.Of(r.Commission, s)
	if err != nil {
		return nil, err
	}
	return frozenOf(e), nil
}

func linesOf(e *estimate.Estimate) []quote.FrozenLine {
	out := make([]quote.FrozenLine, len(e.Lines))
	for i, l := range e.Lines {
		r := quote.FrozenLine{Stage: l.Stage, Item: l.Item, Amount: l.Amount}
		r.Text = l.QuantityText() + " " + l.Unit + " × " + l.RateText(e.Currency.Digits)
		if l.Piece != estimate.Whole {
			r.Piece = e.Pieces[l.Piece].Name
		}
		out[i] = r
	}
	return out
}

func stepsOf(e *estimate.Estimate) []quote.FrozenLine {
	out := make([]quote.FrozenLine, len(e.PriceLines))
	for i, l := range e.PriceLines {
		out[i] = quote.FrozenLine{Stage: "price", Item: l.Name, Text: l.Share, Amount: l.Amount}
	}
	return out
}
