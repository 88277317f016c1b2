package quantity

import (
	"math"
	"strconv"
	"strings"
)

// Print gives v, of kind k in canonical units, as people read it in sys:
// "2.19 m", "4.76 mm", "7'2 1/4\"", "3/16 in", "75.8 kg", "12.5 %", "2 h 30".
func Print(k Kind, v float64, sys System) string {
	switch k {
	case KindLength:
		if sys == InchPound {
			return printInches(v)
		}
		return printMetric(v)
	case KindTemperature:
		if sys == InchPound {
			return Number(v*1.8+32, 0) + " °F"
		}
		return Number(v, 0) + " °C"
	case KindTime:
		return Number(v, 2) + " h"
	case KindMass:
		return printMass(v, sys)
	}
	u := k.Unit(sys)
	return join(Significant(u.In(v), 4), u.Symbol)
}

func printMass(v float64, sys System) string {
	if sys == InchPound {
		return Significant(Pound.In(v), 4) + " lb"
	}
	if v != 0 && math.Abs(v) < 1 {
		return Significant(v*1000, 3) + " g"
	}
	return Significant(v, 4) + " kg"
}

func join(number, symbol string) string {
	if symbol == "" {
		return number
	}
	return number + " " + symbol
}

func printMetric(v float64) string {
	switch a := math.Abs(v); {
	case a >= 10000:
		return Number(v/1000, 1) + " km"
	case a >= 0.5 || a == 0:
		return Number(v, 3) + " m"
	case a >= 0.1:
		return Number(v*100, 1) + " cm"
	}
	return Number(v*1000, 2) + " mm"
}

// printInches gives feet and inches from two feet up, with the inches in
// sixteenths where the length is within a hundredth of one.
func printInches(v float64) string {
	if math.Abs(v) >= 1609.344 {
		return Number(Mile.In(v), 1) + " mi"
	}
	sign := ""
	if v < 0 {
		sign, v = "-", -v
	}
	total := v / inch
	if total < 24 {
		return sign + inches(total) + " in"
	}
	feet := math.Floor(total/12 + 1e-9)
	rest := inches(math.Max(0, total-12*feet))
	if rest == "12" {
		feet, rest = feet+1, "0"
	}
	return sign + Number(feet, 0) + "'" + rest + `"`
}

func inches(n float64) string {
	sixteenths := math.Round(n * 16)
	if math.Abs(n*16-sixteenths) > 0.16 || n < 1.0/16 && n > 0 {
		return Number(n, 2)
	}
	whole, part := math.Floor(sixteenths/16), int(math.Mod(sixteenths, 16))
	if part == 0 {
		return Number(whole, 0)
	}
	den := 16
	for part%2 == 0 {
		part, den = part/2, den/2
	}
	f := strconv.Itoa(part) + "/" + strconv.Itoa(den)
	if whole == 0 {
		return f
	}
	return Number(whole, 0) + " " + f
}

// Number prints v with at most places decimals, trailing zeros dropped, and
// digits in groups of three set apart by a comma.
func Number(v float64, places int) string {
	s := strconv.FormatFloat(v, 'f', places, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return group(s)
}

// Significant prints v with n significant digits, never in powers of ten, and
// never fewer digits before the point than it has.
func Significant(v float64, n int) string {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return "0"
	}
	places := n - 1 - int(math.Floor(math.Log10(math.Abs(v))))
	return Number(v, min(max(places, 0), 9))
}

func group(s string) string {
	whole, part, hasPart := strings.Cut(s, ".")
	sign := ""
	if strings.HasPrefix(whole, "-") {
		sign, whole = "-", whole[1:]
	}
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if hasPart {
		return sign + whole + "." + part
	}
	return sign + whole
}

// String prints l in metric units.
func (l Length) String() string { return Print(KindLength, float64(l), Metric) }

// String prints a in metric units.
func (a Area) String() string { return Print(KindArea, float64(a), Metric) }

// String prints v in metric units.
func (v Volume) String() string { return Print(KindVolume, float64(v), Metric) }

// String prints m in metric units.
func (m Mass) String() string { return Print(KindMass, float64(m), Metric) }

// kindWords is how a kind is named and shown in a sentence.
var kindWords = [kinds]struct{ article, example string }{
	KindFactor:        {"a number", "1.15"},
	KindCount:         {"a whole number", "3"},
	KindShare:         {"a percentage", "12.5 %"},
	KindLength:        {"a length", "1.8 m, 72 in or 5'10\""},
	KindArea:          {"an area", "2.6 m² or 28 ft²"},
	KindVolume:        {"a volume", "0.36 m³ or 20 L"},
	KindMass:          {"a weight", "41 kg or 90 lb"},
	KindDensity:       {"a density", "8.36 g/cm³ or 0.302 lb/in³"},
	KindAreaMass:      {"a weight per area", "0.9 kg/m² or 1.5 oz/ft²"},
	KindTime:          {"a time", "2 h 30 or 2.5 h"},
	KindTimePerArea:   {"hours per area", "20 h/m²"},
	KindTimePerLength: {"hours per length", "1.6 h/m"},
	KindTimePerMass:   {"hours per weight", "0.1 h/kg"},
	KindEnergy:        {"an energy", "250 kWh"},
	KindEnergyPerMass: {"an energy per weight", "0.16 kWh/kg"},
	KindTemperature:   {"a temperature", "1950 °F or 1066 °C"},
}

func (k Kind) article() string { return kindWords[k].article }
func (k Kind) example() string { return kindWords[k].example }
