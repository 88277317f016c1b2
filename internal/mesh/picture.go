package mesh

import (
	"context"
	"image"
	"math"
	"runtime"
)

// View is how a form is looked at: turned about its upright axis, tipped towards
// the eye, and brought nearer.
type View struct {
	Yaw, Pitch float64 // degrees
	Zoom       float64 // 1 shows the whole form at any turn; 0 is 1
	Right, Up  float64 // by how much of the picture's height it is moved
}

// Tint marks a triangle in a picture.
type Tint uint8

// The tints of a picture.
const (
	Bronze Tint = iota
	Marked      // casts solid, or lies at an open edge
	Dull        // closes the form and carries no metal
	firstSection
)

// sectionTints is how many colours tell sections apart; those that meet differ.
const sectionTints = 6

// Viewer draws pictures of one mesh, z up, quickly one after the other.
type Viewer struct {
	mesh    *Mesh
	normals []Vec32 // by point
	creased []uint8 // by triangle: bit k is set where the form has an edge at corner k
	middle  Vec
	radius  float64
	Tints   []Tint // by triangle; nil is all bronze
	Closed  bool   // no triangle is ever seen from behind, which saves half the work
}

// NewViewer gets a mesh ready for drawing.
func NewViewer(m *Mesh) *Viewer {
	v := &Viewer{mesh: m, normals: make([]Vec32, len(m.Points))}
	low, high := box(m.Points)
	v.middle, v.radius = low.Add(high).Mul(0.5), high.Sub(low).Norm()/2
	for i, t := range m.Triangles {
		f := v.face(i)
		for _, p := range t {
			n := &v.normals[p]
			n[0], n[1], n[2] = n[0]+f[0], n[1]+f[1], n[2]+f[2]
		}
	}
	v.findCreases()
	return v
}

const (
	// crease is the cosine of the angle between a face and the mean of its
	// neighbours from which on they meet in an edge, and are not shaded as one.
	crease = 0.8
	// flush is that within which a face beside an edge goes on round the corner.
	flush = 0.995
)

// findCreases looks for the points at which a face turns away from the others,
// and there for the corners that are to be shaded by their own face.
func (v *Viewer) findCreases() {
	v.creased = make([]uint8, len(v.mesh.Triangles))
	_ = inChunks(context.Background(), len(v.mesh.Triangles), 8192, func(_, from, to int) {
		for i := from; i < to; i++ {
			v.creased[i] = v.turning(i, crease) | v.turning(i, flush)<<3
		}
	})
	sharp := make([]bool, len(v.mesh.Points))
	for i, t := range v.mesh.Triangles {
		for k := 0; v.creased[i]&7 != 0 && k < 3; k++ {
			if v.creased[i]>>k&1 != 0 {
				sharp[t[k]] = true
			}
		}
	}
	for i, t := range v.mesh.Triangles {
		corners := v.creased[i] >> 3
		v.creased[i] = 0
		for k := 0; corners != 0 && k < 3; k++ {
			if corners>>k&1 != 0 && sharp[t[k]] {
				v.creased[i] |= 1 << k
			}
		}
	}
}

// turning is the corners, as bits, at which a triangle faces farther from the
// mean than a cosine says.
func (v *Viewer) turning(i int, cosine float32) (corners uint8) {
	n := v.face(i)
	nn := cosine * cosine * (n[0]*n[0] + n[1]*n[1] + n[2]*n[2])
	for k, p := range v.mesh.Triangles[i] {
		m := &v.normals[p]
		dot := n[0]*m[0] + n[1]*m[1] + n[2]*m[2]
		if dot < 0 || dot*dot < nn*(m[0]*m[0]+m[1]*m[1]+m[2]*m[2]) {
			corners |= 1 << k
		}
	}
	return corners
}

// face is the normal of a triangle, as long as twice its area.
func (v *Viewer) face(i int) Vec32 {
	t := v.mesh.Triangles[i]
	a, b, c := v.mesh.Points[t[0]], v.mesh.Points[t[1]], v.mesh.Points[t[2]]
	ux, uy, uz := b[0]-a[0], b[1]-a[1], b[2]-a[2]
	wx, wy, wz := c[0]-a[0], c[1]-a[1], c[2]-a[2]
	return Vec32{uy*wz - uz*wy, uz*wx - ux*wz, ux*wy - uy*wx}
}

// samples is how many samples a pixel has along each side.
const samples = 2

// Draw paints the form, lit from above on the left, on a transparent ground of
// w × h pixels.
func (v *Viewer) Draw(view View, w, h int) *image.RGBA {
	out := image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	if len(v.mesh.Triangles) == 0 || !(v.radius > 0) || w < 1 || h < 1 {
		return out
	}
	c := &canvas{wide: w * samples, tall: h * samples}
	c.project(v, view)
	c.depth = make([]float32, c.wide*c.tall)
	c.shade = make([]uint16, c.wide*c.tall)
	// Each band of rows is drawn by one core, so no two write to one cell.
	bands := min(runtime.GOMAXPROCS(0), h)
	rows := (h + bands - 1) / bands
	_ = inChunks(context.Background(), bands, 1, func(_, band, _ int) {
		from, to := band*rows, min((band+1)*rows, h)
		if from < to {
			c.band(v, from*samples, to*samples)
			c.resolve(out, from, to)
		}
	})
	return out
}

// canvas is a picture being drawn, in samples.
type canvas struct {
	wide, tall int
	points     []Vec32   // x and y in samples, z towards the eye
	light      []float32 // by point, 0 to 1
	depth      []float32 // 0 is empty; larger is nearer
	shade      []uint16  // 1 + 256 × tint + light in 255 parts
	turned     func(Vec) Vec
}

// sun is where the light comes from, seen from the eye: left, above, before.
var sun = Vec{-0.45, 0.6, 0.66}

// project turns every point to the eye, and works out its light.
func (c *canvas) project(v *Viewer, view View) {
	zoom := view.Zoom
	if !(zoom > 0) {
		zoom = 1
	}
	scale := float64(min(c.wide, c.tall)) / (2 * v.radius) * 0.98 * zoom
	yaw, pitch := view.Yaw*math.Pi/180, view.Pitch*math.Pi/180
	cy, sy, cp, sp := math.Cos(yaw), math.Sin(yaw), math.Cos(pitch), math.Sin(pitch)
	c.turned = func(p Vec) Vec {
		x, y := p[0]*cy-p[1]*sy, p[0]*sy+p[1]*cy
		// y goes away from the eye before tipping; z is up.
		return Vec{x, p[2]*cp + y*sp, p[2]*sp - y*cp}
	}
	c.points, c.light = make([]Vec32, len(v.mesh.Points)), make([]float32, len(v.mesh.Points))
	ox := float64(c.wide)/2 + view.Right*float64(c.tall)
	oy := float64(c.tall)/2 - view.Up*float64(c.tall)
	far := 2 * v.radius
	_ = inChunks(context.Background(), len(v.mesh.Points), 8192, func(_, from, to int) {
		for i := from; i < to; i++ {
			p := c.turned(v.mesh.Points[i].Vec().Sub(v.middle))
			c.points[i] = Vec32{float32(ox + p[0]*scale), float32(oy - p[1]*scale), float32(p[2] + far)}
			c.light[i] = c.lightOf(v.normals[i])
		}
	})
}

// lightOf a surface with this normal, of any length.
func (c *canvas) lightOf(normal Vec32) float32 {
	n := c.turned(normal.Vec())
	if l := n.Norm(); l > 0 {
		n = n.Mul(1 / l)
	}
	return float32(lit(n))
}

// lit is the light of a surface that faces along n: a soft half-sphere of sky, the
// sun, and a glint.
func lit(n Vec) float64 {
	s := max(n.Dot(sun), 0)
	sky := 0.5 + 0.5*n[1]
	glint := math.Pow(max(n.Dot(Vec{-0.27, 0.36, 0.89}), 0), 24)
	return min(0.10+0.22*sky+0.50*s+0.30*glint, 1)
}

// band draws the rows from top to bottom.
func (c *canvas) band(v *Viewer, top, bottom int) {
	for i, t := range v.mesh.Triangles {
		a, b, d := &c.points[t[0]], &c.points[t[1]], &c.points[t[2]]
		low, high := min(a[1], b[1], d[1]), max(a[1], b[1], d[1])
		if high < float32(top) || low >= float32(bottom) {
			continue
		}
		tint := Bronze
		if v.Tints != nil {
			tint = v.Tints[i]
		}
		light := Vec32{c.light[t[0]], c.light[t[1]], c.light[t[2]]}
		if v.creased[i] != 0 {
			own := c.lightOf(v.face(i))
			for k := range light {
				if v.creased[i]>>k&1 != 0 {
					light[k] = own
				}
			}
		}
		c.triangle(t, light, uint16(tint)*256+1, max(int(low+0.5), top), min(int(high-0.5), bottom-1), v.Closed)
	}
}

// triangle fills the samples of one triangle whose middles lie in it, in the rows
// from top to bottom, where it is nearer than what is there.
func (c *canvas) triangle(t [3]uint32, light Vec32, tint uint16, top, bottom int, closed bool) {
	a, b, d := &c.points[t[0]], &c.points[t[1]], &c.points[t[2]]
	ux, uy, wx, wy := b[0]-a[0], b[1]-a[1], d[0]-a[0], d[1]-a[1]
	area := ux*wy - uy*wx
	if area == 0 || closed && area > 0 {
		return
	}
	left, right := min(a[0], b[0], d[0]), max(a[0], b[0], d[0])
	from, to := max(int(left+0.5), 0), min(int(right-0.5), c.wide-1)
	if from > to || right < 0.5 {
		return
	}
	la, lb, ld := light[0], light[1], light[2]
	if area > 0 { // seen from behind: an open form shows its inside dark
		la, lb, ld = la*0.35, lb*0.35, ld*0.35
	}
	inv := 1 / area
	stepB, stepD := wy*inv, -uy*inv // of the weights, from one sample to the next
	zB, zD, lB, lD := b[2]-a[2], d[2]-a[2], lb-la, ld-la
	for y := top; y <= bottom; y++ {
		px, py := float32(from)+0.5-a[0], float32(y)+0.5-a[1]
		wb, wd := (px*wy-py*wx)*inv, (ux*py-uy*px)*inv
		row := y * c.wide
		for x := from; x <= to; x, wb, wd = x+1, wb+stepB, wd+stepD {
			if wb < 0 || wd < 0 || wb+wd > 1 {
				continue
			}
			if z := a[2] + wb*zB + wd*zD; z > c.depth[row+x] {
				c.depth[row+x] = z
				c.shade[row+x] = tint + uint16(min(max(la+wb*lB+wd*lD, 0), 1)*255)
			}
		}
	}
}

// resolve makes pixels of samples, alpha premultiplied by how many are covered.
func (c *canvas) resolve(out *image.RGBA, from, to int) {
	wide := c.wide / samples
	for y := from; y < to; y++ {
		for x := range wide {
			var sum [3]int
			n, seam := 0, false
			first := uint16(0)
			for k := range samples * samples {
				s := c.shade[(y*samples+k/samples)*c.wide+x*samples+k%samples]
				if s == 0 {
					continue
				}
				tint := (s - 1) >> 8
				seam = seam || n > 0 && tint != first && max(tint, first) >= uint16(firstSection)
				first = tint
				colour := &ramps[tint][(s-1)&255]
				sum[0], sum[1], sum[2], n = sum[0]+int(colour[0]), sum[1]+int(colour[1]), sum[2]+int(colour[2]), n+1
			}
			if n == 0 {
				continue
			}
			if seam { // a line where one section ends and another begins
				sum = [3]int{sum[0] / 3, sum[1] / 3, sum[2] / 3}
			}
			const all = samples * samples
			p := out.Pix[out.PixOffset(x, y):]
			p[0], p[1], p[2], p[3] = uint8(sum[0]/all), uint8(sum[1]/all), uint8(sum[2]/all), uint8(255*n/all)
		}
	}
}
