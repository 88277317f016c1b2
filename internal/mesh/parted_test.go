package mesh

import (
	"math"
	"math/bits"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestAPointOfALargeFaceLiesOnThePartThatIsNearestOfAll(t *testing.T) {
	w, err := MeasureWall(t.Context(), &Skin{Mesh: cube(1, 1)}, nil, nil)
	require.NoError(t, err)
	rapid.Check(t, func(t *rapid.T) {
		var cuts []Cut
		for range rapid.IntRange(1, 12).Draw(t, "cuts") {
			axis := rapid.IntRange(0, 2).Draw(t, "axis")
			c := Cut{Plane: Plane{At: Vec{}, Normal: Vec{0.1, 0.2, 0.3}}}
			c.Plane.Normal[axis] = 1
			c.Plane.At[axis] = rapid.Float64Range(-0.6, 1.1).Draw(t, "at")
			cuts = append(cuts, c)
		}
		l := w.whole()
		p := findPieces(l, cuts)
		triangle := uint32(rapid.IntRange(0, len(l.triangles)-1).Draw(t, "triangle"))
		for k := range 50 {
			f := math.Mod(float64(k)*0.618, 1)
			g := math.Mod(float64(k)*0.381, 1) * (1 - f)
			c := l.triangles[triangle]
			a := l.points[c[0]]
			q := a.Add(l.points[c[1]].Sub(a).Mul(f)).Add(l.points[c[2]].Sub(a).Mul(g)).Add(Vec{0, 0, 1e-3})
			best, least := -1, math.Inf(1)
			for i := range p.triangles {
				if d := p.far(i, q); p.origin[i] == triangle && d < least {
					best, least = i, d
				}
			}
			require.Equal(t, best, p.triangleAt(triangle, q))
		}
	})
}

func TestAFaceThatIsCutIntoHundredsIsNotSearchedFromEndToEnd(t *testing.T) {
	var cuts []Cut
	for k := range 12 {
		for axis := range 3 {
			var c Cut
			c.Plane.Normal[axis] = 1
			c.Plane.At = Vec{-0.5, -0.5, 0}.Add(c.Plane.Normal.Mul((float64(k) + 0.5) / 12))
			cuts = append(cuts, c)
		}
	}
	l := &lump{bare: make([]bool, 12)}
	m := cube(1, 1)
	for _, q := range m.Points {
		l.points = append(l.points, q.Vec())
	}
	l.triangles = m.Triangles
	p := findPieces(l, cuts)
	require.NotEmpty(t, p.parts)
	for _, parts := range p.parts {
		assert.Greater(t, len(parts.parts), 100)
		deepest := 0
		var down func(n, depth int)
		down = func(n, depth int) {
			deepest = max(deepest, depth)
			if at := &parts.nodes[n]; at.count == 0 {
				down(at.first, depth+1)
				down(at.first+1, depth+1)
			} else {
				assert.LessOrEqual(t, at.count, leafParts)
			}
		}
		down(0, 0)
		assert.LessOrEqual(t, deepest, bits.Len(uint(len(parts.parts))))
	}
}
