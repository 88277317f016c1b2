package drawing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestACircleIsAsWideAsItsDiameterAndRoundWithinThreeInTenThousand(t *testing.T) {
	b := Circle(3, 4, 2).Bounds()
	assert.InDelta(t, 1, b.Min.X, 1e-9)
	assert.InDelta(t, 6, b.Max.Y, 1e-9)
	at := Point{5, 4}
	for _, s := range Circle(3, 4, 2) {
		if s.Op == CubicTo {
			half := onCubic(at, s, 0.5)
			assert.InDelta(t, 2, math.Hypot(half.X-3, half.Y-4), 2*3e-4)
		}
		if s.points() > 0 {
			at = s.P[s.points()-1]
		}
	}
}

// The cubic (0,0) (0,1) (1,1) (1,0) is highest at t = ½, where its height is ¾:
// by hand from the Bernstein form.
func TestBoundsFollowTheCurveAndNotItsHandles(t *testing.T) {
	var p Path
	p.Move(0, 0)
	p.Cubic(0, 1, 1, 1, 1, 0)
	b := p.Bounds()
	assert.InDelta(t, 0.75, b.Max.Y, 1e-12)
	assert.InDelta(t, 1, b.Width(), 1e-12)
}

func TestBoundsHoldEveryPointOfACurve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.SliceOfN(rapid.Float64Range(-100, 100), 8, 8).Draw(t, "curve")
		var p Path
		p.Move(v[0], v[1])
		p.Cubic(v[2], v[3], v[4], v[5], v[6], v[7])
		b := p.Bounds()
		at := onCubic(Point{v[0], v[1]}, p[1], rapid.Float64Range(0, 1).Draw(t, "t"))
		assert.LessOrEqual(t, b.Min.X, at.X+1e-9)
		assert.GreaterOrEqual(t, b.Max.X, at.X-1e-9)
		assert.LessOrEqual(t, b.Min.Y, at.Y+1e-9)
		assert.GreaterOrEqual(t, b.Max.Y, at.Y-1e-9)
	})
}

func TestMovesFollowEachOtherInTheOrderSaid(t *testing.T) {
	m := Scale(2, 3).Then(Move(10, 20))
	assert.Equal(t, Point{12, 23}, m.Apply(Point{1, 1}))
	assert.Equal(t, Point{22, 63}, Move(10, 20).Then(Scale(2, 3)).Apply(Point{1, 1}))
	assert.InDelta(t, math.Sqrt(6), m.Factor(), 1e-12)
	assert.Equal(t, Point{5, 7}, Matrix{}.Apply(Point{5, 7}), "the zero value moves nothing")
}

func TestAPathMovedHasItsBoundsMoved(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(-50, 50)
		p := RoundRect(f.Draw(t, "x"), f.Draw(t, "y"), rapid.Float64Range(1, 50).Draw(t, "w"), rapid.Float64Range(1, 50).Draw(t, "h"), 3)
		dx, dy := f.Draw(t, "dx"), f.Draw(t, "dy")
		before, after := p.Bounds(), p.Transform(Move(dx, dy)).Bounds()
		assert.InDelta(t, before.Min.X+dx, after.Min.X, 1e-9)
		assert.InDelta(t, before.Max.Y+dy, after.Max.Y, 1e-9)
	})
}

func TestBoxesThatShareAnEdgeDoNotOverlap(t *testing.T) {
	a := Box{Point{0, 0}, Point{2, 2}}
	assert.False(t, a.Overlaps(Box{Point{2, 0}, Point{4, 2}}))
	assert.True(t, a.Overlaps(Box{Point{1.9, 0}, Point{4, 2}}))
	assert.True(t, Path{}.Bounds().Empty())
	assert.Zero(t, Path{}.Bounds().Width())
}

func TestOnlyNumbersArePlaces(t *testing.T) {
	assert.Zero(t, finite(math.NaN()))
	assert.Zero(t, finite(math.Inf(-1)))
	assert.Zero(t, positive(-1))
	assert.Equal(t, 3.0, within(math.NaN(), 3, 5))
}
