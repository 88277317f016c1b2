package options

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
	"meltwright/internal/quantity"
)

func TestTheCurveIsThePriceAtItsHeights(t *testing.T) {
	s, c := startingShop(t), group()
	p, err := Curve(c, s, 0.6, 3, 40)
	require.NoError(t, err)
	rule := estimate.RuleOf(c, s)
	require.Greater(t, len(p.Points), 40)
	assert.InDelta(t, 0.6, float64(p.Points[0].Height), 1e-9)
	assert.InDelta(t, 3, float64(p.Points[len(p.Points)-1].Height), 1e-9)
	for i := 0; i < len(p.Points); i += 7 {
		if at := p.Points[i]; i == 0 || p.Points[i-1].Height != at.Height || p.Points[i-1].Asked == at.Asked {
			e, err := estimate.Of(rule.At(c, at.Height), s)
			require.NoError(t, err)
			if i+1 < len(p.Points) && p.Points[i+1].Height == at.Height {
				continue // the side before a step
			}
			assert.Equal(t, e.Total, at.Asked, "at %v", at.Height)
		}
	}
}

func TestEveryStepOfTheCurveIsThere(t *testing.T) {
	s := startingShop(t)
	p, err := Curve(figure("1.75 m"), s, 1, 2, 12)
	require.NoError(t, err)
	f := mustTry(t, figure("1.75 m"), s, false)
	var want []int
	for mm := 1001; mm <= 2000; mm++ {
		if !f.try(mm).Steps.Same(f.try(mm - 1).Steps) {
			want = append(want, mm)
		}
	}
	var got []int
	twice := map[quantity.Length]int{}
	for _, step := range p.Steps {
		got = append(got, int(math.Round(float64(step.Height)*1000)))
	}
	for _, at := range p.Points {
		twice[at.Height]++
	}
	assert.Equal(t, want, got)
	for _, step := range p.Steps {
		assert.GreaterOrEqual(t, twice[step.Height], 2)
	}
}

func TestTheCurveGoesUpInHeight(t *testing.T) {
	p, err := Curve(group(), startingShop(t), 0.3, 4, 60)
	require.NoError(t, err)
	for i := 1; i < len(p.Points); i++ {
		require.GreaterOrEqual(t, p.Points[i].Height, p.Points[i-1].Height)
	}
}

func TestTheCurveLeavesOutWhatCannotBeMade(t *testing.T) {
	c := figure("1.75 m")
	c.Pieces[0].Inputs["form.sections"] = "4"
	c.Pieces[0].Inputs["form.wall"] = "20 mm"
	c.Inputs = map[string]string{"pour.holds": "400 kg"}
	p, err := Curve(c, startingShop(t), 0.01, 20, 30)
	require.NoError(t, err)
	f := mustTry(t, c, startingShop(t), false)
	first, last := p.Points[0].Height, p.Points[len(p.Points)-1].Height
	assert.True(t, f.model.WallFits(f.rule, first) && !f.model.WallFits(f.rule, first-millimetre))
	at := int(math.Round(float64(last) * 1000))
	assert.True(t, f.try(at).Holds && !f.try(at+1).Holds, "%d", at)
	p, err = Curve(c, startingShop(t), 0.01, 0.02, 30)
	require.NoError(t, err)
	assert.Empty(t, p.Points)
	_, err = Curve(figure("tall"), startingShop(t), 1, 2, 3)
	assert.Error(t, err)
}

func BenchmarkCurve(b *testing.B) {
	s := startingShop(b)
	for b.Loop() {
		if _, err := Curve(group(), s, 0.6, 3, 48); err != nil {
			b.Fatal(err)
		}
	}
}
