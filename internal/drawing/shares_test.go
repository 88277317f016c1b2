package drawing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// stagesOfAFigure is what a figure's cost is made of, its base by others.
func stagesOfAFigure() []Share {
	return []Share{
		{Stage: "original", Name: "Original in clay", Amount: "18,420", Value: 18420},
		{Stage: "mould", Name: "Mould", Amount: "6,310", Value: 6310},
		{Stage: "wax", Name: "Wax", Amount: "5,940", Value: 5940},
		{Stage: "gating", Name: "Gating", Amount: "390", Value: 390},
		{Stage: "shell", Name: "Shell", Amount: "2,918", Value: 2918},
		{Stage: "pour", Name: "Pour", Amount: "4,120", Value: 4120},
		{Stage: "metalwork", Name: "Metalwork", Amount: "11,840", Value: 11840},
		{Stage: "patina", Name: "Patina", Amount: "2,260", Value: 2260},
		{Stage: "base", Name: "Base", Amount: "by others", ByOthers: true},
		{Stage: "price", Name: "Fees, margin and tax", Amount: "60,852", Value: 60852},
	}
}

func TestSharesAreAsTallAsTheyAreLarge(t *testing.T) {
	assert.InDeltaSlice(t, []float64{50, 30, 20}, ShareHeights([]float64{5, 3, 2}, 100, 1), 1e-9)
	assert.InDeltaSlice(t, []float64{10, 45, 0, 45}, ShareHeights([]float64{1, 100, 0, 100}, 100, 10), 1e-9)
	assert.InDeltaSlice(t, []float64{5, 5}, ShareHeights([]float64{1, 9}, 10, 8), 1e-9, "too little for both: the same for both")
	assert.InDeltaSlice(t, []float64{0, 0, 10, 0}, ShareHeights([]float64{-4, math.NaN(), 3, math.Inf(1)}, 10, 1), 1e-9)
	assert.Empty(t, ShareHeights(nil, 10, 1))
	assert.Equal(t, []float64{0, 0}, ShareHeights([]float64{0, 0}, 10, 1))
}

func TestSharesFillTheColumnAndNoneIsLost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values := rapid.SliceOfN(rapid.Float64Range(0.01, 1e6), 1, 12).Draw(t, "values")
		total, least := rapid.Float64Range(50, 900).Draw(t, "total"), rapid.Float64Range(0, 4).Draw(t, "least")
		sum := 0.0
		heights := ShareHeights(values, total, least)
		for i, h := range heights {
			sum += h
			assert.GreaterOrEqual(t, h, least-1e-9)
			for k := range i {
				if values[k] >= values[i] {
					assert.GreaterOrEqual(t, heights[k], h-1e-9, "a larger share is never shorter")
				}
			}
		}
		assert.InDelta(t, total, sum, 1e-6)
	})
}

func TestTheColumnIsInTheStagesColoursFromTopToBottom(t *testing.T) {
	s := Shares{Frame: Frame{Width: 20, Height: 300}, Parts: stagesOfAFigure()}
	img := Raster(s.Scene(), Light(), 1)
	y := 0.0
	for i, h := range s.heights(3) {
		part := s.Parts[i]
		if h >= 3 && !part.ByOthers {
			assert.True(t, is(img, 10, int(y+h/2), Stage(part.Stage)), part.Name)
		}
		if part.ByOthers {
			assert.True(t, is(img, 10, int(y+h/2), Sheet), "a stage by others is an outline")
		}
		y += h
	}
	assert.InDelta(t, 300, y, 1e-6)
}

func TestNamesStandBesideTheirSharesWithoutMeeting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Shares{Frame: Frame{
			Width: rapid.Float64Range(20, 500).Draw(t, "width"), Height: rapid.Float64Range(40, 600).Draw(t, "height"),
		}, Parts: stagesOfAFigure()}
		for i := range s.Parts {
			s.Parts[i].Value = rapid.Float64Range(0, 1e5).Draw(t, "value")
		}
		assertApart(t, s.Scene())
	})
	roomy := Shares{Frame: Frame{Width: 260, Height: 400}, Parts: stagesOfAFigure()}.Scene().Texts()
	require.Len(t, roomy, 20)
	assert.Equal(t, "Original in clay", roomy[0].Words)
}

func TestPlacesAreMovedApartAndStayInOrder(t *testing.T) {
	assert.InDeltaSlice(t, []float64{10, 20, 30}, apart([]float64{10, 11, 12}, 10, 0, 100), 1e-9)
	assert.InDeltaSlice(t, []float64{80, 90, 100}, apart([]float64{97, 98, 99}, 10, 0, 100), 1e-9)
	assert.InDeltaSlice(t, []float64{0, 5, 10}, apart([]float64{1, 1, 1}, 20, 0, 10), 1e-9)
}
