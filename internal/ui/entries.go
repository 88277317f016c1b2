package ui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/field"
	"meltwright/internal/shop"
	"meltwright/internal/ui/kit"
)

// entryGrid shows the inputs of one group of a stage: those of the chosen piece,
// and those of the whole commission.
type entryGrid struct {
	q       *quoteScreen
	grid    *kit.FieldGrid
	inputs  map[*estimate.Field]*input
	whole   *kit.Field // the heading over those of the whole commission
	mixed   bool       // there are inputs of both kinds
	ofPiece bool       // there are inputs of a piece
}

// input is one field and what it shows.
type input struct {
	field   *kit.Field
	def     *estimate.Field
	choices []string
}

func newEntryGrid(q *quoteScreen, st *estimate.Stage, group estimate.Group) *entryGrid {
	g := &entryGrid{q: q, inputs: map[*estimate.Field]*input{}}
	var fields []*kit.Field
	add := func(list []*estimate.Field) int {
		n := len(fields)
		for _, f := range list {
			if f.Group == group {
				in := newInput(q, f)
				g.inputs[f] = in
				fields = append(fields, in.field)
			}
		}
		return len(fields) - n
	}
	g.ofPiece = add(st.Fields(true)) > 0
	g.whole = kit.NewField(kit.FieldSpec{ID: "whole", Kind: kit.HeadingField, Label: "For the whole commission"})
	at := len(fields)
	g.mixed = add(st.Fields(false)) > 0 && g.ofPiece
	if g.mixed {
		fields = slices.Insert(fields, at, g.whole)
	}
	g.grid = kit.NewFieldGrid(fields...)
	return g
}

// newInput makes the field of an input.
func newInput(q *quoteScreen, f *estimate.Field) *input {
	in := &input{def: f}
	spec := kit.FieldSpec{ID: f.Path(), Label: f.Label, Hint: f.Hint}
	spec.OnChanged = q.w.guardedText(func(text string) { q.typed(f, text) })
	switch f.Sort {
	case field.Choice:
		spec.Kind, spec.Wide = kit.ChoiceField, q.long(f)
	case field.Text:
		spec.Kind, spec.Lines = kit.NotesField, 4
	default:
		spec.Understand = func(text string) (string, string) { return understand(f.Def, text, q.context()) }
	}
	in.field = kit.NewField(spec)
	return in
}

// long tells whether some choice of f has more words than a plain box shows.
func (q *quoteScreen) long(f *estimate.Field) bool {
	const most = 24 // letters
	choices := f.Choices
	if f.FromBook != nil {
		choices = f.FromBook(q.w.desk.Shop())
	}
	return slices.ContainsFunc(choices, func(c string) bool { return len([]rune(c)) > most })
}

// understand says what was made of a typed number, or what is wrong with it.
func understand(d field.Def, text string, ctx field.Context) (echo, wrong string) {
	if strings.TrimSpace(text) == "" {
		return "", ""
	}
	v, err := d.Read(text, ctx)
	if err != nil {
		return "", fault.All(err)[0].Short()
	}
	return echoOf(d, text, v, ctx), ""
}

// echoOf is what was understood, where it does not say just what was typed.
func echoOf(d field.Def, text string, v field.Value, ctx field.Context) string {
	printed := d.Print(v, ctx.System)
	switch d.Sort {
	case field.Rate:
		if strings.ContainsAny(text, "/p") || d.Per.Symbol == "" {
			return ""
		}
	case field.Money:
		printed = ctx.Currency.Print(ctx.Currency.Of(v.Dec), locale)
	}
	if bare(printed) == bare(text) {
		return ""
	}
	return "= " + printed
}

// bare is a text without its spaces, to compare.
func bare(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), "")) }

// show shows entries; inputs that are not among them are left out. It gives how
// many there are, how many of them were typed and how many are wrong.
func (g *entryGrid) show(entries []estimate.Entry) (all, changed, wrong int) {
	seen := map[*estimate.Field]bool{}
	whole := false
	for _, e := range entries {
		in := g.inputs[e.Field]
		if in == nil {
			continue
		}
		seen[e.Field] = true
		whole = whole || e.Piece == estimate.Whole
		in.show(g.q, e)
		all++
		if e.Typed != "" {
			changed++
		}
		if e.Fault != nil {
			wrong++
		}
	}
	for f, in := range g.inputs {
		in.field.SetVisible(seen[f])
	}
	if g.mixed {
		g.whole.SetVisible(whole && len(g.q.pieces()) > 1)
	}
	return all, changed, wrong
}

func (in *input) show(q *quoteScreen, e estimate.Entry) {
	if e.Field.Sort == field.Choice && !slices.Equal(in.choices, e.Choices) {
		in.choices = e.Choices
		in.field.SetOptions(e.Choices)
	}
	start, origin, hint := q.standing(e)
	in.field.SetDefault(start, origin)
	in.field.SetHint(hint)
	in.field.SetText(e.Typed)
	wrong := ""
	if e.Fault != nil {
		wrong = e.Fault.Short()
	}
	in.field.SetFault(wrong)
}

// standing says what holds while nothing is typed, where that comes from, and
// the few words beside it.
func (q *quoteScreen) standing(e estimate.Entry) (start, origin, hint string) {
	f := e.Field
	start, hint = e.Start, f.Hint
	switch {
	case f.Book != shop.Unset:
		origin = q.w.desk.Shop().Origin(f.Book).String()
	case f.Proposes == "" || start != f.Proposes:
	case e.Typed != "":
		start, origin = "what is proposed", f.Proposes
	default:
		start, origin = q.proposed(e), f.Proposes
		if start == "" {
			hint, origin = joined(hint, f.Proposes), ""
		}
	}
	if e.Typed != "" && bare(start) == bare(e.Understood) {
		return "", "", hint // there is nothing to go back to
	}
	if f.Sort == field.Text {
		start = strings.ReplaceAll(start, "; ", "\n")
	}
	return start, origin, hint
}

func joined(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + " · " + b
}

// focusFirst puts the keyboard into the first field that is shown.
func (w *Window) focusFirst(grids ...*kit.FieldGrid) {
	for _, g := range grids {
		for _, o := range g.Held() {
			if f, ok := o.(fyne.Focusable); ok && g.Visible() {
				w.win.Canvas().Focus(f)
				return
			}
		}
	}
}
