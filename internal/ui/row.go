package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// leading puts objects at the left of a row, as wide as they need to be, on more
// lines where they do not fit.
func leading(objects ...fyne.CanvasObject) *fyne.Container {
	return &fyne.Container{Layout: &row{}, Objects: objects}
}

// row is leading's layout. It remembers its width, because Fyne asks for a least
// height without giving one. Hidden objects take no room.
type row struct{ width float32 }

// place gives every object its place and says how high they all stand.
func (r *row) place(objects []fyne.CanvasObject, put func(o fyne.CanvasObject, x, y float32)) float32 {
	x, y, h := float32(0), float32(0), float32(0)
	for _, o := range objects {
		if !o.Visible() {
			continue
		}
		size := o.MinSize()
		if x > 0 && r.width > 0 && x+size.Width > r.width {
			x, y = 0, y+h+theme.Padding()
		}
		put(o, x, y)
		h = max(h, size.Height)
		x += size.Width + 2*theme.Padding()
	}
	return y + h
}

// Layout implements fyne.Layout.
func (r *row) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	r.width = s.Width
	r.place(objects, func(o fyne.CanvasObject, x, y float32) {
		o.Move(fyne.NewPos(x, y))
		o.Resize(o.MinSize())
	})
}

// MinSize implements fyne.Layout.
func (r *row) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(60, r.place(objects, func(fyne.CanvasObject, float32, float32) {}))
}
