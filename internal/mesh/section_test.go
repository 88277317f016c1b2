package mesh

import (
	"context"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func evaluate(t require.TestingT, w *Wall, cuts ...Cut) Plan {
	p, err := w.Evaluate(context.Background(), cuts)
	require.NoError(t, err)
	return p
}

func level(z float64) Cut { return Cut{Plane: Plane{At: Vec{0, 0, z}, Normal: Vec{0, 0, 1}}} }

func TestAFormThatIsNotCutIsOneSection(t *testing.T) {
	w := roughWall(t, sphere(0.5, 60))
	for _, cuts := range [][]Cut{nil, {level(3)}, {{}}} {
		p := evaluate(t, w, cuts...)
		require.Len(t, p.Sections, 1)
		s := p.Sections[0].At(&w.Profile, 2, 0.01)
		assert.InEpsilon(t, w.Profile.Metal(2, 0.01), s.Metal, 1e-6)
		assert.InEpsilon(t, 4*Measure(w.Skin.Mesh).Area, s.Area, 1e-9)
		assert.Zero(t, p.Weld)
	}
}

func TestACylinderCutAcrossIsTwoCylindersAndOneWeld(t *testing.T) {
	w := roughWall(t, cylinder(0.3, 2, 200, 21))
	for _, z := range []float64{0.5, 0.77} { // through a row of points, and not
		p := evaluate(t, w, level(z))
		require.Len(t, p.Sections, 2)
		assert.InEpsilon(t, 2*math.Pi*0.3, p.Weld, 1e-3)
		low, high := p.Sections[0].At(&w.Profile, 1, 0.01), p.Sections[1].At(&w.Profile, 1, 0.01)
		if p.Sections[0].Min[2] > 0.1 {
			low, high = high, low
		}
		assert.InEpsilon(t, math.Pi*0.09*z, low.Volume, 1e-3)
		assert.InEpsilon(t, math.Pi*0.09*(2-z), high.Volume, 1e-3)
		assert.InEpsilon(t, math.Pi*0.09+2*math.Pi*0.3*z, low.Area, 1e-3)
		assert.InDelta(t, z, low.Box[2], 1e-6)
		wall := math.Pi * 0.01 * (0.09 + 2*0.3*(z-0.01)) // floor and shell, less the corner between
		assert.InEpsilon(t, wall-math.Pi*0.01*0.01*(z-0.01), low.Metal, 0.01)
		assert.InDelta(t, p.Weld/2, low.Weld, 1e-9)
	}
}

func TestCuttingConservesAreaAndMetal(t *testing.T) {
	m := figure(t, "elephant.off")
	m = m.Scale(1.8 / Measure(m).Long())
	size := Measure(m)
	w := roughWall(t, m)
	middle := size.Min.Add(size.Max).Mul(0.5)
	rapid.Check(t, func(t *rapid.T) {
		var cuts []Cut
		for range rapid.IntRange(1, 4).Draw(t, "planes") {
			var p Plane
			for k := range 3 {
				p.At[k] = middle[k] + rapid.Float64Range(-0.4, 0.4).Draw(t, "at")*size.Box()[k]
				p.Normal[k] = rapid.Float64Range(-1, 1).Draw(t, "normal")
			}
			cut := Cut{Plane: p}
			if rapid.Bool().Draw(t, "one outline") {
				cut.Near = []Vec{p.At}
			}
			cuts = append(cuts, cut)
		}
		scale, wall := rapid.Float64Range(0.2, 5).Draw(t, "scale"), rapid.Float64Range(0, 0.05).Draw(t, "wall")
		p := evaluate(t, w, cuts...)
		area, metal, weld := 0.0, 0.0, 0.0
		for i := range p.Sections {
			s := p.Sections[i].At(&w.Profile, scale, wall)
			area += s.Area
			metal += s.Metal
			weld += s.Weld
		}
		assert.InEpsilon(t, size.Area*scale*scale, area, 1e-6)
		assert.InDelta(t, w.Profile.Metal(scale, wall), metal, 1e-6*w.Profile.Volume*scale*scale*scale)
		assert.InDelta(t, p.Weld*scale, weld, 1e-9+1e-9*weld)
		assert.Len(t, p.Faces, len(p.Form.Triangles))
		assert.Equal(t, len(p.Sections)-1, int(slices.Max(p.Faces)))
	}) // every plane at once, crossing where they like
}

func TestVolumesOfParallelSlicesAddUp(t *testing.T) {
	w := roughWall(t, turned(torus(0.4, 0.15, 120), Vec{1.2, 0.3, 0}, Vec{}))
	rapid.Check(t, func(t *rapid.T) {
		p := evaluate(t, w, level(rapid.Float64Range(-0.5, -0.1).Draw(t, "low")), level(rapid.Float64Range(0, 0.5).Draw(t, "high")))
		sum := 0.0
		for _, s := range p.Sections {
			sum += s.Volume
		}
		assert.InEpsilon(t, Measure(w.Skin.Mesh).Volume, sum, 1e-4)
	})
}

// Two legs under a body: a plane through both makes three sections, a cut near
// one leg two.
func TestACutNearOneLegLeavesTheOther(t *testing.T) {
	w := roughWall(t, stool())
	both := evaluate(t, w, level(0.5))
	assert.Len(t, both.Sections, 3)
	assert.InEpsilon(t, 2*0.8, both.Weld, 1e-3)
	one := evaluate(t, w, Cut{Plane: level(0.5).Plane, Near: []Vec{{-0.4, 0, 0.5}}})
	assert.Len(t, one.Sections, 2)
	assert.InEpsilon(t, 0.8, one.Weld, 1e-3)
}

func TestARingCutOnceIsOneSectionAndStillWelded(t *testing.T) {
	w := roughWall(t, torus(0.4, 0.1, 80))
	p := evaluate(t, w, Cut{Plane: Plane{Normal: Vec{0, 1, 0}}, Near: []Vec{{0.5, 0, 0}}})
	require.Len(t, p.Sections, 1)
	assert.InEpsilon(t, 2*math.Pi*0.1, p.Weld, 0.01)
	assert.InEpsilon(t, p.Weld, p.Sections[0].Weld, 1e-9)
}

func TestWhatAPlaneBarelyShavesOffStaysWhereItIs(t *testing.T) {
	w := roughWall(t, sphere(0.5, 120))
	assert.Len(t, evaluate(t, w, level(0.4999)).Sections, 1)
	assert.Len(t, evaluate(t, w, level(0.45)).Sections, 2)
}

func TestAHollowIsCutWithItsSkin(t *testing.T) {
	m := hollowSphere(0.5, 0.4, 60)
	m, s, _, err := Orient(t.Context(), m)
	require.NoError(t, err)
	w, err := MeasureWall(context.Background(), &Skin{Mesh: m, Body: s.Bodies()}, nil, nil)
	require.NoError(t, err)
	p := evaluate(t, w, level(0.01))
	assert.Len(t, p.Sections, 2)
	assert.InEpsilon(t, 2*math.Pi*0.9, p.Weld, 0.01)
}

// stool is a seat of 1 × 0.2 × 0.2 m on two square legs of 0.2 m and 0.8 m height.
func stool() *Mesh {
	m := &Mesh{}
	outline := [][2]float64{{-0.5, 0}, {-0.3, 0}, {-0.3, 0.8}, {0.3, 0.8}, {0.3, 0}, {0.5, 0}, {0.5, 1}, {-0.5, 1}}
	for _, y := range []float64{-0.1, 0.1} {
		for _, p := range outline {
			m.Points = append(m.Points, Vec{p[0], y, p[1]}.Vec32())
		}
	}
	n := uint32(len(outline))
	for i := range n {
		j := (i + 1) % n
		m.Triangles = append(m.Triangles, [3]uint32{i, j, j + n}, [3]uint32{i, j + n, i + n})
	}
	for _, f := range [][3]uint32{{0, 2, 1}, {0, 7, 2}, {2, 7, 3}, {7, 6, 3}, {3, 6, 5}, {3, 5, 4}} {
		m.Triangles = append(m.Triangles, [3]uint32{f[0], f[1], f[2]}, [3]uint32{f[0] + n, f[2] + n, f[1] + n})
	}
	mended, _, _, _ := Orient(context.Background(), m)
	return mended
}
