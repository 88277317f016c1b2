package mesh

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestARodIsSolidOnceTheWallIsItsRadius(t *testing.T) {
	w := wallOf(t, turned(cylinder(0.05, 1, 60, 100), Vec{0.3, -1.1, 2.2}, Vec{}))
	assert.Less(t, w.Profile.SolidShare(1, 0.048), 0.01)
	assert.Greater(t, w.Profile.SolidShare(1, 0.052), 0.99)
	assert.Less(t, w.Profile.SolidShare(2, 0.096), 0.01, "twice as large, twice the wall")
	assert.Greater(t, w.Profile.SolidShare(2, 0.104), 0.99)
}

func TestAPlateIsSolidOnceTheWallIsHalfItsThickness(t *testing.T) {
	p := wallOf(t, brick(Vec{1, 0.8, 0.1}, 20)).Profile
	assert.Less(t, p.SolidShare(1, 0.048), 0.01)
	assert.Greater(t, p.SolidShare(1, 0.052), 0.99)
}

func TestCornersOfABoxAreNotSolid(t *testing.T) {
	p := wallOf(t, cube(1, 10)).Profile
	assert.Less(t, p.SolidShare(1, 0.4), 0.01)
	assert.Greater(t, p.SolidShare(1, 0.52), 0.99)
}

// A ball of radius 0.3 on a rod of radius 0.03: the rod alone is solid at a wall
// of 0.04, but for the end of it that is within two walls of the ball's hollow.
func TestALimbIsSolidAndTheBodyIsNot(t *testing.T) {
	const ball, rod, long, wall = 0.3, 0.03, 0.7, 0.04
	m := lathe(80, func(s float64) (r, z float64) { return paddle(s, ball, rod, long) })
	w := wallOf(t, m)
	limb := math.Pi * rod * rod * long
	near := math.Pi * rod * rod * 2 * wall
	body := 4.0 / 3 * math.Pi * ball * ball * ball
	assert.InDelta(t, (limb-near/2)/(limb+body), w.Profile.SolidShare(1, wall), 0.6*near/(limb+body))
	assert.Less(t, w.Profile.SolidShare(1, 0.028), 0.001)
	for i, solid := range w.Solid(1, wall) {
		a, b, c := m.Corners(i)
		middle := a.Add(b).Add(c).Mul(1.0 / 3)
		if beyond := middle[2] - ball; beyond > 3*wall && middle[2] < ball+long-1e-6 {
			assert.True(t, solid, "limb at %v", middle)
		} else if beyond < -wall {
			assert.False(t, solid, "body at %v", middle)
		}
	}
}

// A cone has room for balls of z sin a at the distance z from its tip. The skin
// at z is within two walls of the hollow of a wall t if z > t/sin a − √3 t or so:
// the tip's solid part grows with the wall in all its lengths.
func TestASlenderTipIsSolidInProportionToTheWall(t *testing.T) {
	slope := math.Tan(math.Asin(0.2))
	p := wallOf(t, lathe(60, func(s float64) (r, z float64) { return slope * (1 - s), s })).Profile
	small, large := p.SolidShare(1, 0.04), p.SolidShare(1, 0.08)
	assert.Positive(t, small)
	assert.InDelta(t, 8, large/small, 3)
	tip := math.Pow(0.08*(1/0.2-math.Sqrt(3)), 3) // share of the cone below that z
	assert.InDelta(t, tip, large, 0.3*tip)
}
