package mesh

import (
	"context"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// scanOf writes a mesh as STL in millimetres, opens it as a scan and measures it.
func scanOf(t testing.TB, m *Mesh, cuts []Cut) *Scan {
	t.Helper()
	path := filepath.Join(t.TempDir(), "form.stl")
	require.NoError(t, os.WriteFile(path, binarySTL("form", m.Scale(1000)), 0o600))
	ctx := context.Background()
	o, err := OpenScan(ctx, path, nil)
	require.NoError(t, err)
	s, err := o.Stand(ctx, o.Propose(0))
	require.NoError(t, err)
	require.NoError(t, s.Measure(ctx, nil, nil))
	plan, err := s.Wall.Evaluate(ctx, cuts)
	require.NoError(t, err)
	ladder, err := s.Wall.Ladder(ctx, plan)
	require.NoError(t, err)
	return s.Keep(plan, ladder)
}

func TestAScanIsKeptWithoutItsFile(t *testing.T) {
	k := scanOf(t, cylinder(0.1, 0.6, 96, 12), nil)
	assert.Equal(t, "form.stl", k.File)
	assert.Len(t, k.SHA256, 64)
	assert.Equal(t, Millimetre, k.Stance.Unit)
	assert.True(t, k.Closed)
	assert.InDelta(t, 0.6, k.Height(), 1e-6)
	assert.InDelta(t, math.Pi*0.1*0.1*0.6, k.Volume, 1e-4)
	require.Len(t, k.Plan.Sections, 1)

	data, err := json.Marshal(k)
	require.NoError(t, err)
	assert.Less(t, len(data), 200_000, "bytes in the database")
	var back Scan
	require.NoError(t, json.Unmarshal(data, &back))
	assert.InDelta(t, k.Profile.Metal(2, 0.005), back.Profile.Metal(2, 0.005), 1e-9)
	assert.Equal(t, k.Plan.Sections[0].At(&k.Profile, 2, 0.005).Area, back.Plan.Sections[0].At(&back.Profile, 2, 0.005).Area)
	again, err := json.Marshal(&back)
	require.NoError(t, err)
	assert.JSONEq(t, string(data), string(again))
}

func TestShellsThatOverlapAreOneCastingAndHoldTheirMetalOnce(t *testing.T) {
	m := join(sphere(0.5, 60), turned(sphere(0.5, 60), Vec{}, Vec{0.5, 0, 0}), turned(sphere(0.1, 20), Vec{}, Vec{0.25, 0, 0}))
	s := skinned(t, m, false)
	w, err := MeasureWall(context.Background(), s, nil, nil)
	require.NoError(t, err)
	const cap = math.Pi * 0.25 * 0.25 * (1.5 - 0.25) / 3
	assert.InEpsilon(t, 2*(math.Pi/6-cap), w.Profile.Volume, 0.01)
	assert.InEpsilon(t, 2*(math.Pi-2*math.Pi*0.5*0.25), s.Area(), 0.02)
	p, err := w.Evaluate(context.Background(), nil)
	require.NoError(t, err)
	assert.Len(t, p.Sections, 1)
}

func TestAFormThatStandsOnARimIsClosedBelowAndBareThere(t *testing.T) {
	whole := cylinder(0.3, 1, 60, 12)
	foot := footFaces(whole, 1)
	rim := without(whole, func(i int) bool { return foot[i] })
	for _, m := range []*Mesh{whole, rim} {
		open, closed := skinned(t, m, true), skinned(t, m, false)
		assert.True(t, CountSeams(open.Mesh).Closed())
		assert.InDelta(t, math.Pi*0.09, closed.Area()-open.Area(), 1e-3)
	}
}

func skinned(t *testing.T, m *Mesh, openFoot bool) *Skin {
	t.Helper()
	s, err := skinOf(context.Background(), m, openFoot)
	require.NoError(t, err)
	return s
}

func TestStandingOverlappingShellsEndsWhenItIsCalledOff(t *testing.T) {
	o, err := Prepare(t.Context(), join(sphere(0.5, 60), turned(sphere(0.5, 60), Vec{}, Vec{0.5, 0, 0})), Report{}, "")
	require.NoError(t, err)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	_, err = o.Stand(ctx, Stance{Unit: Metre, Up: ZUp})
	assert.ErrorIs(t, err, context.Canceled)
}

// Half the faces are turned, so that all have to be gone through.
func TestMakingFacesAgreeEndsWhenItIsCalledOff(t *testing.T) {
	m := sphere(1, 300)
	for i := range m.Triangles {
		if f := &m.Triangles[i]; i%2 == 0 {
			f[1], f[2] = f[2], f[1]
		}
	}
	ctx, stop := context.WithCancel(t.Context())
	stop()
	_, err := Prepare(ctx, m, Report{}, "")
	assert.ErrorIs(t, err, context.Canceled)
}

func TestAMissingTriangleUnderneathIsNoOpenFoot(t *testing.T) {
	ring := turned(torus(3, 1, 400), Vec{}, Vec{0, 0, 1})
	gap := without(ring, func(i int) bool { a, _, _ := ring.Corners(i); return i%97 == 3 && a[2] < 0.05 })
	require.Positive(t, CountSeams(gap).Open)
	assert.False(t, HasOpenFoot(gap))
	assert.True(t, HasOpenFoot(without(ring, func(i int) bool { a, _, _ := ring.Corners(i); return a[2] < 0.01 })), "it stands on two rims")
}
