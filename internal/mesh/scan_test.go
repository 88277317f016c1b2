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
	s, err := o.Stand(o.Propose(0))
	require.NoError(t, err)
	require.NoError(t, s.Measure(ctx, nil, nil))
	plan, err := s.Wall.Evaluate(ctx, cuts)
	require.NoError(t, err)
	return s.Keep(plan)
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
