package kit

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"meltwright/internal/drawing"
	"meltwright/internal/ui/look"
)

// Drawn shows a drawing that is made anew for every width: it is as high as the
// drawing comes out, and its letters are as large as those around it. It wears
// the colours of the window, light or dark.
type Drawn struct {
	widget.BaseWidget
	build  func(width, text float64) drawing.Scene
	raster *canvas.Raster
	paper  bool // drawn in the colours of paper, in any look
	scene  drawing.Scene
	width  float32 // that the scene was built for
	text   float32
}

// NewDrawn makes a view of what build draws; width and text size are in Fyne's
// device-independent pixels. Nil draws nothing yet.
func NewDrawn(build func(width, text float64) drawing.Scene) *Drawn {
	d := &Drawn{build: build}
	d.raster = canvas.NewRaster(d.picture)
	d.ExtendBaseWidget(d)
	return d
}

// SetBuild shows another drawing.
func (d *Drawn) SetBuild(build func(width, text float64) drawing.Scene) {
	d.build, d.width = build, 0
	d.heightFor(d.Size().Width)
	d.raster.Refresh()
}

// OnPaper draws in the colours of paper, whatever look is worn.
func (d *Drawn) OnPaper() *Drawn {
	d.paper = true
	return d
}

// heightFor builds the scene for a width, if it is not built for that already.
func (d *Drawn) heightFor(width float32) float32 {
	if text := letterSize(theme.SizeNameCaptionText); d.build != nil && width > 0 && (width != d.width || text != d.text) {
		d.width, d.text = width, text
		d.scene = d.build(float64(width), float64(text))
	}
	return float32(d.scene.Height)
}

// picture draws the scene with w pixels across, in just the size asked for.
func (d *Drawn) picture(w, h int) image.Image {
	p := Palette()
	if d.paper {
		p = drawing.Light()
	}
	return Pixels(d.scene, p, w, h)
}

// Pixels draws a scene into a picture of w by h pixels, as large as its width
// allows.
func Pixels(s drawing.Scene, p drawing.Palette, w, h int) image.Image {
	out := image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	if s.Width <= 0 || s.Height <= 0 || w <= 0 || h <= 0 {
		return out
	}
	img := drawing.Raster(s, p, float64(w)/s.Width)
	if img.Bounds() == out.Bounds() {
		return img
	}
	for y := range min(h, img.Bounds().Dy()) {
		copy(out.Pix[y*out.Stride:(y+1)*out.Stride], img.Pix[y*img.Stride:y*img.Stride+4*min(w, img.Bounds().Dx())])
	}
	return out
}

// Palette is that of drawings in the look that is worn.
func Palette() drawing.Palette {
	if colour(look.Sheet) == color.Color(look.Colour(look.Sheet, true)) {
		return drawing.Dark()
	}
	return drawing.Light()
}

// CreateRenderer implements fyne.Widget.
func (d *Drawn) CreateRenderer() fyne.WidgetRenderer {
	return face{
		objects: just(d.raster),
		layout: func(s fyne.Size) {
			d.heightFor(s.Width)
			d.raster.Resize(s)
		},
		min: func() fyne.Size { return fyne.NewSize(px(120), float32(d.scene.Height)) },
		refresh: func() {
			d.heightFor(d.Size().Width)
			d.raster.Refresh()
		},
	}
}
