package ui

import (
	"errors"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/quote"
	"meltwright/internal/ui/kit"
)

// alarm is a bar over every screen that says what could not be kept, for as
// long as that is so, with what can be done about it; or that nothing is kept,
// because the store was opened to read only.
type alarm struct {
	w      *Window
	box    *kit.CautionBox
	button *kit.Button
	other  *kit.Button // a second way on, where there is one
	bar    *fyne.Container
}

func newAlarm(w *Window) *alarm {
	a := &alarm{w: w, box: kit.NewCautionBox(kit.Caution{Kind: kit.CautionWarn})}
	a.button = kit.NewButton("Try again", kit.Plain, nil)
	a.other = kit.NewButton("", kit.Plain, nil)
	a.bar = &fyne.Container{Layout: alarmLayout{}, Objects: []fyne.CanvasObject{a.box, a.button, a.other}}
	a.bar.Hide()
	return a
}

// show says that k could not be kept; nil takes the bar away.
func (a *alarm) show(k *keeping) {
	if a.w.readOnly {
		text := "Opened to read only: what you change here is not kept in this file."
		if k != nil {
			text += a.w.sheltered(k)
		}
		a.box.Set(kit.Caution{Text: text})
		a.button.Hide()
		a.other.Hide()
		a.bar.Show()
		a.w.frame.Refresh()
		return
	}
	a.button.Show()
	if k == nil {
		if a.bar.Visible() {
			a.bar.Hide()
			a.w.frame.Refresh()
		}
		return
	}
	a.other.Hide()
	text := "Not kept yet: " + k.subject.name() + ". " + sentence(k.err) + " Nothing you typed is lost; it is tried again by itself." + a.w.sheltered(k)
	a.button.SetText("Try again")
	a.button.OnTapped = a.w.guarded(k.now)
	if d, ok := k.subject.(disputed); ok && errors.Is(k.err, quote.ErrOutdated) {
		text = "Not kept: " + k.subject.name() + " was changed in another window since it was opened here. What you typed is still here; choose which is to stand."
		mine, theirs := d.mine(), d.theirs()
		a.way(a.button, mine)
		a.way(a.other, theirs)
		a.other.Show()
	}
	a.box.Set(kit.Caution{Kind: kit.CautionWarn, Text: text})
	a.bar.Show()
	a.w.frame.Refresh()
}

// way has a button offer a way on.
func (a *alarm) way(b *kit.Button, w wayOn) {
	b.SetText(w.text)
	b.OnTapped = a.w.guarded(w.do)
}

// disputed is a subject that may have been changed elsewhere: what was typed here
// can be kept, or what was kept elsewhere taken.
type disputed interface {
	mine() wayOn
	theirs() wayOn
}

// wayOn is a button and what it does.
type wayOn struct {
	text string
	do   func()
}

// alarmLayout puts the buttons at the right of the text, which takes what height
// it needs.
type alarmLayout struct{}

// parts gives the text its width; it tells how large that and the buttons are.
func (alarmLayout) parts(objects []fyne.CanvasObject, width float32) (box, buttons fyne.Size) {
	for _, b := range objects[1:] {
		if b.Visible() {
			buttons.Width += b.MinSize().Width + theme.Padding()
			buttons.Height = max(buttons.Height, b.MinSize().Height)
		}
	}
	room := width - buttons.Width - 2*theme.Padding()
	objects[0].Resize(fyne.NewSize(room, objects[0].MinSize().Height))
	return fyne.NewSize(room, max(objects[0].MinSize().Height, buttons.Height)), buttons
}

func (l alarmLayout) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	box, buttons := l.parts(objects, s.Width)
	pad := theme.Padding()
	objects[0].Move(fyne.NewPos(pad, pad))
	objects[0].Resize(box)
	x := box.Width + 2*pad
	for _, b := range objects[1:] {
		if b.Visible() {
			b.Move(fyne.NewPos(x, pad+(box.Height-buttons.Height)/2))
			b.Resize(b.MinSize())
			x += b.MinSize().Width + pad
		}
	}
}

func (l alarmLayout) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(200, l.heightIn(objects, max(objects[0].Size().Width, 400)))
}

func (l alarmLayout) heightIn(objects []fyne.CanvasObject, width float32) float32 {
	box, _ := l.parts(objects, width)
	return box.Height + 2*theme.Padding()
}

// frameLayout stacks the alarm, where there is one, over the screen.
type frameLayout struct{}

func (frameLayout) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	top := float32(0)
	if bar := objects[0].(*fyne.Container); bar.Visible() {
		top = alarmLayout{}.heightIn(bar.Objects, s.Width)
		bar.Move(fyne.NewPos(0, 0))
		bar.Resize(fyne.NewSize(s.Width, top))
	}
	for _, o := range objects[1:] {
		o.Move(fyne.NewPos(0, top))
		o.Resize(fyne.NewSize(s.Width, s.Height-top))
	}
}

func (frameLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(640, 420) }
