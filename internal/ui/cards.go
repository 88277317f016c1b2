package ui

import (
	"context"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/quantity"
	"meltwright/internal/quote"
	"meltwright/internal/ui/kit"
	"meltwright/internal/ui/look"
)

// The lists of the screen of clients and calls.
const (
	clientCards = iota
	callCards
	goneClients
	goneCalls
)

// cardsScreen lists clients and calls, and those that were removed.
type cardsScreen struct {
	w       *Window
	bar     *kit.TopBar
	which   *tabs
	list    *kit.FilterList
	sheet   *kit.Sheet
	shown   int // which list
	clients []quote.Client
	calls   []quote.Call
	turn    int // counted up by every reading: earlier answers are dropped
}

// showCards shows clients and calls.
func (w *Window) showCards() {
	if w.desk != nil {
		w.show(newCardsScreen(w, clientCards))
	}
}

func newCardsScreen(w *Window, shown int) *cardsScreen {
	c := &cardsScreen{w: w, bar: kit.NewTopBar(), shown: shown, list: kit.NewFilterList("Search names, people, places, notes")}
	c.which = newTabs(w.guardedNumber(c.choose))
	c.list.OnFilter = w.guardedText(func(string) { c.reload() })
	c.list.OnOpen = w.guardedNumber(c.open)
	c.bar.SetTitle("Clients and calls", "for whom you work, and what you may offer for")
	c.bar.SetBack(w.guarded(w.showList))
	body := &fyne.Container{Layout: topAndRest{}, Objects: []fyne.CanvasObject{kit.NewPadded(0, 6, c.which), c.list}}
	c.sheet = kit.NewSheet(c.bar, nil, kit.NewPadded(28, 14, body), nil)
	c.head()
	return c
}

func (c *cardsScreen) content() fyne.CanvasObject { return c.sheet }
func (c *cardsScreen) leave()                     {}
func (c *cardsScreen) arrive() {
	c.w.seek(c.list)
	c.reload()
}

func (c *cardsScreen) offers() offers { return offers{find: c.list.Focus, remove: c.remove} }

func (c *cardsScreen) gone() bool    { return c.shown == goneClients || c.shown == goneCalls }
func (c *cardsScreen) ofCalls() bool { return c.shown == callCards || c.shown == goneCalls }

// head writes the bar for the list that is shown.
func (c *cardsScreen) head() {
	c.which.show([]string{"Clients", "Calls", "Removed clients", "Removed calls"}, c.shown)
	g := c.w.guarded
	if c.gone() {
		c.bar.SetActions(kit.Action{Text: "Bring back", Icon: theme.IconNameContentUndo, Primary: true, Do: g(func() { c.open(c.list.Selected()) })})
		return
	}
	newClient := kit.Action{Text: "New client", Icon: theme.IconNameContentAdd, Primary: !c.ofCalls(), Do: g(func() { c.w.show(newClientScreen(c.w, quote.Client{})) })}
	newCall := kit.Action{Text: "New call", Icon: theme.IconNameContentAdd, Primary: c.ofCalls(), Do: g(func() { c.w.show(newCallScreen(c.w, quote.Call{})) })}
	actions := []kit.Action{{Text: "Remove", Do: g(c.remove)}, newCall, newClient}
	if c.ofCalls() {
		actions = []kit.Action{{Text: "Remove", Do: g(c.remove)}, newClient, newCall}
	}
	c.bar.SetActions(actions...)
}

// choose shows another of the lists.
func (c *cardsScreen) choose(which int) {
	c.shown = which
	c.head()
	c.reload()
}

// reload reads the list that is shown.
func (c *cardsScreen) reload() {
	c.turn++
	turn, d, words, calls, gone := c.turn, c.w.desk, c.list.Search(), c.ofCalls(), c.gone()
	c.w.do(func() func() {
		var err error
		var who []quote.Client
		var what []quote.Call
		if calls {
			what, err = d.Calls(context.Background(), words, gone)
		} else {
			who, err = d.Clients(context.Background(), words, gone)
		}
		return func() {
			if turn == c.turn {
				c.found(who, what, err)
			}
		}
	})
}

func (c *cardsScreen) found(clients []quote.Client, calls []quote.Call, err error) {
	if err != nil {
		c.w.tell("They cannot be read", sentence(err))
		return
	}
	c.clients, c.calls = clients, calls
	n, word := len(clients), "client"
	if c.ofCalls() {
		n, word = len(calls), "call"
	}
	c.list.SetRows(n, c.row, counted(n, word), c.none())
	if n > 0 {
		c.list.Select(0)
	}
}

// none is what an empty list says.
func (c *cardsScreen) none() string {
	switch {
	case strings.TrimSpace(c.list.Search()) != "":
		return "Nothing here has “" + strings.TrimSpace(c.list.Search()) + "”."
	case c.gone():
		return "Nothing was removed."
	case c.ofCalls():
		return "No calls yet. A call has a deadline and a budget; the list of quotes reminds you of it for two weeks before."
	}
	return "No clients yet. A client has people, sites and quotes; choose it on a quote's first page."
}

func (c *cardsScreen) row(i int) kit.ListRow {
	if c.ofCalls() {
		return c.callRow(c.calls[i])
	}
	x := c.clients[i]
	row := kit.ListRow{Title: x.Name, Subtitle: strung(x.Contact, x.Email, x.Phone)}
	if n := len(x.Sites); n > 0 {
		row.Amount = counted(n, "site")
	}
	return row
}

func (c *cardsScreen) callRow(x quote.Call) kit.ListRow {
	row := kit.ListRow{Title: x.Title, Subtitle: strung(c.w.people.client(x.Client).Name, x.Site, x.Budget), Amount: x.Deadline}
	if x.Due.IsZero() {
		return row
	}
	row.Amount = day(x.Due)
	switch n := c.w.desk.DaysUntil(x.Due); {
	case n < 0:
		row.State = "over"
	case n <= 14:
		row.State, row.Tone = c.w.awayFrom(x.Due), look.Bad
	default:
		row.State = quantity.Number(float64(n), 0) + " days"
	}
	return row
}

// open opens a card, or brings one back that was removed.
func (c *cardsScreen) open(i int) {
	switch {
	case i < 0 || c.ofCalls() && i >= len(c.calls) || !c.ofCalls() && i >= len(c.clients):
		c.w.say("Mark one first.")
	case c.shown == goneClients:
		c.w.bringBackClient(c.clients[i])
	case c.shown == goneCalls:
		c.w.bringBackCall(c.calls[i])
	case c.ofCalls():
		c.w.show(newCallScreen(c.w, c.calls[i]))
	default:
		c.w.show(newClientScreen(c.w, c.clients[i]))
	}
}

// remove removes the marked one, with a way back.
func (c *cardsScreen) remove() {
	i := c.list.Selected()
	switch {
	case i < 0 || c.gone():
		c.w.say("Mark one first.")
	case c.ofCalls():
		c.w.removeCall(c.calls[i])
	default:
		c.w.removeClient(c.clients[i])
	}
}

func (w *Window) removeClient(x quote.Client) {
	w.lay(func(ctx context.Context) error { return w.desk.DeleteClient(ctx, x.ID) }, clientCards, func() {
		w.offer(fmt.Sprintf("“%s” is removed from the list; its quotes stay.", x.Name), "Bring back", func() { w.bringBackClient(x) })
	})
}

func (w *Window) bringBackClient(x quote.Client) {
	w.lay(func(ctx context.Context) error { return w.desk.RestoreClient(ctx, x.ID) }, clientCards, func() { w.say("“" + x.Name + "” is back.") })
}

func (w *Window) removeCall(x quote.Call) {
	w.lay(func(ctx context.Context) error { return w.desk.DeleteCall(ctx, x.ID) }, callCards, func() {
		w.offer(fmt.Sprintf("“%s” is removed from the list; its quotes stay.", x.Title), "Bring back", func() { w.bringBackCall(x) })
	})
}

func (w *Window) bringBackCall(x quote.Call) {
	w.lay(func(ctx context.Context) error { return w.desk.RestoreCall(ctx, x.ID) }, callCards, func() { w.say("“" + x.Title + "” is back.") })
}

// lay removes a card or brings it back, and shows the list that it is on.
func (w *Window) lay(do func(context.Context) error, list int, then func()) {
	w.do(func() func() {
		err := do(context.Background())
		return func() {
			if err != nil {
				w.tell("That was not done", sentence(err))
				return
			}
			w.readPeople(nil)
			w.show(newCardsScreen(w, list))
			then()
		}
	})
}
