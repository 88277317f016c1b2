package shop

import (
	"slices"
	"strconv"
	"strings"

	"meltwright/internal/fault"
	"meltwright/internal/quantity"
)

// Set gives a copy of b in which one value reads text, set by the shop on an ISO
// date. The key is a setting's ("form.wall"), a cell's ("alloys.0.price", rows
// counted from 0), or one of the shop's own particulars ("shop", "address",
// "phone", "email", "web", "registration", "currency", "units"). The error is a
// fault: no such key, or a text that cannot be read as what the key is of.
func (b Book) Set(key, text, dated string) (Book, error) {
	set, ok := b.with(key, strings.TrimSpace(text), dated)
	if !ok {
		return b, fault.Fault{Where: "book." + key, Field: "Shop book", Value: key, Problem: "is none of its keys", Remedy: "give one that the printed book has, such as shop, form.wall or alloys.0.price"}
	}
	if _, known := quantity.ParseSystem(set.Units); key == "units" && !known {
		return b, fault.Fault{Where: "book.units", Field: "Shop book, units", Value: set.Units, Problem: "are unknown", Remedy: "give metric or inch-pound"}
	}
	// What was wrong before stays as it is: that is for whoever typed it.
	_, err := Read(set)
	for _, f := range fault.All(err) {
		if f.Where == "book."+key {
			return b, f
		}
	}
	return set, nil
}

// with gives the changed copy, and false where the book has no such key.
func (b Book) with(key, text, dated string) (Book, bool) {
	if slices.ContainsFunc(settings, func(d Def) bool { return d.Key == key }) {
		return b.With(key, text, dated), true
	}
	c := b.Clone()
	if own, ok := c.particulars()[key]; ok {
		*own, c.Dated = text, dated
		return c, true
	}
	cell := strings.Split(key, ".")
	at := slices.IndexFunc(tables, func(t Table) bool { return t.Key == cell[0] })
	if len(cell) != 3 || at < 0 {
		return b, false
	}
	row, err := strconv.Atoi(cell[1])
	known := slices.ContainsFunc(tables[at].Columns, func(col Column) bool { return col.Key == cell[2] })
	if err != nil || row < 0 || row >= len(c.Tables[cell[0]]) || !known {
		return b, false
	}
	c.Tables[cell[0]][row][cell[2]], c.Dated = text, dated
	return c, true
}

// particulars are the values that say who the shop is, by their key in files.
func (b *Book) particulars() map[string]*string {
	return map[string]*string{
		"shop": &b.Shop, "address": &b.Address, "currency": &b.Currency, "units": &b.Units,
		"phone": &b.Phone, "email": &b.Email, "web": &b.Web, "registration": &b.Registration,
	}
}
