package ui

import (
	"slices"

	"fyne.io/fyne/v2"

	"meltwright/internal/estimate"
	"meltwright/internal/field"
	"meltwright/internal/ui/kit"
)

// differing are the inputs that an option is offered to have otherwise than the
// quote, besides its height. A commission file may have any.
var differing = []struct {
	path    string
	ofPiece bool
}{
	{"form.wall", true},
	{"form.alloy", true},
	{"form.casts", true},
	{"form.start", true},
	{"form.difficulty", true},
	{"form.in_options", true},
	{"patina.by", true},
	{"patina.colours", true},
	{"base.by", true},
	{"base.plinth", true},
	{"base.stone", true},
	{"base.height", true},
	{"base.width", true},
	{"base.depth", true},
	{"base.footing", true},
	{"delivery.by", false},
}

// optionDiffers is where an option is made otherwise than the quote.
type optionDiffers struct {
	o      *optionsScreen
	piece  int
	pieces *tabs
	fields []*differField
	fold   *fold
}

// differField is one input.
type differField struct {
	field   *kit.Field
	def     *estimate.Field
	choices []string
}

func newOptionDiffers(o *optionsScreen, relay func()) *optionDiffers {
	d := &optionDiffers{o: o}
	d.pieces = newTabs(o.w.guardedNumber(func(i int) {
		d.piece = i
		d.show(o.own())
		relay()
	}))
	var fields []*kit.Field
	for _, x := range differing {
		if f, ok := estimate.FieldByPath(x.path, x.ofPiece); ok {
			in := &differField{def: f, field: d.newField(f)}
			d.fields, fields = append(d.fields, in), append(fields, in.field)
		}
	}
	d.fold = newFold(o.w, "Made otherwise", kit.NewColumn(10, d.pieces, kit.NewFieldGrid(fields...)), relay)
	return d
}

func (d *optionDiffers) newField(f *estimate.Field) *kit.Field {
	spec := kit.FieldSpec{ID: "option." + f.Path(), Label: f.Label}
	spec.OnChanged = d.o.w.guardedText(func(text string) {
		d.o.edit(func() { d.o.sheet.SetOption(d.o.chosen, d.of(f), f.Path(), text) })
	})
	if f.Sort == field.Choice {
		spec.Kind = kit.ChoiceField
	} else {
		spec.Understand = func(text string) (string, string) { return understand(f.Def, text, d.o.q.context()) }
	}
	return kit.NewField(spec)
}

// of is the piece that an input is of.
func (d *optionDiffers) of(f *estimate.Field) int {
	if f.PerPiece {
		return d.piece
	}
	return estimate.Whole
}

func (d *optionDiffers) parts() []fyne.CanvasObject { return d.fold.parts() }

// show shows what the chosen option has of its own, and what it has of the quote.
func (d *optionDiffers) show(own bool) {
	for _, part := range d.fold.parts() {
		if !own {
			part.Hide()
		}
	}
	if !own {
		return
	}
	d.fold.parts()[0].Show()
	show(d.fold.parts()[1], d.fold.open)
	names := d.o.q.pieceNames()
	d.piece = max(0, min(d.piece, len(names)-1))
	d.pieces.show(names, d.piece)
	show(d.pieces, len(names) > 1)
	entries := d.entries()
	changed, wrong := 0, 0
	for _, in := range d.fields {
		at := slices.IndexFunc(entries, func(e estimate.Entry) bool { return e.Field == in.def })
		in.field.SetVisible(at >= 0)
		if at < 0 {
			continue
		}
		in.show(entries[at])
		if entries[at].Typed != "" {
			changed++
		}
		if entries[at].Fault != nil {
			wrong++
		}
	}
	d.fold.say(len(entries), changed, wrong)
}

// entries are the inputs of the chosen option that apply.
func (d *optionDiffers) entries() []estimate.Entry {
	var stages []*estimate.Stage
	for _, st := range estimate.Stages {
		if slices.ContainsFunc(d.fields, func(in *differField) bool { return in.def.Stage == st.ID }) {
			stages = append(stages, st)
		}
	}
	all := d.o.sheet.OptionEntries(d.o.chosen, d.piece, d.o.now().Faults, stages...)
	return slices.DeleteFunc(all, func(e estimate.Entry) bool {
		return !slices.ContainsFunc(d.fields, func(in *differField) bool { return in.def == e.Field })
	})
}

func (in *differField) show(e estimate.Entry) {
	if e.Field.Sort == field.Choice && !slices.Equal(in.choices, e.Choices) {
		in.choices = e.Choices
		in.field.SetOptions(e.Choices)
	}
	in.field.SetDefault(e.Start, "as the quote")
	in.field.SetText(e.Typed)
	wrong := ""
	if e.Fault != nil {
		wrong = e.Fault.Short()
	}
	in.field.SetFault(wrong)
}
