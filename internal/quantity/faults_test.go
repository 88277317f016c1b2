package quantity

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/fault"
)

func TestFaultsSayWhatIsWrongAndWhatWouldBeRight(t *testing.T) {
	for _, c := range []struct {
		kind       Kind
		text, says string
	}{
		{KindLength, "", `is empty; give a length such as 1.8 m, 72 in or 5'10"`},
		{KindLength, "tall", `“tall” is not a length; give a length such as 1.8 m, 72 in or 5'10"`},
		{KindMass, "5 kg 3 m", `“5 kg 3 m” is not a weight; give a weight such as 41 kg or 90 lb`},
		{KindMass, "5 m", `“5 m” is not a weight; give a weight such as 41 kg or 90 lb`},
		{KindLength, "3 mm mm", `“3 mm mm” has a unit nobody here knows, “mm mm”; give a length such as 1.8 m, 72 in or 5'10"`},
		{KindLength, "1/0 in", `“1/0 in” divides by zero; give a length such as 1.8 m, 72 in or 5'10"`},
		{KindLength, "3 5 mm", `“3 5 mm” has two numbers side by side; give a length such as 1.8 m, 72 in or 5'10"`},
		{KindLength, "5-10 mm", `“5-10 mm” has two numbers side by side; give a length such as 1.8 m, 72 in or 5'10"`},
		{KindLength, "10 in 5 ft", `“10 in 5 ft” has its units in the wrong order; give a length such as 1.8 m, 72 in or 5'10"`},
		{KindLength, `5'14"`, `“5'14"” has a whole ft or more behind the ft; give a length such as 1.8 m, 72 in or 5'10"`},
		{KindLength, "1 m 805", `“1 m 805” has a whole m or more behind the m; give a length such as 1.8 m, 72 in or 5'10"`},
		{KindTime, "2 h 30 15", `“2 h 30 15” has two numbers side by side; give a time such as 2 h 30 or 2.5 h`},
		{KindTime, "2 min 15", `“2 min 15” has a number without a unit at its end; give a time such as 2 h 30 or 2.5 h`},
		{KindCount, "2.5", `“2.5” is not a whole number; give a whole number such as 3`},
		{KindCount, "2 kg", `“2 kg” is not a whole number; give a whole number such as 3`},
		{KindFactor, "15 %", `“15 %” is not a number; give a number such as 1.15`},
		{KindShare, "3 kg", `“3 kg” is not a percentage; give a percentage such as 12.5 %`},
		{KindLength, "1" + strings.Repeat("0", 30), `“1000000000000000000000000000000” is too large a number; give a length such as 1.8 m, 72 in or 5'10"`},
		{KindTemperature, "hot", `“hot” is not a temperature; give a temperature such as 1950 °F or 1066 °C`},
		{KindTemperature, "220 kg", `“220 kg” is not a temperature; give a temperature such as 1950 °F or 1066 °C`},
		{KindDensity, "0 in³/lb", `“0 in³/lb” is not a density; give a density such as 8.36 g/cm³ or 0.302 lb/in³`},
	} {
		_, err := Parse(c.kind, c.text, Metric)
		assert.EqualError(t, err, c.says)
	}
}

func TestNothingOfTheseIsALength(t *testing.T) {
	for _, text := range []string{
		"--3", "- -3 mm", "+-3", "NaN", "inf", "-Infinity", "∞", "1e400", "1e3 mm", "0x10 mm", "1_000 mm",
		"mm", ".", ",", "-", "'", `"`, "/", "1/", "/2", "1//2", "1/2/3 in", "1 3/2 in", "1.5 1/2 in", "½½ in",
		"1.2.3 mm", "1,2,3 mm", "12,34.5 mm", "1.234,567,8 mm", "1,234.5.6 mm", "1234 567 mm", "1 234 56 mm",
		"5'10'", `5"10'`, `5'6"7"`, "5 ft2", "3 m²", "3 kg", "3 mm/", "3 mm//s", "3 mm/s", "3 mm²²", "3 kg²",
		"3 m per", "3 per m", "0/0 in", "1/0", "3\x00mm", "3 \xff mm", "٣ mm", "3 мм",
	} {
		v, err := Parse(KindLength, text, Metric)
		require.Error(t, err, "%q was read as %v m", text, v)
		assert.IsType(t, fault.Fault{}, err)
		assert.Zero(t, v)
	}
}

func TestAnEndlessPasteIsRefusedAndNotRepeatedInFull(t *testing.T) {
	for _, text := range []string{strings.Repeat("9", 1e6), strings.Repeat("½", 1e5), strings.Repeat("1 m ", 1e5), strings.Repeat("\xff", 1e5)} {
		_, err := Parse(KindLength, text, Metric)
		require.Error(t, err)
		assert.Contains(t, err.Error(), "…” is too long to be a length")
		assert.Less(t, len(err.Error()), 250)
	}
	v, err := Parse(KindLength, strings.Repeat(" ", 1e5)+"3 m", Metric)
	require.NoError(t, err)
	assert.Equal(t, 3.0, v)
}

// FuzzParse holds that nothing typed panics or gives what is no number, that
// what is refused is refused with a sentence, and that a field which shows what
// it understood can be read again.
func FuzzParse(f *testing.F) {
	for _, text := range []string{
		`5'-10 1/2"`, "3/16 in", "1.234,5 mm", "2 h 30", "23.7 in³/lb", "220 °F", "12.5 %", "½½", "1/0 in", "-5'10", "", "1,2,3",
		"9999999999999999999999 kg", "0.0000000000000001 in³/lb", "m/m/m/m", "1 m2", "1 sq sq m", "’”–⁄\u202f",
	} {
		for k := range kinds {
			f.Add(int(k), text, k%2 == 0)
		}
	}
	f.Fuzz(func(t *testing.T, kind int, text string, metric bool) {
		k, sys := Kind(uint(kind)%uint(kinds)), InchPound
		if metric {
			sys = Metric
		}
		v, err := Parse(k, text, sys)
		if err != nil {
			said := err.(fault.Fault)
			if said.Problem == "" || said.Remedy == "" {
				t.Fatalf("%q is refused without a reason", text)
			}
			return
		}
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Fatalf("%q is read as %v", text, v)
		}
		if _, err := Parse(k, Print(k, v, sys), sys); err != nil && math.Abs(v) < most/1e6 {
			t.Fatalf("%q is shown as %q, and that is no quantity: %v", text, Print(k, v, sys), err)
		}
	})
}
