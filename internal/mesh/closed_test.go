package mesh

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestEverySolidIsClosed(t *testing.T) {
	for _, s := range exactSolids(200) {
		assert.True(t, CountSeams(s.mesh).Closed(), s.name)
		assert.Empty(t, OpenEdges(s.mesh), s.name)
	}
	assert.True(t, CountSeams(&Mesh{}).Closed())
}

func TestOneMissingTriangleOpensThreeEdges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := sphere(1, 12)
		gone := rapid.IntRange(0, len(whole.Triangles)-1).Draw(t, "triangle")
		m := without(whole, func(i int) bool { return i == gone })
		assert.Equal(t, Seams{Open: 3}, CountSeams(m))
		for _, e := range OpenEdges(m) {
			a, b := e[0], e[1]
			hole := whole.Triangles[gone] // its neighbours run along its edges the other way
			assert.Contains(t, [][2]uint32{{hole[1], hole[0]}, {hole[2], hole[1]}, {hole[0], hole[2]}}, [2]uint32{a, b})
		}
	})
}

func TestOneTurnedTriangleTurnsThreeEdges(t *testing.T) {
	m := sphere(1, 12)
	m.Triangles[7][1], m.Triangles[7][2] = m.Triangles[7][2], m.Triangles[7][1]
	assert.Equal(t, Seams{Turned: 3}, CountSeams(m))
}

func TestAFinStandingOnAFaceSharesItsEdge(t *testing.T) {
	m := cube(1, 1)
	tip := uint32(len(m.Points))
	m.Points = append(m.Points, Vec32{3, 3, 3})
	side := m.Triangles[0]
	m.Triangles = append(m.Triangles, [3]uint32{side[0], side[1], tip})
	assert.Equal(t, Seams{Open: 2, Shared: 1}, CountSeams(m))
}

// As many sides run one way along each edge as the other, yet none is sound.
func TestASurfaceTwiceInOnePlaceSharesEveryEdge(t *testing.T) {
	for _, m := range []*Mesh{cube(1, 1), sphere(1, 40)} {
		m.Triangles = append(m.Triangles, m.Triangles...)
		assert.Equal(t, Seams{Shared: len(m.Triangles) * 3 / 4}, CountSeams(m))
	}
}

// Sides that are not partners do not cancel out, not even where sums and
// products of their points would.
func TestTheWorthsOfSidesCancelOnlyBetweenPartners(t *testing.T) {
	const n = 120
	for a := range uint32(n) {
		for c := range a {
			for b := a + 1; b < a+n; b++ {
				for d := a + 1; d < b; d++ {
					if worth(a, b)-worth(a, d)-worth(c, b)+worth(c, d) == 0 {
						t.Fatalf("the sides of %d, %d and %d, %d cancel", a, c, b, d)
					}
				}
			}
		}
	}
}

// Two pyramids that touch along one edge are each sound but for that edge.
func TestTwoSolidsThatTouchAlongAnEdgeShareIt(t *testing.T) {
	m := cube(1, 1)
	beyond := uint32(len(m.Points))
	m.Points = append(m.Points, Vec32{5, 5, 5}, Vec32{6, 5, 5})
	a, b := m.Triangles[0][0], m.Triangles[0][1]
	c, d := beyond, beyond+1
	m.Triangles = append(m.Triangles, [3]uint32{a, b, c}, [3]uint32{b, a, d}, [3]uint32{a, c, d}, [3]uint32{b, d, c})
	assert.Equal(t, Seams{Shared: 1}, CountSeams(m))
}

// The poles of this ball are corners of a thousand triangles each.
func TestPolesOfManyTrianglesAreSound(t *testing.T) {
	m := sphere(1, 1000)
	assert.True(t, CountSeams(m).Closed())
	m.Triangles[0] = m.Triangles[1]
	assert.False(t, CountSeams(m).Closed())
}

// The bust and the holed elephant of libcgal-demo are known to be open, the
// standing man closed.
func TestFiguresAreClosedOrOpenAsTheyShould(t *testing.T) {
	assert.True(t, CountSeams(figure(t, "man.off")).Closed())
	holed := CountSeams(figure(t, "elephant-with-holes.off"))
	assert.Positive(t, holed.Open)
	assert.Zero(t, holed.Shared)
}

// VTK's feature edges count the same rims.
func TestOpenEdgesAgreeWithVTK(t *testing.T) {
	m := figure(t, "elephant-with-holes.off")
	n := askVTK(t, m, `
f = vtk.vtkFeatureEdges(); f.SetInputData(mesh)
f.FeatureEdgesOff(); f.NonManifoldEdgesOff(); f.ManifoldEdgesOff(); f.BoundaryEdgesOn(); f.Update()
print(json.dumps([f.GetOutput().GetNumberOfCells()]))`)
	assert.Equal(t, int(n[0]), CountSeams(m).Open)
}

func BenchmarkCountSeamsMillion(b *testing.B) {
	m := sphere(1, 1000)
	for b.Loop() {
		_ = CountSeams(m)
	}
}

// Whatever triangles meet, each edge is told as it is by counting it in a map.
func TestSeamsOfAnyTrianglesAreThoseOfAPlainCount(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Uint32Range(4, 12).Draw(t, "points")
		m := &Mesh{Points: make([]Vec32, n)}
		for range rapid.IntRange(0, 60).Draw(t, "triangles") {
			a, b, c := rapid.Uint32Range(0, n-1).Draw(t, "a"), rapid.Uint32Range(0, n-1).Draw(t, "b"), rapid.Uint32Range(0, n-1).Draw(t, "c")
			if a != b && b != c && c != a {
				m.Triangles = append(m.Triangles, [3]uint32{a, b, c})
			}
		}
		ways := map[[2]uint32][2]int{}
		for _, f := range m.Triangles {
			for k := range 3 {
				a, b := f[k], f[(k+1)%3]
				w := ways[[2]uint32{min(a, b), max(a, b)}]
				if a < b {
					w[0]++
				} else {
					w[1]++
				}
				ways[[2]uint32{min(a, b), max(a, b)}] = w
			}
		}
		var plain Seams
		for _, w := range ways {
			switch {
			case w[0]+w[1] == 1:
				plain.Open++
			case w[0]+w[1] > 2:
				plain.Shared++
			case w[0] != 1:
				plain.Turned++
			}
		}
		assert.Equal(t, plain, CountSeams(m))
	})
}
