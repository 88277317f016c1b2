package kit

import (
	"fyne.io/fyne/v2"
)

// fitter is a part whose height depends on its width.
type fitter interface{ heightFor(width float32) float32 }

// heightIn is the height that an object takes in a width.
func heightIn(o fyne.CanvasObject, width float32) float32 {
	if f, ok := o.(fitter); ok {
		return f.heightFor(width)
	}
	return o.MinSize().Height
}

// NewColumn stacks objects, each as wide as the column and as high as it then
// needs to be, with a space between: the body of a screen, inside a FocusScroll.
func NewColumn(space float32, objects ...fyne.CanvasObject) *fyne.Container {
	return &fyne.Container{Layout: &column{space: space}, Objects: objects}
}

// column is NewColumn's layout; it remembers its width, because Fyne asks for a
// least height without giving one.
type column struct {
	space, width float32
}

func (c *column) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	c.width = s.Width
	var y float32
	for _, o := range objects {
		if o.Visible() {
			h := heightIn(o, s.Width)
			put(o, 0, y, s.Width, h)
			y += h + gap(c.space)
		}
	}
}

func (c *column) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var least fyne.Size
	for _, o := range objects {
		if !o.Visible() {
			continue
		}
		h := o.MinSize().Height
		if c.width > 0 {
			h = heightIn(o, c.width)
		}
		least.Height += h + gap(c.space)
		least.Width = max(least.Width, o.MinSize().Width)
	}
	least.Height = max(least.Height-gap(c.space), 0)
	return least
}

// NewPage makes the middle of a sheet: objects in a column, with a margin, in a
// scroll that follows the focus. On a wide screen it keeps lines readable.
func NewPage(objects ...fyne.CanvasObject) *FocusScroll {
	return NewFocusScroll(&fyne.Container{Layout: page{}, Objects: []fyne.CanvasObject{NewColumn(16, objects...)}})
}

// page is a margin around one object that grows no wider than can be read.
type page struct{}

func (page) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	put(objects[0], gap(28), gap(20), min(s.Width-2*gap(28), px(880)), s.Height-2*gap(20))
}

func (page) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return objects[0].MinSize().Add(fyne.NewSize(2*gap(28), 2*gap(20)))
}

// padded puts a margin around one object.
type padded struct{ x, y float32 }

// NewPadded puts a margin around an object: x at the sides, y above and below,
// at plain text size.
func NewPadded(x, y float32, object fyne.CanvasObject) *fyne.Container {
	return &fyne.Container{Layout: padded{x, y}, Objects: []fyne.CanvasObject{object}}
}

func (p padded) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	put(objects[0], gap(p.x), gap(p.y), s.Width-2*gap(p.x), s.Height-2*gap(p.y))
}

func (p padded) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return objects[0].MinSize().Add(fyne.NewSize(2*gap(p.x), 2*gap(p.y)))
}
