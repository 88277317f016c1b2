package quantity

import (
	"math"
	"strconv"
	"strings"
)

// unknown stands for what is no finite number.
const unknown = "?"

// Number prints v with at most places decimals, half rounded away from zero,
// trailing zeros dropped, and digits in groups of three set apart by a comma;
// "?" if v is not finite.
func Number(v float64, places int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return unknown
	}
	s := strconv.FormatFloat(awayFromHalf(v, places), 'f', places, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return group(s)
}

// awayFromHalf moves a number that lies half-way between two printed ones, but
// for the last bits of a float64, off the middle and away from zero: 0.125 and
// 1.005 to two places are 0.13 and 1.01, as on paper.
func awayFromHalf(v float64, places int) float64 {
	scale := math.Pow10(places)
	scaled := math.Abs(v) * scale
	if scaled > 1e9 || math.Abs(scaled-math.Floor(scaled)-0.5) > scaled*1e-12 {
		return v
	}
	return math.Copysign((math.Floor(scaled)+0.75)/scale, v)
}

// Significant prints v with n significant digits, never in powers of ten, never
// fewer digits before the point than it has nor more than nine behind it.
func Significant(v float64, n int) string {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return Number(v, 0)
	}
	places := n - 1 - int(math.Floor(math.Log10(math.Abs(v))))
	return Number(v, min(max(places, 0), 9))
}

// group sets the digits before the point apart in threes.
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
