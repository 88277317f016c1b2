package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/quote"
	"meltwright/internal/ui/kit"
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
	o.row = leading(atWidth(190, o.state), atWidth(220, o.order), o.everyone)
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

// atWidth gives an object a width of its own.
func atWidth(width float32, o fyne.CanvasObject) fyne.CanvasObject {
	return &fyne.Container{Layout: fixedWidth(width), Objects: []fyne.CanvasObject{o}}
}

type fixedWidth float32

func (w fixedWidth) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	objects[0].Move(fyne.NewPos(0, 0))
	objects[0].Resize(s)
}

func (w fixedWidth) MinSize(objects []fyne.CanvasObject) fyne.Size {
	least := objects[0].MinSize()
	return fyne.NewSize(max(least.Width, float32(w)*theme.TextSize()/14), least.Height)
}
