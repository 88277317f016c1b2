package estimate

import (
	"strings"

	"meltwright/internal/field"
	"meltwright/internal/shop"
)

// Explain says in a line what the field is, what it takes, and what holds where
// nothing is typed, with that shop book.
func (f *Field) Explain(s *shop.Shop) string {
	parts := []string{f.Label}
	if f.Hint != "" {
		parts = append(parts, f.Hint)
	}
	if takes := f.takes(s); takes != "" {
		parts = append(parts, takes)
	}
	return strings.Join(append(parts, f.starts(s)), "; ")
}

// takes says what may be typed: the words of a choice, money, or a quantity with
// a unit.
func (f *Field) takes(s *shop.Shop) string {
	switch choices := f.choicesOf(s).Choices; {
	case len(choices) > 0 && f.FromBook != nil:
		return "one of the shop book's: " + strings.Join(choices, " | ")
	case len(choices) > 0:
		return "one of: " + strings.Join(choices, " | ")
	case f.Sort == field.Rate && f.Per.Symbol == "":
		return "money for each one"
	case f.Sort == field.Rate:
		return "money for each " + f.Per.Symbol
	case f.Sort == field.Money:
		return "money"
	case f.Sort == field.Text || f.Sort == field.Choice:
		return "words"
	}
	return f.Kind.Words()
}

// starts says what holds where nothing is typed.
func (f *Field) starts(s *shop.Shop) string {
	switch {
	case f.Book != shop.Unset:
		text := f.Book.Def().Start
		if set, ok := s.Book.Settings[f.Book.Def().Key]; ok {
			text = set.Text
		}
		return "starts with the shop book's “" + text + "”"
	case f.FromBook != nil:
		r := run{job: &job{shop: s, currency: s.Currency}}
		return "starts with “" + r.start(f).Text + "”"
	case f.Start != "":
		return "starts with “" + f.Start + "”"
	}
	return "left empty: " + f.Proposes
}
