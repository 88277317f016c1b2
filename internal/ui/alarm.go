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
	bar    *fyne.Container
}

func newAlarm(w *Window) *alarm {
	a := &alarm{w: w, box: kit.NewCautionBox(kit.Caution{Kind: kit.CautionWarn})}
	a.button = kit.NewButton("Try again", kit.Plain, nil)
	a.bar = &fyne.Container{Layout: alarmLayout{}, Objects: []fyne.CanvasObject{a.box, a.button}}
	a.bar.Hide()
	return a
}

// show says that k could not be kept; nil takes the bar away.
func (a *alarm) show(k *keeping) {
	if a.w.readOnly {
		a.box.Set(kit.Caution{Text: "Opened to read only: what you change here is not kept."})
		a.button.Hide()
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
	text := "Not kept yet: " + k.subject.name() + ". " + sentence(k.err) + " Nothing you typed is lost; it is tried again by itself."
	a.button.SetText("Try again")
	a.button.OnTapped = a.w.guarded(k.now)
	if errors.Is(k.err, quote.ErrOutdated) {
		text = "Not kept: " + k.subject.name() + " was changed in another window since it was opened here. Keep what you see as a copy, or go back to the list and open it anew."
		if p, ok := k.subject.(parting); ok {
			a.button.SetText("Keep as a copy")
			a.button.OnTapped = a.w.guarded(func() {
				p.part()
				k.err = nil
				k.now()
			})
		}
	}
	a.box.Set(kit.Caution{Kind: kit.CautionWarn, Text: text})
	a.bar.Show()
	a.w.frame.Refresh()
}

// parting is a subject that can become a copy of its own.
type parting interface{ part() }

// alarmLayout puts the button at the right of the text, which takes what height
// it needs.
type alarmLayout struct{}

func (alarmLayout) parts(objects []fyne.CanvasObject, width float32) (box, button fyne.Size) {
	if objects[1].Visible() {
		button = objects[1].MinSize()
	}
	room := width - button.Width - 3*theme.Padding()
	objects[0].Resize(fyne.NewSize(room, objects[0].MinSize().Height))
	return fyne.NewSize(room, max(objects[0].MinSize().Height, button.Height)), button
}

func (l alarmLayout) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	box, button := l.parts(objects, s.Width)
	pad := theme.Padding()
	objects[0].Move(fyne.NewPos(pad, pad))
	objects[0].Resize(box)
	objects[1].Move(fyne.NewPos(box.Width+2*pad, pad+(box.Height-button.Height)/2))
	objects[1].Resize(button)
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
