package drawing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// threeOptions is a figure at three scales, the middle one recommended.
func threeOptions() Bars {
	b := Bars{Frame: Frame{Width: 460}}
	for i, name := range []string{"Life size", "1¼ life size", "1½ life size"} {
		o := Option{Name: name, Total: []string{"$56,500", "$113,000", "$169,600"}[i], Recommended: i == 1}
		for _, p := range stagesOfAFigure() {
			p.Value *= 0.5 * float64(i+1)
			o.Parts = append(o.Parts, p)
		}
		b.Options = append(b.Options, o)
	}
	return b
}

// parts are the boxes of what is filled with r.
func parts(s Scene, r Role) []Box {
	var all []Box
	for _, item := range s.Items {
		if shape, ok := item.(Shape); ok && shape.Fill == r {
			all = append(all, shape.Path.Bounds())
		}
	}
	return all
}

func TestBarsOfAllOptionsHaveOneScale(t *testing.T) {
	s := threeOptions().Scene()
	clay := parts(s, StageClay)
	require.Len(t, clay, 3)
	assert.InDelta(t, 2, clay[1].Width()/clay[0].Width(), 1e-9)
	assert.InDelta(t, 3, clay[2].Width()/clay[0].Width(), 1e-9)
	assert.InDelta(t, 18420.0/6310, clay[0].Width()/parts(s, StageRubber)[0].Width(), 1e-9)
	assert.Empty(t, parts(s, StageStone), "the base is by others and costs nothing here")
}

func TestTheRecommendedOptionHasADropAndStrongerLetters(t *testing.T) {
	s := threeOptions().Scene()
	require.Len(t, parts(s, Accent), 1)
	for _, text := range s.Texts() {
		if text.Words == "1¼ life size" {
			assert.Equal(t, SansSemiBold, text.Face)
		}
	}
}

func TestTheWordsOfBarsNeverMeet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := threeOptions()
		b.Width = rapid.Float64Range(220, 900).Draw(t, "width")
		b.Height = rapid.SampledFrom([]float64{0, 25, 70}).Draw(t, "height")
		for i := range b.Options {
			for k := range b.Options[i].Parts {
				b.Options[i].Parts[k].Value = rapid.Float64Range(0, 1e5).Draw(t, "value")
			}
		}
		assertApart(t, b.Scene())
	})
}

func TestBarsOfAnythingCanBeDrawn(t *testing.T) {
	for _, v := range []float64{0, -3, math.NaN(), math.Inf(1)} {
		b := Bars{Frame: Frame{Width: v, Height: v}, Options: []Option{{Parts: []Share{{Value: v}}}}}
		assert.NotPanics(t, func() { Raster(b.Scene(), Light(), 1) })
	}
	assert.NotPanics(t, func() { Bars{}.Scene() })
}
