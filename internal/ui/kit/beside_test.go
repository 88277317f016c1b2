package kit

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"

	"meltwright/internal/drawing"
)

// square is a drawing as high as it is wide.
func square(width, _ float64) drawing.Scene {
	return drawing.Scene{Width: width, Height: width, Items: []drawing.Item{
		drawing.Shape{Path: drawing.Rect(0, 0, width, width), Fill: drawing.Ink},
	}}
}

func TestTwoStandBesideEachOtherWhereThereIsRoom(t *testing.T) {
	test.NewTempApp(t)
	left, right := NewDrawn(square), NewDrawn(square)
	b := NewBeside(left, right, 0.4)
	b.Resize(fyne.NewSize(1000, b.heightFor(1000)))
	assert.Equal(t, float32(0), right.Position().Y)
	assert.InDelta(t, 388, left.Size().Width, 1)
	assert.InDelta(t, 588, right.Size().Width, 1)
	assert.InDelta(t, 588, b.heightFor(1000), 1, "as high as the higher one")

	assert.InDelta(t, 2*500+16, b.heightFor(500), 2, "over each other")
	assert.Equal(t, float32(0), right.Position().Y, "the second over the first")
	assert.Greater(t, left.Position().Y, float32(500))

	b.Resize(fyne.NewSize(1000, 2000))
	b.SetApart(true)
	assert.InDelta(t, 1000, right.Size().Width, 1)
}

func TestADrawingIsAsHighAsItComesOutAndAsFineAsTheScreen(t *testing.T) {
	test.NewTempApp(t)
	built := 0
	d := NewDrawn(func(w, text float64) drawing.Scene {
		built++
		return square(w, text)
	})
	assert.Equal(t, float32(300), d.heightFor(300))
	assert.Equal(t, float32(300), d.heightFor(300))
	assert.Equal(t, 1, built, "built once for a width")
	img := d.picture(600, 600)
	assert.Equal(t, 600, img.Bounds().Dx())
	_, _, _, alpha := img.At(599, 599).RGBA()
	assert.Equal(t, uint32(0xffff), alpha, "drawn to its corner")
	assert.Equal(t, 600, d.picture(600, 601).Bounds().Dx(), "a pixel too many stays clear")
}

func TestProseWithoutWordsTakesNoRoom(t *testing.T) {
	test.NewTempApp(t)
	p := NewProse("Bronze")
	assert.Positive(t, p.heightFor(200))
	p.Say("")
	assert.False(t, p.Visible())
	p.Say("Wax")
	assert.True(t, p.Visible())
}
