package quantity

import (
	"math"
	"strconv"
)

// Print gives v, of kind k in canonical units, as people read it in sys:
// "2.19 m", "4.76 mm", "7'2 1/4\"", "3/16 in", "75.8 kg", "12.5 %", "2.5 h".
// Parse reads it back. What is no number prints as "?".
func Print(k Kind, v float64, sys System) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return unknown
	}
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
		return printHours(v)
	case KindShare:
		return Number(Percent.In(v), 4) + " %" // tax rates have three
	}
	u := k.Unit(sys)
	if f, ok := finer[k]; ok && v != 0 && math.Abs(v) < f[sys].below {
		u = f[sys].unit
	}
	return join(Significant(u.In(v), 4), u.Symbol)
}

// finer gives the unit that small quantities of a kind print in, and how small
// they must be, by system.
var finer = map[Kind][2]struct {
	unit  Unit
	below float64
}{
	KindArea:   {{squareCentimetre, 0.1}, {squareInch, SquareFoot.Size}},
	KindVolume: {{Litre, 0.1}, {CubicInch, CubicFoot.Size}},
	KindMass:   {{Gram, 1}, {Ounce, Pound.Size}},
}

func join(number, symbol string) string {
	if symbol == "" {
		return number
	}
	return number + " " + symbol
}

// printHours gives hours to the hundredth, and less than one with two digits.
func printHours(v float64) string {
	if math.Abs(v) < 0.1 {
		return Significant(v, 2) + " h"
	}
	return Number(v, 2) + " h"
}

func printMetric(v float64) string {
	switch a := math.Abs(v); {
	case a >= 10000:
		return Number(v/1000, 1) + " km"
	case a >= 0.5 || a == 0:
		return Number(v, 3) + " m"
	case a >= 0.1:
		return Number(v*100, 1) + " cm"
	case a >= 0.001:
		return Number(v*1000, 2) + " mm"
	}
	return Significant(v*1000, 3) + " mm"
}

// printInches gives feet and inches to the nearest sixteenth from two feet up,
// inches below that, miles for roads.
func printInches(v float64) string {
	sign, a := "", math.Abs(v)
	if v < 0 {
		sign = "-"
	}
	switch {
	case a >= Mile.Size:
		return Number(Mile.In(v), 1) + " mi"
	case a >= 2*foot:
		sixteenths := math.Round(a / inch * 16)
		feet := math.Floor(sixteenths / (12 * 16))
		return sign + Number(feet, 0) + "'" + fraction(sixteenths-feet*12*16) + `"`
	}
	n := inches(a / inch)
	if n == "0" {
		sign = ""
	}
	return sign + n + " in"
}

// inches gives n in sixteenths if that is n to the digits that would be
// printed, and in decimals otherwise: a wall of 5 mm is 0.197 in, not 3/16.
func inches(n float64) string {
	places := 2
	switch {
	case n < 1.0/16:
		return Significant(n, 3)
	case n < 1:
		places = 3
	}
	sixteenths := math.Round(n * 16)
	if math.Abs(n-sixteenths/16) < 0.5*math.Pow10(-places) {
		return fraction(sixteenths)
	}
	return Number(n, places)
}

// fraction prints a number of sixteenths: "0", "3/16", "10 1/2".
func fraction(sixteenths float64) string {
	whole, part, den := math.Floor(sixteenths/16), int(math.Mod(sixteenths, 16)), 16
	if part == 0 {
		return Number(whole, 0)
	}
	for part%2 == 0 {
		part, den = part/2, den/2
	}
	f := strconv.Itoa(part) + "/" + strconv.Itoa(den)
	if whole == 0 {
		return f
	}
	return Number(whole, 0) + " " + f
}

// String prints l in metric units.
func (l Length) String() string { return Print(KindLength, float64(l), Metric) }

// String prints a in metric units.
func (a Area) String() string { return Print(KindArea, float64(a), Metric) }

// String prints v in metric units.
func (v Volume) String() string { return Print(KindVolume, float64(v), Metric) }

// String prints m in metric units.
func (m Mass) String() string { return Print(KindMass, float64(m), Metric) }
