package mesh

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

const square = "v 0 0 0\nv 2 0 0\nv 2 1 0\nv 0 1 0\n"

func areaOf(m *Mesh) (area float64) {
	for i := range m.Triangles {
		a, b, c := m.Corners(i)
		area += b.Sub(a).Cross(c.Sub(a)).Norm() / 2
	}
	return area
}

func TestFacesOfAnOBJInEveryHandwriting(t *testing.T) {
	for _, face := range []string{
		"f 1 2 3 4", "f 1/1 2/2 3/3 4/4", "f 1//1 2//1 3//1 4//1", "f 1/1/1 2/1/1 3/1/1 4/1/1",
		"f -4 -3 -2 -1", "f  1\t2   3 4  ", "f 1 2 3 4 # a square", "f 1 2 \\\n 3 4", "f 1 2 \\\r\n3 \\\n4", "fo 1 2 3 4", "f +1 +2 +3 +4",
	} {
		for _, end := range []string{"\n", "\r\n", ""} {
			m, report := mustRead(t, []byte(square+face+end))
			assert.Equal(t, OBJ, report.Format)
			assert.Equal(t, 2, len(m.Triangles), face)
			assert.Equal(t, 2.0, areaOf(m), face)
			assert.Empty(t, report.Notes, face)
		}
	}
}

func TestAnOBJMayNameAPointBeforeItGivesIt(t *testing.T) {
	m, _ := mustRead(t, []byte("f 1 2 3\n"+square))
	assert.Equal(t, 1, len(m.Triangles))
}

func TestNegativeNumbersCountFromThePointsSoFar(t *testing.T) {
	m, _ := mustRead(t, []byte("v 0 0 0\nv 1 0 0\nv 0 1 0\nf -3 -2 -1\nv 5 5 5\nv 6 5 5\nv 5 6 5\nf -3 -2 -1\n"))
	assert.Equal(t, 6, len(m.Points))
	assert.Equal(t, Vec32{5, 5, 5}, m.Points[m.Triangles[1][0]])
}

func TestPointsOfAnOBJMayHaveWeightsAndColours(t *testing.T) {
	m, _ := mustRead(t, []byte("v 0 0 0 1.0\nv 1 0 0 0.5 0.5 0.5\nv 0 1 0 1 0 0 1\nf 1 2 3\n"))
	assert.Equal(t, 0.5, areaOf(m))
}

func TestWhatIsWrongInAnOBJIsCountedByLine(t *testing.T) {
	m, report := mustRead(t, []byte(square+"v 1 2\nf 1 2\nf 1 2 9\nf 0 1 2\nf 1 2 x\nf 1 2 5\nf 1 1 2\nf 1 2 3\nl 1 2\np 1\ncurv 0 1 1 2\n"))
	assert.Equal(t, 1, len(m.Triangles))
	assert.Equal(t, []string{
		"1 point is not three numbers, the first at line 5.",
		"2 faces are not three or more numbers of points, the first at line 6.",
		"Lines and loose points were passed over.",
		"Free-form curves and surfaces were passed over; only flat faces are read.",
		"2 triangles were left out: unreadable, or naming points that the file does not have.",
		"1 triangle was left out: a corner is no number, or too large for one.",
		"1 triangle was left out: two corners are the same point, so there is no surface.",
	}, report.Notes)
}

func TestPolygonsKeepTheirAreaHoweverTheyAreDented(t *testing.T) {
	// A star, an arrow and a comb, each with its area by the shoelace formula,
	// tilted out of every plane of the axes.
	for name, outline := range map[string][][2]float64{
		"arrow":  {{0, 0}, {2, 0}, {0.5, 0.5}, {0, 2}},
		"star":   star(5, 0.4),
		"gear":   star(40, 0.9),
		"comb":   {{0, 0}, {5, 0}, {5, 2}, {4, 2}, {4, 1}, {3, 1}, {3, 2}, {2, 2}, {2, 1}, {1, 1}, {1, 2}, {0, 2}},
		"square": {{0, 0}, {1, 0}, {1, 1}, {0, 1}},
		"seam":   {{0, 0}, {3, 0}, {3, 3}, {0, 3}, {0, 0}, {1, 1}, {1, 2}, {2, 2}, {2, 1}, {1, 1}}, // a hole, reached by a slit
		"flat":   {{0, 0}, {1, 0}, {2, 0}, {2, 1}, {1, 1}, {0, 1}},                                 // corners in a row
	} {
		for turnedBy := range 7 {
			var text strings.Builder
			angle := float64(turnedBy)
			for _, p := range outline {
				c, s := math.Cos(angle), math.Sin(angle)
				x, y, z := c*p[0]-s*p[1], s*p[0]+c*p[1], 0.0
				y, z = c*y-s*z, s*y+c*z
				fmt.Fprintf(&text, "v %v %v %v\n", x, y, z)
			}
			text.WriteString("f")
			for i := range outline {
				fmt.Fprintf(&text, " %d", i+1)
			}
			m, report := mustRead(t, []byte(text.String()))
			assert.InDelta(t, math.Abs(shoelace(outline)), areaOf(m), 1e-6, name)
			assert.False(t, report.Damaged, name)
			assert.Equal(t, len(outline)-2, report.Found, name)
		}
	}
}

// star has n points, with dents at the given share of its radius.
func star(n int, dent float64) (out [][2]float64) {
	for i := range 2 * n {
		r, a := 1.0, math.Pi*float64(i)/float64(n)
		if i%2 == 1 {
			r = dent
		}
		out = append(out, [2]float64{r * math.Cos(a), r * math.Sin(a)})
	}
	return out
}

func shoelace(p [][2]float64) (area float64) {
	for i, a := range p {
		b := p[(i+1)%len(p)]
		area += (a[0]*b[1] - b[0]*a[1]) / 2
	}
	return area
}

func TestAWarpedQuadIsCutAlongItsShorterDiagonal(t *testing.T) {
	m, _ := mustRead(t, []byte("v 0 0 0\nv 3 -1 0\nv 6 0 0\nv 3 1 0.5\nf 1 2 3 4\n"))
	for _, f := range m.Triangles {
		assert.Subset(t, []Vec32{m.Points[f[0]], m.Points[f[1]], m.Points[f[2]]}, []Vec32{{3, -1, 0}, {3, 1, 0.5}})
	}
}

// Whatever the corners, cutting up ends and uses each corner as often as it
// must: n corners make n − 2 triangles.
func TestAnyPolygonIsCutIntoTwoTrianglesFewerThanItsCorners(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.SampledFrom([]float64{-1, 0, 0.5, 1, 2, 1e9, 1e-9})
		p := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Vec {
			return Vec{x.Draw(t, "x"), x.Draw(t, "y"), x.Draw(t, "z")}
		}), 3, 40).Draw(t, "corners")
		n, seen := 0, map[int]bool{}
		cutUp(p, func(a, b, c int) {
			n++
			seen[a], seen[b], seen[c] = true, true, true
		})
		assert.Equal(t, len(p)-2, n)
		assert.Len(t, seen, len(p))
	})
}

func TestAnOutlineThatCrossesItselfIsTold(t *testing.T) {
	_, report := mustRead(t, []byte("v 0 0 0\nv 2 2 0\nv 2 0 0\nv 0 2 0\nv -1 1 0\nf 1 2 3 4 5\n"))
	assert.True(t, report.Damaged)
	assert.Contains(t, report.Notes[0], "1 face could not be cut into triangles properly")
}

func TestAnOBJInUTF16IsRead(t *testing.T) {
	for name, big := range map[string]bool{"big end first": true, "little end first": false} {
		out := []byte{0xff, 0xfe}
		if big {
			out = []byte{0xfe, 0xff}
		}
		for _, c := range "o lion\n" + square + "f 1 2 3 4\n" {
			if big {
				out = append(out, 0, byte(c))
			} else {
				out = append(out, byte(c), 0)
			}
		}
		m, _ := mustRead(t, out)
		assert.Equal(t, 2, len(m.Triangles), name)
	}
}
