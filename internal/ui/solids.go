package ui

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/field"
	"meltwright/internal/form"
	"meltwright/internal/quantity"
	"meltwright/internal/ui/kit"
)

// solidsEditor edits the solids that a piece is put together from.
type solidsEditor struct {
	q      *quoteScreen
	rows   *rowsEditor
	fields map[string]*kit.Field // by key: shape, count, ends, and every size there is
}

func newSolidsEditor(q *quoteScreen) *solidsEditor {
	e := &solidsEditor{q: q, fields: map[string]*kit.Field{}}
	keys := []string{"shape", "count"}
	for _, shape := range form.Catalogue {
		for _, d := range shape.Sizes {
			if !slices.Contains(keys, d.Key) {
				keys = append(keys, d.Key)
			}
		}
	}
	keys = append(keys, "ends")
	grid := make([]*kit.Field, len(keys))
	for i, key := range keys {
		e.fields[key] = e.newField(key)
		grid[i] = e.fields[key]
	}
	e.rows = newRowsEditor(q.w, kit.NewFieldGrid(grid...), rowActions{
		add:     func() int { return q.sheet.AddSolid(q.piece, e.next()) },
		remove:  func(n int) { q.sheet.RemoveSolid(q.piece, n) },
		addText: "Add a solid", removeText: "Remove this solid",
	}, q.edit, q.show)
	e.rows.table.SetHeads("Solids", "Surface", "", "Each")
	return e
}

// next is the shape of a solid that is added: that of the last one.
func (e *solidsEditor) next() string {
	if n := len(e.solids()); n > 0 {
		return e.solids()[n-1]["shape"]
	}
	return form.Catalogue[0].Name
}

func (e *solidsEditor) newField(key string) *kit.Field {
	spec := kit.FieldSpec{ID: "solid." + key}
	spec.OnChanged = e.q.w.guardedText(func(s string) {
		e.q.edit(func() { e.q.sheet.SetSolid(e.q.piece, e.rows.chosen, key, s) })
	})
	switch key {
	case "shape":
		spec.Kind, spec.Label, spec.Options = kit.ChoiceField, "Solid", form.Names()
	case "ends":
		spec.Kind, spec.Label, spec.Options, spec.Default = kit.ChoiceField, "Ends", form.EndNames, form.EndNames[0]
		spec.Hint = "an open end has neither surface nor wall"
	case "count":
		spec.Label, spec.Default = "How many", "1"
	default:
		spec.Understand = func(text string) (string, string) {
			return understand(field.Def{Kind: quantity.KindLength, Bounds: field.AboveZero}, text, e.q.context())
		}
	}
	return kit.NewField(spec)
}

func (e *solidsEditor) solids() []map[string]string { return e.q.pieces()[e.q.piece].Solids }

// show shows the piece's solids, where it is made of such.
func (e *solidsEditor) show(on bool) {
	if !on {
		e.rows.hide()
		return
	}
	var lines []kit.Line
	for _, s := range e.solids() {
		lines = append(lines, e.line(s))
	}
	e.rows.buttons.Show()
	if e.rows.show(lines) {
		e.showChosen(e.solids()[e.rows.chosen])
	}
}

// line shows a solid in a few words, with its surface where that is known.
func (e *solidsEditor) line(row map[string]string) kit.Line {
	sys := e.q.context().System
	line := kit.Line{Name: solidName(row), Cost: "?"}
	s, faults := form.ReadSolid(row, sys)
	if len(faults) > 0 {
		return line
	}
	one := form.Solids{{Shape: s.Shape, Count: 1}}
	line.Quantity, line.Unit, _ = strings.Cut(quantity.Print(quantity.KindArea, float64(form.Solids{s}.Area()), sys), " ")
	line.Cost = quantity.Print(quantity.KindArea, float64(one.Area()), sys)
	return line
}

func solidName(row map[string]string) string {
	var b strings.Builder
	if n := strings.TrimSpace(row["count"]); n != "" && n != "1" {
		b.WriteString(n + " × ")
	}
	b.WriteString(row["shape"])
	if ends := row["ends"]; ends != "" && ends != form.EndNames[0] {
		b.WriteString(", " + ends)
	}
	return capital(b.String())
}

func (e *solidsEditor) showChosen(row map[string]string) {
	at := slices.IndexFunc(form.Catalogue, func(l form.Listed) bool { return l.Name == row["shape"] })
	sizes := map[string]string{}
	ends := false
	if at >= 0 {
		ends = form.Catalogue[at].Ends
		for _, d := range form.Catalogue[at].Sizes {
			sizes[d.Key] = capital(d.Label)
		}
	}
	for key, f := range e.fields {
		label, isSize := sizes[key]
		if isSize {
			f.SetLabel(label)
		}
		f.SetVisible(isSize || key == "shape" || key == "count" || key == "ends" && ends)
		f.SetText(row[key])
		wrong := ""
		if x, ok := e.faults().At(e.where(key)); ok && (row[key] != "" || !isSize) {
			wrong = x.Short()
		} else if ok {
			wrong = "is missing; give a length such as 0.4 m"
		}
		f.SetFault(wrong)
	}
}

func (e *solidsEditor) faults() fault.List { return e.q.sheet.Faults() }

func (e *solidsEditor) where(key string) string {
	return estimate.WhereOf(e.q.piece, fmt.Sprintf("solids.%s.%s", strconv.Itoa(e.rows.chosen), key))
}
