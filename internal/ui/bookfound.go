package ui

import (
	"fmt"
	"strconv"
	"strings"

	"meltwright/internal/shop"
	"meltwright/internal/ui/kit"
)

// mostFound is how many settings a search shows.
const mostFound = 25

// foundPage shows what a search in the shop book found: settings, below the
// names of their groups, and tables.
type foundPage struct {
	b      *bookScreen
	body   *page
	sought string
	fields *bookFields
	tables *kit.LineTable
}

func newFoundPage(b *bookScreen) *foundPage {
	f := &foundPage{b: b, body: newPage()}
	f.fields = newBookFields(b, nil)
	f.tables = kit.NewLineTable()
	f.tables.SetHeads("Rows of tables", "", "", "")
	f.tables.OnOpen = b.w.guardedText(func(id string) {
		table, row, _ := strings.Cut(id, "/")
		n, _ := strconv.Atoi(row)
		b.chooseRow(table, n)
	})
	return f
}

func (f *foundPage) page() *page { return f.body }
func (f *foundPage) focus()      { f.b.w.focusFirst(f.fields.grid) }

func (f *foundPage) show() {
	if s := f.b.search.Text; s != f.sought {
		f.sought = s
		f.seek()
	}
	f.fields.show()
}

// seek looks for settings and rows that hold every word.
func (f *foundPage) seek() {
	words := strings.Fields(strings.ToLower(f.sought))
	var defs []shop.Def
	for _, d := range shop.Settings() {
		if holds(words, d.Group, d.Label, d.Key) && len(defs) < mostFound {
			defs = append(defs, d)
		}
	}
	f.fields = newBookFields(f.b, defs)
	rows := f.rows(words)
	f.tables.SetLines(rows)
	show(f.tables, len(rows) > 0)
	about := "Nothing of that name; try a part of a word."
	if n := len(defs) + len(rows); n > 0 {
		about = counted(n, "value") + " found. Enter on a row opens its table."
	}
	f.body.column.Objects = append(f.body.column.Objects[:0], kit.NewHeading(fmt.Sprintf("“%s”", f.sought), about), f.fields.grid, f.tables)
	f.body.column.Refresh()
}

// rows are the rows of tables that hold every word.
func (f *foundPage) rows(words []string) (out []kit.Line) {
	for _, t := range shop.Tables() {
		for i, row := range f.b.ledger.Rows(t.Key) {
			name := rowName(t, row)
			if holds(words, t.Label, name) {
				out = append(out, kit.Line{ID: fmt.Sprintf("%s/%d", t.Key, i), Name: t.Label + ": " + name})
			}
		}
	}
	return out
}

// holds tells whether every word occurs in some of the texts.
func holds(words []string, texts ...string) bool {
	all := strings.ToLower(strings.Join(texts, " "))
	for _, w := range words {
		if !strings.Contains(all, w) {
			return false
		}
	}
	return len(words) > 0
}
