package quantity

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// reads checks that text is understood as want, in canonical units, to the last
// few bits.
func reads(t *testing.T, k Kind, text string, want float64) {
	t.Helper()
	got, err := Parse(k, text, Metric)
	if assert.NoError(t, err, "%q", text) {
		assert.InEpsilon(t, want, got, 1e-14, "%q", text)
	}
}

func TestEveryWayASculptorWritesALength(t *testing.T) {
	for text, metres := range map[string]float64{
		`5'10"`:        1.778,
		`3/16 in`:      0.0047625,
		`1 1/2"`:       0.0381,
		`1-1/2"`:       0.0381,
		`1 1 / 2 in`:   0.0381,
		`72in`:         1.8288,
		`1.8 m`:        1.8,
		`4,5 mm`:       0.0045,
		`12.in`:        0.3048,
		`12, in`:       0.3048,
		`.5 in`:        0.0127,
		`6 ft`:         1.8288,
		`1 m 80`:       1.8,
		`1 m 80 cm`:    1.8,
		`1.5 yd`:       1.3716,
		`40 thou`:      0.001016,
		`90 µm`:        0.00009,
		`120 km`:       120000,
		`3 mi`:         4828.032,
		`5 ft 10 cm`:   1.624,
		`5' 10.5"`:     1.7907,
		`5'10 1/2`:     1.7907,
		`5'.5"`:        1.5367,
		`5'10''`:       1.778,
		`5 ft, 10 in`:  1.778,
		`5feet10inch`:  1.778,
		`5 ft 10 1/2"`: 1.7907,
		`0' 3/8"`:      0.009525,
	} {
		reads(t, KindLength, text, metres)
	}
}

// A dash between feet and inches is how drawings are dimensioned in the United
// States: common practice, no source.
func TestFeetAndInchesOnADrawingAreJoinedByADash(t *testing.T) {
	for text, metres := range map[string]float64{
		`5'-10"`:       1.778,
		`5'-10 1/2"`:   1.7907,
		`5'-10-1/2"`:   1.7907,
		`5' - 10"`:     1.778,
		`5 ft - 10 in`: 1.778,
		`5'–10"`:       1.778,
		`-5'-10"`:      -1.778,
	} {
		reads(t, KindLength, text, metres)
	}
}

func TestSignsThatPhonesAndWordProcessorsWrite(t *testing.T) {
	for text, metres := range map[string]float64{
		"5’10”":            1.778,
		"5′10″":            1.778,
		"5‘10“":            1.778,
		"5’10’’":           1.778,
		"5′-10½″":          1.7907,
		"3⁄16 in":          0.0047625,
		"½ in":             0.0127,
		"1½ in":            0.0381,
		"1 ½ in":           0.0381,
		"⅜″":               0.009525,
		"1⅓ ft":            0.4064,
		"1\u00a0234 mm":    1.234,
		"1\u202f234,5 mm":  1.2345,
		"12\u2009345.5 mm": 12.3455,
		"−5 mm":            -0.005,
		"90 μm":            0.00009,
	} {
		reads(t, KindLength, text, metres)
	}
}

func TestCapitalsAndFullStopsDoNotMatter(t *testing.T) {
	reads(t, KindMass, "41 KG", 41)
	reads(t, KindMass, "90 Lbs.", 40.8233133)
	reads(t, KindLength, "72 IN.", 1.8288)
	reads(t, KindLength, "5 Ft. 10 In.", 1.778)
	reads(t, KindLength, "4.5 MM", 0.0045)
	reads(t, KindArea, "28 sq. ft.", 2.60128512)
	reads(t, KindArea, "28 SQ.FT.", 2.60128512)
	reads(t, KindDensity, "0.302 lbs./cu. in.", 0.302*0.45359237/0.000016387064)
}

func TestThousandsAreGroupedByCommaPointOrSpace(t *testing.T) {
	for text, metres := range map[string]float64{
		"1,234.5 mm":        1.2345,
		"1.234,5 mm":        1.2345,
		"1 234,5 mm":        1.2345,
		"1 234.5 mm":        1.2345,
		"1,234,567 mm":      1234.567,
		"1.234.567 mm":      1234.567,
		"1 234 567 mm":      1234.567,
		"12,34,567.8 mm":    1234.5678, // as in India
		"1,250 mm":          1.25,      // a comma before three digits
		"1.250 mm":          0.00125,   // a point before three digits
		"0,125 in":          0.003175,
		"1,2505 m":          1.2505,
		"2 500 1/2 mm":      2.5005,
		"1 m 80 cm 5,5 mm ": 1.8055,
	} {
		reads(t, KindLength, text, metres)
	}
	reads(t, KindMass, "12,5 kg", 12.5)
}

func TestWeightsHoursAndShares(t *testing.T) {
	reads(t, KindMass, "90 lb", 40.8233133)
	reads(t, KindMass, "41 kg", 41)
	reads(t, KindMass, "6 lb 4", 6.25*0.45359237)
	reads(t, KindMass, "6lb 4oz", 6.25*0.45359237)
	reads(t, KindMass, "2 kg 350", 2.35)
	reads(t, KindTime, "2 h 30", 2.5)
	reads(t, KindTime, "2h30", 2.5)
	reads(t, KindTime, "2h3", 2.05)
	reads(t, KindTime, "2 hrs 30 min", 2.5)
	reads(t, KindTime, "90 min", 1.5)
	reads(t, KindShare, "12.5 %", 0.125)
	reads(t, KindShare, "12,5", 0.125)
	reads(t, KindFactor, "1.15", 1.15)
	reads(t, KindCount, "1,200", 1200)
	reads(t, KindTimePerArea, "20 h/m²", 20)
	reads(t, KindTimePerArea, "2 hours per square foot", 2/0.09290304)
	reads(t, KindTimePerLength, "30 min/ft", 0.5/0.3048)
	reads(t, KindAreaMass, "450 gsm", 0.45)
}

func TestFoundryTemperatures(t *testing.T) {
	for text, celsius := range map[string]float64{
		"220 °F":         940.0 / 9,
		"220F":           940.0 / 9,
		"220 degrees F":  940.0 / 9,
		"1,950 deg. F":   9590.0 / 9,
		"1066 C":         1066,
		"1066 º celsius": 1066,
		"-40 F":          -40,
		"1 300":          1300,
		"1339.15 K":      1066,
		"2 1/2 °C":       2.5,
	} {
		reads(t, KindTemperature, text, celsius)
	}
	f, err := Parse(KindTemperature, "212", InchPound)
	require.NoError(t, err)
	assert.Equal(t, 100.0, f)
}

// Shrinkage is stated as a length in a foot: it is a share.
func TestAQuarterInchInTheFootIsAboutTwoPerCent(t *testing.T) {
	reads(t, KindShare, "1/4 in/ft", 1.0/48)
	reads(t, KindShare, "11/64 in per ft", 11.0/768)
	reads(t, KindShare, "21 mm/m", 0.021)
}

// Suppliers of rubber state cubic inches a pound; 27.68 in³/lb is the specific
// gravity of one, so 23.7 is 1.168: Smooth-On's brush-on example.
func TestDensityMayBeStatedUpsideDown(t *testing.T) {
	reads(t, KindDensity, "23.7 in³/lb", 0.45359237/(23.7*0.000016387064))
	d, err := Parse(KindDensity, "23.7 cu in/lb", Metric)
	require.NoError(t, err)
	assert.InDelta(t, 1168, d, 0.5)
	reads(t, KindTimePerArea, "4 m²/h", 0.25)
	reads(t, KindTimePerMass, "50 kg/h", 0.02)
}

func TestABareNumberIsInTheUnitOfTheReader(t *testing.T) {
	for _, c := range []struct {
		kind      Kind
		metric    float64
		inchPound float64
	}{
		{KindLength, 3, 0.0762},
		{KindArea, 3, 3 * 0.09290304},
		{KindMass, 3, 1.36077711},
		{KindDensity, 3000, 3 * 0.45359237 / 0.000016387064},
		{KindTime, 3, 3},
		{KindShare, 0.03, 0.03},
	} {
		m, err := Parse(c.kind, "3", Metric)
		require.NoError(t, err)
		i, err := Parse(c.kind, "3", InchPound)
		require.NoError(t, err)
		assert.InEpsilon(t, c.metric, m, 1e-14)
		assert.InEpsilon(t, c.inchPound, i, 1e-14)
	}
}

func TestAMinusTurnsTheWholeCompoundRound(t *testing.T) {
	reads(t, KindLength, `-5'10"`, -1.778)
	reads(t, KindLength, `- 5 ft 10 in`, -1.778)
	reads(t, KindMass, "+ 3 kg", 3)
	zero, err := Parse(KindLength, `-0"`, Metric)
	require.NoError(t, err)
	assert.Zero(t, zero)
}
