package form

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"meltwright/internal/quantity"
)

// Exact.
func TestASphereOfOneMetreHasPiSquareMetres(t *testing.T) {
	s := Solids{{Sphere{1}, 1}}
	v, known := s.Volume()
	assert.True(t, known)
	assert.InDelta(t, 3.141593, float64(s.Area()), 0.0000005)
	assert.InDelta(t, 0.523599, float64(v), 0.0000005)
}

// Exact; and area × wall is two per cent heavy on it.
func TestAHollowSphereOfQuarterMetreRadiusWeighsThirtyTwoKilos(t *testing.T) {
	s := Solids{{Sphere{0.5}, 1}}
	metal, solid := s.Metal(0.005)
	assert.InDelta(t, 32.18, float64(metal)*8360, 0.005)
	assert.Zero(t, solid)
	flat, _ := Surface{Outside: s.Area()}.Metal(0.005)
	assert.InDelta(t, 32.83, float64(flat)*8360, 0.005)
	assert.InDelta(t, 0.020, 1-float64(metal)/float64(flat), 0.0005)
}

// siliconeab.com, mould volume by the box: 6 × 4 × 3 cm less a part of
// 5 × 3 × 2 cm is 42 cm³, of 1.2 g/cm³ 50.4 g.
func TestABoxLessThePartInItHolds42CubicCentimetres(t *testing.T) {
	box, _ := Solids{{Box{0.06, 0.04, 0.03, Closed}, 1}}.Volume()
	part, _ := Solids{{Box{0.05, 0.03, 0.02, Closed}, 1}}.Volume()
	assert.InDelta(t, 42, float64(box-part)*1e6, 1e-9)
	assert.InDelta(t, 50.4, float64(box-part)*1e6*1.2, 1e-9)
}

func TestSolidsOfAListAddUpWithTheirCounts(t *testing.T) {
	legs := Solids{{Cylinder{0.08, 0.4, Closed}, 4}, {Plate{1.2, 0.4, 0.05}, 1}}
	one := Solids{{Cylinder{0.08, 0.4, Closed}, 1}}
	top := Solids{{Plate{1.2, 0.4, 0.05}, 1}}
	assert.InDelta(t, 4*float64(one.Area())+float64(top.Area()), float64(legs.Area()), 1e-12)
	m1, _ := one.Metal(0.005)
	m2, _ := top.Metal(0.005)
	m, _ := legs.Metal(0.005)
	assert.InDelta(t, 4*float64(m1)+float64(m2), float64(m), 1e-15)
	in1, _ := one.Inside(0.005)
	in2, _ := top.Inside(0.005)
	in, known := legs.Inside(0.005)
	assert.True(t, known)
	assert.InDelta(t, 4*float64(in1)+float64(in2), float64(in), 1e-12)
	assert.InDelta(t, 0.04, float64(legs.Thickest()), 1e-12, "the legs stay hollow longest")
}

func TestPartsThinnerThanTwoWallsAreSolidAndTheOthersHollow(t *testing.T) {
	s := Solids{{Sphere{0.5}, 1}, {Cylinder{0.008, 0.3, Closed}, 2}}
	metal, solid := s.Metal(0.005)
	rod := 2 * math.Pi / 4 * 0.008 * 0.008 * 0.3
	assert.InDelta(t, rod, float64(solid), 1e-15)
	ball, _ := Solids{{Sphere{0.5}, 1}}.Metal(0.005)
	assert.InDelta(t, float64(ball)+rod, float64(metal), 1e-15)
	in, _ := s.Inside(0.005)
	assert.InDelta(t, math.Pi*0.49*0.49, float64(in), 1e-12, "the rods have no inside")
}

// anyShape draws a solid of any kind with sizes from a centimetre to two metres.
func anyShape(t *rapid.T) Shape {
	size := func(label string) float64 { return rapid.Float64Range(0.01, 2).Draw(t, label) }
	ends := Ends(rapid.IntRange(0, 2).Draw(t, "ends"))
	switch rapid.IntRange(0, 8).Draw(t, "kind") {
	case 0:
		return Sphere{size("d")}
	case 1:
		return Ellipsoid{size("a"), size("b"), size("c")}
	case 2:
		return Cylinder{size("d"), size("h"), ends}
	case 3:
		return Frustum{size("foot"), 0, size("h"), ends}
	case 4:
		return Frustum{size("foot"), size("top"), size("h"), ends}
	case 5:
		return Box{size("a"), size("b"), size("c"), ends}
	case 6:
		d := size("d")
		return Torus{d + size("ring"), d}
	case 7:
		bore := size("bore")
		return Tube{bore + size("wall"), bore, size("l")}
	}
	return Plate{size("a"), size("b"), size("thick")}
}

// Bodies held against themselves: what is true of any wall in any solid.
func TestAThickerWallIsNeverLighterAndNeverMoreThanSolid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Solids{{anyShape(t), rapid.IntRange(1, 5).Draw(t, "count")}}
		v, _ := s.Volume()
		before := quantity.Volume(0)
		for i := range 40 {
			w := quantity.Length(i+1) * s.Thickest() / 30
			m, solid := s.Metal(w)
			if m < before*(1-1e-12) || m > v*(1+1e-12) || solid > m {
				t.Fatalf("wall %v: %v of metal, %v of it solid, in %v; before %v", w, m, solid, v, before)
			}
			before = m
		}
		if before != v {
			t.Fatalf("at four thirds of its thickest wall it is not solid: %v of %v", before, v)
		}
	})
}

// The inside surface is what the room loses where the wall grows: −dV/dt.
func TestTheInsideSurfaceIsHowFastTheRoomShrinks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shape := anyShape(t)
		w := shape.half() * rapid.Float64Range(0.05, 0.9).Draw(t, "wall")
		h, near := shape.half()*1e-5, 1e-3*shape.area()
		if e, is := shape.(Ellipsoid); is && w+h > e.bend() {
			h, near = shape.half()*1e-3, 3e-2*shape.area() // added up in steps
		}
		slope := (shape.hollow(w-h) - shape.hollow(w+h)) / (2 * h)
		if math.Abs(slope-shape.inner(w)) > near {
			t.Fatalf("%#v, wall %v: inside %v, but the room shrinks by %v", shape, w, shape.inner(w), slope)
		}
	})
}

// A thin wall weighs its area times its thickness.
func TestAThinWallIsAreaTimesThickness(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Solids{{anyShape(t), 1}}
		w := s.Thickest() * 1e-5
		if e, is := s[0].Shape.(Ellipsoid); is {
			w = quantity.Length(math.Min(float64(w), e.bend()/1e4))
		}
		m, _ := s.Metal(w)
		if want := float64(s.Area()) * float64(w); math.Abs(float64(m)-want) > 1e-3*want {
			t.Fatalf("%#v: %v, not %v", s[0].Shape, m, want)
		}
	})
}

// Lengths × s, areas × s², volumes × s³; the wall does not scale.
func TestAScaledFormIsTheSolidMadeThatSize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.Float64Range(0.1, 8).Draw(t, "scale")
		small, large := Solids{{Frustum{0.3, 0.2, 0.5, Closed}, 2}}, Solids{{Frustum{0.3 * k, 0.2 * k, 0.5 * k, Closed}, 2}}
		z := Sized{small, k}
		w := large.Thickest() * quantity.Length(rapid.OneOf(rapid.Float64Range(0.01, 0.999), rapid.Float64Range(1.001, 1.1)).Draw(t, "wall"))
		same := func(what string, a, b float64) {
			if math.Abs(a-b) > 1e-9*(math.Abs(b)+1e-9) {
				t.Fatalf("%s: %v, not %v", what, a, b)
			}
		}
		m1, s1 := z.Metal(w)
		m2, s2 := large.Metal(w)
		v1, _ := z.Volume()
		v2, _ := large.Volume()
		i1, _ := z.Inside(w)
		i2, _ := large.Inside(w)
		same("area", float64(z.Area()), float64(large.Area()))
		same("volume", float64(v1), float64(v2))
		same("metal", float64(m1), float64(m2))
		same("solid", float64(s1), float64(s2))
		same("inside", float64(i1), float64(i2))
		same("thickest", float64(z.Thickest()), float64(large.Thickest()))
	})
}

func TestASurfaceAloneIsAreaTimesWallUpToWhatItDisplaces(t *testing.T) {
	s := Surface{Outside: 2, Room: 0.05}
	m, solid := s.Metal(0.01)
	assert.InDelta(t, 0.02, float64(m), 1e-15)
	assert.Zero(t, solid)
	m, solid = s.Metal(0.03)
	assert.Equal(t, quantity.Volume(0.05), m)
	assert.Equal(t, m, solid, "all of it casts solid")
	m, solid = Surface{Outside: 2}.Metal(0.03)
	assert.InDelta(t, 0.06, float64(m), 1e-15, "nobody knows what it displaces")
	assert.Zero(t, solid)
	_, known := Surface{Outside: 2}.Volume()
	assert.False(t, known)
	_, known = s.Inside(0.01)
	assert.False(t, known)
	assert.False(t, s.Exact())
	assert.True(t, Solids{}.Exact())
	assert.InDelta(t, 1, float64(Surface{Outside: 4 * math.Pi}.Thickest()), 1e-12, "a ball of a metre")
}
