package ui

import (
	"strings"

	"meltwright/internal/desk"
	"meltwright/internal/field"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
	"meltwright/internal/ui/kit"
)

// bookFields shows some settings of the shop book.
type bookFields struct {
	b      *bookScreen
	defs   []shop.Def
	fields []*kit.Field
	grid   *kit.FieldGrid
}

func newBookFields(b *bookScreen, defs []shop.Def) *bookFields {
	f := &bookFields{b: b, defs: defs}
	for _, d := range defs {
		f.fields = append(f.fields, newBookField(b, d))
	}
	f.grid = kit.NewFieldGrid(f.fields...)
	return f
}

// newBookField is the field of one setting. While it is empty the starting value
// holds, so that emptying it is the way back to that.
func newBookField(b *bookScreen, d shop.Def) *kit.Field {
	spec := kit.FieldSpec{
		ID: d.Key, Label: d.Label, Default: d.Start, Origin: d.Source,
		OnChanged: b.w.guardedText(func(text string) { b.edit(func() { b.ledger.Set(d.Key, text) }) }),
	}
	switch d.Sort {
	case field.Choice:
		spec.Kind, spec.Options = kit.ChoiceField, d.Choices
	case field.Text:
		spec.Kind, spec.Lines = kit.NotesField, 4
		spec.Default = strings.ReplaceAll(d.Start, "; ", "\n")
	default:
		spec.Understand = func(text string) (string, string) { return understand(d.Def, text, b.context()) }
	}
	return kit.NewField(spec)
}

// context is what the book's numbers are read by.
func (b *bookScreen) context() field.Context {
	s := b.w.desk.Shop()
	return field.Context{System: s.System, Currency: s.Currency}
}

func (f *bookFields) show() {
	book, faults := f.b.ledger.Book(), f.b.ledger.Faults()
	for i, d := range f.defs {
		set := book.Settings[d.Key]
		text, hint := set.Text, ""
		if text == d.Start {
			text = ""
		}
		if set.Dated != "" {
			hint = set.Source + ", " + set.Dated
		}
		f.fields[i].SetHint(hint)
		f.fields[i].SetText(text)
		wrong := ""
		if x, ok := faults.At("book." + d.Key); ok {
			wrong = x.Short()
		}
		f.fields[i].SetFault(wrong)
	}
}

// groupPage shows one group of settings.
type groupPage struct {
	b      *bookScreen
	body   *page
	fields *bookFields
}

func newGroupPage(b *bookScreen, group string) *groupPage {
	var defs []shop.Def
	for _, d := range shop.Settings() {
		if d.Group == group {
			defs = append(defs, d)
		}
	}
	p := &groupPage{b: b, fields: newBookFields(b, defs)}
	about := "In grey, the values the program starts with and where they come from. What you type is dated, and counts for every draft from then on; an emptied field has its starting value again."
	p.body = newPage(kit.NewHeading(group, about), p.fields.grid)
	return p
}

func (p *groupPage) page() *page { return p.body }
func (p *groupPage) show()       { p.fields.show() }
func (p *groupPage) focus()      { p.b.w.focusFirst(p.fields.grid) }

// housePage shows the shop's own particulars.
type housePage struct {
	b                              *bookScreen
	body                           *page
	grid                           *kit.FieldGrid
	name, address, currency, units *kit.Field
}

func newHousePage(b *bookScreen) *housePage {
	p := &housePage{b: b}
	input := func(part, label string, spec kit.FieldSpec, of func(*desk.House) *string) *kit.Field {
		spec.ID, spec.Label = "house."+part, label
		spec.OnChanged = b.w.guardedText(func(text string) {
			h := b.ledger.House()
			*of(&h) = text
			b.edit(func() { b.ledger.SetHouse(part, h) })
		})
		return kit.NewField(spec)
	}
	p.name = input("name", "Name of the shop", kit.FieldSpec{Wide: true, Hint: "as your papers carry it"}, func(h *desk.House) *string { return &h.Name })
	p.address = input("address", "Address", kit.FieldSpec{Kind: kit.NotesField, Lines: 4, Hint: "with telephone and e-mail, for your papers"}, func(h *desk.House) *string { return &h.Address })
	p.currency = input("currency", "Currency of all rates", kit.FieldSpec{Kind: kit.ChoiceField, Options: money.Codes(), Hint: "another one does not convert them"}, func(h *desk.House) *string { return &h.Currency })
	p.units = input("units", "Units shown", kit.FieldSpec{Kind: kit.ChoiceField, Options: []string{quantity.Metric.String(), quantity.InchPound.String()}, Hint: "a bare number is read in them"}, func(h *desk.House) *string { return &h.Units })
	p.grid = kit.NewFieldGrid(p.name, p.address, p.currency, p.units)
	p.body = newPage(kit.NewHeading("Your shop", "Its name and address for your papers, its money and its units"), p.grid)
	return p
}

func (p *housePage) page() *page { return p.body }
func (p *housePage) focus()      { p.b.w.focusFirst(p.grid) }

func (p *housePage) show() {
	h := p.b.ledger.House()
	p.name.SetText(h.Name)
	p.address.SetText(h.Address)
	p.currency.SetText(h.Currency)
	p.units.SetText(h.Units)
	wrong := ""
	if x, ok := p.b.ledger.Faults().At("book.currency"); ok {
		wrong = x.Short()
	}
	p.currency.SetFault(wrong)
}
