package mesh

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// The plain way to weld: a map.
func weldByMap(points []Vec32) (numbers []uint32, distinct []Vec32) {
	known := map[Vec32]uint32{}
	for _, p := range points {
		n, ok := known[p]
		if !ok {
			n = uint32(len(distinct))
			known[p] = n
			distinct = append(distinct, p)
		}
		numbers = append(numbers, n)
	}
	return numbers, distinct
}

// equal compares long lists without printing them.
func equal[T comparable](a, b []T) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

func TestWeldingNumbersPointsAsAMapWould(t *testing.T) {
	for _, n := range []int{0, 1, batch - 1, batch, batch + 1, 5000, 200_000} {
		r := rand.New(rand.NewPCG(7, uint64(n)))
		points := make([]Vec32, n)
		for i := range points {
			points[i] = Vec32{float32(r.IntN(20)), float32(r.IntN(2000)) / 7, float32(r.IntN(9)) * 1e-20}
		}
		w := newWelder(0, 0)
		numbers := make([]uint32, n)
		w.number(points, numbers)
		want, distinct := weldByMap(points)
		assert.Equal(t, len(distinct), len(w.points), n)
		assert.True(t, equal(distinct, w.points), n)
		assert.True(t, equal(want, numbers), n)
	}
}

func TestWeldingWithinATolerance(t *testing.T) {
	// Two squares a crack apart.
	m := &Mesh{
		Points:    []Vec32{{0, 0, 0}, {1, 0, 0}, {1, 1, 0}, {1.001, 0, 0}, {2, 0, 0}, {1.001, 1, 0}},
		Triangles: [][3]uint32{{0, 1, 2}, {3, 4, 5}},
	}
	assert.Same(t, m, m.Weld(0))
	assert.Same(t, m, m.Weld(math.NaN()))
	assert.Equal(t, m, m.Weld(0.0005), "out of reach")
	welded := m.Weld(0.002)
	assert.Equal(t, [][3]uint32{{0, 1, 2}, {1, 3, 2}}, welded.Triangles)
	assert.Equal(t, []Vec32{{0, 0, 0}, {1, 0, 0}, {1, 1, 0}, {2, 0, 0}}, welded.Points)
	assert.Len(t, m.Points, 6, "the mesh itself is as it was")
	assert.Empty(t, m.Weld(100).Triangles, "a tolerance beyond the form eats it")
}

// A point within reach is found in whatever cell it lies, and none beyond is.
func TestWeldingFindsEveryNeighbourWithinReach(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		reach := rapid.SampledFrom([]float64{1e-6, 0.1, 1, 37}).Draw(t, "reach")
		share := rapid.Float64Range(-4, 4)
		p := Vec{share.Draw(t, "x"), share.Draw(t, "y"), share.Draw(t, "z")}.Mul(reach).Vec32()
		away := Vec{share.Draw(t, "dx"), share.Draw(t, "dy"), share.Draw(t, "dz")}.Mul(reach / 3)
		q := p.Vec().Add(away).Vec32()
		n := newNeighbours([]Vec32{p, q}, reach)
		n.first(0)
		assert.Equal(t, q.Vec().Sub(p.Vec()).Norm() <= reach, n.first(1) == 0)
	})
}

func TestASphereShakenByLessThanTheToleranceClosesAgain(t *testing.T) {
	solid := sphere(100, 64)
	r := rand.New(rand.NewPCG(1, 2))
	soup := &Mesh{}
	for i := range solid.Triangles {
		for _, k := range solid.Triangles[i] {
			p := solid.Points[k].Vec()
			for x := range p {
				p[x] += 0.004 * (r.Float64() - 0.5)
			}
			soup.Points = append(soup.Points, p.Vec32())
		}
		n := uint32(3 * i)
		soup.Triangles = append(soup.Triangles, [3]uint32{n, n + 1, n + 2})
	}
	welded := soup.Weld(0.01)
	assert.Equal(t, len(solid.Points), len(welded.Points))
	assert.Equal(t, len(solid.Triangles), len(welded.Triangles))
	assert.InEpsilon(t, volumeOf(solid), volumeOf(welded), 1e-4)
}

func TestTransformsFollowOneAnother(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-3, 3)
		draw := func(name string) (f transform) {
			for i := range f {
				for j := range f[i] {
					f[i][j] = x.Draw(t, name)
				}
			}
			return f
		}
		f, g, p := draw("f"), draw("g"), Vec{x.Draw(t, "x"), x.Draw(t, "y"), x.Draw(t, "z")}
		both := f.after(&g)
		assert.InDelta(t, 0, both.apply(p).Sub(f.apply(g.apply(p))).Norm(), 1e-9)
	})
	assert.False(t, still.mirrors())
	assert.Equal(t, Vec{1, 2, 3}, still.apply(Vec{1, 2, 3}))
	assert.True(t, enlarge(-2).mirrors())
}

func TestScaleTurnsMillimetresIntoMetres(t *testing.T) {
	m := brick(Vec{1000, 2000, 3000}, 1)
	_, high := boxOf(m.Scale(Millimetre.Metres))
	assert.InDelta(t, 0, high.Sub(Vec{1, 2, 3}).Norm(), 1e-6)
	_, high = boxOf(m)
	assert.Equal(t, Vec{1000, 2000, 3000}, high)
}
