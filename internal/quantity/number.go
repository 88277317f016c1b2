package quantity

import (
	"math"
	"strconv"
	"strings"
)

// scanNumber reads a number at the start of s, "12", "1,5", "1 234.5", "3/16",
// "1 1/2" or "1-1/2", and gives what follows it. A fraction over zero gives an
// infinity or no number, for the caller to refuse.
func scanNumber(s string) (n float64, rest string, ok bool) {
	whole, rest, ok := scanDecimal(s)
	if !ok {
		return 0, s, false
	}
	after := strings.TrimLeft(rest, " ")
	if below, isFraction := strings.CutPrefix(after, "/"); isFraction {
		if d, after, ok := scanDecimal(strings.TrimLeft(below, " ")); ok {
			return whole / d, after, true
		}
		return whole, rest, true
	}
	if whole == math.Trunc(whole) {
		after = strings.TrimLeft(strings.TrimPrefix(after, "-"), " ")
		if part, after, ok := scanFraction(after); ok {
			return whole + part, after, true
		}
	}
	return whole, rest, true
}

// scanFraction reads what may follow a whole number: "3/16", plain digits on
// both sides and less than one.
func scanFraction(s string) (float64, string, bool) {
	i := digits(s)
	below, isFraction := strings.CutPrefix(strings.TrimLeft(s[i:], " "), "/")
	below = strings.TrimLeft(below, " ")
	j := digits(below)
	if i == 0 || !isFraction || j == 0 {
		return 0, s, false
	}
	over, _ := strconv.ParseFloat(s[:i], 64)
	under, _ := strconv.ParseFloat(below[:j], 64)
	if under != 0 && over >= under {
		return 0, s, false
	}
	return over / under, below[j:], true
}

// scanDecimal reads a decimal number with a point or a comma, and digits in
// groups of three set apart by comma, point or space.
//
// One comma before exactly three digits is a group ("1,250 mm"), unless the
// number begins with a zero ("0,125 in"); the field shows what was understood.
func scanDecimal(s string) (float64, string, bool) {
	end := numeralEnd(s)
	if end == 0 {
		return 0, s, false
	}
	v, err := strconv.ParseFloat(PlainNumber(s[:end]), 64)
	return v, s[end:], err == nil
}

// numeralEnd finds where the numeral at the start of s ends. A space belongs to
// it only between a digit and exactly three digits.
func numeralEnd(s string) int {
	i := digits(s)
	if i > 0 && i <= 3 {
		for i < len(s) && s[i] == ' ' && groupFollows(s[i+1:]) {
			i += 4
		}
	}
	for i < len(s) && (s[i] == '.' || s[i] == ',') {
		d := digits(s[i+1:])
		if d == 0 && (i == 0 || i+1 < len(s) && s[i+1] != ' ') {
			return i
		}
		i += 1 + d // or a mark with nothing behind it: "12."
	}
	return i
}

// groupFollows tells whether s begins with three digits that are neither more
// nor the upper half of a fraction.
func groupFollows(s string) bool {
	return digits(s) == 3 && !strings.HasPrefix(strings.TrimLeft(s[3:], " "), "/")
}

// scanUnit takes the unit after a number: everything up to the next number or
// dash. "ft 10 in" gives "ft"; "m2 x" gives "m2 x".
func scanUnit(s string) (unit, rest string) {
	s = strings.TrimLeft(s, " ")
	i := 0
	for i < len(s) && !endsUnit(s, i) {
		i++
	}
	return strings.TrimRight(s[:i], " ,"), s[i:]
}

func endsUnit(s string, i int) bool {
	switch c := s[i]; {
	case c == '-':
		return true
	case c == '.' || c == ',':
		return digits(s[i+1:]) > 0
	case c >= '0' && c <= '9':
		return !isPower(s, i)
	}
	return false
}

// isPower tells whether the digit at i is the power of the unit before it: a 2
// or 3 right after a length or "^", with nothing of its own behind it.
func isPower(s string, i int) bool {
	if s[i] != '2' && s[i] != '3' || i+1 < len(s) && s[i+1] != '/' && s[i+1] != ' ' {
		return false
	}
	for _, base := range []string{"m", "in", "ft", "yd", "^"} {
		if strings.HasSuffix(s[:i], base) {
			return true
		}
	}
	return false
}
