package risk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Published examples of the formulas of Malcolm et al., 1959.
func TestThreePointsComeToThePublishedMeansAndDeviations(t *testing.T) {
	for _, c := range []struct {
		source          string
		points          Points
		mean, deviation float64
	}{
		{"calhub.xyz", Points{4, 6, 12}, 6.667, 1.333},
		{"schematex.js.org", Points{5, 8, 14}, 8.5, 1.5},
	} {
		assert.InDelta(t, c.mean, c.points.Mean(), 5e-4, c.source)
		assert.InDelta(t, c.deviation, c.points.Deviation(), 5e-4, c.source)
	}
}

func points(t *rapid.T) Points {
	low := rapid.Float64Range(0.1, 1).Draw(t, "low")
	likely := low + rapid.Float64Range(0, 2).Draw(t, "likely")
	return Points{low, likely, likely + rapid.Float64Range(0, 3).Draw(t, "high")}
}

func TestQuantilesRiseFromLowToHighAndAverageToTheMean(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := points(t)
		q := tabulated(p)
		last, sum, squares := p.Low, 0.0, 0.0
		const n = 5000
		for i := range n {
			x := q.of((float64(i) + 0.5) / n)
			require.GreaterOrEqual(t, x, last-1e-9)
			last = x
			sum += x
			squares += x * x
		}
		require.LessOrEqual(t, last, p.High+1e-9)
		mean := sum / n
		require.InDelta(t, p.Mean(), mean, 2e-4*(p.High-p.Low)+1e-9)
		// The deviation of the Beta distribution that is drawn.
		beta := math.Sqrt(math.Max(0, (p.Mean()-p.Low)*(p.High-p.Mean())) / 7)
		require.InDelta(t, beta, math.Sqrt(math.Max(0, squares/n-mean*mean)), 2e-3*(p.High-p.Low)+1e-6)
	})
}

func TestACertainNumberIsAConstant(t *testing.T) {
	q := tabulated(Sure(1.2))
	for _, u := range []float64{0, 0.3, 1} {
		assert.Equal(t, 1.2, q.of(u))
	}
}

func TestPointsOutOfOrderAreNotSane(t *testing.T) {
	assert.True(t, Points{1, 1, 2}.Sane())
	assert.True(t, Sure(3).Sane())
	for _, p := range []Points{{2, 1, 3}, {1, 3, 2}, {math.NaN(), 1, 2}, {0, 1, math.Inf(1)}, {1, math.NaN(), 2}} {
		assert.False(t, p.Sane(), p)
	}
}

func tabulated(p Points) *quantiles {
	q := &quantiles{}
	q.tabulate(p)
	return q
}
