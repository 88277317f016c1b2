package proposal

import (
	"strconv"
	"strings"

	"meltwright/internal/estimate"
	"meltwright/internal/field"
	"meltwright/internal/quote"
)

// answers are the inputs of a piece, or of the whole commission, as they count:
// what was typed, or what holds where nothing was, by path. Inputs that do not
// apply are not there.
type answers map[string]string

// answersOf reads the inputs of some stages.
func answersOf(p quote.Paper, piece int, stages ...string) answers {
	a := answers{}
	for _, id := range stages {
		st, ok := estimate.StageByID(id)
		if !ok {
			continue
		}
		for _, e := range estimate.Entries(p.Quote.Commission, p.Shop, st, piece, nil) {
			a[e.Field.Path()] = e.Start
			if e.Understood != "" {
				a[e.Field.Path()] = e.Understood
			}
		}
	}
	return a
}

// count is an input that is a whole number; 0 where it is none.
func (a answers) count(path string) int {
	n, err := strconv.Atoi(strings.ReplaceAll(a[path], ",", ""))
	if err != nil {
		return 0
	}
	return n
}

// exactInput gives the value of an input, of a piece or of the whole commission,
// as it was reckoned with, to its last digit.
func exactInput(p quote.Paper, piece int, path string) field.Value {
	f, ok := estimate.FieldByPath(path, piece != estimate.Whole)
	if !ok {
		return field.Value{}
	}
	texts := p.Quote.Commission.Inputs
	if piece != estimate.Whole {
		texts = p.Quote.Commission.Pieces[piece].Inputs
	}
	if text := texts[path]; strings.TrimSpace(text) != "" {
		v, err := f.Read(text, field.Context{System: p.Estimate.System, Currency: p.Estimate.Currency})
		if err == nil {
			return v
		}
	}
	if f.Book >= 0 {
		return p.Shop.Value(f.Book)
	}
	v, _ := f.Read(f.Start, field.Context{System: p.Estimate.System, Currency: p.Estimate.Currency})
	return v
}
