package estimate_test

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
	"meltwright/internal/mesh"
	"meltwright/internal/shop"
)

// theBall is the scan of a ball of 0.5 m, its wall measured once for all tests.
var theBall = sync.OnceValues(func() (*mesh.Standing, error) {
	dir, err := os.MkdirTemp("", "ball")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	path := filepath.Join(dir, "ball.obj")
	if err := os.WriteFile(path, ballOBJ(0.25, 40), 0o600); err != nil {
		return nil, err
	}
	o, err := mesh.OpenScan(context.Background(), path, nil)
	if err != nil {
		return nil, err
	}
	s, err := o.Stand(context.Background(), mesh.Stance{Unit: mesh.Metre, Up: mesh.ZUp})
	if err != nil {
		return nil, err
	}
	return s, s.Measure(context.Background(), nil, nil)
})

// ballScan is what is kept of the ball, cut by the given planes.
func ballScan(t testing.TB, cuts ...mesh.Cut) *mesh.Scan {
	t.Helper()
	s, err := theBall()
	require.NoError(t, err)
	plan, err := s.Wall.Evaluate(context.Background(), cuts)
	require.NoError(t, err)
	ladder, err := s.Wall.Ladder(context.Background(), plan)
	require.NoError(t, err)
	return s.Keep(plan, ladder)
}

func scanned(k *mesh.Scan, inputs map[string]string) estimate.Commission {
	in := map[string]string{"form.known_by": "scan", "form.thickening": "0 %", "form.wall": "5 mm"}
	for path, text := range inputs {
		in[path] = text
	}
	return estimate.Commission{Pieces: []estimate.Piece{{Name: "Ball", Scan: k, Inputs: in}}}
}

func TestAScannedBallWeighsWhatAHollowSphereDoes(t *testing.T) {
	e, err := estimate.Of(scanned(ballScan(t), nil), startingShop(t))
	require.NoError(t, err)
	hollow := 4 * math.Pi / 3 * (math.Pow(0.25, 3) - math.Pow(0.245, 3)) * 8359.331
	assert.InEpsilon(t, hollow, float64(e.Pieces[0].Finished), 0.006)
	assert.Greater(t, float64(e.Pieces[0].AreaTimesWall), float64(e.Pieces[0].Finished), "surface × wall is heavy on a convex form")
	w, ok := e.WorkingOf(e.Pieces[0], "finished")
	require.True(t, ok)
	assert.Contains(t, w.String(), "surface × wall would have given")
	assert.Contains(t, w.String(), "scan: ")
}

func TestAScanAtTwiceTheHeightHasFourTimesTheSurfaceAndTheSameWall(t *testing.T) {
	k := ballScan(t)
	one, err := estimate.Of(scanned(k, nil), startingShop(t))
	require.NoError(t, err)
	two, err := estimate.Of(scanned(k, map[string]string{"form.height": "1 m"}), startingShop(t))
	require.NoError(t, err)
	assert.InEpsilon(t, 4*float64(one.Pieces[0].Area), float64(two.Pieces[0].Area), 1e-3)
	hollow := 4 * math.Pi / 3 * (math.Pow(0.5, 3) - math.Pow(0.495, 3)) * 8359.331
	assert.InEpsilon(t, hollow, float64(two.Pieces[0].Finished), 0.006)
}

func TestTheSectionPlanFeedsSectionsWeldAndHeats(t *testing.T) {
	k := ballScan(t, mesh.Cut{Plane: mesh.Plane{At: mesh.Vec{0, 0, 0.25}, Normal: mesh.Vec{0, 0, 1}}})
	e, err := estimate.Of(scanned(k, nil), roomyShop(t))
	require.NoError(t, err)
	assert.Equal(t, 2, e.Pieces[0].Sections)
	assert.InEpsilon(t, math.Pi*0.5, float64(e.Pieces[0].Weld), 0.01, "a ball cut across is welded along its girth")
	kg := 0.0
	for _, h := range e.Heats {
		kg += h.Kg
	}
	assert.InEpsilon(t, float64(e.Pieces[0].Poured), kg, 1e-6)
	own, err := estimate.Of(scanned(k, map[string]string{"form.sections": "4"}), startingShop(t))
	require.NoError(t, err)
	assert.Equal(t, 4, own.Pieces[0].Sections, "what the user types comes before the plan")
}

// A scan that was planned at one size is cut on as it grows, by true outlines:
// the weld is that of planes, and every section fits crucible, tank and kiln.
func TestSectionsAndWeldFollowHeightAndWall(t *testing.T) {
	k, book := ballScan(t), roomyShop(t)
	girth, before := math.Pi*0.5, 0.0
	for _, height := range []float64{0.2, 0.4, 0.5, 0.7, 1, 1.5, 2.5} {
		e, err := estimate.Of(scanned(k, map[string]string{"form.height": fmt.Sprintf("%g m", height)}), book)
		require.NoError(t, err)
		p := e.Pieces[0]
		assert.GreaterOrEqual(t, float64(p.Weld), before)
		before = float64(p.Weld)
		switch {
		case height <= 0.2:
			assert.Equal(t, 1, p.Sections)
			assert.Zero(t, before)
		case p.Sections == 2:
			assert.InEpsilon(t, girth*height/0.5, before, 0.02, "a ball cut in two")
		default:
			assert.Greater(t, p.Sections, 2)
			assert.Less(t, before, 3*math.Sqrt(float64(p.Sections)*float64(p.Area)))
		}
		for _, h := range e.Heats {
			assert.LessOrEqual(t, h.Kg, float64(e.Usable)*(1+1e-9))
		}
	}
	thin, err := estimate.Of(scanned(k, map[string]string{"form.height": "1 m", "form.wall": "3 mm"}), book)
	require.NoError(t, err)
	thick, err := estimate.Of(scanned(k, map[string]string{"form.height": "1 m", "form.wall": "20 mm"}), book)
	require.NoError(t, err)
	assert.Greater(t, thick.Pieces[0].Sections, thin.Pieces[0].Sections, "a heavier wall takes more pours")
	assert.Greater(t, float64(thick.Pieces[0].Weld), float64(thin.Pieces[0].Weld))
}

func TestPlanesOfTheUsersOwnStayAtEverySize(t *testing.T) {
	k := ballScan(t, mesh.Cut{Plane: mesh.Plane{At: mesh.Vec{0, 0, 0.25}, Normal: mesh.Vec{0, 0, 1}}})
	e, err := estimate.Of(scanned(k, map[string]string{"form.height": "0.1 m"}), startingShop(t))
	require.NoError(t, err)
	assert.Equal(t, 2, e.Pieces[0].Sections)
	assert.InEpsilon(t, math.Pi*0.1, float64(e.Pieces[0].Weld), 0.02)
}

func TestASectionHasToGoIntoTankAndKiln(t *testing.T) {
	k := ballScan(t)
	with := func(key string) int {
		b := shop.Start().With("form.max_section", "5 m²", "2026-01-01")
		if key != "" {
			b = b.With(key, "0.3 m", "2026-01-01")
		}
		s, err := shop.Read(b)
		require.NoError(t, err)
		e, err := estimate.Of(scanned(k, map[string]string{"form.wall": "3 mm"}), s)
		require.NoError(t, err)
		return e.Pieces[0].Sections
	}
	assert.Equal(t, 1, with(""))
	assert.Greater(t, with("form.tank_deep"), 1)
	assert.Greater(t, with("form.kiln_wide"), 1)
}

func BenchmarkTrialOfAScan(b *testing.B) {
	c := scanned(ballScan(b), map[string]string{"form.height": "2 m"})
	m, err := estimate.NewModel(c, startingShop(b))
	require.NoError(b, err)
	v := estimate.Still(1)
	for b.Loop() {
		m.Try(&v)
	}
}

// roomyShop has a tank that takes half a ball.
func roomyShop(t testing.TB) *shop.Shop {
	s, err := shop.Read(shop.Start().With("form.max_section", "0.5 m²", "2026-01-01"))
	require.NoError(t, err)
	return s
}

func TestAPieceKnownByScanWithoutOneIsAFault(t *testing.T) {
	_, err := estimate.Of(scanned(nil, nil), startingShop(t))
	require.Error(t, err)
	assert.Contains(t, err.Error(), "names a scan, and there is none yet; open a scan file")
}

func TestACommissionWithItsScanIsTheSameAfterAFile(t *testing.T) {
	c := scanned(ballScan(t), nil)
	before, err := estimate.Of(c, startingShop(t))
	require.NoError(t, err)
	data, err := json.Marshal(c)
	require.NoError(t, err)
	var back estimate.Commission
	require.NoError(t, json.Unmarshal(data, &back))
	after, err := estimate.Of(back, startingShop(t))
	require.NoError(t, err)
	assert.Equal(t, before.Total, after.Total)
}
