package drawing

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"sync"

	"github.com/srwiley/rasterx"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"
)

// maxSide is the most pixels that a picture is wide or tall; beyond it a scene
// is cut off, so that a slip of a size cannot take all memory.
const maxSide = 16384

// Raster draws s in p's colours, scale pixels to a point. The picture has at
// least one pixel and at most 16384 to a side.
func Raster(s Scene, p Palette, scale float64) *image.RGBA {
	side := func(points float64) int { return int(within(math.Round(points*scale), 1, maxSide)) }
	c := &pixels{
		image: image.NewRGBA(image.Rect(0, 0, side(s.Width), side(s.Height))),
		scale: positive(scale),
		fill:  rasterizers.Get().(*vector.Rasterizer),
	}
	s.Draw(c, p)
	rasterizers.Put(c.fill)
	return c.image
}

// rasterizers are kept from one picture to the next: their room is as large as
// the picture's.
var rasterizers = sync.Pool{New: func() any { return new(vector.Rasterizer) }}

// pixels is the canvas of the screen.
type pixels struct {
	image *image.RGBA
	scale float64
	fill  *vector.Rasterizer
	area  image.Rectangle // that the rasterizer covers at present
}

// FillPath fills path.
func (c *pixels) FillPath(path Path, colour color.NRGBA) {
	b := path.Bounds()
	switch {
	case c.covers(path, b):
		draw.Draw(c.image, c.image.Bounds(), image.NewUniform(colour), image.Point{}, draw.Over)
	case c.begin(b):
		c.add(path)
		c.paint(colour)
	}
}

// covers is true if path, within b, is an upright rectangle that hides the
// whole picture: a ground, which there are quicker ways to paint.
func (c *pixels) covers(path Path, b Box) bool {
	if len(path) != 5 || b.Min.X > 0 || b.Min.Y > 0 {
		return false
	}
	whole := c.image.Bounds()
	if b.Max.X*c.scale < float64(whole.Max.X)-0.5 || b.Max.Y*c.scale < float64(whole.Max.Y)-0.5 {
		return false
	}
	for i, s := range path[:4] {
		next := path[(i+1)%4]
		if s.Op == CubicTo || s.P[0].X != next.P[0].X && s.P[0].Y != next.P[0].Y {
			return false
		}
	}
	return path[4].Op == Close
}

// DrawText fills the letters' outlines: they sit where they are measured, not
// at the nearest pixel.
func (c *pixels) DrawText(words string, f Face, size float64, at Point, colour color.NRGBA) {
	c.FillPath(f.Outline(words, size, at.X, at.Y), colour)
}

// StrokePath draws along path; a line is at least half a pixel wide.
func (c *pixels) StrokePath(path Path, width float64, dash []float64, colour color.NRGBA) {
	b := path.Bounds()
	if b.Empty() {
		return
	}
	reach := width * mitre
	b.Min, b.Max = Point{b.Min.X - reach, b.Min.Y - reach}, Point{b.Max.X + reach, b.Max.Y + reach}
	if !c.begin(b) {
		return
	}
	dasher := rasterx.NewDasher(c.area.Dx(), c.area.Dy(), inkline{c})
	on := make([]float64, len(dash))
	for i, length := range dash {
		on[i] = length * c.scale
	}
	dasher.SetStroke(sixtyFourths(max(width*c.scale, 0.5)), sixtyFourths(mitre),
		rasterx.ButtCap, rasterx.ButtCap, rasterx.FlatGap, rasterx.Miter, on, 0)
	c.trace(path, dasher)
	c.paint(colour)
}

// mitre is the longest corner of a stroke, in widths.
const mitre = 4

// begin makes the rasterizer ready for what lies within b; false if that is
// outside the picture.
func (c *pixels) begin(b Box) bool {
	if size := b.Width() + b.Height(); b.Empty() || math.IsNaN(size) || math.IsInf(size, 0) {
		return false
	}
	whole := c.image.Bounds()
	floor := func(v float64) int { return int(within(math.Floor(v*c.scale), -1, maxSide)) }
	c.area = image.Rect(floor(b.Min.X), floor(b.Min.Y), floor(b.Max.X)+1, floor(b.Max.Y)+1).Intersect(whole)
	if c.area.Empty() {
		return false
	}
	c.fill.Reset(c.area.Dx(), c.area.Dy())
	return true
}

// place is p in pixels of the rasterizer; what is far outside is held near
// enough to be counted.
func (c *pixels) place(p Point) (x, y float32) {
	near := func(v float64, origin int) float32 {
		return float32(min(max(v*c.scale, -far), far) - float64(origin))
	}
	return near(p.X, c.area.Min.X), near(p.Y, c.area.Min.Y)
}

// far is how many pixels from the corner a point may be.
const far = 1 << 17

// add gives path to the rasterizer.
func (c *pixels) add(path Path) {
	for _, s := range path {
		x, y := c.place(s.P[0])
		switch s.Op {
		case MoveTo:
			c.fill.ClosePath()
			c.fill.MoveTo(x, y)
		case LineTo:
			c.fill.LineTo(x, y)
		case CubicTo:
			x1, y1 := c.place(s.P[1])
			x2, y2 := c.place(s.P[2])
			c.fill.CubeTo(x, y, x1, y1, x2, y2)
		case Close:
			c.fill.ClosePath()
		}
	}
	c.fill.ClosePath()
}

// paint lays colour where the rasterizer has been filled.
func (c *pixels) paint(colour color.NRGBA) {
	c.fill.DrawOp = draw.Over
	c.fill.Draw(c.image, c.area, image.NewUniform(colour), image.Point{})
}

// trace gives path to a stroker.
func (c *pixels) trace(path Path, to rasterx.Adder) {
	place := func(p Point) fixed.Point26_6 {
		x, y := c.place(p)
		return fixed.Point26_6{X: sixtyFourths(float64(x)), Y: sixtyFourths(float64(y))}
	}
	open := false
	for _, s := range path {
		switch s.Op {
		case MoveTo:
			if open {
				to.Stop(false)
			}
			to.Start(place(s.P[0]))
			open = true
		case LineTo:
			to.Line(place(s.P[0]))
		case CubicTo:
			to.CubeBezier(place(s.P[0]), place(s.P[1]), place(s.P[2]))
		case Close:
			to.Stop(true)
			open = false
		}
	}
	if open {
		to.Stop(false)
	}
}

// sixtyFourths is v in the stroker's units, held within what they can hold.
func sixtyFourths(v float64) fixed.Int26_6 {
	return fixed.Int26_6(math.Round(within(v, -maxSide, 2*maxSide) * 64))
}

// inkline takes the edges of a stroke from a stroker to the rasterizer. They
// come in no order and go round the stroke together, so none is closed by itself.
type inkline struct{ c *pixels }

// Start begins an edge.
func (l inkline) Start(a fixed.Point26_6) { l.c.fill.MoveTo(float32(a.X)/64, float32(a.Y)/64) }

// Line goes on with it.
func (l inkline) Line(b fixed.Point26_6) { l.c.fill.LineTo(float32(b.X)/64, float32(b.Y)/64) }

// Draw is the rasterizer's to do, as all that follows is.
func (inkline) Draw() {}

// Clear does nothing.
func (inkline) Clear() {}

// SetBounds does nothing.
func (inkline) SetBounds(int, int) {}

// SetColor does nothing.
func (inkline) SetColor(any) {}

// SetWinding does nothing.
func (inkline) SetWinding(bool) {}

// SetClip does nothing.
func (inkline) SetClip(image.Rectangle) {}

// GetPathExtent is not asked for.
func (inkline) GetPathExtent() (r fixed.Rectangle26_6) { return r }
