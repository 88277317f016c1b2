package ui

import (
	"fmt"

	"fyne.io/fyne/v2"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/ui/kit"
)

// ownLines edits the user's own lines of one stage.
type ownLines struct {
	q      *quoteScreen
	st     *estimate.Stage
	rows   *rowsEditor
	fields [4]*kit.Field // item, quantity, unit, rate
	fault  *kit.CautionBox
}

// ownParts are the parts of an own line, as its fields show them.
var ownParts = [4]struct {
	key, label, hint string
	of               func(*estimate.Extra) *string
}{
	{"item", "Own line", "what it is, as the cost sheet calls it", func(x *estimate.Extra) *string { return &x.Item }},
	{"quantity", "Quantity", "", func(x *estimate.Extra) *string { return &x.Quantity }},
	{"unit", "Unit", "such as kg, h, or nothing", func(x *estimate.Extra) *string { return &x.Unit }},
	{"rate", "Rate", "money for each", func(x *estimate.Extra) *string { return &x.Rate }},
}

func newOwnLines(q *quoteScreen, st *estimate.Stage) *ownLines {
	o := &ownLines{q: q, st: st, fault: kit.NewCautionBox(kit.Caution{Kind: kit.CautionWarn})}
	o.fault.Hide()
	for i, part := range ownParts {
		o.fields[i] = kit.NewField(kit.FieldSpec{
			ID: "own." + part.key, Label: part.label, Hint: part.hint,
			OnChanged: q.w.guardedText(func(s string) {
				q.edit(func() { q.sheet.SetExtra(o.at(), part.key, func(x *estimate.Extra) { *part.of(x) = s }) })
			}),
		})
	}
	grid := kit.NewFieldGrid(o.fields[0], o.fields[1], o.fields[2], o.fields[3])
	o.rows = newRowsEditor(q.w, grid, rowActions{
		add:     func() int { q.sheet.AddExtra(st.ID); return len(o.numbers()) - 1 },
		remove:  func(i int) { q.sheet.RemoveExtra(o.numbers()[i]) },
		addText: "Add a line of your own", removeText: "Remove this line",
	}, q.edit, q.show)
	o.rows.table.SetHeads("Own lines", "Quantity", "Rate", "Cost")
	return o
}

func (o *ownLines) parts() []fyne.CanvasObject {
	return append([]fyne.CanvasObject{o.fault}, o.rows.parts()...)
}

// numbers are the places of the stage's own lines in the commission.
func (o *ownLines) numbers() (out []int) {
	for i, x := range o.q.sheet.Commission().Extras {
		if x.Stage == o.st.ID {
			out = append(out, i)
		}
	}
	return out
}

// at is the place of the chosen one.
func (o *ownLines) at() int { return o.numbers()[o.rows.chosen] }

func (o *ownLines) show() {
	extras := o.q.sheet.Commission().Extras
	var lines []kit.Line
	for _, n := range o.numbers() {
		lines = append(lines, o.line(extras[n]))
	}
	any := o.rows.show(lines)
	show(o.fault, false)
	if !any {
		return
	}
	x := extras[o.at()]
	for i, part := range ownParts {
		o.fields[i].SetText(*part.of(&x))
	}
	if f, ok := o.q.sheet.Faults().At(fmt.Sprintf("extras.%d", o.at())); ok {
		o.fault.Set(kit.Caution{Kind: kit.CautionWarn, Text: f.Error() + "."})
		show(o.fault, true)
	}
}

// line shows an own line with what it costs, where that can be read.
func (o *ownLines) line(x estimate.Extra) kit.Line {
	line := kit.Line{Name: x.Item, Quantity: x.Quantity, Unit: x.Unit, Rate: x.Rate, Cost: "?"}
	if x.Unit != "" {
		line.Per = "/ " + x.Unit
	}
	n, err1 := money.ParseDecimal(x.Quantity)
	rate, err2 := money.ParseDecimal(x.Rate)
	if err1 == nil && err2 == nil {
		c := o.q.context().Currency
		line.Cost = amount(c, c.Times(n, rate))
	}
	return line
}
