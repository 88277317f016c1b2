package drawing

import (
	"image"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// shown draws items on a plain ground, one pixel to a point.
func shown(width, height float64, items ...Item) *image.RGBA {
	return Raster(Scene{Width: width, Height: height, Ground: Sheet, Items: items}, Light(), 1)
}

// is tells whether pixel (x, y) has the colour of r.
func is(img *image.RGBA, x, y int, r Role) bool {
	c, want := img.RGBAAt(x, y), Light().Colour(r)
	near := func(a, b uint8) bool { return math.Abs(float64(a)-float64(b)) <= 2 }
	return near(c.R, want.R) && near(c.G, want.G) && near(c.B, want.B)
}

func TestARectangleFillsItsPixelsAndNoOthers(t *testing.T) {
	img := shown(10, 10, Shape{Path: Rect(2, 3, 4, 5), Fill: Metal})
	for y := range 10 {
		for x := range 10 {
			inside := x >= 2 && x < 6 && y >= 3 && y < 8
			assert.Equal(t, inside, is(img, x, y, Metal), "%d, %d", x, y)
		}
	}
}

func TestAnEdgeBetweenPixelsIsMixed(t *testing.T) {
	img := shown(4, 4, Shape{Path: Rect(1.5, 0, 10, 10), Fill: Metal})
	sheet, metal, mixed := Light().Colour(Sheet), Light().Colour(Metal), img.RGBAAt(1, 1)
	assert.InDelta(t, (float64(sheet.R)+float64(metal.R))/2, float64(mixed.R), 2)
}

func TestAnOutlineTurnedTheOtherWayIsAHole(t *testing.T) {
	ring := append(Rect(1, 1, 8, 8), Polygon(Point{3, 3}, Point{3, 7}, Point{7, 7}, Point{7, 3})...)
	img := shown(10, 10, Shape{Path: ring, Fill: Metal})
	assert.True(t, is(img, 2, 5, Metal))
	assert.True(t, is(img, 5, 5, Sheet))
}

func TestAStrokeIsAsWideAsItSays(t *testing.T) {
	img := shown(20, 12, line(0, 6, 20, 6, 4, Ink))
	for y := range 12 {
		assert.Equal(t, y >= 4 && y < 8, is(img, 10, y, Ink), "row %d", y)
	}
	boxed := shown(20, 20, Shape{Path: Rect(5, 5, 10, 10), Stroke: Ink, Width: 2})
	assert.True(t, is(boxed, 4, 4, Ink), "corners are mitred")
	assert.True(t, is(boxed, 10, 5, Ink))
	assert.True(t, is(boxed, 10, 10, Sheet), "and nothing is filled")
}

func TestADashIsOnAndOff(t *testing.T) {
	img := shown(20, 6, Shape{Path: Polyline(Point{0, 3}, Point{20, 3}), Stroke: Ink, Width: 2, Dash: []float64{4, 4}})
	for x, on := range map[int]bool{1: true, 2: true, 5: false, 6: false, 9: true, 14: false} {
		assert.Equal(t, on, is(img, x, 3, Ink), "column %d", x)
	}
}

func TestLettersStandOnTheirBaseline(t *testing.T) {
	img := shown(40, 40, Text{At: Point{5, 30}, Words: "H", Face: Sans, Size: 28, Colour: Ink})
	top, bottom := -1, -1
	for y := range 40 {
		for x := range 40 {
			if is(img, x, y, Ink) {
				if top < 0 {
					top = y
				}
				bottom = y
			}
		}
	}
	assert.Equal(t, 29, bottom)
	assert.InDelta(t, 30-Sans.Ascent(28), float64(top), 1)
}

func TestNothingOutsideOrWithoutSizeHarms(t *testing.T) {
	huge := 1e30
	for _, p := range []Path{
		nil,
		Rect(-100, -100, 5, 5),
		Rect(0, 0, math.NaN(), 3),
		Rect(0, 0, math.Inf(1), 3),
		Rect(-huge, -huge, 2*huge, 2*huge),
		Polyline(Point{1, 1}),
		Polyline(Point{1, 1}, Point{1, 1}),
		Polyline(Point{-huge, 3}, Point{huge, 3}),
		{{Op: Close}},
	} {
		assert.NotPanics(t, func() {
			shown(10, 10, Shape{Path: p, Fill: Metal, Stroke: Ink, Width: 1, Dash: []float64{0, 0}})
		})
	}
	for _, side := range []float64{0, -3, math.NaN(), math.Inf(1), 1e12} {
		img := Raster(Scene{Width: side, Height: 1}, Light(), 1)
		assert.GreaterOrEqual(t, img.Bounds().Dx(), 1)
		assert.LessOrEqual(t, img.Bounds().Dx(), maxSide)
	}
}

// halved is img with each four pixels made one.
func halved(img *image.RGBA) *image.RGBA {
	half := image.NewRGBA(image.Rect(0, 0, img.Bounds().Dx()/2, img.Bounds().Dy()/2))
	for i := range half.Pix {
		at := i / 4
		x, y := at%half.Bounds().Dx(), at/half.Bounds().Dx()
		sum := 0
		for _, d := range []image.Point{{0, 0}, {1, 0}, {0, 1}, {1, 1}} {
			sum += int(img.Pix[img.PixOffset(2*x+d.X, 2*y+d.Y)+i%4])
		}
		half.Pix[i] = uint8((sum + 2) / 4)
	}
	return half
}

func TestASceneLooksAlikeAtOnceAndTwiceTheSize(t *testing.T) {
	s := fiveHeights(640, 360).Scene()
	once, twice := Raster(s, Light(), 1), halved(Raster(s, Light(), 2))
	assert.Equal(t, once.Bounds(), twice.Bounds())
	off := 0
	for i := range once.Pix {
		if d := int(once.Pix[i]) - int(twice.Pix[i]); d > 40 || d < -40 {
			off++
		}
	}
	assert.Less(t, float64(off)/float64(len(once.Pix)), 0.002)
}
