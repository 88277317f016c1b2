package kit

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// face is a widget's renderer made of four functions; the widget itself holds
// the objects, so that they outlive a renderer that Fyne throws away.
type face struct {
	objects func() []fyne.CanvasObject
	layout  func(fyne.Size)
	min     func() fyne.Size
	refresh func()
}

func (f face) Objects() []fyne.CanvasObject { return f.objects() }
func (f face) Layout(s fyne.Size)           { f.layout(s) }
func (f face) MinSize() fyne.Size           { return f.min() }
func (f face) Refresh()                     { f.refresh() }
func (f face) Destroy()                     {}

// just gives always the same objects.
func just(objects ...fyne.CanvasObject) func() []fyne.CanvasObject {
	return func() []fyne.CanvasObject { return objects }
}

// put places an object, its corner on a whole pixel: letters and hairlines are
// crisp only there.
func put(o fyne.CanvasObject, x, y, w, h float32) {
	o.Move(fyne.NewPos(round(x), round(y)))
	o.Resize(fyne.NewSize(max(w, 0), max(h, 0)))
}

// putCrisp puts the other corner on a whole pixel too, for what has a thin outline.
func putCrisp(o fyne.CanvasObject, x, y, w, h float32) {
	put(o, x, y, round(w), round(h))
}

func round(v float32) float32 { return float32(math.Round(float64(v))) }

// show makes an object visible or not, and does nothing if it is so already.
func show(o fyne.CanvasObject, visible bool) {
	switch {
	case visible && !o.Visible():
		o.Show()
	case !visible && o.Visible():
		o.Hide()
	}
}

// fill paints a rectangle in the colour of that name, and says whether that
// changed it.
func fill(r *canvas.Rectangle, name fyne.ThemeColorName) {
	if c := colour(name); r.FillColor != c {
		r.FillColor = c
		r.Refresh()
	}
}

// outline draws a rectangle's edge in the colour of that name.
func outline(r *canvas.Rectangle, name fyne.ThemeColorName, width float32) {
	if c := colour(name); r.StrokeColor != c || r.StrokeWidth != width {
		r.StrokeColor, r.StrokeWidth = c, width
		r.Refresh()
	}
}

// ring is the mark of what has the focus: an outline that lies over it.
type ring struct{ *canvas.Rectangle }

func newRing() ring {
	r := ring{&canvas.Rectangle{}}
	r.Hide()
	return r
}

// dress gives the ring its colour and width; on a dark bar name another colour.
func (r ring) dress(name fyne.ThemeColorName, radius float32) {
	r.CornerRadius = radius
	outline(r.Rectangle, name, 2)
}
