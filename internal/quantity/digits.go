package quantity

import (
	"math"
	"strconv"
	"strings"
)

// unknown stands for what is no finite number.
const unknown = "?"

// Number prints v with at most places decimals, trailing zeros dropped, and
// digits in groups of three set apart by a comma; "?" if v is not finite.
func Number(v float64, places int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return unknown
	}
	s := strconv.FormatFloat(v, 'f', places, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return group(s)
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
