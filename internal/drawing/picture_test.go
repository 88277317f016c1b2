package drawing

import (
	"image"
	"image/color"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// halves is an image whose left half is red and whose right half is blue.
func halves(width, height int) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, width, height))
	for y := range height {
		for x := range width {
			c := color.NRGBA{R: 255, A: 255}
			if x >= width/2 {
				c = color.NRGBA{B: 255, A: 255}
			}
			img.SetNRGBA(x, y, c)
		}
	}
	return img
}

// held is a canvas that keeps the boxes of pictures.
type held struct {
	blank
	boxes []Box
}

func (h *held) DrawPicture(_ image.Image, b Box) { h.boxes = append(h.boxes, b) }

func TestAPictureFillsItsBoxUpright(t *testing.T) {
	s := Scene{Width: 100, Height: 50, Ground: Sheet, Items: []Item{
		Picture{At: Point{20, 10}, Width: 40, Height: 20, Image: halves(400, 200)},
	}}
	img := Raster(s, Light(), 2)
	assert.Equal(t, color.RGBA{R: 255, A: 255}, img.RGBAAt(50, 40), "left")
	assert.Equal(t, color.RGBA{B: 255, A: 255}, img.RGBAAt(110, 40), "right")
	sheet := img.RGBAAt(2, 2)
	for _, p := range []image.Point{{38, 40}, {122, 40}, {60, 18}, {60, 62}} {
		assert.Equal(t, sheet, img.RGBAAt(p.X, p.Y), "outside at %v", p)
	}
}

func TestAPictureGoesWithItsGroup(t *testing.T) {
	var h held
	pic := Picture{At: Point{10, 10}, Width: 30, Height: 20, Image: halves(3, 2)}
	Scene{Items: []Item{Group{Matrix: Scale(2, 2).Then(Move(5, 0)), Items: []Item{pic}}, Group{Matrix: Scale(1, -1), Items: []Item{pic}}}}.Draw(&h, Light())
	assert.Equal(t, []Box{{Point{25, 20}, Point{85, 60}}, {Point{10, -30}, Point{40, -10}}}, h.boxes)
}

func TestAPictureThatIsNoneDrawsNothing(t *testing.T) {
	var h held
	for _, p := range []Picture{{}, {Width: 3, Height: 4}, {Image: halves(2, 2)}, {Image: image.NewGray(image.Rectangle{}), Width: 1, Height: 1}, {Image: halves(2, 2), Width: math.NaN(), Height: 1}} {
		Scene{Items: []Item{p}}.Draw(&h, Light())
	}
	assert.Empty(t, h.boxes)
	wild := Scene{Width: 10, Height: 10, Items: []Item{
		Picture{At: Point{math.Inf(1), 0}, Width: 5, Height: 5, Image: halves(2, 2)},
		Picture{At: Point{math.NaN(), 0}, Width: 5, Height: 5, Image: halves(2, 2)},
		Picture{At: Point{1e12, 1e12}, Width: 1e9, Height: 1e9, Image: halves(2, 2)},
	}}
	assert.NotPanics(t, func() { Raster(wild, Light(), 1) })
}

func TestAPictureIsFittedWholeInItsOwnProportions(t *testing.T) {
	w, h := FitWithin(image.Rect(0, 0, 400, 200), 100, 100)
	assert.Equal(t, [2]float64{100, 50}, [2]float64{w, h})
	w, h = FitWithin(image.Rect(0, 0, 100, 400), 100, 100)
	assert.Equal(t, [2]float64{25, 100}, [2]float64{w, h})
	w, h = FitWithin(image.Rectangle{}, 100, 100)
	assert.Zero(t, w+h)
	w, h = FitWithin(image.Rect(0, 0, 1, 1), -1, 100)
	assert.Zero(t, w+h)
}

func (n *notebook) DrawPicture(image.Image, Box) {}
