package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/ui/kit"
)

// fold is a part of a page that is folded away behind a button which says what
// is in it. It is open as long as something in it is wrong.
type fold struct {
	name     string
	button   *kit.Button
	line     *fyne.Container // the button's row
	body     fyne.CanvasObject
	open     bool
	onToggle func()
}

func newFold(w *Window, name string, body fyne.CanvasObject, onToggle func()) *fold {
	f := &fold{name: name, body: body, onToggle: onToggle}
	f.button = kit.NewButton(name, kit.Quiet, w.guarded(f.toggle)).WithIcon(theme.IconNameMenuExpand)
	f.line = leading(f.button)
	body.Hide()
	return f
}

// parts are what goes into the page's column.
func (f *fold) parts() []fyne.CanvasObject {
	return []fyne.CanvasObject{f.line, f.body}
}

func (f *fold) toggle() { f.set(!f.open) }

func (f *fold) set(open bool) {
	if f.open == open {
		return
	}
	f.open = open
	show(f.body, open)
	icon := theme.IconNameMenuExpand
	if open {
		icon = theme.IconNameArrowDropDown
	}
	f.button.WithIcon(icon)
	f.button.Refresh()
	f.onToggle()
}

// say writes how much is in the fold and how much of it was changed; a fold of
// nothing is not there. Something wrong in it opens it.
func (f *fold) say(all, changed, wrong int) {
	text := fmt.Sprintf("%s (%d)", f.name, all)
	if changed > 0 {
		text += fmt.Sprintf(" · %d changed here", changed)
	}
	f.button.SetText(text)
	show(f.line, all > 0)
	if wrong > 0 {
		f.set(true)
	}
	show(f.body, f.open && all > 0)
}
