package drawing

import (
	"image"
	"math"

	"golang.org/x/image/draw"
)

// Picture is a photograph or a mark in a scene. It stays upright however its
// group is turned.
type Picture struct {
	At            Point // its top left corner
	Width, Height float64
	Image         image.Image
}

// FitWithin is how large an image of so many pixels is drawn in a room, whole
// and in its own proportions; 0 by 0 if there is none or no room for it.
func FitWithin(pixels image.Rectangle, width, height float64) (w, h float64) {
	if pixels.Empty() || !(width > 0) || !(height > 0) {
		return 0, 0
	}
	across, down := float64(pixels.Dx()), float64(pixels.Dy())
	scale := min(width/across, height/down)
	return across * scale, down * scale
}

func (p Picture) draw(d *pen, m Matrix) {
	if p.Image == nil || p.Image.Bounds().Empty() || !(p.Width > 0) || !(p.Height > 0) {
		return
	}
	b := emptyBox().with(m.Apply(p.At)).with(m.Apply(Point{p.At.X + p.Width, p.At.Y + p.Height}))
	d.canvas.DrawPicture(p.Image, b)
}

// DrawPicture shows nothing.
func (blank) DrawPicture(image.Image, Box) {}

// DrawPicture draws an image in a box, smoothed to the pixels there are.
func (c *pixels) DrawPicture(img image.Image, b Box) {
	if size := b.Width() + b.Height(); b.Empty() || math.IsNaN(size) || math.IsInf(size, 0) {
		return
	}
	at := func(v float64) int { return int(math.Round(within(v*c.scale, -maxSide, 2*maxSide))) }
	box := image.Rect(at(b.Min.X), at(b.Min.Y), max(at(b.Max.X), at(b.Min.X)+1), max(at(b.Max.Y), at(b.Min.Y)+1))
	draw.BiLinear.Scale(c.image, box, img, img.Bounds(), draw.Over, nil)
}
