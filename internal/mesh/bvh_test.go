package mesh

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// nearestByAll looks at every triangle: slow and plainly right.
func nearestByAll(m *Mesh, q Vec) float64 {
	best := math.Inf(1)
	for i := range m.Triangles {
		a, b, c := m.Corners(i)
		best = min(best, q.Sub(nearestOnTriangle(q, a, b, c)).Norm())
	}
	return best
}

// nearestOnTriangle drops a perpendicular and, where that misses, tries the sides.
func nearestOnTriangle(q, a, b, c Vec) Vec {
	n := b.Sub(a).Cross(c.Sub(a))
	foot := q
	if n.Dot(n) > 0 {
		foot = q.Sub(n.Mul(q.Sub(a).Dot(n) / n.Dot(n)))
		inside := true
		for _, e := range [3][2]Vec{{a, b}, {b, c}, {c, a}} {
			inside = inside && e[1].Sub(e[0]).Cross(foot.Sub(e[0])).Dot(n) >= 0
		}
		if inside {
			return foot
		}
	}
	best := a
	for _, e := range [3][2]Vec{{a, b}, {b, c}, {c, a}} {
		side := e[1].Sub(e[0])
		along := 0.0
		if side.Dot(side) > 0 {
			along = min(max(q.Sub(e[0]).Dot(side)/side.Dot(side), 0), 1)
		}
		if p := e[0].Add(side.Mul(along)); q.Sub(p).Norm() < q.Sub(best).Norm() {
			best = p
		}
	}
	return best
}

func TestClosestPointIsTheOneFoundByLookingAtEveryTriangle(t *testing.T) {
	forms := []*Mesh{sphere(1, 20), torus(1, 0.3, 24), cube(1, 4), hollowSphere(1, 0.7, 16)}
	trees := make([]*Tree, len(forms))
	for i, m := range forms {
		forms[i] = turned(m, Vec{1, 2, 3}, Vec{0.1, 0.2, 0.3})
		trees[i] = NewTree(forms[i], nil)
	}
	rapid.Check(t, func(t *rapid.T) {
		i := rapid.IntRange(0, len(forms)-1).Draw(t, "form")
		at := rapid.Float64Range(-2, 2)
		q := Vec{at.Draw(t, "x"), at.Draw(t, "y"), at.Draw(t, "z")}
		want := nearestByAll(forms[i], q)
		got := trees[i].Closest(q)
		assert.InDelta(t, want, got.Distance, 1e-6)
		assert.InDelta(t, got.Distance, got.Point.Sub(q).Norm(), 1e-9)
		guess := rapid.IntRange(0, len(forms[i].Triangles)-1).Draw(t, "guess")
		assert.InDelta(t, want, trees[i].closest(q, guess).Distance, 1e-6)
	})
}

func TestClosestPointOnASliverIsFound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.Float64Range(-1, 1)
		point := func(name string) Vec { return Vec{at.Draw(t, name), at.Draw(t, name), at.Draw(t, name)} }
		a, q := point("a"), point("q")
		b := a.Add(point("side"))
		c := a.Add(b.Sub(a).Mul(at.Draw(t, "along"))).Add(point("aside").Mul(1e-5))
		m := &Mesh{Points: []Vec32{a.Vec32(), b.Vec32(), c.Vec32()}, Triangles: [][3]uint32{{0, 1, 2}}}
		assert.InDelta(t, nearestByAll(m, q), NewTree(m, nil).Closest(q).Distance, 1e-5)
	})
}

func TestWindingNumberIsOneInsideAndNoneOutside(t *testing.T) {
	for _, s := range exactSolids(200) {
		tree := NewTree(turned(s.mesh, Vec{1, 1, 1}, Vec{}), nil)
		random := rand.New(rand.NewPCG(1, 2))
		worst := 0.0
		for range 2000 {
			q := Vec{random.Float64()*1.4 - 0.2, random.Float64()*1.4 - 0.2, random.Float64()*1.4 - 0.2}
			if tree.Closest(q).Distance < 1e-4 {
				continue
			}
			w := tree.Winding(q)
			worst = max(worst, math.Abs(w-math.Round(w)))
		}
		assert.Less(t, worst, 0.1, s.name) // a half would be needed to mistake the side
	}
	inside := NewTree(hollowSphere(1, 0.5, 40), nil)
	assert.False(t, inside.Inside(Vec{0, 0, 0}), "the hollow is outside")
	assert.True(t, inside.Inside(Vec{0.7, 0, 0}))
	assert.False(t, inside.Inside(Vec{0, 0, 1.1}))
}

// A closed form without its flat foot: the winding number is one half on the
// plane that would close it, exactly, by symmetry of the solid angle.
func TestWindingNumberClosesAFlatFoot(t *testing.T) {
	whole := cylinder(0.5, 2, 100, 30)
	open := without(whole, func(i int) bool {
		a, b, c := whole.Corners(i)
		return a[2]+b[2]+c[2] == 0
	})
	tree := NewTree(open, nil)
	assert.InDelta(t, 0.5, tree.Winding(Vec{0.1, 0.1, 0}), 0.01)
	assert.True(t, tree.Inside(Vec{0.1, 0.1, 0.02}))
	assert.False(t, tree.Inside(Vec{0.1, 0.1, -0.02}))
}

func TestAnEmptyTreeAnswersWithoutASurface(t *testing.T) {
	tree := NewTree(&Mesh{}, nil)
	assert.Equal(t, -1, tree.Closest(Vec{}).Triangle)
	assert.False(t, tree.Inside(Vec{}))
}

func TestTrianglesAllInOnePlaceStillMakeATree(t *testing.T) {
	m := &Mesh{Points: []Vec32{{0, 0, 0}, {1, 0, 0}, {0, 1, 0}}}
	for range 5000 {
		m.Triangles = append(m.Triangles, [3]uint32{0, 1, 2})
	}
	assert.InDelta(t, 3, NewTree(m, nil).Closest(Vec{0.2, 0.2, 3}).Distance, 1e-6)
}

func benchmarkFigure(b *testing.B, triangles int) *Mesh {
	m := figure(b, "refined_elephant.off")
	b.Logf("%d triangles", len(m.Triangles))
	return m
}

func BenchmarkTreeOf89k(b *testing.B) {
	m := benchmarkFigure(b, 0)
	for b.Loop() {
		NewTree(m, nil)
	}
}

func BenchmarkClosest(b *testing.B) {
	m := benchmarkFigure(b, 0)
	tree := NewTree(m, nil)
	s := Measure(m)
	random := rand.New(rand.NewPCG(1, 2))
	for b.Loop() {
		q := Vec{}
		for k := range 3 {
			q[k] = s.Min[k] + random.Float64()*s.Box()[k]
		}
		tree.Closest(q)
	}
}

func BenchmarkWinding(b *testing.B) {
	m := benchmarkFigure(b, 0)
	tree := NewTree(m, nil)
	random := rand.New(rand.NewPCG(1, 2))
	for b.Loop() {
		a, _, _ := m.Corners(random.IntN(len(m.Triangles)))
		a[0] += 1e-3 * random.Float64()
		tree.Winding(a)
	}
}
