package drawing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func labels(ticks []Tick) []string {
	var all []string
	for _, t := range ticks {
		all = append(all, t.Label)
	}
	return all
}

func TestHeightsAreReadOffInRoundSteps(t *testing.T) {
	assert.Equal(t, []string{"0 m", "1 m", "2 m", "3 m"}, labels(Metric.HeightTicks(2.63, 4)))
	assert.Equal(t, []string{"0 m", "0.5 m", "1.0 m", "1.5 m", "2.0 m"}, labels(Metric.HeightTicks(1.75, 4)))
	assert.Equal(t, []string{"0 cm", "5 cm", "10 cm", "15 cm", "20 cm"}, labels(Metric.HeightTicks(0.18, 4)))
	assert.Equal(t, []string{"0 ft", "2 ft", "4 ft", "6 ft"}, labels(FeetInches.HeightTicks(1.75, 4)))
	assert.Equal(t, []string{"0 in", "6 in", "1 ft", "1 ft 6 in"}, labels(FeetInches.HeightTicks(18*0.0254, 3)))
}

// NIST SP 811, appendix B: 1 ft = 0.3048 m exactly (from memory).
func TestAFootIsAFoot(t *testing.T) {
	ticks := FeetInches.HeightTicks(2, 8)
	assert.InDelta(t, 0.3048, ticks[1].Value, 1e-12)
	assert.Equal(t, "1 ft", ticks[1].Label)
}

func TestTicksReachTheTopAndAreNoMoreThanAsked(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := rapid.SampledFrom([]Units{Metric, FeetInches}).Draw(t, "units")
		top, most := rapid.Float64Range(0.05, 60).Draw(t, "top"), rapid.IntRange(1, 8).Draw(t, "most")
		ticks := u.HeightTicks(top, most)
		assert.Zero(t, ticks[0].Value)
		assert.LessOrEqual(t, len(ticks)-1, most)
		assert.GreaterOrEqual(t, ticks[len(ticks)-1].Value, top-1e-6)
		for i := 1; i < len(ticks); i++ {
			assert.Greater(t, ticks[i].Value, ticks[i-1].Value)
			assert.NotEqual(t, ticks[i].Label, ticks[i-1].Label)
		}
	})
}

func TestNoHeightMakesTooManyTicks(t *testing.T) {
	for _, top := range []float64{0, -1, math.NaN(), math.Inf(1), 1e300} {
		assert.LessOrEqual(t, len(Metric.HeightTicks(top, 0)), 1001)
	}
}
