package ui

import (
	"fyne.io/fyne/v2"

	"meltwright/internal/ui/kit"
)

// page is the middle of a screen: parts below each other in a scroll. Its parts
// come, go and change height as somebody types; relay then places them anew.
type page struct {
	scroll *kit.FocusScroll
	column *fyne.Container
}

func newPage(parts ...fyne.CanvasObject) *page {
	p := &page{scroll: kit.NewPage(parts...)}
	p.column = p.scroll.Content().(*fyne.Container).Objects[0].(*fyne.Container)
	return p
}

// relay places the parts after some of them changed height.
func (p *page) relay() {
	p.column.Layout.Layout(p.column.Objects, p.column.Size())
	p.scroll.Refresh()
}

// show makes a part visible or not.
func show(o fyne.CanvasObject, on bool) {
	if on {
		o.Show()
	} else {
		o.Hide()
	}
}
