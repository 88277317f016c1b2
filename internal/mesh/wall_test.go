package mesh

import (
	"context"
	"encoding/json"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// wallOf measures a mesh that carries metal everywhere.
func wallOf(t testing.TB, m *Mesh) *Wall {
	t.Helper()
	return wallWith(t, m, nil)
}

// roughWall is the first answer, which is good enough to be cut up.
func roughWall(t testing.TB, m *Mesh) *Wall {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	var w *Wall
	_, err := MeasureWall(ctx, &Skin{Mesh: m}, func(first *Wall) { w = first; stop() }, nil)
	require.ErrorIs(t, err, context.Canceled)
	return w
}

// wallWith leaves some triangles bare.
func wallWith(t testing.TB, m *Mesh, bare []bool) *Wall {
	t.Helper()
	w, err := MeasureWall(context.Background(), &Skin{Mesh: m, Bare: bare}, nil, nil)
	require.NoError(t, err)
	return w
}

func TestWallMetalOfExactSolidsIsWithinHalfAPercent(t *testing.T) {
	for _, solid := range exactSolids(200) {
		t.Run(solid.name, func(t *testing.T) {
			wall := solid.wall
			if wall == nil {
				wall = func(t float64) float64 { return spheroidWall(0.5, 0.25, t) }
			}
			m := turned(solid.mesh, Vec{0.3, -1.1, 2.2}, Vec{0.4, -0.5, 0.6})
			p := wallOf(t, m).Profile
			assert.InEpsilon(t, solid.volume, p.Volume, 2e-3)
			for _, share := range []float64{0.005, 0.01, 0.02, 0.05, 0.1} {
				assert.InEpsilon(t, wall(share), p.Metal(1, share), 0.005, "wall %g of the size", share)
				assert.InEpsilon(t, 27*wall(share), p.Metal(3, 3*share), 0.005, "three times as large")
				assert.InEpsilon(t, wall(share)/8e6, p.Metal(0.005, 0.005*share), 0.005, "two hundredths as large")
			}
			assert.Less(t, p.Error, 0.005)
		})
	}
}

// spheroidWall is the volume within t of the surface of a spheroid, a > b = b,
// by Steiner's formula for the body inside: A t − M t² + 4/3 π t³, M the integral
// of the mean curvature; good while t is below the least radius of curvature.
func spheroidWall(a, b, t float64) float64 {
	const n = 100_000
	mean := 0.0
	for i := range n {
		u := math.Pi * (float64(i) + 0.5) / n // from pole to pole
		s, c := math.Sincos(u)
		w := math.Hypot(a*s, b*c)
		along, across := a*b/(w*w*w), a/(b*w)
		mean += (along + across) / 2 * 2 * math.Pi * b * s * w * math.Pi / n
	}
	return prolateArea(a, b)*t - mean*t*t + 4.0/3*math.Pi*t*t*t
}

// The check value of the trade sheet: a hollow sphere of 0.25 m radius with a
// wall of 5 mm weighs 32.18 kg at 8360 kg/m³, where A × t would give 32.83 kg.
func TestHollowSphereOfHalfAMetreWeighs32_18kg(t *testing.T) {
	p := wallOf(t, sphere(0.25, 200)).Profile
	assert.InDelta(t, 32.18, 8360*p.Metal(1, 0.005), 0.06)
	assert.InDelta(t, 32.83, 8360*p.Area*0.005, 0.01)
}

func TestWallMetalRisesWithTheWallAndNeverPassesTheVolume(t *testing.T) {
	p := wallOf(t, figure(t, "bear.off")).Profile
	rapid.Check(t, func(t *rapid.T) {
		scale := rapid.Float64Range(0.01, 100).Draw(t, "scale")
		thin := rapid.Float64Range(0, 0.3).Draw(t, "wall")
		thick := thin + rapid.Float64Range(0, 0.1).Draw(t, "more")
		a, b := p.Metal(scale, thin*scale), p.Metal(scale, thick*scale)
		assert.LessOrEqual(t, a, b*(1+1e-12))
		assert.LessOrEqual(t, b, p.Volume*scale*scale*scale*(1+1e-9))
		assert.InEpsilon(t, 1+p.Metal(1, thin), 1+a/(scale*scale*scale), 1e-9, "s³ V(t/s)")
		assert.LessOrEqual(t, p.SolidShare(scale, thin*scale), p.SolidShare(scale, thick*scale))
		assert.GreaterOrEqual(t, p.InnerArea(scale, thin*scale), 0.0)
	})
	for _, nonsense := range []float64{0, -1, math.NaN(), math.Inf(-1)} {
		assert.Zero(t, p.Metal(1, nonsense))
		assert.Zero(t, p.Metal(nonsense, 1))
		assert.Zero(t, p.SolidShare(nonsense, 1))
	}
	assert.InEpsilon(t, p.Volume, p.Metal(1, math.Inf(1)), 1e-9)
}

func TestWallMetalIsTheSameHoweverTheFigureLiesAndIsNumbered(t *testing.T) {
	m := figure(t, "man.off")
	m = m.Scale(1 / Measure(m).Long())
	order := rand.New(rand.NewPCG(3, 4)).Perm(len(m.Triangles))
	shuffled := &Mesh{Points: m.Points}
	for _, i := range order {
		q := m.Triangles[i]
		shuffled.Triangles = append(shuffled.Triangles, [3]uint32{q[2], q[0], q[1]})
	}
	a, b := wallOf(t, m).Profile, wallOf(t, turned(shuffled, Vec{0.7, 1.9, -0.4}, Vec{0.2, 0, -0.3})).Profile
	for _, wall := range []float64{0.005, 0.01, 0.02, 0.04} {
		assert.InEpsilon(t, a.Metal(1, wall), b.Metal(1, wall), 0.003)
		assert.InDelta(t, a.SolidShare(1, wall), b.SolidShare(1, wall), 0.02)
	}
}

// A standing figure holds 5 to 10 % less than area × wall.
func TestAreaTimesWallIsHeavyOnAFigure(t *testing.T) {
	m := figure(t, "man.off")
	s := 1.8 / Measure(m).Long()
	p := wallOf(t, m).Profile
	assert.InDelta(t, 0.953, p.Metal(s, 0.005)/(p.Area*s*s*0.005), 0.02)
	assert.InDelta(t, 0.906, p.Metal(s, 0.010)/(p.Area*s*s*0.010), 0.02)
}

func TestOneTriangleInTwentyMissingHardlyMovesTheMetal(t *testing.T) {
	whole := sphere(0.5, 120)
	random := rand.New(rand.NewPCG(5, 6))
	torn := without(whole, func(int) bool { return random.Float64() < 0.05 })
	a, b := wallOf(t, whole).Profile, wallOf(t, torn).Profile
	for _, wall := range []float64{0.01, 0.03, 0.1} {
		assert.InEpsilon(t, a.Metal(1, wall), b.Metal(1, wall), 0.004)
	}
	assert.Greater(t, 0.97, Measure(torn).Volume/Measure(whole).Volume, "the signed volume is 5 % off")
}

func TestAnOpenFootHoldsNoMetalAndAClosedOneDoes(t *testing.T) {
	const r, h, wall = 0.3, 1.0, 0.02
	whole := cylinder(r, h, 120, 30)
	bare := make([]bool, len(whole.Triangles))
	for i := range bare {
		a, b, c := whole.Corners(i)
		bare[i] = a[2]+b[2]+c[2] == 0
	}
	closed := wallOf(t, whole).Profile
	inner := math.Pi * (r - wall) * (r - wall)
	assert.InEpsilon(t, math.Pi*r*r*h-inner*(h-2*wall), closed.Metal(1, wall), 0.005)
	open, err := MeasureWall(context.Background(), &Skin{Mesh: whole, Bare: bare}, nil, nil)
	require.NoError(t, err)
	want := math.Pi*r*r*h - inner*(h-wall)
	assert.InEpsilon(t, want, open.Profile.Metal(1, wall), 0.005)
	assert.InEpsilon(t, math.Pi*r*r+2*math.Pi*r*h, open.Profile.Area, 1e-3)
	missing := wallOf(t, without(whole, func(i int) bool { return bare[i] })).Profile // the file has no foot at all
	assert.InEpsilon(t, want, missing.Metal(1, wall), 0.005)
	assert.InEpsilon(t, math.Pi*r*r*h, missing.Volume, 0.005)
}

func TestInnerAreaIsThatOfTheOffsetSurface(t *testing.T) {
	p := wallOf(t, sphere(0.5, 120)).Profile
	for _, wall := range []float64{0.005, 0.02, 0.1, 0.3} {
		assert.InEpsilon(t, 4*math.Pi*(0.5-wall)*(0.5-wall), p.InnerArea(1, wall), 0.01)
	}
	assert.InEpsilon(t, math.Pi, p.InnerArea(1, 0), 0.02)
	assert.Zero(t, p.InnerArea(1, 0.9))
}

func TestCentreOfAThinDomeIsHalfWayUp(t *testing.T) {
	// A hemispherical shell: R/2 (any statics handbook, from memory).
	dome := lathe(100, func(s float64) (r, z float64) {
		return math.Cos(s * math.Pi / 2), math.Sin(s * math.Pi / 2)
	})
	bare := make([]bool, len(dome.Triangles))
	for i := range bare {
		a, b, c := dome.Corners(i)
		bare[i] = a[2]+b[2]+c[2] == 0
	}
	w, err := MeasureWall(context.Background(), &Skin{Mesh: dome, Bare: bare}, nil, nil)
	require.NoError(t, err)
	c := w.Profile.Centre(2, 0.01)
	assert.InDelta(t, 1.0, c[2], 0.01)
	assert.InDelta(t, 0, math.Hypot(c[0], c[1]), 0.005)
	solid := w.Profile.Centre(2, 4) // 3/8 R when it is all metal
	assert.InDelta(t, 0.75, solid[2], 0.01)
}

// VTK tells inside by vtkSelectEnclosedPoints and the distance by its cell
// locator, at random points; what may differ is their scatter.
func TestWallMetalAgreesWithRandomPointsInVTK(t *testing.T) {
	for _, name := range []string{"bear.off", "elephant.off"} {
		t.Run(name, func(t *testing.T) {
			m := figure(t, name)
			long := Measure(m).Long()
			walls := []float64{0.005 * long, 0.01 * long, 0.02 * long, 0.05 * long}
			list, err := json.Marshal(walls)
			require.NoError(t, err)
			got := askVTK(t, m, `
import numpy
from vtkmodules.util.numpy_support import numpy_to_vtk, vtk_to_numpy
b = mesh.GetBounds(); n = 60000
q = numpy.random.default_rng(7).random((n, 3)) * [b[1]-b[0], b[3]-b[2], b[5]-b[4]] + [b[0], b[2], b[4]]
p = vtk.vtkPoints(); p.SetData(numpy_to_vtk(q, deep=True))
cloud = vtk.vtkPolyData(); cloud.SetPoints(p)
e = vtk.vtkSelectEnclosedPoints(); e.SetInputData(cloud); e.SetSurfaceData(mesh); e.Update()
inside = vtk_to_numpy(e.GetOutput().GetPointData().GetArray("SelectedPoints")) > 0
locator = vtk.vtkStaticCellLocator(); locator.SetDataSet(mesh); locator.BuildLocator()
x = [0, 0, 0]; cell = vtk.reference(0); sub = vtk.reference(0); d = vtk.reference(0.0); depth = []
for k in q[inside]:
    locator.FindClosestPoint(k, x, cell, sub, d); depth.append(float(d)**0.5)
depth = numpy.array(depth)
box = (b[1]-b[0])*(b[3]-b[2])*(b[5]-b[4])
out = [len(depth), len(depth)/n*box]
for t in `+string(list)+`: out.append((depth < t).sum()/n*box)
print(json.dumps(out))`)
			p := wallOf(t, m).Profile
			points := got[0]
			require.Greater(t, points, 1000.0)
			for i, wall := range walls {
				metal := got[2+i]
				scatter := math.Sqrt((1 - metal/got[1]) / (metal / got[1] * points)) // of a share, one sigma
				assert.InEpsilon(t, metal/got[1], p.Metal(1, wall)/p.Volume, 4*scatter+0.005, "wall %g", wall)
			}
		})
	}
}

func TestFirstAnswerComesEarlyAndItsErrorIsHonest(t *testing.T) {
	m := figure(t, "refined_elephant.off")
	m = m.Scale(1 / Measure(m).Long())
	var first Profile
	told := 0.0
	w, err := MeasureWall(context.Background(), &Skin{Mesh: m}, func(w *Wall) { first = w.Profile }, func(share float64) {
		assert.GreaterOrEqual(t, share, told-1e-9)
		told = share
	})
	require.NoError(t, err)
	assert.InDelta(t, 1, told, 1e-9)
	assert.LessOrEqual(t, w.Profile.Error, first.Error)
	for _, wall := range []float64{0.005, 0.01, 0.02, 0.05} {
		assert.InEpsilon(t, w.Profile.Metal(1, wall), first.Metal(1, wall), max(first.Error, 1e-3))
	}
}

func TestMeasuringTheWallStopsWhenAsked(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	_, err := MeasureWall(ctx, &Skin{Mesh: sphere(1, 100)}, func(*Wall) { stop() }, nil)
	assert.ErrorIs(t, err, context.Canceled)
	_, err = MeasureWall(ctx, &Skin{Mesh: sphere(1, 100)}, nil, nil)
	assert.ErrorIs(t, err, context.Canceled)
}

func TestNothingHasNoWall(t *testing.T) {
	for _, m := range []*Mesh{{}, {Points: []Vec32{{1, 1, 1}}}, {Points: []Vec32{{0, 0, 0}, {1, 0, 0}, {0, 1, 0}}, Triangles: [][3]uint32{{0, 1, 2}}}} {
		w := wallOf(t, m)
		assert.Zero(t, w.Profile.Metal(1, 0.005))
		assert.Zero(t, w.Profile.SolidShare(1, 0.005))
		assert.Empty(t, onlyTrue(w.Solid(1, 0.005)))
	}
}

func onlyTrue(list []bool) (out []int) {
	for i, b := range list {
		if b {
			out = append(out, i)
		}
	}
	return out
}

func BenchmarkProfile100k(b *testing.B) {
	m := figure(b, "refined_elephant.off") // 88,928 triangles
	m = m.Scale(1.8 / Measure(m).Long())
	for _, stage := range []string{"first", "refined"} {
		b.Run(stage, func(b *testing.B) {
			var p Profile
			for b.Loop() {
				ctx, stop := context.WithCancel(context.Background())
				w, err := MeasureWall(ctx, &Skin{Mesh: m}, func(w *Wall) {
					if p = w.Profile; stage == "first" {
						stop()
					}
				}, nil)
				if stage == "refined" {
					require.NoError(b, err)
					p = w.Profile
				}
				stop()
			}
			b.ReportMetric(100*p.Error, "%error")
		})
	}
}

func BenchmarkLookup(b *testing.B) {
	p := wallOf(b, sphere(1, 60)).Profile
	wall, sum := 0.0, 0.0
	for b.Loop() {
		wall += 1e-9
		sum += p.Metal(1.7, 0.005+wall)
	}
}
