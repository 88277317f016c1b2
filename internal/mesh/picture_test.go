package mesh

import (
	"image"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// covered is the box of what a picture shows.
func covered(p *image.RGBA) image.Rectangle {
	out := image.Rectangle{Min: p.Bounds().Max, Max: p.Bounds().Min}
	for y := range p.Bounds().Dy() {
		for x := range p.Bounds().Dx() {
			if p.RGBAAt(x, y).A > 127 {
				out.Min.X, out.Min.Y = min(out.Min.X, x), min(out.Min.Y, y)
				out.Max.X, out.Max.Y = max(out.Max.X, x+1), max(out.Max.Y, y+1)
			}
		}
	}
	return out
}

func TestASphereIsRoundFromEverySide(t *testing.T) {
	v := NewViewer(sphere(0.5, 64))
	for _, view := range []View{{}, {Yaw: 73}, {Yaw: 200, Pitch: 35}} {
		box := covered(v.Draw(view, 300, 300))
		assert.InDelta(t, box.Dx(), box.Dy(), 2)
		assert.InDelta(t, 300*0.98/math.Sqrt(3), box.Dx(), 4, "the ball of a box's corners holds it")
	}
}

func TestAPictureIsLitFromAboveOnTheLeft(t *testing.T) {
	p := NewViewer(sphere(0.5, 64)).Draw(View{Zoom: 1.6}, 300, 300)
	assert.Greater(t, p.RGBAAt(110, 100).R, p.RGBAAt(190, 210).R)
	assert.Zero(t, p.RGBAAt(2, 2).A, "the ground is clear")
}

func TestMarkedTrianglesAreSeen(t *testing.T) {
	m := sphere(0.5, 32)
	v := NewViewer(m)
	plain := v.Draw(View{}, 100, 100).RGBAAt(50, 50)
	v.Tints = make([]Tint, len(m.Triangles))
	for i := range v.Tints {
		v.Tints[i] = Marked
	}
	assert.NotEqual(t, plain, v.Draw(View{}, 100, 100).RGBAAt(50, 50))
}

func TestTheOutlineOfACylinderIsItsRectangle(t *testing.T) {
	m := turned(cylinder(0.2, 1, 96, 8), Vec{}, Vec{3, -2, 5})
	low, high := box(m.Points)
	o := OutlineOf(m, Front)
	require.Len(t, o, 1)
	left, right, top := math.Inf(1), math.Inf(-1), 0.0
	for _, p := range o[0] {
		left, right, top = min(left, p[0]), max(right, p[0]), max(top, p[1])
	}
	assert.InDelta(t, 1, top, 0.003)
	assert.InDelta(t, 0.4/(high[2]-low[2]), right-left, 0.004)
	assert.InDelta(t, 0, left+right, 0.003, "the foot's middle is at 0")
	assert.Less(t, len(o[0]), 12, "straight sides need few points")
}

func TestTheOutlineOfAStandingRingHasItsHole(t *testing.T) {
	ring := turned(torus(0.4, 0.1, 96), Vec{math.Pi / 2, 0, 0}, Vec{})
	o := OutlineOf(ring, Front)
	require.Len(t, o, 2)
	area := func(path []Flat) (a float64) {
		for i, p := range path {
			q := path[(i+1)%len(path)]
			a += (p[0]*q[1] - q[0]*p[1]) / 2
		}
		return a
	}
	assert.InDelta(t, math.Pi/4, area(o[0])+0, 0.01, "outside turns left")
	assert.InDelta(t, -math.Pi/4*0.36, area(o[1]), 0.01, "a hole turns right")
}

func TestACylinderMayLeanByTheArctangentOfRadiusOverCentre(t *testing.T) {
	m := cylinder(0.2, 1, 256, 4)
	b := GroundOf(m).Balance(Measure(m).Centre)
	assert.InDelta(t, 0.2, b.Inside, 0.001)
	assert.InDelta(t, math.Atan(0.2/0.5)*180/math.Pi, b.Tip, 0.2)
	leaning := GroundOf(m).Balance(Vec{0.3, 0, 0.5})
	assert.InDelta(t, -0.1, leaning.Inside, 0.001, "past its foot it tips by itself")
	assert.Negative(t, leaning.Tip)
}

// A stool of 1 m whose one leg is ground off by 2 cm stands on both all the same.
func TestFeetOnUnevenGroundAllCount(t *testing.T) {
	for _, off := range []float32{0, 0.005, 0.02} {
		m := stool()
		for i := range m.Points {
			if p := &m.Points[i]; p[0] > 0.2 && p[2] < 0.1 {
				p[2] += off
			}
		}
		b := GroundOf(m).Balance(Measure(m).Centre)
		assert.InDelta(t, 0.1, b.Inside, 0.01, "it stands 0.2 m deep on legs a metre apart")
	}
	m := stool()
	for i := range m.Points {
		if p := &m.Points[i]; p[0] > 0.2 && p[2] < 0.1 {
			p[2] += 0.2
		}
	}
	assert.Negative(t, GroundOf(m).Balance(Measure(m).Centre).Inside, "a leg in the air carries nothing")
	cone := lathe(40, func(s float64) (r, z float64) { return 0.3 * s, s })
	assert.Less(t, GroundOf(cone).Balance(Measure(cone).Centre).Inside, 0.02, "on its tip")
}

func BenchmarkPictureMillion(b *testing.B) {
	v := NewViewer(sphere(0.5, 708))
	v.Closed = true
	b.ReportMetric(float64(len(v.mesh.Triangles)), "triangles")
	for b.Loop() {
		v.Draw(View{Yaw: 30}, 800, 800)
	}
}

func BenchmarkFirstPictureMillion(b *testing.B) {
	m := sphere(0.5, 708)
	for b.Loop() {
		v := NewViewer(m)
		v.Closed = true
		v.Draw(View{Yaw: 30}, 800, 800)
	}
}

func BenchmarkPictureFigure(b *testing.B) {
	v := NewViewer(figure(b, "man.off"))
	for b.Loop() {
		v.Draw(View{Yaw: 30}, 800, 800)
	}
}

// A cube has three faces in sight, each of one shade: its edges are not rounded off.
func TestAnEdgeIsSharp(t *testing.T) {
	p := NewViewer(cube(1, 1)).Draw(View{Yaw: 30, Pitch: 25}, 200, 200)
	shades := map[[3]uint8]int{}
	for y := range 200 {
		for x := range 200 {
			if c := p.RGBAAt(x, y); c.A == 255 {
				shades[[3]uint8{c.R, c.G, c.B}]++
			}
		}
	}
	large := 0
	for _, n := range shades {
		if n > 1000 {
			large++
		}
	}
	assert.Equal(t, 3, large)
}

func TestSectionsThatMeetDifferInColour(t *testing.T) {
	w := wallOf(t, cylinder(0.2, 1, 60, 21))
	p := evaluate(t, w, level(0.3), level(0.6), Cut{Plane: Plane{At: Vec{0, 0, 0.5}, Normal: Vec{1, 0, 0}}})
	tints := p.Tints()
	require.Len(t, tints, len(p.Form.Triangles))
	of := map[uint16]Tint{}
	for i, f := range p.Faces {
		of[f] = tints[i]
	}
	assert.Len(t, of, 6)
	v := NewViewer(p.Form)
	v.Tints = tints
	picture := v.Draw(View{Yaw: 20}, 200, 200)
	seen := map[[3]uint8]bool{}
	for y := range 200 {
		c := picture.RGBAAt(108, y)
		seen[[3]uint8{c.R / 16, c.G / 16, c.B / 16}] = true
	}
	assert.Greater(t, len(seen), 3)
}

func TestAFormFarWiderThanHighHasNoOutline(t *testing.T) {
	m := &Mesh{Points: []Vec32{{0, 0, 0}, {3e38, 0, 0}, {0, 1, 1e-9}}, Triangles: [][3]uint32{{0, 1, 2}}}
	assert.Empty(t, OutlineOf(m, Front))
}
