package estimate

import (
	"strings"

	"meltwright/internal/field"
	"meltwright/internal/shop"
)

// Explain says in a line what the field is, what it takes, and what holds where
// nothing is typed.
func (f *Field) Explain() string {
	parts := []string{f.Label}
	if f.Hint != "" {
		parts = append(parts, f.Hint)
	}
	switch {
	case len(f.Choices) > 0:
		parts = append(parts, "one of: "+strings.Join(f.Choices, " | "))
	case f.FromBook != nil:
		parts = append(parts, "one of the shop book's")
	case f.Sort == field.Rate:
		parts = append(parts, "money for each "+map[bool]string{true: "one", false: f.Per.Symbol}[f.Per.Symbol == ""])
	}
	switch {
	case f.Book != shop.Unset:
		parts = append(parts, "starts with the shop book's “"+f.Book.Def().Start+"”, unless the shop has set another")
	case f.Start != "":
		parts = append(parts, "starts with “"+f.Start+"”")
	case f.Proposes != "":
		parts = append(parts, "left empty: "+f.Proposes)
	}
	return strings.Join(parts, "; ")
}
