package kit

import (
	"image"
	"image/draw"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// SceneView shows a drawing at the screen's own pixels: draw is asked for a
// picture of w by h pixels whenever the size or the scene changes. It may be
// dragged, to turn what is drawn.
type SceneView struct {
	widget.BaseWidget
	OnDrag func(dx, dy float32) // nil: dragging does nothing

	draw   func(w, h int) image.Image
	raster *canvas.Raster
	least  fyne.Size // at plain text size
	aspect float32   // height over width; 0 takes any height
}

// NewSceneView makes a view that is drawn by draw; nil draws nothing yet.
func NewSceneView(draw func(w, h int) image.Image) *SceneView {
	v := &SceneView{draw: draw, least: fyne.NewSize(120, 90)}
	v.raster = canvas.NewRaster(v.picture)
	v.ExtendBaseWidget(v)
	return v
}

// SetDraw shows another drawing.
func (v *SceneView) SetDraw(draw func(w, h int) image.Image) {
	v.draw = draw
	v.Redraw()
}

// Redraw asks for the picture again, because the scene is another one.
func (v *SceneView) Redraw() { v.raster.Refresh() }

// SetLeast sets the least size, at plain text size.
func (v *SceneView) SetLeast(width, height float32) { v.least = fyne.NewSize(width, height) }

// SetAspect makes the view, in a column, as high as aspect times its width.
func (v *SceneView) SetAspect(aspect float32) { v.aspect = aspect }

func (v *SceneView) heightFor(width float32) float32 {
	return max(v.aspect*width, px(v.least.Height))
}

// picture is what the screen asks for, and exactly of the size asked for, which
// Fyne relies on; without a drawing it is clear.
func (v *SceneView) picture(w, h int) image.Image {
	clear := image.NewNRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	if v.draw == nil || w <= 0 || h <= 0 {
		return clear
	}
	img := v.draw(w, h)
	if img == nil {
		return clear
	}
	if img.Bounds().Size() != image.Pt(w, h) {
		draw.Draw(clear, clear.Bounds(), img, img.Bounds().Min, draw.Src)
		return clear
	}
	return img
}

// Dragged implements fyne.Draggable.
func (v *SceneView) Dragged(e *fyne.DragEvent) {
	if v.OnDrag != nil {
		v.OnDrag(e.Dragged.DX, e.Dragged.DY)
	}
}

// DragEnd implements fyne.Draggable.
func (v *SceneView) DragEnd() {}

// CreateRenderer implements fyne.Widget.
func (v *SceneView) CreateRenderer() fyne.WidgetRenderer {
	return face{
		objects: just(v.raster),
		layout:  func(s fyne.Size) { v.raster.Resize(s) },
		min:     func() fyne.Size { return fyne.NewSize(px(v.least.Width), px(v.least.Height)) },
		refresh: func() { v.raster.Refresh() },
	}
}
