package kit

import (
	"image"
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
)

func TestASceneIsDrawnAtTheScreensOwnPixels(t *testing.T) {
	plaster(t)
	var asked image.Point
	v := NewSceneView(func(w, h int) image.Image {
		asked = image.Pt(w, h)
		return image.NewUniform(color.NRGBA{R: 0xa4, G: 0x66, B: 0x2c, A: 0xff})
	})
	w := window(t, v, 200, 100)
	w.Canvas().(test.WindowlessCanvas).SetScale(2)
	img := w.Canvas().Capture()
	assert.Equal(t, image.Pt(400, 200), asked)
	r, g, b, _ := img.At(200, 100).RGBA()
	assert.Equal(t, []uint32{0xa4, 0x66, 0x2c}, []uint32{r >> 8, g >> 8, b >> 8})
}

func TestASceneWithoutADrawingIsClear(t *testing.T) {
	plaster(t)
	v := NewSceneView(nil)
	window(t, v, 200, 100).Canvas().Capture()
	v.SetDraw(func(int, int) image.Image { return nil })
	for _, size := range []image.Point{{10, 10}, {0, 10}, {-1, -1}} {
		img := v.picture(size.X, size.Y)
		assert.Equal(t, image.Pt(max(size.X, 1), max(size.Y, 1)), img.Bounds().Size())
		assert.Equal(t, color.NRGBA{}, img.At(0, 0))
	}
}

func TestADrawingOfAnotherSizeIsCutToTheSizeAskedFor(t *testing.T) {
	red := color.NRGBA{R: 0xff, A: 0xff}
	v := NewSceneView(func(int, int) image.Image {
		img := image.NewNRGBA(image.Rect(3, 3, 500, 5))
		img.Set(3, 3, red)
		return img
	})
	img := v.picture(20, 10)
	assert.Equal(t, image.Rect(0, 0, 20, 10), img.Bounds())
	assert.Equal(t, red, img.At(0, 0))
}

func TestASceneKeepsItsShapeInAColumn(t *testing.T) {
	plaster(t)
	v := NewSceneView(nil)
	v.SetAspect(0.5)
	v.SetLeast(100, 80)
	assert.Equal(t, float32(200), v.heightFor(400))
	assert.Equal(t, float32(80), v.heightFor(120))
}

func TestDraggingTurnsWhatIsDrawn(t *testing.T) {
	plaster(t)
	v := NewSceneView(nil)
	w := window(t, v, 200, 100)
	test.Drag(w.Canvas(), fyne.NewPos(50, 50), 5, -3)
	var dx, dy float32
	v.OnDrag = func(x, y float32) { dx, dy = x, y }
	test.Drag(w.Canvas(), fyne.NewPos(50, 50), 5, -3)
	assert.Equal(t, []float32{5, -3}, []float32{dx, dy})
}
