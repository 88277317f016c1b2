package quantity

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestLengthsPrintAsTheyAreSpoken(t *testing.T) {
	for _, c := range []struct {
		metres       float64
		metric, inch string
	}{
		{0, "0 m", "0 in"},
		{1.778, "1.778 m", `5'10"`},
		{2.19, "2.19 m", `7'2 1/4"`},
		{-1.7907, "-1.791 m", `-5'10 1/2"`},
		{0.0047625, "4.76 mm", "3/16 in"},
		{0.00476, "4.76 mm", "3/16 in"},
		{0.005, "5 mm", "0.197 in"},
		{0.0045, "4.5 mm", "0.177 in"},
		{0.0009, "0.9 mm", "0.0354 in"},
		{0.0381, "38.1 mm", "1 1/2 in"},
		{0.25, "25 cm", "9.84 in"},
		{0.5, "0.5 m", "19 11/16 in"},
		{0.6095999, "0.61 m", "24 in"},
		{1.8287, "1.829 m", `6'0"`},
		{1234.5, "1,234.5 m", `4,050'2 3/8"`},
		{12345, "12.3 km", "7.7 mi"},
		{-1e-30, "0 mm", "0 in"},
	} {
		assert.Equal(t, c.metric, Print(KindLength, c.metres, Metric))
		assert.Equal(t, c.inch, Print(KindLength, c.metres, InchPound))
	}
}

func TestOtherQuantitiesPrintToFourDigitsAndSharesInFull(t *testing.T) {
	for _, c := range []struct {
		kind         Kind
		v            float64
		metric, inch string
	}{
		{KindMass, 75.77, "75.77 kg", "167 lb"},
		{KindMass, 0.05775, "57.75 g", "2.037 oz"},
		{KindMass, 1250, "1,250 kg", "2,756 lb"},
		{KindArea, 1.9031, "1.903 m²", "20.48 ft²"},
		{KindArea, 0.0290322, "290.3 cm²", "45 in²"},
		{KindVolume, 0.523599, "0.5236 m³", "18.49 ft³"},
		{KindVolume, 0.000276531705, "0.2765 L", "16.88 in³"},
		{KindDensity, 8360, "8.36 g/cm³", "0.302 lb/in³"},
		{KindAreaMass, 0.3051517, "0.3052 kg/m²", "0.0625 lb/ft²"},
		{KindShare, 0.125, "12.5 %", "12.5 %"},
		{KindShare, 0.14975, "14.975 %", "14.975 %"}, // both taxes of Quebec
		{KindTime, 2.5, "2.5 h", "2.5 h"},
		{KindTime, 0.0833333, "0.083 h", "0.083 h"},
		{KindTimePerArea, 20, "20 h/m²", "1.858 h/ft²"},
		{KindTemperature, 1066, "1,066 °C", "1,951 °F"},
		{KindFactor, 1.15, "1.15", "1.15"},
		{KindCount, 1200, "1,200", "1,200"},
		{KindEnergyPerMass, 0.16, "0.16 kWh/kg", "0.07257 kWh/lb"},
	} {
		assert.Equal(t, c.metric, Print(c.kind, c.v, Metric))
		assert.Equal(t, c.inch, Print(c.kind, c.v, InchPound))
	}
	assert.Equal(t, "1.778 m", Length(1.778).String())
	assert.Equal(t, "1.903 m²", Area(1.9031).String())
	assert.Equal(t, "20 L", Volume(0.02).String())
	assert.Equal(t, "41.8 kg", Mass(41.8).String())
}

func TestWhatIsNoNumberPrintsAsAQuestionMark(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		for k := range kinds {
			assert.Equal(t, "?", Print(k, v, Metric))
			assert.Equal(t, "?", Print(k, v, InchPound))
		}
		assert.Equal(t, "?", Number(v, 2))
		assert.Equal(t, "?", Significant(v, 3))
	}
}

func TestNumbersAreRoundedGroupedAndStrippedOfZeros(t *testing.T) {
	assert.Equal(t, "1,234,567.9", Number(1234567.89, 1))
	assert.Equal(t, "-1,234", Number(-1234, 2))
	assert.Equal(t, "123", Number(123, 2))
	assert.Equal(t, "0", Number(-0.001, 2))
	assert.Equal(t, "100", Number(100, 0))
	assert.Equal(t, "0.13", Number(0.125, 2))
	assert.Equal(t, "-0.13", Number(-0.125, 2))
	assert.Equal(t, "1.01", Number(1.005, 2))
	assert.Equal(t, "3", Number(2.5, 0))
	assert.Equal(t, "1.15", Number(1.1499, 2))
	assert.Equal(t, "1", Number(0.5, 0))
	assert.Equal(t, "0", Number(0.49, 0))
	assert.Equal(t, "1.5", Number(1.50, 2))
	assert.Equal(t, "0.001235", Significant(0.00123456, 4))
	assert.Equal(t, "123,457", Significant(123456.7, 4))
	assert.Equal(t, "100", Significant(99.996, 4))
}

// precision is half a unit of the last digit that Print may show of v.
func precision(k Kind, v float64, sys System) float64 {
	a := math.Abs(v)
	switch k {
	case KindTemperature:
		return 0.51
	case KindShare:
		return 5.001e-7
	case KindTime:
		return math.Min(0.05001*a, 0.005001) + 1e-9
	case KindLength:
		switch {
		case a < 0.001 || sys == InchPound && a < inch/16:
			return 0.0051*a + 1e-11
		case sys == InchPound && a < inch:
			return 0.0005001 * inch
		case sys == InchPound && a < 2*foot:
			return 0.005001 * inch
		case sys == InchPound && a < Mile.Size:
			return inch / 31.99
		case sys == InchPound:
			return 0.05001 * Mile.Size
		case a < 0.1:
			return 5.001e-6
		case a < 10000:
			return 5.001e-4
		}
		return 50.01
	}
	return 5.001e-4*a + 1e-9*k.Unit(sys).Size
}

// anyQuantity draws a kind and a value of it, small, large, or nought.
func anyQuantity(t *rapid.T) (Kind, float64, System) {
	k := Kind(rapid.IntRange(0, int(kinds)-1).Draw(t, "kind"))
	v := rapid.Float64Range(1, 10).Draw(t, "mantissa") * math.Pow10(rapid.IntRange(-5, 5).Draw(t, "power"))
	v *= rapid.SampledFrom([]float64{1, 1, 1, -1, 0}).Draw(t, "sign")
	if k == KindCount {
		v = math.Round(v)
	}
	return k, v, rapid.SampledFrom([]System{Metric, InchPound}).Draw(t, "system")
}

func TestWhatIsPrintedReadsBackToThePrintedDigits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k, v, sys := anyQuantity(t)
		text := Print(k, v, sys)
		back, err := Parse(k, text, sys)
		require.NoError(t, err)
		assert.InDelta(t, v, back, precision(k, v, sys), text)
		again, err := Parse(k, Print(k, back, sys), sys)
		require.NoError(t, err)
		assert.InDelta(t, back, again, precision(k, back, sys), text)
	})
}

func TestPrintedTextIsReadTheSameByTheOtherSystem(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k, v, sys := anyQuantity(t)
		text := Print(k, v, sys)
		a, err := Parse(k, text, Metric)
		require.NoError(t, err)
		b, err := Parse(k, text, InchPound)
		require.NoError(t, err)
		assert.Equal(t, a, b, text)
	})
}

func TestALargerQuantityNeverPrintsAsASmaller(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k, a, sys := anyQuantity(t)
		b := a + math.Abs(a)*rapid.Float64Range(0, 0.02).Draw(t, "more")
		shownA, err := Parse(k, Print(k, a, sys), sys)
		require.NoError(t, err)
		if k == KindCount {
			b = math.Ceil(b)
		}
		shownB, err := Parse(k, Print(k, b, sys), sys)
		require.NoError(t, err)
		assert.LessOrEqual(t, shownA, shownB*(1+math.Copysign(1e-12, shownB)))
	})
}

func TestAMinusIsPrintedAndReadAsAMinus(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k, v, sys := anyQuantity(t)
		plus, err := Parse(k, Print(k, v, sys), sys)
		require.NoError(t, err)
		if k == KindTemperature || plus <= 0 {
			return
		}
		assert.Equal(t, "-"+Print(k, v, sys), Print(k, -v, sys))
		minus, err := Parse(k, Print(k, -v, sys), sys)
		require.NoError(t, err)
		assert.Equal(t, plus, -minus)
	})
}
