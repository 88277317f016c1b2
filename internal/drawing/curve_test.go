package drawing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// climbing is a price that steps once, where a further heat is needed.
func climbing() Curve {
	return Curve{
		Frame:  Frame{Width: 480, Height: 300},
		Points: []At{{0.5, 20}, {1.5, 80}, {1.5, 90}, {3, 240}},
		Prices: []Tick{{0, "$0"}, {100, "$100"}, {200, "$200"}},
		Budget: 150, BudgetLabel: "budget $150", Axis: "height in bronze",
		Options: []OptionAt{
			{At: At{0.88, 42.8}, Label: "Half life"},
			{At: At{1.75, 115}, Label: "Life size", Recommended: true},
			{At: At{2.63, 203}, Label: "1½ life size"},
		},
	}
}

func TestTheBudgetReachesWhereTheLineCrossesIt(t *testing.T) {
	reach, ok := Reach(climbing().Points, 150)
	assert.True(t, ok)
	assert.InDelta(t, 2.1, reach, 1e-9, "90 at 1.5 m and 100 to the metre")
	reach, _ = Reach(climbing().Points, 85)
	assert.InDelta(t, 1.5, reach, 1e-9, "a budget within a step reaches its foot")
	reach, _ = Reach(climbing().Points, 1000)
	assert.InDelta(t, 3, reach, 1e-9)
	_, ok = Reach(climbing().Points, 10)
	assert.False(t, ok)
	_, ok = Reach(climbing().Points, math.NaN())
	assert.False(t, ok)
}

func TestNothingTallerThanTheReachIsWithinTheBudget(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var points []At
		height, price := 0.2, 5.0
		for range rapid.IntRange(2, 12).Draw(t, "points") {
			height += rapid.Float64Range(0, 1).Draw(t, "taller")
			price += rapid.Float64Range(0, 60).Draw(t, "dearer")
			points = append(points, At{height, price})
		}
		budget := rapid.Float64Range(1, 500).Draw(t, "budget")
		reach, ok := Reach(points, budget)
		for _, a := range points {
			if a.Price <= budget {
				require.True(t, ok)
				assert.GreaterOrEqual(t, reach, a.Height)
			} else if ok {
				assert.LessOrEqual(t, reach, a.Height)
			}
		}
	})
}

func TestOptionsLieOnTheirHeightAndPrice(t *testing.T) {
	c := climbing()
	p := c.sanePlan()
	var dots []Point
	for _, item := range c.Scene().Items {
		if s, ok := item.(Shape); ok && len(s.Path) == len(Circle(0, 0, 1)) && s.Stroke != Accent {
			b := s.Path.Bounds()
			dots = append(dots, Point{(b.Min.X + b.Max.X) / 2, (b.Min.Y + b.Max.Y) / 2})
		}
	}
	require.Len(t, dots, 3)
	for i, o := range c.Options {
		assert.InDelta(t, p.x(o.Height), dots[i].X, 1e-9)
		assert.InDelta(t, p.y(o.Price), dots[i].Y, 1e-9)
	}
	metre := p.x(2) - p.x(1)
	assert.InDelta(t, metre*(2.63-0.88), dots[2].X-dots[0].X, 1e-9)
}

// sanePlan is the plan of c in the frame it is drawn in.
func (c Curve) sanePlan() curvePlan {
	c.Frame = c.Frame.sane()
	return c.plan()
}

func TestBeyondTheBudgetAnOptionIsHollow(t *testing.T) {
	c := climbing()
	p := c.sanePlan()
	img := Raster(c.Scene(), Light(), 1)
	at := func(o OptionAt) (int, int) { return int(p.x(o.Height)), int(p.y(o.Price)) }
	x, y := at(c.Options[0])
	assert.True(t, is(img, x, y, Ink))
	x, y = at(c.Options[2])
	assert.True(t, is(img, x, y, Sheet))
}

func TestEveryOptionOfACurveIsNamedAndNoWordsMeet(t *testing.T) {
	s := climbing().Scene()
	assertApart(t, s)
	var words []string
	for _, text := range s.Texts() {
		words = append(words, text.Words)
	}
	for _, o := range climbing().Options {
		assert.Contains(t, words, o.Label)
	}
	rapid.Check(t, func(t *rapid.T) {
		c := climbing()
		c.Width, c.Height = rapid.Float64Range(320, 900).Draw(t, "width"), rapid.Float64Range(180, 500).Draw(t, "height")
		c.Budget = rapid.Float64Range(0, 400).Draw(t, "budget")
		for i := range c.Options {
			c.Options[i].At = At{rapid.Float64Range(0.3, 4).Draw(t, "height"), rapid.Float64Range(0, 300).Draw(t, "price")}
		}
		assertApart(t, c.Scene())
	})
}

func TestNoNameLiesOnTheLineOfTheBudget(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := climbing()
		c.Width, c.Height = rapid.Float64Range(320, 900).Draw(t, "width"), rapid.Float64Range(180, 500).Draw(t, "height")
		c.Budget = rapid.Float64Range(1, 250).Draw(t, "budget")
		y := c.sanePlan().y(c.Budget)
		for _, text := range c.Scene().Texts() {
			for _, o := range c.Options {
				if text.Words == o.Label {
					assert.False(t, text.Box().Min.Y < y && y < text.Box().Max.Y, "%s at %v, the budget at %v", text.Words, text.Box(), y)
				}
			}
		}
	})
}

func TestACurveOfAnythingCanBeDrawn(t *testing.T) {
	for _, v := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		c := Curve{Frame: Frame{v, v, v}, Points: []At{{v, v}, {v, v}}, Budget: v, Prices: []Tick{{v, "x"}}, Options: []OptionAt{{At: At{v, v}}}}
		assert.NotPanics(t, func() { Raster(c.Scene(), Light(), 1) })
	}
	assert.NotPanics(t, func() { Curve{}.Scene() })
}
