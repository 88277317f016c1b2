package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"

	"meltwright/internal/field"
	"meltwright/internal/shop"
	"meltwright/internal/ui/kit"
)

// tablePage edits one table of the shop book.
type tablePage struct {
	b      *bookScreen
	table  shop.Table
	body   *page
	rows   *rowsEditor
	fields []*kit.Field
}

func newTablePage(b *bookScreen, t shop.Table) *tablePage {
	p := &tablePage{b: b, table: t}
	for _, c := range t.Columns {
		p.fields = append(p.fields, p.newField(c))
	}
	word := strings.ToLower(t.Columns[0].Label)
	p.rows = newRowsEditor(b.w, kit.NewFieldGrid(p.fields...), rowActions{
		add:     func() int { return b.ledger.AddRow(t.Key) },
		remove:  func(i int) { p.remove(i) },
		move:    func(i, by int) int { return b.ledger.MoveRow(t.Key, i, by) },
		addText: "Add " + article(word), removeText: "Remove this " + word,
	}, b.edit, b.show)
	p.rows.table.SetHeads(t.Columns[0].Label, p.headOf(p.figure()), p.headOf(p.money()), "")
	p.body = newPage(append([]fyne.CanvasObject{kit.NewHeading(t.Label, t.About)}, p.rows.parts()...)...)
	return p
}

// remove takes a row away and tells the way back.
func (p *tablePage) remove(i int) {
	name := rowName(p.table, p.b.ledger.Rows(p.table.Key)[i])
	p.b.ledger.RemoveRow(p.table.Key, i)
	p.b.w.say(fmt.Sprintf("“%s” is taken out of the shop book; Undo brings it back.", name))
}

func article(word string) string {
	if strings.ContainsAny(word[:1], "aeiou") {
		return "an " + word
	}
	return "a " + word
}

func (p *tablePage) newField(c shop.Column) *kit.Field {
	spec := kit.FieldSpec{ID: c.Key, Label: c.Label, Wide: c.Sort == field.Text}
	spec.OnChanged = p.b.w.guardedText(func(text string) {
		p.b.edit(func() { p.b.ledger.SetCell(p.table.Key, p.rows.chosen, c.Key, text) })
	})
	if c.Sort != field.Text {
		spec.Understand = func(text string) (string, string) { return understand(c.Def, text, p.b.context()) }
	}
	return kit.NewField(spec)
}

// chooseRow shows one row of a table.
func (b *bookScreen) chooseRow(table string, row int) {
	b.choose(table)
	if p, ok := b.present().(*tablePage); ok {
		p.rows.chosen = row
		b.show()
		p.focus()
	}
}

// figure and money are the columns that the table of rows shows beside the name:
// the first of a quantity, the first of money; -1 where there is none.
func (p *tablePage) figure() int { return p.first(field.Quantity) }

func (p *tablePage) money() int { return p.first(field.Rate) }

func (p *tablePage) first(s field.Sort) int {
	for i, c := range p.table.Columns {
		if c.Sort == s {
			return i
		}
	}
	return -1
}

func (p *tablePage) headOf(column int) string {
	if column < 0 {
		return ""
	}
	return p.table.Columns[column].Label
}

func (p *tablePage) page() *page { return p.body }
func (p *tablePage) focus()      { p.b.w.focusFirst(p.rows.grid) }

func (p *tablePage) show() {
	rows := p.b.ledger.Rows(p.table.Key)
	var lines []kit.Line
	for i, r := range rows {
		lines = append(lines, p.line(i, r))
	}
	if !p.rows.show(lines) {
		return
	}
	row, faults := rows[p.rows.chosen], p.b.ledger.Faults()
	for i, c := range p.table.Columns {
		p.fields[i].SetText(row[c.Key])
		wrong := ""
		if x, ok := faults.At(fmt.Sprintf("book.%s.%d.%s", p.table.Key, p.rows.chosen, c.Key)); ok {
			wrong = x.Short()
		}
		p.fields[i].SetFault(wrong)
	}
}

// line shows a row; one with a fault has a sign before its name.
func (p *tablePage) line(i int, r shop.Row) kit.Line {
	name := rowName(p.table, r)
	for _, f := range p.b.ledger.Faults() {
		if strings.HasPrefix(f.Where, fmt.Sprintf("book.%s.%d.", p.table.Key, i)) {
			name = "! " + name
			break
		}
	}
	line := kit.Line{Name: name}
	if c := p.figure(); c >= 0 {
		line.Quantity = r[p.table.Columns[c].Key]
	}
	if c := p.money(); c >= 0 {
		line.Rate = r[p.table.Columns[c].Key]
	}
	return line
}

// rowName is what a row is called: its words up to its first figure.
func rowName(t shop.Table, r shop.Row) string {
	var parts []string
	for _, c := range t.Columns {
		if c.Sort != field.Text {
			break
		}
		if s := r[c.Key]; s != "" {
			parts = append(parts, s)
		}
	}
	if len(parts) == 0 {
		return "(no name yet)"
	}
	return strings.Join(parts, ", ")
}

// wrongPages gives what is wrong on each page of the book that has a fault.
func (b *bookScreen) wrongPages() map[string]string {
	wrong := map[string]string{}
	groupOf := map[string]string{}
	for _, d := range shop.Settings() {
		groupOf["book."+d.Key] = d.Group
	}
	for _, f := range b.ledger.Faults() {
		id, ok := groupOf[f.Where]
		if !ok {
			id = houseID
			parts := strings.Split(f.Where, ".")
			if len(parts) > 2 {
				id = parts[1]
			}
		}
		if wrong[id] == "" {
			wrong[id] = strings.TrimPrefix(f.Field, "Shop book, ") + " " + f.Problem
		}
	}
	return wrong
}
