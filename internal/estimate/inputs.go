package estimate

import (
	"meltwright/internal/field"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

// Group is where on a stage's page a field stands.
type Group int

// The groups of a stage's fields.
const (
	Choices Group = iota // what the piece is: asked first
	Hours                // how long the work takes
	Rates                // what things cost
)

// Field is one input of a stage.
type Field struct {
	field.Def
	Stage    string
	Group    Group
	Book     shop.Key                    // the setting it starts from, or shop.Unset
	Start    string                      // the text it starts with, where the shop book has none
	Proposes string                      // what the program works out when the input is empty
	FromBook func(s *shop.Shop) []string // the choices, where the shop book has them
	When     func(in *inputs) bool       // shown only then; nil is always
	PerPiece bool
	id       int
	path     string
}

// Path is the name of the field in files: "form.wall".
func (f *Field) Path() string { return f.path }

// pieceFields and wholeFields are every input there is, by id.
var pieceFields, wholeFields []*Field

func register(f Field) *Field {
	if f.Book != shop.Unset {
		d := f.Book.Def().Def
		key := f.Key
		label, hint := f.Label, f.Hint
		f.Def = d
		f.Key, f.Hint = key, hint
		if label != "" {
			f.Label = label
		}
	}
	list := &wholeFields
	if f.PerPiece {
		list = &pieceFields
	}
	f.id = len(*list)
	f.path = f.Stage + "." + f.Key
	p := &f
	*list = append(*list, p)
	return p
}

// The makers of fields. Each names the stage, the key and what the input is.

func fromBook(stage, key string, g Group, k shop.Key) *Field {
	return register(Field{Def: field.Def{Key: key}, Stage: stage, Group: g, Book: k, PerPiece: true})
}

func fromBookWhole(stage, key string, g Group, k shop.Key) *Field {
	return register(Field{Def: field.Def{Key: key}, Stage: stage, Group: g, Book: k})
}

func asked(stage, key, label string, kind quantity.Kind, b field.Bounds, start, proposes string) *Field {
	return register(Field{
		Def:   field.Def{Key: key, Label: label, Kind: kind, Bounds: b},
		Stage: stage, Book: shop.Unset, Start: start, Proposes: proposes, PerPiece: true,
	})
}

func askedWhole(stage, key, label string, kind quantity.Kind, b field.Bounds, start, proposes string) *Field {
	return register(Field{
		Def:   field.Def{Key: key, Label: label, Kind: kind, Bounds: b},
		Stage: stage, Book: shop.Unset, Start: start, Proposes: proposes,
	})
}

func choice(stage, key, label string, choices ...string) *Field {
	return register(Field{
		Def:   field.Def{Key: key, Label: label, Sort: field.Choice, Choices: choices},
		Stage: stage, Book: shop.Unset, Start: choices[0], PerPiece: true,
	})
}

func choiceWhole(stage, key, label string, choices ...string) *Field {
	return register(Field{
		Def:   field.Def{Key: key, Label: label, Sort: field.Choice, Choices: choices},
		Stage: stage, Book: shop.Unset, Start: choices[0],
	})
}

func sum(stage, key, label string) *Field {
	return register(Field{
		Def:   field.Def{Key: key, Label: label, Sort: field.Money, Bounds: field.ZeroUp},
		Stage: stage, Book: shop.Unset, Start: "0",
	})
}

// hint puts a few words beside the field.
func (f *Field) hint(s string) *Field { f.Hint = s; return f }

// bare says which unit a bare number is in, metric and inch-pound.
func (f *Field) bare(metric, inchPound string) *Field {
	f.Bare = [2]string{metric, inchPound}
	return f
}

// when shows the field only where cond holds.
func (f *Field) when(cond func(in *inputs) bool) *Field { f.When = cond; return f }

// picks takes the field's choices from the shop book.
func (f *Field) picks(from func(s *shop.Shop) []string) *Field { f.FromBook = from; return f }

// inputs are the values of all fields of one piece, or of the whole commission.
type inputs struct {
	fields  []*Field
	values  []field.Value
	given   []bool   // typed for this commission
	texts   []string // as typed, where given
	shop    *shop.Shop
	foreign bool // the quote is in other money than the shop book
}

func (in *inputs) num(f *Field) float64       { return in.values[f.id].Num }
func (in *inputs) word(f *Field) string       { return in.values[f.id].Text }
func (in *inputs) value(f *Field) field.Value { return in.values[f.id] }
func (in *inputs) has(f *Field) bool          { return in.given[f.id] }

// origin says where the value of f comes from.
func (in *inputs) origin(f *Field) field.Origin {
	switch {
	case in.given[f.id]:
		return field.Origin{From: field.Typed, Source: in.texts[f.id]}
	case f.Book != shop.Unset:
		return in.shop.Origin(f.Book)
	case f.Proposes != "":
		return field.Origin{From: field.Proposed, Source: f.Proposes}
	}
	return field.Origin{From: field.Proposed, Source: "as the program starts"}
}

// applies tells whether the field counts with these inputs.
func (f *Field) applies(in *inputs) bool { return f.When == nil || f.When(in) }
