package drawing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestEverySilhouetteStandsOnTheGroundAndIsOneHigh(t *testing.T) {
	for _, name := range append(Names(), Person) {
		s, ok := Named(name)
		require.True(t, ok, name)
		assert.NotEmpty(t, s.Shows, name)
		body := s.Body.Bounds()
		assert.InDelta(t, 0, body.Min.Y, 1e-4, name)
		assert.InDelta(t, 1, body.Max.Y, 1e-4, name)
		for _, plane := range []Path{s.Shade, s.Light} {
			b := plane.Bounds()
			require.False(t, b.Empty(), name)
			const edge = 0.004
			assert.True(t, b.Min.X > body.Min.X-edge && b.Max.X < body.Max.X+edge && b.Min.Y > -edge && b.Max.Y < 1+edge, name)
		}
	}
	_, ok := Named("a dragon")
	assert.False(t, ok)
}

func TestEverySilhouetteHasItsFeetAtTheAxis(t *testing.T) {
	for _, name := range append(Names(), Person) {
		s, _ := Named(name)
		stand := emptyBox()
		for _, step := range s.Body {
			for k := range step.points() {
				if step.P[k].Y < 0.02 {
					stand = stand.with(step.P[k])
				}
			}
		}
		assert.InDelta(t, 0, (stand.Min.X+stand.Max.X)/2, 0.015, name)
	}
}

// The plumb proportions of a standing body: a man with arms down is about a
// quarter as wide as tall, a horse about as long as tall (common practice, no
// source). They keep a drawing from being swapped or squeezed.
func TestSilhouettesHaveTheProportionsOfWhatTheyShow(t *testing.T) {
	for name, want := range map[string][2]float64{
		Person: {0.2, 0.32}, "standing": {0.3, 0.45}, "striding": {0.4, 0.65}, "seated": {0.5, 0.8},
		"bust": {0.5, 0.8}, "head": {0.5, 0.8}, "horse": {0.85, 1.1}, "bench": {1.8, 2.4},
	} {
		s, _ := Named(name)
		assert.Greater(t, s.Width(), want[0], name)
		assert.Less(t, s.Width(), want[1], name)
	}
}

func TestAnOutlineOfSomeonesOwnIsBroughtToTheGroundAtHeightOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, y := rapid.Float64Range(-1e3, 1e3).Draw(t, "x"), rapid.Float64Range(-1e3, 1e3).Draw(t, "y")
		k := rapid.Float64Range(0.01, 1e3).Draw(t, "scale")
		tee := []Point{{x - k, y}, {x + k, y}, {x + k, y + 3*k}, {x + 4*k, y + 4*k}, {x - 2*k, y + 4*k}, {x - k, y + 3*k}}
		s, err := Traced("the tee", tee)
		require.NoError(t, err)
		b := s.Body.Bounds()
		assert.InDelta(t, 0, b.Min.Y, 1e-6)
		assert.InDelta(t, 1, b.Max.Y, 1e-6)
		assert.InDelta(t, 1.5, b.Width(), 1e-6)
		assert.InDelta(t, -0.5, b.Min.X, 1e-6, "the foot is at the axis, not the middle of the whole")
	})
}

func TestAnOutlineThatEnclosesNothingIsRefused(t *testing.T) {
	_, err := Traced("a line", []Point{{0, 0}, {0, 1}, {0, 2}})
	assert.ErrorContains(t, err, "at least three points")
	_, err = Traced("nothing")
	assert.Error(t, err)
	_, err = Traced("not a number", []Point{{0, 0}, {math.NaN(), 1}, {0, 2}})
	assert.ErrorContains(t, err, "not a number")
}

func TestABrokenSilhouetteNamesItsLine(t *testing.T) {
	_, err := readSilhouette("gull", "# a gull\nbody M0 0 L1\n")
	assert.ErrorContains(t, err, "silhouette gull, body")
	_, err = readSilhouette("gull", "# a gull\n")
	assert.ErrorContains(t, err, "no body")
}

func TestAPieceIsDrawnAsChosenAsTracedOrAsSuits(t *testing.T) {
	square := [][][2]float64{{{0, 0}, {2, 0}, {2, 1}, {0, 1}}}
	assert.Equal(t, "dog", SilhouetteOf("dog", square, "cat").Name)
	assert.InDelta(t, 2, SilhouetteOf("", square, "cat").Width(), 1e-9)
	assert.Equal(t, "cat", SilhouetteOf("a dragon", [][][2]float64{{{0, 0}, {1, 0}}}, "cat").Name)
	assert.Equal(t, "cat", SilhouetteOf[[2]float64]("", nil, "cat").Name)
}
