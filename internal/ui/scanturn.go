package ui

import (
	"image"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"meltwright/internal/mesh"
	"meltwright/internal/ui/kit"
	"meltwright/internal/ui/look"
)

// turntable shows a form that can be turned and brought nearer: by dragging and
// the wheel, or by the arrow keys, plus and minus. While it moves it is drawn
// coarsely, so that it keeps up with the hand.
type turntable struct {
	widget.BaseWidget
	paint func(view mesh.View, w, h int) *image.RGBA // nil: there is nothing to show
	after After

	view    mesh.View
	coarse  bool
	rest    func() // calls off the timer after which it is drawn finely
	focused bool
	ground  *canvas.Rectangle
	ring    *canvas.Rectangle
	raster  *canvas.Raster
}

var (
	_ fyne.Draggable  = (*turntable)(nil)
	_ fyne.Scrollable = (*turntable)(nil)
	_ fyne.Focusable  = (*turntable)(nil)
	_ fyne.Tappable   = (*turntable)(nil)
)

// firstView is how a form is seen at first: from the front, a little from its
// left and above.
var firstView = mesh.View{Yaw: 25, Pitch: 8, Zoom: 1}

func newTurntable(after After, paint func(view mesh.View, w, h int) *image.RGBA) *turntable {
	t := &turntable{paint: paint, after: after, view: firstView, ground: &canvas.Rectangle{}, ring: &canvas.Rectangle{}}
	t.raster = canvas.NewRaster(t.picture)
	t.ring.StrokeWidth = 2
	t.ExtendBaseWidget(t)
	return t
}

// picture is drawn at half the pixels while the form moves.
func (t *turntable) picture(w, h int) image.Image {
	w, h = max(w, 1), max(h, 1)
	if !t.coarse || w < 4 || h < 4 {
		return t.paint(t.view, w, h)
	}
	return doubled(t.paint(t.view, (w+1)/2, (h+1)/2), w, h)
}

// doubled makes four pixels of each.
func doubled(small *image.RGBA, w, h int) *image.RGBA {
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		if y%2 == 1 {
			copy(out.Pix[y*out.Stride:(y+1)*out.Stride], out.Pix[(y-1)*out.Stride:y*out.Stride])
			continue
		}
		from, to := small.Pix[y/2*small.Stride:], out.Pix[y*out.Stride:]
		for x := range w {
			copy(to[4*x:4*x+4], from[x/2*4:x/2*4+4])
		}
	}
	return out
}

// redraw shows the form as it is now.
func (t *turntable) redraw() { t.raster.Refresh() }

// look shows the form from another side.
func (t *turntable) look(yaw, pitch float64) {
	t.view = mesh.View{Yaw: yaw, Pitch: pitch, Zoom: 1}
	t.redraw()
}

// turn turns the form by degrees.
func (t *turntable) turn(yaw, pitch float64) {
	t.view.Yaw += yaw
	t.view.Pitch = max(-90, min(t.view.Pitch+pitch, 90))
	t.moved()
}

// The nearest and the farthest that a form is seen from.
const (
	leastZoom = 0.5
	mostZoom  = 30
)

// near brings the form nearer by a factor, keeping what lies at a point of the
// picture, given as shares of its width and height, where it is.
func (t *turntable) near(factor float64, x, y float64) {
	s := t.Size()
	before := max(t.view.Zoom, leastZoom)
	t.view.Zoom = max(leastZoom, min(before*factor, mostZoom))
	grown := t.view.Zoom / before
	wide := float64(s.Width) / max(float64(s.Height), 1)
	t.view.Right = (x-0.5)*wide - ((x-0.5)*wide-t.view.Right)*grown
	t.view.Up = (0.5 - y) - ((0.5-y)-t.view.Up)*grown
	if t.view.Zoom <= 1 {
		t.view.Right, t.view.Up = 0, 0
	}
	t.moved()
}

// moved draws coarsely until nothing has moved for a moment.
func (t *turntable) moved() {
	const calm = 160 * time.Millisecond
	if t.rest != nil {
		t.rest()
	}
	t.coarse = true
	t.rest = t.after(calm, t.settle)
	t.redraw()
}

func (t *turntable) settle() {
	t.rest, t.coarse = nil, false
	t.redraw()
}

// Dragged implements fyne.Draggable: across the whole picture is half a turn.
func (t *turntable) Dragged(e *fyne.DragEvent) {
	across := 180 / max(float64(min(t.Size().Width, t.Size().Height)), 1)
	t.turn(float64(e.Dragged.DX)*across, float64(e.Dragged.DY)*across)
}

// DragEnd implements fyne.Draggable.
func (t *turntable) DragEnd() {}

// Scrolled implements fyne.Scrollable.
func (t *turntable) Scrolled(e *fyne.ScrollEvent) {
	s := t.Size()
	if s.Width <= 0 || s.Height <= 0 || e.Scrolled.DY == 0 {
		return
	}
	factor := 1.15
	if e.Scrolled.DY < 0 {
		factor = 1 / factor
	}
	t.near(factor, float64(e.Position.X/s.Width), float64(e.Position.Y/s.Height))
}

// Tapped implements fyne.Tappable.
func (t *turntable) Tapped(*fyne.PointEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(t); c != nil {
		c.Focus(t)
	}
}

// FocusGained implements fyne.Focusable.
func (t *turntable) FocusGained() {
	t.focused = true
	t.dress()
	kit.Reveal(t)
}

// FocusLost implements fyne.Focusable.
func (t *turntable) FocusLost() {
	t.focused = false
	t.dress()
}

// TypedRune implements fyne.Focusable.
func (t *turntable) TypedRune(r rune) {
	switch r {
	case '+', '=':
		t.near(1.25, 0.5, 0.5)
	case '-', '−':
		t.near(1/1.25, 0.5, 0.5)
	}
}

// TypedKey implements fyne.Focusable.
func (t *turntable) TypedKey(e *fyne.KeyEvent) {
	const step = 10 // degrees
	switch e.Name {
	case fyne.KeyLeft:
		t.turn(-step, 0)
	case fyne.KeyRight:
		t.turn(step, 0)
	case fyne.KeyUp:
		t.turn(0, -step)
	case fyne.KeyDown:
		t.turn(0, step)
	case fyne.KeyPageUp:
		t.near(1.25, 0.5, 0.5)
	case fyne.KeyPageDown:
		t.near(1/1.25, 0.5, 0.5)
	case fyne.KeyHome:
		t.look(firstView.Yaw, firstView.Pitch)
	}
}

func (t *turntable) dress() {
	t.ground.FillColor = theme.Color(look.Side)
	t.ring.StrokeColor = theme.Color(look.Accent)
	t.ring.Hidden = !t.focused
	t.ground.Refresh()
	t.ring.Refresh()
}

// CreateRenderer implements fyne.Widget.
func (t *turntable) CreateRenderer() fyne.WidgetRenderer {
	t.dress()
	return turntableFace{t}
}

type turntableFace struct{ t *turntable }

func (f turntableFace) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{f.t.ground, f.t.raster, f.t.ring}
}

func (f turntableFace) Layout(s fyne.Size) {
	for _, o := range f.Objects() {
		o.Move(fyne.Position{})
		o.Resize(s)
	}
}

func (f turntableFace) MinSize() fyne.Size { return fyne.NewSize(160, 120) }
func (f turntableFace) Destroy()           {}
func (f turntableFace) Refresh() {
	f.t.dress()
	f.t.raster.Refresh()
}
