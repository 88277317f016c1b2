package mesh

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestShellsAreToldApartLargestFirst(t *testing.T) {
	m := join(turned(cube(1, 2), Vec{}, Vec{5, 0, 0}), sphere(2, 40), turned(cube(0.1, 1), Vec{}, Vec{0, 5, 0}))
	s := FindShells(m)
	assert.Len(t, s.List, 3)
	assert.InDelta(t, 4.0/3*math.Pi*8, s.List[0].Size.Volume, 0.5)
	assert.InDelta(t, 6, s.List[1].Size.Area, 1e-5)
	assert.InDelta(t, 5, s.List[1].Size.Min[0], 1e-6)
	assert.InDelta(t, 0.001, s.List[2].Size.Volume, 1e-6)
	total := Measure(m)
	assert.InEpsilon(t, total.Area, s.List[0].Size.Area+s.List[1].Size.Area+s.List[2].Size.Area, 1e-9)
	assert.InEpsilon(t, total.Volume, s.List[0].Size.Volume+s.List[1].Size.Volume+s.List[2].Size.Volume, 1e-6)
	kept := s.Keep(m, []bool{false, true, true})
	assert.InDelta(t, 6.06, Measure(kept).Area, 1e-5)
	assert.Less(t, len(kept.Points), len(m.Points))
	assert.Empty(t, s.Keep(m, nil).Triangles)
	assert.Empty(t, FindShells(&Mesh{}).List)
}

func TestAHollowABuriedAndACrossingShellAreToldApart(t *testing.T) {
	m := join(sphere(1, 40), turnFaces(sphere(0.5, 30)),
		turned(sphere(0.2, 20), Vec{}, Vec{0, 0, 0.75}),
		turned(sphere(0.3, 24), Vec{}, Vec{1, 0, 0}),
		turned(sphere(0.4, 26), Vec{}, Vec{5, 0, 0}))
	s := FindShells(m)
	s.Nest(t.Context(), m)
	found := map[string]Nesting{}
	for _, shell := range s.List {
		found[map[int]string{0: "outer", 5: "inner", 2: "small", 3: "beside", 4: "far"}[int(math.Round(shell.Size.Box()[0]*5))%10]] = shell.Nesting
	}
	assert.Equal(t, map[string]Nesting{"outer": Crossing, "inner": Hollow, "small": Buried, "beside": Crossing, "far": Apart}, found)
	assert.True(t, s.Overlaps())
	assert.Equal(t, "hollow", Hollow.String())
	hollow := hollowSphere(1, 0.5, 30)
	apart := FindShells(hollow)
	apart.Nest(t.Context(), hollow)
	assert.False(t, apart.Overlaps())
	assert.Equal(t, 0, apart.List[1].Within)
}

// Two balls that overlap by a lens: the metal lies under the outer skin alone.
func TestMetalOfOverlappingShellsIsNotCountedTwice(t *testing.T) {
	const r, apart, wall = 0.5, 0.5, 0.02
	m := join(sphere(r, 120), turned(sphere(r, 120), Vec{1, 1, 1}, Vec{apart, 0, 0}))
	bare, err := buriedFaces(t.Context(), m, 1.5)
	require.NoError(t, err)
	w := wallWith(t, m, bare)
	cap := func(r float64) float64 { h := r - apart/2; return math.Pi * h * h * (3*r - h) / 3 }
	union := func(r float64) float64 { return 2 * (4.0/3*math.Pi*r*r*r - cap(r)) }
	assert.InEpsilon(t, union(r), w.Profile.Volume, 0.004)
	assert.InEpsilon(t, union(r)-union(r-wall), w.Profile.Metal(1, wall), 0.01)
	skin := 2 * (4*math.Pi*r*r - 2*math.Pi*r*(r-apart/2))
	assert.InEpsilon(t, skin, w.Profile.Area, 0.01)
	bare, err = buriedFaces(t.Context(), sphere(1, 30), 2)
	require.NoError(t, err)
	assert.Nil(t, bare)
}

func TestFacesTurnedAnyWhichWayAreMended(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := join(sphere(1, 16), turnFaces(sphere(0.5, 12)), turned(cube(1, 2), Vec{}, Vec{4, 0, 0}))
		m := turnWhere(whole, func(i int) bool { return rapid.IntRange(0, 9).Draw(t, "turn") == 0 })
		if rapid.Bool().Draw(t, "all") {
			m = turnFaces(m)
		}
		mended, s, _, err := Orient(t.Context(), m)
		require.NoError(t, err)
		assert.True(t, CountSeams(mended).Closed())
		assert.InEpsilon(t, Measure(whole).Volume, Measure(mended).Volume, 1e-6)
		sum := 0.0
		for _, shell := range s.List {
			sum += shell.Size.Volume
		}
		assert.InEpsilon(t, Measure(whole).Volume, sum, 1e-6)
	})
}

func TestAMeshThatFacesInwardsIsTurned(t *testing.T) {
	m := turnFaces(sphere(1, 20))
	mended, _, done, err := Orient(t.Context(), m)
	require.NoError(t, err)
	assert.Equal(t, Turned{Shells: 1}, done)
	assert.Positive(t, Measure(mended).Volume)
	same, _, done, err := Orient(t.Context(), mended)
	require.NoError(t, err)
	assert.Same(t, mended, same)
	assert.Equal(t, Turned{}, done)
}
