package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"meltwright/internal/ui/look"
)

// Choice is one answer to a question.
type Choice struct {
	Text  string
	Style ButtonStyle
	Safe  bool   // has the keyboard at first, and is what Escape answers
	Do    func() // nil only closes the question
}

// Ask asks a question over a window and waits for one of its answers. Body, if
// any, stands between text and answers: fields, a list, a picture.
type Ask struct {
	Title   string
	Text    string
	Body    fyne.CanvasObject
	Choices []Choice

	pop *widget.PopUp
}

// Confirm asks whether to do something that takes something away.
func Confirm(c fyne.Canvas, title, text, do string, act func()) *Ask {
	a := &Ask{Title: title, Text: text, Choices: []Choice{
		{Text: "Cancel", Safe: true},
		{Text: do, Style: Danger, Do: act},
	}}
	a.Show(c)
	return a
}

// Tell says something that has only to be read.
func Tell(c fyne.Canvas, title, text string) *Ask {
	a := &Ask{Title: title, Text: text, Choices: []Choice{{Text: "Close", Style: Primary, Safe: true}}}
	a.Show(c)
	return a
}

// Show asks the question over a canvas.
func (a *Ask) Show(c fyne.Canvas) {
	if a.pop != nil {
		return
	}
	var safe *Button
	var buttons []*Button
	for _, choice := range a.Choices {
		b := NewButton(choice.Text, choice.Style, func() { a.answer(choice) })
		b.OnEscape = a.escape
		if choice.Safe || safe == nil {
			safe = b
		}
		buttons = append(buttons, b)
	}
	a.pop = widget.NewModalPopUp(newCard(a.Title, a.Text, a.Body, buttons, c.Size()), c)
	a.pop.Show()
	if safe != nil {
		c.Focus(safe)
	}
}

// Close takes the question away without an answer.
func (a *Ask) Close() {
	if a.pop != nil {
		a.pop.Hide()
		a.pop = nil
	}
}

func (a *Ask) answer(choice Choice) {
	a.Close()
	if choice.Do != nil {
		choice.Do()
	}
}

// escape gives the safe answer, if there is one.
func (a *Ask) escape() {
	for _, choice := range a.Choices {
		if choice.Safe {
			a.answer(choice)
			return
		}
	}
}

// card is what a question or a progress shows: title, text, a body, and buttons
// at the lower right.
type card struct {
	widget.BaseWidget
	title, text *para
	body        fyne.CanvasObject
	buttons     []*Button
	width       float32
}

// newCard makes a card for a window of that size.
func newCard(title, text string, body fyne.CanvasObject, buttons []*Button, window fyne.Size) *card {
	c := &card{title: newPara(theme.SizeNameSubHeadingText), text: newPara(theme.SizeNameText), body: body, buttons: buttons}
	c.title.say(span{text: title, colour: look.Ink, bold: true})
	c.text.say(span{text: text, colour: look.Ink})
	c.width = min(px(460), window.Width-2*gap(40))
	if body != nil {
		c.width = min(max(px(460), body.MinSize().Width+2*gap(20)), window.Width-2*gap(40))
	}
	c.ExtendBaseWidget(c)
	return c
}

// Held implements Holder.
func (c *card) Held() []fyne.CanvasObject {
	var held []fyne.CanvasObject
	if c.body != nil {
		held = append(held, c.body)
	}
	for _, b := range c.buttons {
		held = append(held, b)
	}
	return held
}

// lay places the parts in a width, and gives the height they take.
func (c *card) lay(width float32) float32 {
	side, y := gap(16), gap(14)
	inner := width - 2*side
	for _, o := range []fyne.CanvasObject{c.title, c.text, c.body} {
		if o == nil {
			continue
		}
		h := heightIn(o, inner)
		put(o, side, y, inner, h)
		if h > 0 {
			y += h + gap(10)
		}
	}
	return c.layButtons(width-side, y+gap(8)) + gap(14)
}

// layButtons puts the buttons in a row that ends at the right, or where they do
// not fit below each other.
func (c *card) layButtons(right, y float32) float32 {
	x, tallest := right, float32(0)
	for i := len(c.buttons) - 1; i >= 0; i-- {
		size := c.buttons[i].MinSize()
		w := max(size.Width, px(84))
		if x-w < gap(16) && x < right {
			x, y = right, y+size.Height+gap(8)
		}
		x -= w
		put(c.buttons[i], x, y, w, size.Height)
		x -= gap(10)
		tallest = max(tallest, size.Height)
	}
	return y + tallest
}

// CreateRenderer implements fyne.Widget.
func (c *card) CreateRenderer() fyne.WidgetRenderer {
	return face{
		objects: func() []fyne.CanvasObject {
			return append([]fyne.CanvasObject{c.title, c.text}, c.Held()...)
		},
		layout: func(s fyne.Size) { c.lay(s.Width) },
		min:    func() fyne.Size { return fyne.NewSize(c.width, c.lay(max(c.width, c.Size().Width))) },
		refresh: func() {
			for _, o := range append([]fyne.CanvasObject{c.title, c.text}, c.Held()...) {
				o.Refresh()
			}
			c.lay(c.Size().Width)
			canvas.Refresh(c)
		},
	}
}
