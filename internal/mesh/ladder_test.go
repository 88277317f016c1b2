package mesh

import (
	"context"
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func ladder(t testing.TB, w *Wall, p Plan) Ladder {
	t.Helper()
	l, err := w.Ladder(context.Background(), p)
	require.NoError(t, err)
	return l
}

func TestAColumnPartsAsItGrowsAndStaysTogetherAsItShrinks(t *testing.T) {
	w := roughWall(t, cylinder(0.1, 0.6, 60, 25))
	limits := Limits{Area: 0.6 * w.Profile.Area}
	p := planned(t, w, 1, 0.005, limits)
	require.Len(t, p.Sections, 2)
	require.True(t, p.Proposed)
	l := ladder(t, w, p)
	girth := 2 * math.Pi * 0.1
	half := l.at(&w.Profile, 0.5, 0.005, limits)
	assert.Len(t, half.Sections, 1, "small as it is it needs no cut")
	assert.InDelta(t, 0, half.Weld, 1e-9)
	as := l.at(&w.Profile, 1, 0.005, limits)
	assert.Len(t, as.Sections, 2)
	assert.InEpsilon(t, girth, as.Weld, 0.01)
	twice := l.at(&w.Profile, 1.4, 0.005, limits) // twice the skin in four rings
	require.Len(t, twice.Sections, 4)
	assert.InEpsilon(t, 3*1.4*girth, twice.Weld, 0.01)
	assert.NotContains(t, twice.Over, true)
}

// However often a form is cut on, each section has half of every seam it is
// joined at.
func TestSectionsThatAreCutOnAddUpToTheWeld(t *testing.T) {
	for name, w := range map[string]*Wall{"cylinder": roughWall(t, cylinder(0.1, 0.6, 60, 25)), "figure": standingMan(t)} {
		limits := Limits{Metal: 0.0032, Area: 0.3}
		l := ladder(t, w, planned(t, w, 1, 0.005, limits))
		for _, scale := range []float64{0.7, 1, 2, 3} {
			at := l.at(&w.Profile, scale, 0.005, limits)
			weld := 0.0
			for _, s := range at.Sections {
				weld += s.Weld
			}
			assert.InDelta(t, at.Weld, weld, 1e-6*at.Weld+1e-9, "%s at %.1f: %d sections", name, scale, len(at.Sections))
		}
	}
}

func TestPlanesThatSomebodyPlacedAlwaysCut(t *testing.T) {
	w := roughWall(t, cylinder(0.1, 0.6, 60, 25))
	p := evaluate(t, w, Cut{Plane: Plane{Vec{0, 0, 0.1}, Vec{0, 0, 1}}}, Cut{Plane: Plane{Vec{0, 0, 0.4}, Vec{0, 0, 1}}})
	l := ladder(t, w, p)
	for _, scale := range []float64{0.1, 0.5, 1} {
		at := l.at(&w.Profile, scale, 0.002, Limits{Area: 10})
		assert.Len(t, at.Sections, 3)
		assert.InEpsilon(t, 2*scale*2*math.Pi*0.1, at.Weld, 0.01)
	}
	at := l.at(&w.Profile, 2, 0.002, Limits{Area: 0.6})
	assert.Greater(t, len(at.Sections), 3, "what is too large is cut on")
}

// As a figure grows from a maquette to four metres, every section fits, their
// skin and metal stay those of the figure, and seams only grow.
func TestAFigureFitsCrucibleAndTankAtEverySize(t *testing.T) {
	w := standingMan(t)
	limits := Limits{Metal: 0.0032, Area: 0.6, Boxes: []Vec{{0.9, 0.9, 1.2}}}
	l := ladder(t, w, planned(t, w, 1, 0.005, limits))
	weld, sections := 0.0, 0
	for scale := 0.15; scale < 2.3; scale *= 1.07 {
		at := l.at(&w.Profile, scale, 0.005, limits)
		assert.NotContains(t, at.Over, true, "at %.2f m", 1.8*scale)
		area, metal := 0.0, 0.0
		for _, s := range at.Sections {
			area += s.Area
			metal += s.Metal
		}
		assert.InEpsilon(t, w.Profile.Area*scale*scale, area, 1e-6)
		assert.InEpsilon(t, w.Profile.Metal(scale, 0.005), metal, 1e-5)
		assert.GreaterOrEqual(t, len(at.Sections), sections)
		assert.GreaterOrEqual(t, at.Weld, weld)
		weld, sections = at.Weld, len(at.Sections)
	}
	assert.Greater(t, sections, 12)
}

// What a lookup gives is near what planning at that size would give.
func TestALadderWeldsLittleMoreThanPlanningAnew(t *testing.T) {
	w := standingMan(t)
	limits := Limits{Metal: 0.0032, Area: 0.6}
	l := ladder(t, w, planned(t, w, 1, 0.005, limits))
	for _, scale := range []float64{0.5, 0.8, 1, 1.4, 2} {
		anew := planned(t, w, scale, 0.005, limits)
		at := l.at(&w.Profile, scale, 0.005, limits)
		t.Logf("%.1f: %d and %d sections, %.2f and %.2f m", scale, len(anew.Sections), len(at.Sections), anew.Weld*scale, at.Weld)
		assert.LessOrEqual(t, at.Weld, 1.6*anew.Weld*scale+0.3)
		assert.LessOrEqual(t, len(at.Sections), 2*len(anew.Sections))
	}
}

func TestAStoredLadderIsTheSame(t *testing.T) {
	w := standingMan(t)
	l := ladder(t, w, planned(t, w, 1, 0.005, Limits{Metal: 0.0031}))
	data, err := json.Marshal(l)
	require.NoError(t, err)
	assert.Less(t, len(data), 60_000, "bytes in the database")
	var back Ladder
	require.NoError(t, json.Unmarshal(data, &back))
	for _, scale := range []float64{0.5, 1, 1.6} {
		a, b := l.at(&w.Profile, scale, 0.005, Limits{Area: 0.6}), back.at(&w.Profile, scale, 0.005, Limits{Area: 0.6})
		assert.Len(t, b.Sections, len(a.Sections))
		assert.InDelta(t, a.Weld, b.Weld, 1e-5)
	}
	again, err := json.Marshal(back)
	require.NoError(t, err)
	assert.JSONEq(t, string(data), string(again))
}

func TestADamagedLadderIsRefusedInWords(t *testing.T) {
	w := roughWall(t, cylinder(0.1, 1, 24, 10))
	data, err := json.Marshal(ladder(t, w, evaluate(t, w)))
	require.NoError(t, err)
	for n := 0; n < len(data)-1; n += 97 {
		cut := append(append([]byte(nil), data[:n]...), '"')
		var back Ladder
		assert.Error(t, json.Unmarshal(cut, &back))
		swapped := append([]byte(nil), data...)
		swapped[n] ^= 1
		if json.Unmarshal(swapped, &back) == nil {
			back.at(&w.Profile, 3, 0.005, Limits{Area: 0.1}) // anything but a panic, or no end
		}
	}
	var back Ladder
	assert.ErrorContains(t, json.Unmarshal([]byte(`"AAAA"`), &back), "open the scan file again")
	loop := Ladder{rungs: []rung{{into: []int{1}}, {into: []int{0}}}, tops: nil}
	assert.False(t, loop.sound())
	assert.False(t, (&Ladder{rungs: []rung{{into: []int{7}}}, tops: []int{0}}).sound())
}

func BenchmarkLadder35k(b *testing.B) {
	w := standingMan(b)
	p := planned(b, w, 1, 0.005, Limits{Metal: 0.0031})
	for b.Loop() {
		l := ladder(b, w, p)
		b.ReportMetric(float64(len(l.rungs)), "rungs")
	}
}

func BenchmarkPlanAt(b *testing.B) {
	w := standingMan(b)
	limits := Limits{Metal: 0.0031, Area: 0.6}
	s := Scan{Profile: w.Profile, Ladder: ladder(b, w, planned(b, w, 1, 0.005, limits))}
	for b.Loop() {
		s.PlanAt(2, 0.005, limits)
	}
}

func TestAFormWithoutAnyInsideHoldsNoMetalAtAnyDepth(t *testing.T) {
	y := newTally(0)
	y.add(&cell{half: 1, depth: 0, inwards: [3]float32{0, 0, 1}})
	p := y.profile()
	assert.Zero(t, p.Volume)
	assert.Zero(t, p.Metal(1, 0.005))
}
