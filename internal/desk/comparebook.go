package desk

import (
	"cmp"
	"strings"

	"meltwright/internal/shop"
)

// bookBetween tells what the shop book has otherwise: the shop's particulars, its
// settings, and the rows of its tables.
func bookBetween(a, b shop.Book) []Changed {
	out := houseBetween(a, b)
	for _, d := range shop.Settings() {
		x, y := a.Settings[d.Key], b.Settings[d.Key]
		out = append(out, textBetween(d.Label, x.Text, y.Text)...)
		if x.Text == y.Text {
			out = append(out, textBetween(d.Label+", where it is from", x.Source, y.Source)...)
		}
	}
	for _, t := range shop.Tables() {
		out = append(out, tableBetween(t, a.Tables[t.Key], b.Tables[t.Key])...)
	}
	return out
}

func houseBetween(a, b shop.Book) (out []Changed) {
	for _, x := range []struct{ name, was, is string }{
		{"name of the shop", a.Shop, b.Shop},
		{"address of the shop", a.Address, b.Address},
		{"telephone of the shop", a.Phone, b.Phone},
		{"e-mail of the shop", a.Email, b.Email},
		{"web page of the shop", a.Web, b.Web},
		{"registration of the shop", a.Registration, b.Registration},
		{"currency of the shop book", a.Currency, b.Currency},
		{"units of the shop book", a.Units, b.Units},
	} {
		out = append(out, textBetween(x.name, x.was, x.is)...)
	}
	return out
}

// tableBetween tells the rows that were added and removed, and the cells that
// differ: "Alloys, C87300 silicon bronze 95-1-4, Ingot". A row is known by its
// first cell.
func tableBetween(t shop.Table, a, b []shop.Row) (out []Changed) {
	first := t.Columns[0].Key
	name := func(r shop.Row) string { return r[first] }
	pairs := pairedBy(a, b, name)
	for _, p := range pairs {
		was, is := at(a, p.was), at(b, p.is)
		switch {
		case p.was < 0:
			out = append(out, Changed{t.Label + ", row added", "", rowWords(t, is)})
			continue
		case p.is < 0:
			out = append(out, Changed{t.Label + ", row removed", rowWords(t, was), ""})
			continue
		}
		for _, c := range t.Columns {
			where := t.Label + ", " + cmp.Or(is[first], was[first]) + ", " + c.Label
			out = append(out, textBetween(where, was[c.Key], is[c.Key])...)
		}
	}
	return append(out, ordered("the rows of "+t.Label, namesOf(a, name), namesOf(b, name), pairs)...)
}

// rowWords say a row by its cells.
func rowWords(t shop.Table, r shop.Row) string {
	var cells []string
	for _, c := range t.Columns {
		if text := strings.TrimSpace(r[c.Key]); text != "" {
			cells = append(cells, text)
		}
	}
	return strings.Join(cells, ", ")
}
