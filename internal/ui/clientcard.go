package ui

import (
	"slices"

	"meltwright/internal/quote"
	"meltwright/internal/ui/kit"
)

// clientScreen is one client: how to reach it, who is there, which sites it has,
// and its quotes.
type clientScreen struct {
	cardScreen[quote.Client]
	name, contact, email, phone, address, notes *kit.Field
	people, sites                               *rowsEditor
	person                                      [4]*kit.Field // name, role, email, phone
	site                                        [3]*kit.Field // name, address, access
	quotes, begin                               *kit.Button
}

func newClientScreen(w *Window, is quote.Client) *clientScreen {
	c := &clientScreen{}
	c.w, c.list, c.store, c.lookUp = w, clientCards, w.desk.KeepClient, c.find
	c.title = func(x quote.Client) string { return nameOr(x.Name, "Unnamed client") }
	text := func(id, label, hint string, of func(*quote.Client) *string) *kit.Field {
		return c.typed(kit.FieldSpec{ID: "client." + id, Label: label, Hint: hint, Wide: true}, of)
	}
	c.name = text("name", "Name", "the body or the person, as papers carry it", func(x *quote.Client) *string { return &x.Name })
	c.contact = text("contact", "Whom to ask for", "", func(x *quote.Client) *string { return &x.Contact })
	c.email = text("email", "E-mail", "", func(x *quote.Client) *string { return &x.Email })
	c.phone = text("phone", "Telephone", "", func(x *quote.Client) *string { return &x.Phone })
	c.address = c.typed(kit.FieldSpec{ID: "client.address", Kind: kit.NotesField, Label: "Address"}, func(x *quote.Client) *string { return &x.Address })
	c.notes = c.typed(kit.FieldSpec{ID: "client.notes", Kind: kit.NotesField, Label: "Notes", Lines: 4, Hint: "for yourselves; on no paper"}, func(x *quote.Client) *string { return &x.Notes })
	c.grid = kit.NewFieldGrid(c.name, c.contact, c.email, c.phone, c.address, c.notes)
	c.quotes = kit.NewButton("Its quotes", kit.Plain, w.guarded(func() { c.whenKept(c.showQuotes) }))
	c.begin = kit.NewButton("New quote for it", kit.Plain, w.guarded(func() { c.whenKept(c.newQuote) }))
	c.people, c.sites = c.peopleRows(), c.siteRows()
	c.fill = c.fillIn
	c.cardScreen.begin(w, is,
		kit.NewHeading("Client", "What is typed here is kept by itself"), c.grid, leading(c.quotes, c.begin),
		kit.NewHeading("", "People: others to talk to there"), c.people.table, c.people.grid, c.people.buttons,
		kit.NewHeading("", "Sites: places of theirs, and what a crane and a crew have to know"), c.sites.table, c.sites.grid, c.sites.buttons,
	)
	return c
}

func nameOr(name, other string) string {
	if name == "" {
		return other
	}
	return name
}

// peopleRows edits the people of the client.
func (c *clientScreen) peopleRows() *rowsEditor {
	of := []struct {
		id, label string
		at        func(*quote.Person) *string
	}{
		{"name", "Name", func(p *quote.Person) *string { return &p.Name }},
		{"role", "What they do", func(p *quote.Person) *string { return &p.Role }},
		{"email", "E-mail", func(p *quote.Person) *string { return &p.Email }},
		{"phone", "Telephone", func(p *quote.Person) *string { return &p.Phone }},
	}
	for i, x := range of {
		c.person[i] = rowField(&c.cardScreen, "person."+x.id, x.label, func() int { return c.people.chosen }, func(y *quote.Client) *[]quote.Person { return &y.People }, x.at)
	}
	r := cardRows(&c.cardScreen, c.person[:], func(y *quote.Client) *[]quote.Person { return &y.People }, "Add a person", "Remove this person")
	r.table.SetHeads("Person", "", "", "")
	return r
}

// siteRows edits the sites of the client.
func (c *clientScreen) siteRows() *rowsEditor {
	of := []struct {
		id, label string
		at        func(*quote.Site) *string
	}{
		{"name", "Name", func(p *quote.Site) *string { return &p.Name }},
		{"address", "Where", func(p *quote.Site) *string { return &p.Address }},
		{"access", "Access", func(p *quote.Site) *string { return &p.Access }},
	}
	for i, x := range of {
		c.site[i] = rowField(&c.cardScreen, "site."+x.id, x.label, func() int { return c.sites.chosen }, func(y *quote.Client) *[]quote.Site { return &y.Sites }, x.at)
	}
	r := cardRows(&c.cardScreen, c.site[:], func(y *quote.Client) *[]quote.Site { return &y.Sites }, "Add a site", "Remove this site")
	r.table.SetHeads("Site", "", "", "")
	return r
}

// rowField is a field of the chosen row of a list that a client has.
func rowField[R any](c *cardScreen[quote.Client], id, label string, chosen func() int, list func(*quote.Client) *[]R, at func(*R) *string) *kit.Field {
	return kit.NewField(kit.FieldSpec{ID: id, Label: label, Wide: true, OnChanged: c.w.guardedText(func(text string) {
		c.edit(id, func(x *quote.Client) {
			rows := slices.Clone(*list(x))
			*at(&rows[chosen()]) = text
			*list(x) = rows
		})
	})})
}

// cardRows edits a list that a client has.
func cardRows[R any](c *cardScreen[quote.Client], fields []*kit.Field, list func(*quote.Client) *[]R, add, remove string) *rowsEditor {
	a := rowActions{
		add: func() (n int) {
			c.card.Change("", func(x *quote.Client) {
				n = len(*list(x))
				var row R
				*list(x) = append(slices.Clone(*list(x)), row)
			})
			return n
		},
		remove: func(i int) {
			c.card.Change("", func(x *quote.Client) { *list(x) = slices.Delete(slices.Clone(*list(x)), i, i+1) })
		},
		addText: add, removeText: remove,
	}
	return newRowsEditor(c.w, kit.NewFieldGrid(fields...), a, func(do func()) {
		do()
		c.show()
		c.kept.changed()
	}, func() { c.show() })
}

// fillIn shows the client.
func (c *clientScreen) fillIn() {
	x := c.card.Is()
	c.bar.SetTitle(c.title(x), joined(x.Contact, x.Email))
	for f, text := range map[*kit.Field]string{c.name: x.Name, c.contact: x.Contact, c.email: x.Email, c.phone: x.Phone, c.address: x.Address, c.notes: x.Notes} {
		f.SetText(text)
	}
	var people, sites []kit.Line
	for _, p := range x.People {
		people = append(people, kit.Line{Name: joined(nameOr(p.Name, "No name yet"), p.Role), Cost: nameOr(p.Email, p.Phone)})
	}
	for _, p := range x.Sites {
		sites = append(sites, kit.Line{Name: joined(nameOr(p.Name, "No name yet"), p.Address)})
	}
	if c.people.show(people) {
		p := x.People[c.people.chosen]
		setTexts(c.person[:], p.Name, p.Role, p.Email, p.Phone)
	}
	if c.sites.show(sites) {
		p := x.Sites[c.sites.chosen]
		setTexts(c.site[:], p.Name, p.Address, p.Access)
	}
}

func setTexts(fields []*kit.Field, texts ...string) {
	for i, f := range fields {
		f.SetText(texts[i])
	}
}

// showQuotes lists the client's quotes.
func (c *clientScreen) showQuotes() {
	if c.card.Is().ID == 0 {
		c.w.say("It has no quotes yet.")
		return
	}
	l := c.w.list
	l.bin = false
	l.list.SetSearch("")
	l.order.clear()
	l.order.choose(c.card.Is())
	c.w.show(l)
}

// newQuote begins a quote for the client.
func (c *clientScreen) newQuote() {
	s := c.w.desk.PutNew()
	s.SetClient(c.card.Is())
	c.w.show(newQuoteScreen(c.w, s))
}
