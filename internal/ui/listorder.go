package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/quote"
	"meltwright/internal/ui/kit"
	"meltwright/internal/ui/look"
)

// anyState and changedFirst are how a list stands where nobody chose.
const (
	anyState     = "In any state"
	changedFirst = "Last changed first"
)

// orderWords are the other orders of a list.
var orderWords = map[quote.Order]string{
	quote.ByNumber: "Last begun first", quote.ByClient: "By client, A to Z",
	quote.ByPrice: "Dearest first", quote.ByDeadline: "Next deadline first",
}

// listOrder is what the list of quotes is filtered and sorted by, besides words.
type listOrder struct {
	state, order *kit.Picker
	everyone     *kit.Button // takes the client away
	of           quote.Client
	row          *fyne.Container
}

func newListOrder(w *Window, changed func()) *listOrder {
	o := &listOrder{}
	states, orders := []string{}, []string{}
	for _, s := range quote.States() {
		states = append(states, capital(string(s)))
	}
	for _, x := range quote.Orders()[1:] {
		orders = append(orders, orderWords[x])
	}
	o.state, o.order = kit.NewPicker(states), kit.NewPicker(orders)
	o.state.SetStanding(anyState)
	o.order.SetStanding(changedFirst)
	o.state.OnChanged = w.guardedText(func(string) { changed() })
	o.order.OnChanged = w.guardedText(func(string) { changed() })
	o.everyone = kit.NewButton("", kit.Plain, w.guarded(func() {
		o.choose(quote.Client{})
		changed()
	}))
	o.everyone.Hide()
	o.row = leading(ringed(190, o.state), ringed(220, o.order), o.everyone)
	return o
}

// choose lists the quotes of one client alone, or of everyone.
func (o *listOrder) choose(c quote.Client) {
	o.of = c
	o.everyone.SetText("Only " + c.Name + ": show everyone's")
	show(o.everyone, c.ID != 0)
}

// clear takes every filter away; the order stays.
func (o *listOrder) clear() {
	o.choose(quote.Client{})
	o.state.Choose("")
}

// narrow puts what was chosen into a filter.
func (o *listOrder) narrow(f quote.Filter) quote.Filter {
	for _, s := range quote.States() {
		if o.state.Choice() == capital(string(s)) {
			f.State = s
		}
	}
	for x, words := range orderWords {
		if o.order.Choice() == words {
			f.Order = x
		}
	}
	f.Client = o.of.ID
	return f
}

// narrowed tells whether anything but words keeps quotes off the list.
func (o *listOrder) narrowed() bool { return o.state.Choice() != "" || o.of.ID != 0 }

// ringed gives a picker a width of its own, and a ring while it has the keyboard.
func ringed(width float32, p *kit.Picker) fyne.CanvasObject {
	ring := &canvas.Rectangle{StrokeWidth: 2, CornerRadius: 5}
	ring.Hide()
	p.OnFocus = func(focused bool) {
		ring.StrokeColor = theme.Color(look.Accent)
		show(ring, focused)
	}
	return &fyne.Container{Layout: ringLayout(width), Objects: []fyne.CanvasObject{p, ring}}
}

// ringLayout is a width at plain text size.
type ringLayout float32

func (ringLayout) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	for _, o := range objects {
		o.Move(fyne.NewPos(0, 0))
		o.Resize(s)
	}
}

func (w ringLayout) MinSize(objects []fyne.CanvasObject) fyne.Size {
	least := objects[0].MinSize()
	return fyne.NewSize(max(least.Width, float32(w)*theme.TextSize()/14), least.Height)
}
