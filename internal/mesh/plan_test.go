package mesh

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func planned(t require.TestingT, w *Wall, scale, wall float64, l Limits) Plan {
	p, err := w.Plan(context.Background(), scale, wall, l)
	require.NoError(t, err)
	return p
}

// standingMan is a figure of 1.8 m of libcgal-demo, and its wall.
func standingMan(t testing.TB) *Wall {
	t.Helper()
	m := figure(t, "man.off")
	m, err := Stand(m, nil, Stance{Unit: Unit{"", 1.8 / Measure(m).Box()[2]}, Up: ZUp})
	require.NoError(t, err)
	return roughWall(t, m)
}

func TestWithoutLimitsNothingIsCut(t *testing.T) {
	w := roughWall(t, cylinder(0.2, 2, 60, 21))
	p := planned(t, w, 3, 0.01, Limits{})
	assert.Len(t, p.Sections, 1)
	assert.Empty(t, p.Cuts)
}

func TestAColumnIsCutIntoAsFewRingsAsItsAreaAsks(t *testing.T) {
	w := roughWall(t, cylinder(0.2, 2, 100, 41))
	whole := Measure(w.Skin.Mesh).Area
	p := planned(t, w, 1, 0.005, Limits{Area: whole/3 + 0.02})
	require.Len(t, p.Sections, 3)
	assert.InEpsilon(t, 2*2*math.Pi*0.2, p.Weld, 2e-3)
	assert.Empty(t, onlyOver(p.Over(&w.Profile, 1, 0.005, Limits{Area: whole/3 + 0.02})))
	for _, c := range p.Cuts {
		assert.Equal(t, Vec{0, 0, 1}, c.Plane.Normal)
	}
}

func TestABoxThatIsTooShortCutsAcrossAndOneTooNarrowAlong(t *testing.T) {
	w := roughWall(t, brick(Vec{1, 0.5, 0.3}, 12))
	short := Limits{Boxes: []Vec{{0.6, 0.6, 0.4}}}
	p := planned(t, w, 1, 0.005, short)
	assert.Len(t, p.Sections, 2)
	assert.InDelta(t, 1.6, p.Weld, 1e-6)
	narrow := Limits{Boxes: []Vec{{0.55, 0.3, 0.35}}}
	p = planned(t, w, 1, 0.005, narrow)
	assert.Len(t, p.Sections, 4)
	assert.Empty(t, onlyOver(p.Over(&w.Profile, 1, 0.005, narrow)))
}

// A wasp waist takes the least weld, wherever else the limit would allow a cut.
func TestTheCutGoesThroughTheWaist(t *testing.T) {
	waist := func(s float64) (r, z float64) { return 0.3 - 0.2*math.Exp(-math.Pow((s-0.45)/0.05, 2)), 2 * s }
	w := roughWall(t, lathe(80, waist))
	p := planned(t, w, 1, 0.005, Limits{Area: 0.75 * Measure(w.Skin.Mesh).Area})
	require.Len(t, p.Cuts, 1)
	assert.InDelta(t, 0.9, p.Cuts[0].Plane.At[2], 2.0/tableSlices)
	assert.InEpsilon(t, 2*math.Pi*0.1, p.Weld, 0.02)
}

func TestEachLegIsASectionAndOneCutMayTakeOneLegAlone(t *testing.T) {
	w := roughWall(t, stool())
	area := Measure(w.Skin.Mesh).Area
	p := planned(t, w, 1, 0.002, Limits{Area: 0.8 * area})
	assert.Len(t, p.Sections, 2, "one leg off is enough")
	assert.InEpsilon(t, 0.8, p.Weld, 1e-3)
	p = planned(t, w, 1, 0.002, Limits{Area: 0.4 * area})
	assert.Len(t, p.Sections, 3)
	assert.InEpsilon(t, 1.6, p.Weld, 1e-3)
}

func TestEverySectionOfAFigureIsWithinWhatTheShopCanPour(t *testing.T) {
	w := standingMan(t)
	for _, c := range []struct{ scale, wall, area float64 }{{0.5, 0.003, 0.5}, {1, 0.005, 0.35}, {1.3, 0.006, 1}, {2.2, 0.008, 0.6}} {
		l := Limits{Metal: 0.0032, Boxes: []Vec{{0.7, 0.7, 1.1}}, Area: c.area}
		p := planned(t, w, c.scale, c.wall, l)
		assert.Empty(t, onlyOver(p.Over(&w.Profile, c.scale, c.wall, l)))
		metal, weld := 0.0, 0.0
		for i := range p.Sections {
			s := p.Sections[i].At(&w.Profile, c.scale, c.wall)
			metal += s.Metal
			weld += s.Weld
		}
		assert.InEpsilon(t, w.Profile.Metal(c.scale, c.wall), metal, 1e-5)
		assert.InDelta(t, p.Weld*c.scale, weld, 1e-9)
		n := float64(len(p.Sections))
		square := 2 * math.Sqrt(w.Profile.Area) * (math.Sqrt(n) - 1) // n square patches: the trade's first guess
		assert.Less(t, p.Weld, 1.6*square+0.2, "%d sections", len(p.Sections))
	}
}

func TestATableHoldsTheWholeForm(t *testing.T) {
	w := standingMan(t)
	size := Measure(w.Skin.Mesh)
	_, tables := w.cutUp()
	for axis, table := range tables {
		area, volume, share := 0.0, 0.0, 0.0
		low, high := noNeed.low, noNeed.top
		for _, p := range table.Parts {
			area += p.Area
			volume += p.Volume
			share += p.shares.at(0.2)
			for k := range 3 {
				low[k], high[k] = min(low[k], p.Low[k]), max(high[k], p.Top[k])
			}
		}
		assert.InEpsilon(t, size.Area, area, 1e-9)
		assert.InEpsilon(t, size.Volume, volume, 1e-6)
		assert.InDelta(t, 1, share, 1e-5)
		assert.Equal(t, size.Min, low)
		assert.Equal(t, size.Max, high)
		weld := make([]float64, tableSlices)
		for _, j := range table.Joints {
			assert.Equal(t, table.Parts[j.Below].Slice+1, table.Parts[j.Above].Slice)
			weld[table.Parts[j.Above].Slice] += j.Weld
		}
		for _, k := range []int{10, 48, 90} {
			var n Vec
			n[axis] = 1
			sum := 0.0
			for _, l := range CutLoops(w.Skin.Mesh, Plane{At: n.Mul(table.level(k)), Normal: n}) {
				sum += l.Length
			}
			assert.InEpsilon(t, sum, weld[k], 1e-9)
		}
	}
}

func TestWhatCannotFitIsToldNotRefused(t *testing.T) {
	w := roughWall(t, sphere(0.5, 40))
	l := Limits{Metal: 1e-6}
	p := planned(t, w, 1, 0.01, l)
	assert.NotEmpty(t, onlyOver(p.Over(&w.Profile, 1, 0.01, l)))
	assert.LessOrEqual(t, len(p.Cuts), mostCuts+tableSlices)
	assert.Len(t, planned(t, w, 0, 0.01, l).Sections, 1)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	_, err := w.Plan(ctx, 1, 0.01, l)
	assert.ErrorIs(t, err, context.Canceled)
}

func BenchmarkPlan35k(b *testing.B) {
	w := standingMan(b)
	for b.Loop() {
		planned(b, w, 1, 0.005, Limits{Metal: 0.0031, Area: 0.35, Boxes: []Vec{{0.6, 0.6, 1}}})
	}
}

func BenchmarkEvaluate35k(b *testing.B) {
	w := standingMan(b)
	p := planned(b, w, 1, 0.005, Limits{Metal: 0.0031})
	for b.Loop() {
		evaluate(b, w, p.Cuts...)
	}
}
