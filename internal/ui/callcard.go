package ui

import (
	"context"

	"meltwright/internal/desk"
	"meltwright/internal/fault"
	"meltwright/internal/quote"
	"meltwright/internal/ui/kit"
)

// callScreen is one call: whose it is, when it closes, what there is to spend.
type callScreen struct {
	cardScreen[quote.Call]
	name, site, deadline, budget, link, notes *kit.Field
	client                                    *kit.Field
	begin                                     *kit.Button
}

func newCallScreen(w *Window, is quote.Call) *callScreen {
	c := &callScreen{}
	c.w, c.list, c.store, c.lookUp = w, callCards, w.desk.KeepCall, c.find
	c.title = func(x quote.Call) string { return nameOr(x.Title, "Unnamed call") }
	text := func(id, label, hint string, of func(*quote.Call) *string) *kit.Field {
		return c.typed(kit.FieldSpec{ID: "call." + id, Label: label, Hint: hint, Wide: true}, of)
	}
	c.name = text("title", "Title", "as it was published", func(x *quote.Call) *string { return &x.Title })
	c.client = kit.NewField(kit.FieldSpec{
		ID: "call.client", Kind: kit.ChoiceField, Label: "Whose call", Default: "nobody on the list", Wide: true,
		OnChanged: w.guardedText(c.chooseClient),
	})
	c.site = text("site", "Site", "where the work is to stand", func(x *quote.Call) *string { return &x.Site })
	c.deadline = c.typed(kit.FieldSpec{ID: "call.deadline", Label: "Deadline", Wide: true, Understand: w.understandDay("Deadline")}, func(x *quote.Call) *string { return &x.Deadline })
	c.budget = c.typed(kit.FieldSpec{ID: "call.budget", Label: "Budget", Understand: w.understandMoney}, func(x *quote.Call) *string { return &x.Budget })
	c.link = text("link", "Published at", "an address, or a paper's name", func(x *quote.Call) *string { return &x.Link })
	c.notes = c.typed(kit.FieldSpec{ID: "call.notes", Kind: kit.NotesField, Label: "Notes", Lines: 6, Hint: "what they ask for"}, func(x *quote.Call) *string { return &x.Notes })
	c.grid = kit.NewFieldGrid(c.name, c.client, c.site, c.deadline, c.budget, c.link, c.notes)
	c.begin = kit.NewButton("New quote for it", kit.Plain, w.guarded(func() { c.whenKept(c.newQuote) }))
	c.fill = c.fillIn
	c.cardScreen.begin(w, is, kit.NewHeading("Call", "The list of quotes reminds you of its deadline for two weeks before. What is typed here is kept by itself"), c.grid, leading(c.begin))
	w.readPeople(c.show)
	return c
}

// understandDay says which day a text means.
func (w *Window) understandDay(name string) func(string) (echo, wrong string) {
	return func(text string) (string, string) {
		if bare(text) == "" {
			return "", ""
		}
		t, err := desk.ReadDate(name, text)
		if err != nil {
			return "", fault.All(err)[0].Short()
		}
		return "= " + t.Format("Monday 2 January 2006") + ", " + w.awayFrom(t), ""
	}
}

// understandMoney says which sum a text means, in the shop's currency.
func (w *Window) understandMoney(text string) (echo, wrong string) {
	if bare(text) == "" {
		return "", ""
	}
	c := w.desk.Shop().Currency
	a, err := c.Parse(text)
	if err != nil {
		return "", fault.All(err)[0].Short()
	}
	return "= " + c.Print(a, locale), ""
}

func (c *callScreen) chooseClient(name string) {
	id := quote.ClientID(0)
	if i := placeOf(c.w.people.clientNames(), name); i >= 0 {
		id = c.w.people.clients[i].ID
	}
	c.edit("", func(x *quote.Call) { x.Client = id })
}

// fillIn shows the call.
func (c *callScreen) fillIn() {
	x := c.card.Is()
	c.bar.SetTitle(c.title(x), strung(c.w.people.client(x.Client).Name, x.Deadline, x.Budget))
	c.client.SetOptions(c.w.people.clientNames())
	c.client.SetText(c.w.people.clientName(x.Client))
	for f, text := range map[*kit.Field]string{c.name: x.Title, c.site: x.Site, c.deadline: x.Deadline, c.budget: x.Budget, c.link: x.Link, c.notes: x.Notes} {
		f.SetText(text)
	}
}

// newQuote begins a quote that answers the call.
func (c *callScreen) newQuote() {
	x := c.card.Is()
	s := c.w.desk.PutNew()
	s.SetCall(x, c.w.people.client(x.Client))
	c.w.show(newQuoteScreen(c.w, s))
}

// openCall opens a call by its place in the store.
func (w *Window) openCall(id quote.CallID) {
	d := w.desk
	w.do(func() func() {
		all, err := d.Calls(context.Background(), "", false)
		return func() {
			if err != nil {
				w.tell("This call cannot be opened", sentence(err))
				return
			}
			for _, c := range all {
				if c.ID == id {
					w.show(newCallScreen(w, c))
				}
			}
		}
	})
}
