package desk

import (
	"cmp"
	"fmt"
	"reflect"
	"strings"

	"meltwright/internal/estimate"
	"meltwright/internal/form"
	"meltwright/internal/mesh"
	"meltwright/internal/risk"
)

// inputsBetween tells what was typed otherwise in a commission, but for its head.
func inputsBetween(a, b estimate.Commission) []Changed {
	const book = "as the shop book"
	out := textBetween("currency", cmp.Or(a.Currency, book), cmp.Or(b.Currency, book))
	out = append(out, textBetween("units", cmp.Or(a.Units, book), cmp.Or(b.Units, book))...)
	out = append(out, textsBetween(after(""), a.Inputs, b.Inputs)...)
	out = append(out, textsBetween(func(key string) string { return "how sure: " + rangeName(key) }, a.Ranges, b.Ranges)...)
	called := func(p estimate.Piece) string { return p.Name }
	pieces := pairedBy(a.Pieces, b.Pieces, called)
	for _, p := range pieces {
		out = append(out, pieceBetween(at(a.Pieces, p.was), at(b.Pieces, p.is), p)...)
	}
	out = append(out, ordered("the pieces", namesOf(a.Pieces, called), namesOf(b.Pieces, called), pieces)...)
	out = append(out, extrasBetween(a.Extras, b.Extras)...)
	return append(out, optionsBetween(a, b, pieces)...)
}

// pieceBetween tells what was typed otherwise of a piece; one of them is empty
// where the pair has it once.
func pieceBetween(a, b estimate.Piece, p pair) (out []Changed) {
	name := cmp.Or(b.Name, a.Name)
	switch {
	case p.was < 0:
		out = append(out, Changed{"piece added", "", name})
	case p.is < 0:
		out = append(out, Changed{"piece removed", name, ""})
	default:
		out = textBetween("piece", a.Name, b.Name)
	}
	out = append(out, textsBetween(after(name+": "), a.Inputs, b.Inputs)...)
	out = append(out, scanBetween(name, a, b)...)
	out = append(out, solidsBetween(name, a.Solids, b.Solids)...)
	return append(out, textsBetween(func(key string) string { return name + ", how sure: " + rangeName(key) }, a.Ranges, b.Ranges)...)
}

// rangeName says in words what a range is typed for.
func rangeName(key string) string {
	if id, ok := strings.CutPrefix(key, risk.HoursKey); ok {
		if st, known := estimate.StageByID(id); known {
			return "hours, " + st.Name
		}
	}
	names := map[string]string{
		risk.AreaKey: "surface", risk.WallKey: "wall as cast", risk.MaterialKey: "prices of materials",
		risk.MetalKey: "price of ingot", risk.FreightKey: "freight and travel", risk.SiteKey: "site and lifting",
	}
	return cmp.Or(names[key], key)
}

// scanBetween tells of another scan, or of the same file measured otherwise.
func scanBetween(name string, a, b estimate.Piece) []Changed {
	if reflect.DeepEqual(a.Scan, b.Scan) && reflect.DeepEqual(a.ScanFile, b.ScanFile) {
		return nil
	}
	was, is := scanWords(a), scanWords(b)
	if was == is {
		is += ", otherwise measured"
	}
	return []Changed{{name + ", scan", was, is}}
}

// scanWords say which scan a piece has, and how large it is.
func scanWords(p estimate.Piece) string {
	switch {
	case p.Scan != nil:
		return scanSize(p.Scan)
	case p.ScanFile != nil:
		return p.ScanFile.Path + ", yet to be opened"
	}
	return ""
}

func scanSize(s *mesh.Scan) string {
	return fmt.Sprintf("%s, %.3f m high, %.3f m²", s.File, s.Height(), s.Area)
}

// solidsBetween tells which rows of solids differ.
func solidsBetween(name string, a, b []map[string]string) []Changed {
	words := func(row map[string]string) string {
		text := cmp.Or(strings.TrimSpace(row["count"]), "1") + " × " + form.Describe(row)
		if ends := row["ends"]; ends != "" {
			text += ", ends " + ends
		}
		return text
	}
	return listBetween(name+", solid", "the solids of "+name, a, b, words)
}

// extrasBetween tells which lines of the user's own differ.
func extrasBetween(a, b []estimate.Extra) []Changed {
	words := func(x estimate.Extra) string {
		text := x.Item + ", " + strings.TrimSpace(x.Quantity+" "+x.Unit) + " × " + x.Rate
		if st, ok := estimate.StageByID(x.Stage); ok {
			text += ", in " + st.Name
		}
		return text
	}
	return listBetween("own line", "the own lines", a, b, words)
}

// listBetween tells which rows of a list differ, each row as a whole.
func listBetween[T any](row, all string, a, b []T, words func(T) string) (out []Changed) {
	was, is := namesOf(a, words), namesOf(b, words)
	pairs := paired(was, is)
	for _, p := range pairs {
		where := row
		if p.was < 0 {
			where += " added"
		} else if p.is < 0 {
			where += " removed"
		}
		out = append(out, textBetween(where, at(was, p.was), at(is, p.is))...)
	}
	return append(out, ordered(all, was, is, pairs)...)
}
