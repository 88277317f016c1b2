package ui

import (
	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/ui/kit"
)

// headPage is the page of what belongs to the commission and to no stage.
type headPage struct {
	q                    *quoteScreen
	body                 *page
	title, client, place *kit.Field
	currency, units      *kit.Field
	idea, recommendation *kit.Field
	refs                 *headRefs
	grid                 *kit.FieldGrid
}

func newHeadPage(q *quoteScreen) *headPage {
	p := &headPage{q: q}
	p.title = p.typed("title", "Title of the work", "", func(c *estimate.Commission) *string { return &c.Title })
	p.client = p.typed("client", "Client", "who commissions it", func(c *estimate.Commission) *string { return &c.Client })
	p.place = p.typed("place", "Place", "where it will stand", func(c *estimate.Commission) *string { return &c.Place })
	p.currency = p.chosen("currency", "Currency", money.Codes(), func(c *estimate.Commission) *string { return &c.Currency })
	p.units = p.chosen("units", "Units shown", []string{quantity.Metric.String(), quantity.InchPound.String()}, func(c *estimate.Commission) *string { return &c.Units })
	p.units.SetHint("typed in any unit all the same")
	p.idea = p.words("idea", "The idea", "what the work is about, for the client")
	p.recommendation = p.words("recommendation", "Our recommendation", "what you would do, and why")
	p.refs = newHeadRefs(q)
	heading := kit.NewField(kit.FieldSpec{ID: "papers", Kind: kit.HeadingField, Label: "For the proposal"})
	p.grid = kit.NewFieldGrid(p.title, p.refs.call, p.client, p.refs.client, p.place, p.refs.site, p.currency, p.units, heading, p.idea, p.recommendation)
	p.body = newPage(kit.NewHeading("Commission", "What it is, for whom, and in which money and units"), p.grid)
	q.w.readPeople(func() {
		p.refs.show()
		p.body.relay()
	})
	return p
}

// change types text into a part of the commission's head.
func (p *headPage) change(name string, of func(*estimate.Commission) *string) func(string) {
	return p.q.w.guardedText(func(text string) {
		p.q.edit(func() { p.q.sheet.Change("head."+name, func(c *estimate.Commission) { *of(c) = text }) })
	})
}

func (p *headPage) typed(id, label, hint string, of func(*estimate.Commission) *string) *kit.Field {
	return kit.NewField(kit.FieldSpec{ID: "head." + id, Label: label, Hint: hint, Wide: true, OnChanged: p.change(id, of)})
}

func (p *headPage) chosen(id, label string, options []string, of func(*estimate.Commission) *string) *kit.Field {
	return kit.NewField(kit.FieldSpec{ID: "head." + id, Kind: kit.ChoiceField, Label: label, Options: options, OnChanged: p.change(id, of)})
}

func (p *headPage) words(part, label, hint string) *kit.Field {
	return kit.NewField(kit.FieldSpec{
		ID: "words." + part, Kind: kit.NotesField, Label: label, Hint: hint, Lines: 5,
		OnChanged: p.q.w.guardedText(func(text string) { p.q.edit(func() { p.q.sheet.SetWords(part, text) }) }),
	})
}

func (p *headPage) page() *page { return p.body }
func (p *headPage) focus()      { p.q.w.focusFirst(p.grid) }

func (p *headPage) show() {
	c, words, book := p.q.sheet.Commission(), p.q.sheet.Quote().Words, p.q.w.desk.Shop()
	p.title.SetText(c.Title)
	p.client.SetText(c.Client)
	p.place.SetText(c.Place)
	choose(p.currency, c.Currency, book.Currency.Code)
	choose(p.units, c.Units, book.System.String())
	p.refs.show()
	p.idea.SetText(words["idea"])
	p.recommendation.SetText(words["recommendation"])
	for where, f := range map[string]*kit.Field{"currency": p.currency, "units": p.units} {
		wrong := ""
		if x, ok := p.q.sheet.Faults().At(where); ok {
			wrong = x.Short()
		}
		f.SetFault(wrong)
	}
}

// choose shows a choice, and what the shop book has where nothing is chosen.
func choose(f *kit.Field, chosen, book string) {
	if chosen == book {
		f.SetDefault("", "")
	} else {
		f.SetDefault(book, "shop book")
	}
	f.SetText(chosen)
}
