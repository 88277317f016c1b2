package form

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"meltwright/internal/quantity"
)

// A wall by its own definition: what of the solid is nearer than the wall to a
// face that has one, by slices and by points.
func TestWallsHoldTheMetalThatIsNearTheirFaces(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 5))
	for range 60 {
		size := func() float64 { return 0.1 + r.Float64() }
		foot, top, h, ends := size(), size(), size(), Ends(r.IntN(3))
		if r.IntN(3) == 0 {
			top = 0
		}
		f := Frustum{foot, top, h, ends}
		wall := f.half() * (0.05 + 0.9*r.Float64())
		metal, _ := Solids{{f, 1}}.Metal(quantity.Length(wall))
		assert.InDelta(t, f.bySlices(wall), float64(metal), 1e-4*f.volume(), "%v, wall %v", f, wall)

		b := Box{size(), size(), size(), ends}
		wall = b.half() * (0.05 + 0.9*r.Float64())
		metal, _ = Solids{{b, 1}}.Metal(quantity.Length(wall))
		assert.InDelta(t, b.byPoints(wall), float64(metal), 0.006*b.volume(), "%v, wall %v", b, wall)
	}
}

// bySlices adds twenty thousand slices: whole ones where an end's wall is, rings
// elsewhere.
func (f Frustum) bySlices(wall float64) (total float64) {
	const n = 20000
	slope := (f.Foot - f.Top) / 2 / f.H
	for i := range n {
		z := f.H * (float64(i) + 0.5) / n
		outer, inner := f.Foot/2-slope*z, 0.0
		if !(f.Ends == Closed && z < wall || f.Ends != Open && f.Top > 0 && f.H-z < wall) {
			inner = math.Max(outer-wall*math.Hypot(1, slope), 0)
		}
		total += math.Pi * (outer*outer - inner*inner) * f.H / n
	}
	return total
}

// byPoints counts a hundred thousand points at random.
func (b Box) byPoints(wall float64) float64 {
	const n = 100000
	r, in := rand.New(rand.NewPCG(3, 1)), 0
	for range n {
		x, y, z := b.A*r.Float64(), b.B*r.Float64(), b.C*r.Float64()
		near := math.Min(math.Min(x, b.A-x), math.Min(y, b.B-y))
		if b.Ends == Closed {
			near = math.Min(near, z)
		}
		if b.Ends != Open {
			near = math.Min(near, b.C-z)
		}
		if near < wall {
			in++
		}
	}
	return b.volume() * float64(in) / n
}

// Surfaces of turned bodies by adding up their bands.
func TestSurfacesOfTurnedBodiesAreTheSumOfTheirBands(t *testing.T) {
	bands := func(radius func(z float64) float64, from, to float64) (sum float64) {
		const n = 200000
		for i := range n {
			a, b := from+(to-from)*float64(i)/n, from+(to-from)*float64(i+1)/n
			ra, rb := radius(a), radius(b)
			sum += math.Pi * (ra + rb) * math.Hypot(b-a, rb-ra)
		}
		return sum
	}
	disc := func(d float64) float64 { return math.Pi / 4 * d * d }
	cone := func(z float64) float64 { return 0.3 - 0.15*z/0.5 }
	assert.InEpsilon(t, bands(cone, 0, 0.5)+disc(0.6)+disc(0.3), Frustum{0.6, 0.3, 0.5, Closed}.area(), 1e-6)
	assert.InEpsilon(t, bands(cone, 0, 0.5)+disc(0.3), Frustum{0.6, 0.3, 0.5, OneOpen}.area(), 1e-6)
	assert.InEpsilon(t, bands(cone, 0, 0.5), Frustum{0.6, 0.3, 0.5, Open}.area(), 1e-6)
	assert.InEpsilon(t, bands(func(z float64) float64 { return 0.3 * (1 - z/0.8) }, 0, 0.8), Frustum{0.6, 0, 0.8, OneOpen}.area(), 1e-6)
	half := func(z float64) float64 { return math.Sqrt(math.Max(0.01-z*z, 0)) }
	outer := func(z float64) float64 { return 0.3 + half(z) }
	inner := func(z float64) float64 { return 0.3 - half(z) }
	assert.InEpsilon(t, bands(outer, -0.1, 0.1)+bands(inner, -0.1, 0.1), Torus{0.6, 0.2}.area(), 1e-5)
	assert.InEpsilon(t, math.Pi*0.6*0.5+math.Pi*0.4*0.5+2*(disc(0.6)-disc(0.4)), Tube{0.6, 0.4, 0.5}.area(), 1e-12)
	assert.InEpsilon(t, math.Pi*0.4*0.9+disc(0.4), Cylinder{0.4, 0.9, OneOpen}.area(), 1e-12)
}
