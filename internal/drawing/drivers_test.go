package drawing

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// whatPricesHangOn is five drivers in no order.
func whatPricesHangOn() Drivers {
	return Drivers{Frame: Frame{Width: 480}, Base: "$128,400", Drivers: []Driver{
		{Name: "Bronze price", Low: -1900, High: 2100, LowLabel: "−1,900", HighLabel: "+2,100"},
		{Name: "Hours for chasing", Low: -6000, High: 12100, LowLabel: "−6,000", HighLabel: "+12,100"},
		{Name: "Recasts", Low: 0, High: 5200, LowLabel: "0", HighLabel: "+5,200"},
		{Name: "Learning", Low: 800, High: -700, LowLabel: "+800", HighLabel: "−700"},
		{Name: "Area of the original, as it was reckoned from height and weight", Low: -8200, High: 9400, LowLabel: "−8,200", HighLabel: "+9,400"},
	}}
}

func TestTheWidestSwingComesFirst(t *testing.T) {
	var names []string
	for _, text := range whatPricesHangOn().Scene().Texts() {
		if text.Anchor == End && text.Colour == Ink {
			names = append(names, text.Words)
		}
	}
	require.Len(t, names, 5)
	assert.True(t, strings.HasPrefix(names[1], "Area of the original"), names[1])
	names[1] = "Area"
	assert.Equal(t, []string{"Hours for chasing", "Area", "Recasts", "Bronze price", "Learning"}, names)
}

func TestBarsReachAsFarAsTheyMoveThePrice(t *testing.T) {
	d := whatPricesHangOn()
	boxes := map[Role][]Box{}
	for _, item := range d.Scene().Items {
		if s, ok := item.(Shape); ok && len(s.Path) == 5 {
			boxes[s.Fill] = append(boxes[s.Fill], s.Path.Bounds())
		}
	}
	dearer, cheaper := boxes[Accent], boxes[Sheet]
	assert.InDelta(t, 9400.0/12100, dearer[1].Width()/dearer[0].Width(), 1e-9)
	assert.InDelta(t, 6000.0/12100, cheaper[0].Width()/dearer[0].Width(), 1e-9)
	assert.InDelta(t, cheaper[0].Max.X, dearer[0].Min.X, 1e-9, "both begin at the line in the middle")
	assert.Len(t, dearer, 5)
	assert.Len(t, cheaper, 4, "recasts make nothing cheaper")
}

func TestALowThatIsDearerHasItsLabelOnTheDearerSide(t *testing.T) {
	d := Drivers{Frame: Frame{Width: 400}, Drivers: []Driver{{Name: "Learning", Low: 800, High: -700, LowLabel: "+800", HighLabel: "−700"}}}
	texts := map[string]Text{}
	for _, text := range d.Scene().Texts() {
		texts[text.Words] = text
	}
	assert.Greater(t, texts["+800"].Box().Min.X, texts["−700"].Box().Max.X)
}

func TestTheLabelsOfDriversNeverMeet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := whatPricesHangOn()
		d.Width, d.Height = rapid.Float64Range(300, 900).Draw(t, "width"), rapid.SampledFrom([]float64{0, 60, 90, 300}).Draw(t, "height")
		for i := range d.Drivers {
			d.Drivers[i].Low = rapid.Float64Range(-1e5, 1e5).Draw(t, "low")
			d.Drivers[i].High = rapid.Float64Range(-1e5, 1e5).Draw(t, "high")
		}
		assertApart(t, d.Scene())
	})
}

func TestDriversOfAnythingCanBeDrawn(t *testing.T) {
	for _, v := range []float64{0, math.NaN(), math.Inf(-1)} {
		d := Drivers{Frame: Frame{Width: v}, Drivers: []Driver{{Low: v, High: v}}}
		assert.NotPanics(t, func() { Raster(d.Scene(), Light(), 1) })
	}
}
