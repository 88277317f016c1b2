package mesh

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestAFormStandsInMetresOnZeroWhateverTheFileSays(t *testing.T) {
	file := turned(brick(Vec{300, 200, 1800}, 2), Vec{}, Vec{12345, -777, 42})
	m, err := Stand(file, nil, Stance{Unit: Millimetre, Up: ZUp})
	require.NoError(t, err)
	s := Measure(m)
	assert.InDeltaSlice(t, []float64{-0.15, -0.1, 0}, s.Min[:], 1e-6)
	assert.InDeltaSlice(t, []float64{0.15, 0.1, 1.8}, s.Max[:], 1e-6)
	assert.InDelta(t, 0.108, s.Volume, 1e-6)
}

func TestEveryAxisCanBeUpAndNoHandIsSwapped(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		up := rapid.SampledFrom(axes).Draw(t, "up")
		turn := rapid.IntRange(-5, 5).Draw(t, "turn")
		size := Vec{1, 2, 3}
		m, err := Stand(brick(size, 1), nil, Stance{Unit: Metre, Up: up, Turn: turn})
		require.NoError(t, err)
		s := Measure(m)
		assert.InDelta(t, 6, s.Volume, 1e-5, "a mirror image would be below zero")
		axis := map[Axis]int{XUp: 0, XDown: 0, YUp: 1, YDown: 1, ZUp: 2, ZDown: 2}[up]
		assert.InDelta(t, size[axis], s.Box()[2], 1e-6)
	})
}

func TestWhatWasUpInTheFileIsUpAfterwards(t *testing.T) {
	for _, up := range axes {
		direction := map[Axis]Vec{XUp: {1, 0, 0}, XDown: {-1, 0, 0}, YUp: {0, 1, 0}, YDown: {0, -1, 0}, ZUp: {0, 0, 1}, ZDown: {0, 0, -1}}[up]
		tip := direction.Mul(3).Vec32()
		m := join(cube(1, 1), &Mesh{Points: []Vec32{tip}})
		placed, err := Stand(m, nil, Stance{Unit: Metre, Up: up})
		require.NoError(t, err)
		assert.InDelta(t, Measure(placed).Max[2], placed.Points[len(placed.Points)-1][2], 1e-6, up)
	}
}

func TestAFrontThatFacesAwayCanBeTurned(t *testing.T) {
	nose := join(cube(1, 1), &Mesh{Points: []Vec32{{0.5, 3, 0.5}}}) // faces +y
	m, err := Stand(nose, nil, Stance{Unit: Metre, Up: ZUp, Turn: 2})
	require.NoError(t, err)
	assert.InDelta(t, Measure(m).Min[1], m.Points[len(m.Points)-1][1], 1e-6)
}

func TestAStanceThatCannotBeIsRefusedInWords(t *testing.T) {
	_, err := Stand(cube(1, 1), nil, Stance{Unit: Metre, Up: "w"})
	assert.EqualError(t, err, "Up axis of the scan “w” is no axis; give x, y or z, or -x, -y or -z if the scan is upside down")
	_, err = Stand(cube(1, 1), nil, Stance{Up: ZUp})
	assert.ErrorContains(t, err, "Unit of the scan is not known")
	m := cube(1, 1)
	_, err = Stand(m, FindShells(m), Stance{Unit: Metre, Up: ZUp, Keep: []int{4}})
	assert.EqualError(t, err, "Shells to keep “5” is no shell of this scan; give numbers from 1 to 1")
	_, err = ParseAxis("up")
	assert.Error(t, err)
	a, err := ParseAxis(" +Z ")
	assert.NoError(t, err)
	assert.Equal(t, ZUp, a)
}

func TestOnlyTheKeptShellsStand(t *testing.T) {
	m := join(cube(2, 1), turned(cube(1, 1), Vec{}, Vec{10, 0, 0}))
	out, err := Stand(m, FindShells(m), Stance{Unit: Metre, Up: ZUp, Keep: []int{1}})
	require.NoError(t, err)
	assert.Equal(t, Vec{1, 1, 1}, Measure(out).Box())
}

func TestUnitIsProposedFromTheSizeAndTheTarget(t *testing.T) {
	first := func(height, target float64) Unit { return ProposeUnits(height, target)[0].Unit }
	assert.Equal(t, Millimetre, first(300, 1.8), "a maquette of 30 cm")
	assert.Equal(t, Millimetre, first(1800, 1.8))
	assert.Equal(t, Metre, first(1.8, 1.8))
	assert.Equal(t, Metre, first(0.25, 0))
	assert.Equal(t, Inch, first(14, 1.8), "14 in rather than 14 mm or 14 m")
	list := ProposeUnits(72, 1.8)
	assert.Len(t, list, 6)
	for _, p := range list {
		assert.InEpsilon(t, 72*p.Unit.Metres, p.Height, 1e-12)
	}
}

func TestUpIsProposedFromTheFlatFoot(t *testing.T) {
	cone := lathe(30, func(s float64) (r, z float64) { return 0.3 * (1 - s), s })
	assert.Equal(t, ZUp, ProposeUp(cone, NoAxis))
	assert.Equal(t, YUp, ProposeUp(turned(cone, Vec{-math.Pi / 2, 0, 0}, Vec{}), NoAxis))
	assert.Equal(t, XDown, ProposeUp(turned(cone, Vec{0, -math.Pi / 2, 0}, Vec{}), NoAxis))
	assert.Equal(t, YUp, ProposeUp(cone, YUp), "a format's promise counts")
	assert.Equal(t, YUp, ProposeUp(ellipsoid(1, 3, 1, 30), NoAxis), "no foot: the long side")
	assert.Equal(t, ZUp, ProposeUp(&Mesh{}, NoAxis))
}

func TestAFootThatIsMissingIsSeenAndCanBeClosed(t *testing.T) {
	whole := cylinder(0.5, 2, 60, 20)
	foot := footFaces(whole, 2)
	assert.Len(t, onlyTrue(foot), 60)
	open := without(whole, func(i int) bool { return foot[i] })
	assert.True(t, HasOpenFoot(open))
	assert.False(t, HasOpenFoot(whole))
	closed := closeFoot(open)
	assert.True(t, CountSeams(closed).Closed())
	assert.InEpsilon(t, Measure(whole).Volume, Measure(closed).Volume, 1e-6)
	assert.InEpsilon(t, Measure(whole).Area, Measure(closed).Area, 1e-6)
	holed := without(whole, func(i int) bool { return i == 500 })
	assert.False(t, HasOpenFoot(holed), "a hole higher up is no foot")
	assert.Len(t, closeFoot(holed).Triangles, len(holed.Triangles))
}

// A foot like a horseshoe has no middle to fan from: its area must still be its own.
func TestAFootWithABayIsClosedWithItsOwnArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 40).Draw(t, "points")
		m, area := &Mesh{}, 0.0
		var loop []uint32
		for i := range n {
			a := 2 * math.Pi * float64(i) / float64(n)
			r := rapid.Float64Range(0.1, 1).Draw(t, "radius")
			m.Points = append(m.Points, Vec{r * math.Cos(a), r * math.Sin(a), 0}.Vec32())
			loop = append(loop, uint32(i))
		}
		for i := range n {
			a, b := m.Points[i].Vec(), m.Points[(i+1)%n].Vec()
			area += (a[0]*b[1] - a[1]*b[0]) / 2
		}
		m.Triangles = fill(m, loop)
		assert.Len(t, m.Triangles, n-2)
		assert.InDelta(t, area, Measure(m).Area, 1e-6)
	})
}
