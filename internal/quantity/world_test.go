package quantity

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The definitions of the inch and the pound, and what follows from them: 16 CFR
// 500.19, NIST SP 811 appendix B; printed digits.
func TestInchPoundUnitsAsPublished(t *testing.T) {
	for _, c := range []struct {
		kind  Kind
		text  string
		value float64 // in canonical units
		to    float64 // half a unit of the last digit published, 0 for exact
	}{
		{KindLength, "1 in", 0.0254, 0},
		{KindLength, "1 ft", 0.3048, 0},
		{KindLength, "1 mi", 1609.344, 0},
		{KindMass, "1 lb", 0.45359237, 0},
		{KindMass, "1 oz", 0.028349523125, 0},
		{KindArea, "1 ft²", 0.09290304, 0},
		{KindVolume, "1 in³", 16.387064e-6, 0},
		{KindDensity, "1 lb/in³", 27679.905, 0.0005},
		{KindAreaMass, "1 oz/ft²", 0.3051517, 5e-8},
		{KindVolume, "1 gal", 3.785412e-3, 5e-10},
		{KindEnergy, "1 Btu", 1055.05585262 / 3.6e6, 0},
		{KindEnergy, "1 MJ", 1 / 3.6, 0},
		{KindTemperature, "1950 °F", 1065.6, 0.05},
	} {
		v, err := Parse(c.kind, c.text, Metric)
		require.NoError(t, err)
		assert.InDelta(t, c.value, v, c.to+1e-15*c.value, c.text)
	}
}

func TestUnitsAreKnownByThemselves(t *testing.T) {
	for text, want := range map[string]Unit{
		"kg": Kilogram, " Lbs. ": Pound, "hour": Hour, "ft²": SquareFoot, "sq. ft.": SquareFoot, "SF": SquareFoot, "m2": SquareMetre,
		"lb/in³": PoundPerCubicIn, "pounds per cubic inch": PoundPerCubicIn, "h/ft^2": HourPerFt2, "%": Percent, "″": Inch,
	} {
		u, ok := ParseUnit(text)
		assert.True(t, ok, text)
		assert.InEpsilon(t, want.Size, u.Size, 1e-15, text)
		assert.True(t, u.SameSort(want), text)
		assert.Equal(t, want.Symbol, u.Symbol)
	}
	for _, text := range []string{"", "cubit", "kg/", "/kg", "kg²", "3", "m²²", strings.Repeat("m/", 1000) + "m"} {
		_, ok := ParseUnit(text)
		assert.False(t, ok, text)
	}
}

func TestSystemsAreNamedAsTheyAreRead(t *testing.T) {
	for _, s := range []System{Metric, InchPound} {
		got, ok := ParseSystem(s.String())
		assert.True(t, ok)
		assert.Equal(t, s, got)
	}
	s, ok := ParseSystem("imperial")
	assert.False(t, ok)
	assert.Equal(t, Metric, s)
}
