package ui

import (
	"image"
	"image/color"
	"math"

	"meltwright/internal/mesh"
)

// scanEye sees points of a standing form where its picture shows them.
type scanEye struct {
	middle         mesh.Vec
	cy, sy, cp, sp float64
	scale, x, y    float64
}

// eyeOf is the eye of a picture of w × h pixels of a form with that box.
func eyeOf(box mesh.Size, view mesh.View, w, h int) scanEye {
	yaw, pitch := view.Yaw*math.Pi/180, view.Pitch*math.Pi/180
	e := scanEye{middle: box.Min.Add(box.Max).Mul(0.5), cy: math.Cos(yaw), sy: math.Sin(yaw), cp: math.Cos(pitch), sp: math.Sin(pitch)}
	zoom := view.Zoom
	if !(zoom > 0) {
		zoom = 1
	}
	e.scale = float64(min(w, h)) / max(box.Box().Norm(), 1e-300) * 0.98 * zoom
	e.x = float64(w)/2 + view.Right*float64(h)
	e.y = float64(h)/2 - view.Up*float64(h)
	return e
}

// turned is a direction as the eye sees it: to the right, up, and towards it.
func (e *scanEye) turned(p mesh.Vec) mesh.Vec {
	x, y := p[0]*e.cy-p[1]*e.sy, p[0]*e.sy+p[1]*e.cy
	return mesh.Vec{x, p[2]*e.cp + y*e.sp, p[2]*e.sp - y*e.cp}
}

// at is where a point is seen, in pixels.
func (e *scanEye) at(p mesh.Vec) (x, y float64) {
	q := e.turned(p.Sub(e.middle))
	return e.x + q[0]*e.scale, e.y - q[1]*e.scale
}

// loops draws outlines of a cut: what of them faces the eye, and the rest faint.
func (e *scanEye) loops(img *image.RGBA, normal mesh.Vec, loops []mesh.Loop, width float64, c color.Color) {
	for _, l := range loops {
		n := len(l.Points)
		last := n - 1
		if l.Closed {
			last = n
		}
		for i := range last {
			a, b := l.Points[i], l.Points[(i+1)%n]
			// The form lies on the left of an outline, so outwards is right of it.
			share := 0.3
			if e.turned(b.Sub(a).Cross(normal))[2] > 0 {
				share = 1
			}
			e.line(img, a, b, width, share, c)
		}
	}
}

// line draws a line that covers what is below it by a share.
func (e *scanEye) line(img *image.RGBA, a, b mesh.Vec, width, share float64, c color.Color) {
	ax, ay := e.at(a)
	bx, by := e.at(b)
	stroke(img, ax, ay, bx, by, width, share, c)
}

// stroke draws a line with soft edges, within the picture.
func stroke(img *image.RGBA, ax, ay, bx, by, width, share float64, c color.Color) {
	half := width / 2
	r := img.Bounds()
	left, right := max(int(min(ax, bx)-half-1), r.Min.X), min(int(max(ax, bx)+half+2), r.Max.X)
	top, bottom := max(int(min(ay, by)-half-1), r.Min.Y), min(int(max(ay, by)+half+2), r.Max.Y)
	ux, uy := bx-ax, by-ay
	length := ux*ux + uy*uy
	cr, cg, cb, _ := c.RGBA()
	for y := top; y < bottom; y++ {
		for x := left; x < right; x++ {
			px, py := float64(x)+0.5-ax, float64(y)+0.5-ay
			along := 0.0
			if length > 0 {
				along = max(0, min((px*ux+py*uy)/length, 1))
			}
			cover := min(half+0.5-math.Hypot(px-along*ux, py-along*uy), 1)
			if cover <= 0 {
				continue
			}
			over(img.Pix[img.PixOffset(x, y):], cover*share, cr, cg, cb)
		}
	}
}

// over lays a colour over a pixel whose colours are multiplied by its alpha.
func over(p []uint8, share float64, r, g, b uint32) {
	for i, v := range [4]uint32{r, g, b, 0xffff} {
		p[i] = uint8(float64(p[i])*(1-share) + float64(v>>8)*share)
	}
}
