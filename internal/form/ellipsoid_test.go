package form

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// SciPy's elliprg and elliprf are Carlson's integrals by another hand.
const scipyEllipsoids = `
from scipy.special import elliprg, elliprf, elliprd
import math
for line in sys.stdin:
    a, b, c = (float(x) / 2 for x in line.split())
    area = 4 * math.pi * elliprg(a*a*b*b, b*b*c*c, c*c*a*a)
    curvature = 4 * math.pi * elliprg(a*a, b*b, c*c)
    print(repr(float(area)), repr(float(curvature)), repr(float(elliprf(a, b, c))), repr(float(elliprd(a, b, c))))
`

func TestEllipsoidsHaveTheSurfaceThatSciPyGives(t *testing.T) {
	r := rand.New(rand.NewPCG(1995, 19))
	var bodies []Ellipsoid
	var asked strings.Builder
	for range 300 {
		axis := func() float64 { return math.Exp(r.Float64()*8 - 4) } // 2 cm to 55 m, any shape
		e := Ellipsoid{axis(), axis(), axis()}
		bodies = append(bodies, e)
		fmt.Fprintln(&asked, e.A, e.B, e.C)
	}
	got := python(t, scipyEllipsoids, asked.String())
	require.Len(t, got, 4*len(bodies))
	for i, e := range bodies {
		for k, ours := range []float64{e.area(), e.curvature(), carlsonRF(e.A/2, e.B/2, e.C/2), carlsonRD(e.A/2, e.B/2, e.C/2)} {
			theirs, err := strconv.ParseFloat(got[4*i+k], 64)
			require.NoError(t, err)
			assert.InEpsilon(t, theirs, ours, 1e-12, "%v, %d", e, k)
		}
	}
}

// Closed forms of the spheroids, as in any handbook.
func TestSpheroidsHaveTheSurfaceOfTheHandbook(t *testing.T) {
	for _, k := range []float64{0.05, 0.3, 0.9, 1.1, 2, 7} { // length over width
		const a = 0.4 // half width
		c := a * k
		want := 0.0
		if k > 1 {
			e := math.Sqrt(1 - a*a/(c*c))
			want = 2 * math.Pi * a * a * (1 + c/(a*e)*math.Asin(e))
		} else {
			e := math.Sqrt(1 - c*c/(a*a))
			want = 2 * math.Pi * a * a * (1 + (1-e*e)/e*math.Atanh(e))
		}
		for _, s := range []Ellipsoid{{2 * a, 2 * a, 2 * c}, {2 * c, 2 * a, 2 * a}, {2 * a, 2 * c, 2 * a}} {
			assert.InEpsilon(t, want, s.area(), 1e-13, "%v", s)
		}
	}
	assert.InEpsilon(t, math.Pi, Ellipsoid{1, 1, 1}.area(), 1e-14, "a sphere")
}

// Thomsen's form, from memory: within 1.061 per cent everywhere.
func TestThomsensFormIsWithinItsPublishedError(t *testing.T) {
	const p = 1.6075
	r := rand.New(rand.NewPCG(2004, 4))
	for range 500 {
		e := Ellipsoid{0.1 + r.Float64(), 0.1 + r.Float64(), 0.1 + r.Float64()}
		a, b, c := math.Pow(e.A/2, p), math.Pow(e.B/2, p), math.Pow(e.C/2, p)
		thomsen := 4 * math.Pi * math.Pow((a*b+b*c+c*a)/3, 1/p)
		assert.InEpsilon(t, e.area(), thomsen, 0.0107, "%v", e)
	}
}

// The room inside an ellipsoid's wall, by going through its points and
// measuring how far each is from the surface.
func TestEllipsoidsHoldTheRoomThatTheirPointsGive(t *testing.T) {
	for _, x := range []struct {
		e    Ellipsoid
		wall float64
	}{
		{Ellipsoid{0.5, 0.5, 0.5}, 0.05},
		{Ellipsoid{0.6, 0.4, 0.3}, 0.02},
		{Ellipsoid{0.9, 0.4, 0.4}, 0.05},
		{Ellipsoid{0.9, 0.3, 0.2}, 0.05}, // past the curvature of its tips, as below
		{Ellipsoid{1.2, 0.8, 0.12}, 0.04},
		{Ellipsoid{0.1, 0.8, 0.1}, 0.03},
		{Ellipsoid{0.2, 0.9, 0.5}, 0.06},
	} {
		room := x.e.roomByPoints(x.wall, 60)
		assert.InDelta(t, room, x.e.hollow(x.wall), 0.0015*x.e.volume(), "%v, wall %v", x.e, x.wall)
	}
}

// roomByPoints counts points of an eighth, n along each axis, that are a wall or
// more from the surface.
func (e Ellipsoid) roomByPoints(wall float64, n int) float64 {
	a, b, c := e.A/2, e.B/2, e.C/2
	count := 0
	for i := range n {
		x := a * (float64(i) + 0.5) / float64(n)
		for j := range n {
			y := b * (float64(j) + 0.5) / float64(n)
			for k := range n {
				z := c * (float64(k) + 0.5) / float64(n)
				if x*x/(a*a)+y*y/(b*b)+z*z/(c*c) < 1 && e.depth(x, y, z) >= wall {
					count++
				}
			}
		}
	}
	return 8 * a * b * c * float64(count) / float64(n*n*n)
}

// depth is how far a point inside is from the surface: its foot is where a² xᵢ ÷
// (a² + λ) lies on the ellipsoid, for the largest λ below zero that does, by
// halving.
func (e Ellipsoid) depth(x, y, z float64) float64 {
	a, b, c := sq(e.A/2), sq(e.B/2), sq(e.C/2)
	low, high := -math.Min(a, math.Min(b, c)), 0.0
	for range 50 {
		l := (low + high) / 2
		if a*x*x/sq(a+l)+b*y*y/sq(b+l)+c*z*z/sq(c+l) > 1 {
			low = l
		} else {
			high = l
		}
	}
	l := (low + high) / 2
	return math.Sqrt(sq(l*x/(a+l)) + sq(l*y/(b+l)) + sq(l*z/(c+l)))
}
