package shop

import (
	"meltwright/internal/field"
	"meltwright/internal/quantity"
)

// Key names a setting of the shop book inside the program.
type Key int

// Unset is the Key of no setting.
const Unset Key = -1

// Def defines one setting: its group on the shop book's page, its field, and the
// text it starts with, with the source of that.
type Def struct {
	field.Def
	Group  string
	Start  string
	Source string
}

// settings is every setting of the book, in the order of the page.
var settings []Def

// Settings gives the definition of every setting, in the order of the page.
func Settings() []Def { return settings }

// Def gives the definition of a setting.
func (k Key) Def() Def { return settings[k] }

func define(group string, d Def) Key {
	d.Group = group
	if d.Source == "" {
		d.Source = field.NoSource
	}
	settings = append(settings, d)
	return Key(len(settings) - 1)
}

// number defines a setting of a physical or bare number.
func number(group, key, label string, kind quantity.Kind, start string, b field.Bounds, source string) Key {
	return define(group, Def{Def: field.Def{Key: key, Label: label, Kind: kind, Bounds: b}, Start: start, Source: source})
}

// thin defines a setting of a length that is typed in millimetres or inches.
func thin(group, key, label, start string, b field.Bounds, source string) Key {
	return define(group, Def{Def: field.Def{Key: key, Label: label, Kind: quantity.KindLength, Bounds: b, Bare: [2]string{"mm", "in"}}, Start: start, Source: source})
}

// rate defines a setting of money per unit.
func rate(group, key, label string, per quantity.Unit, start string) Key {
	return define(group, Def{Def: field.Def{Key: key, Label: label, Sort: field.Rate, Per: per, Bounds: field.ZeroUp}, Start: start})
}

// words defines a setting of words or of a choice.
func words(group, key, label, start string, choices ...string) Key {
	d := field.Def{Key: key, Label: label, Sort: field.Text, Choices: choices}
	if len(choices) > 0 {
		d.Sort = field.Choice
	}
	return define(group, Def{Def: d, Start: start})
}

// Column is one column of a table of the book.
type Column struct {
	field.Def
	Optional bool
}

// Table defines one table of the book, such as the alloys.
type Table struct {
	Key, Label, About string
	Columns           []Column
	Start             [][]string // the starting rows, a text for each column
}

// tables is every table of the book, in the order of the page.
var tables []Table

// Tables gives the definition of every table, in the order of the page.
func Tables() []Table { return tables }

func column(key, label string, kind quantity.Kind, b field.Bounds) Column {
	return Column{Def: field.Def{Key: key, Label: label, Kind: kind, Bounds: b}}
}

func price(key, label string, per quantity.Unit) Column {
	return Column{Def: field.Def{Key: key, Label: label, Sort: field.Rate, Per: per, Bounds: field.ZeroUp}}
}

func text(key, label string, optional bool) Column {
	return Column{Def: field.Def{Key: key, Label: label, Sort: field.Text}, Optional: optional}
}
