// Package shop is the shop book: what a foundry knows of its own rates,
// materials, alloys, crucibles, stones and taxes. Every value is kept as it was
// typed, with where it came from and when; the starting book says of each value
// whether a source published it or whether it is common practice only.
//
// A Book is text, for the window, the files and the database. Read turns it into
// a Shop, the typed value that estimates are made with.
package shop

import (
	"encoding/json"
	"maps"

	"meltwright/internal/field"
)

// Book is the shop book as typed. It is a value: With… give changed copies.
type Book struct {
	Shop    string `json:"shop"`    // the shop's name, for papers
	Address string `json:"address"` // for papers
	Letterhead
	Currency string             `json:"currency"` // ISO 4217; the money all rates are in
	Units    string             `json:"units"`    // "metric" or "inch-pound": how bare numbers are read
	Dated    string             `json:"dated"`    // ISO date of the last change
	Settings map[string]Setting `json:"settings"`
	Tables   map[string][]Row   `json:"tables"`
}

// Letterhead is what stands on the shop's papers beside its name and address;
// each may be empty.
type Letterhead struct {
	Phone        string `json:"phone,omitempty"`
	Email        string `json:"email,omitempty"`
	Web          string `json:"web,omitempty"`
	Registration string `json:"registration,omitempty"` // of the business or for taxes, as it is to be printed
}

// Setting is one value of the book.
type Setting struct {
	Text   string `json:"text"`
	Source string `json:"source"`
	Dated  string `json:"dated,omitempty"` // when the shop set it; empty for a starting value
}

// Row is one row of a table: the text of each column, by the column's key.
type Row map[string]string

// Clone gives a copy that shares nothing with b.
func (b Book) Clone() Book {
	settings := make(map[string]Setting, len(b.Settings))
	maps.Copy(settings, b.Settings)
	tables := make(map[string][]Row, len(b.Tables))
	for key, rows := range b.Tables {
		tables[key] = cloneRows(rows)
	}
	b.Settings, b.Tables = settings, tables
	return b
}

func cloneRows(rows []Row) []Row {
	copied := make([]Row, len(rows))
	for i, r := range rows {
		copied[i] = maps.Clone(r)
	}
	return copied
}

// With gives a copy of b in which the setting of key k reads text, set by the
// shop on the given ISO date.
func (b Book) With(k, text, dated string) Book {
	c := b.Clone()
	c.Settings[k] = Setting{Text: text, Source: "set by the shop", Dated: dated}
	c.Dated = dated
	return c
}

// WithTable gives a copy of b with other rows in one table.
func (b Book) WithTable(key string, rows []Row, dated string) Book {
	c := b.Clone()
	c.Tables[key] = cloneRows(rows)
	c.Dated = dated
	return c
}

// WithHouse gives a copy of b with the shop's own particulars.
func (b Book) WithHouse(name, address, currency, units, dated string) Book {
	c := b.Clone()
	c.Shop, c.Address, c.Currency, c.Units, c.Dated = name, address, currency, units, dated
	return c
}

// WithLetterhead gives a copy of b with another letterhead.
func (b Book) WithLetterhead(l Letterhead, dated string) Book {
	c := b.Clone()
	c.Letterhead, c.Dated = l, dated
	return c
}

// Start is the starting book: what TRADE handbooks and common practice give, to
// be replaced by the shop's own figures as it learns them.
func Start() Book {
	b := Book{Shop: "", Currency: "CAD", Units: "metric", Settings: map[string]Setting{}, Tables: map[string][]Row{}}
	for _, d := range settings {
		b.Settings[d.Key] = Setting{Text: d.Start, Source: d.Source}
	}
	for _, t := range tables {
		rows := make([]Row, len(t.Start))
		for i, cells := range t.Start {
			row := Row{}
			for c, text := range cells {
				row[t.Columns[c].Key] = text
			}
			rows[i] = row
		}
		b.Tables[t.Key] = rows
	}
	return b
}

// Encode gives the book as JSON.
func (b Book) Encode() ([]byte, error) { return json.MarshalIndent(b, "", " ") }

// Decode reads a book from JSON. Settings and tables that the file does not
// have, because it is older than they are, get their starting values.
func Decode(data []byte) (Book, error) {
	var b Book
	if err := json.Unmarshal(data, &b); err != nil {
		return Book{}, err
	}
	start := Start()
	if b.Settings == nil {
		b.Settings = map[string]Setting{}
	}
	if b.Tables == nil {
		b.Tables = map[string][]Row{}
	}
	for k, s := range start.Settings {
		if _, ok := b.Settings[k]; !ok {
			b.Settings[k] = s
		}
	}
	for k, rows := range start.Tables {
		if _, ok := b.Tables[k]; !ok {
			b.Tables[k] = rows
		}
	}
	return b, nil
}

// origin is where a setting of the book came from.
func (s Setting) origin() field.Origin {
	return field.Origin{From: field.ShopBook, Source: s.Source, Dated: s.Dated}
}
