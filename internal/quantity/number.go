package quantity

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

var vulgar = map[rune]float64{
	'½': 0.5, '¼': 0.25, '¾': 0.75, '⅓': 1.0 / 3, '⅔': 2.0 / 3,
	'⅛': 0.125, '⅜': 0.375, '⅝': 0.625, '⅞': 0.875, '⅕': 0.2, '⅙': 1.0 / 6,
}

// scanNumber reads a number at the start of s, "12", "1,5", "1 234.5", "3/16",
// "1 1/2", "1-1/2" or "1½", and gives what follows it.
func scanNumber(s string) (n float64, rest string, ok bool) {
	whole, rest, ok := scanDecimal(s)
	if !ok {
		return scanVulgar(s)
	}
	if v, after, ok := scanVulgar(strings.TrimLeft(rest, " ")); ok {
		return whole + v, after, true
	}
	if r, isFraction := strings.CutPrefix(strings.TrimLeft(rest, " "), "/"); isFraction {
		if d, after, ok := scanDecimal(strings.TrimLeft(r, " ")); ok && d != 0 {
			return whole / d, after, true
		}
		return whole, rest, true
	}
	if v, after, ok := scanFraction(strings.TrimLeft(strings.TrimPrefix(rest, "-"), " ")); ok {
		return whole + v, after, true
	}
	return whole, rest, true
}

func scanVulgar(s string) (float64, string, bool) {
	r, size := utf8.DecodeRuneInString(s)
	v, ok := vulgar[r]
	return v, s[size:], ok
}

// scanFraction reads "3/16" with plain digits on both sides.
func scanFraction(s string) (float64, string, bool) {
	i := digits(s)
	if i == 0 || i == len(s) || s[i] != '/' {
		return 0, s, false
	}
	j := digits(s[i+1:])
	num, _ := strconv.ParseFloat(s[:i], 64)
	den, _ := strconv.ParseFloat(s[i+1:i+1+j], 64)
	if j == 0 || den == 0 {
		return 0, s, false
	}
	return num / den, s[i+1+j:], true
}

// scanDecimal reads a decimal number with a point or a comma, and digits in
// groups of three set apart by comma, point, space or thin space.
//
// One comma before exactly three digits is a group ("1,250 mm"), unless the
// number begins with a zero ("0,125 in"); the field shows what was understood.
func scanDecimal(s string) (float64, string, bool) {
	end := numeralEnd(s)
	if end == 0 {
		return 0, s, false
	}
	plain := PlainNumber(s[:end])
	v, err := strconv.ParseFloat(plain, 64)
	if err != nil {
		return 0, s, false
	}
	return v, s[end:], true
}

// numeralEnd finds where the numeral at the start of s ends. A space belongs to
// it only between a digit and exactly three digits.
func numeralEnd(s string) int {
	i, sawPoint := 0, false
	for i < len(s) {
		switch c := s[i]; {
		case c >= '0' && c <= '9':
			i++
		case (c == '.' || c == ',') && i+1 < len(s) && digits(s[i+1:]) > 0:
			sawPoint = true
			i++
		case c == '.' && i > 0 && (i+1 == len(s) || s[i+1] == ' '):
			return i + 1 // "12."
		default:
			w := spaceWidth(s[i:])
			d := digits(s[i+w:])
			after := s[i+w+d:]
			if w == 0 || i == 0 || sawPoint || d != 3 || strings.HasPrefix(after, "/") || strings.HasPrefix(strings.TrimLeft(after, " "), "/") {
				return i
			}
			i += w + d
		}
	}
	return i
}

func spaceWidth(s string) int {
	r, size := utf8.DecodeRuneInString(s)
	if isSpace(r) {
		return size
	}
	return 0
}

// isSpace knows the spaces that printed numbers are grouped with.
func isSpace(r rune) bool { return r == ' ' || r == '\u00a0' || r == '\u202f' || r == '\u2009' }

// PlainNumber turns a numeral with digit groups and a point or comma, as people
// write it, into one with a point alone: "1 234,5" gives "1234.5".
func PlainNumber(s string) string {
	s = strings.Map(func(r rune) rune {
		if isSpace(r) {
			return -1
		}
		return r
	}, s)
	point, comma := strings.LastIndexByte(s, '.'), strings.LastIndexByte(s, ',')
	switch {
	case point >= 0 && comma >= 0 && comma > point:
		return strings.Replace(strings.ReplaceAll(s, ".", ""), ",", ".", 1)
	case point >= 0 && comma >= 0:
		return strings.ReplaceAll(s, ",", "")
	case comma >= 0 && isGrouped(s, ","):
		return strings.ReplaceAll(s, ",", "")
	case comma >= 0:
		return strings.Replace(s, ",", ".", 1)
	case strings.Count(s, ".") > 1 && isGrouped(s, "."):
		return strings.ReplaceAll(s, ".", "")
	}
	return s
}

func isGrouped(s, sep string) bool {
	parts := strings.Split(s, sep)
	if len(parts[0]) == 0 || len(parts[0]) > 3 || parts[0][0] == '0' {
		return false
	}
	for _, p := range parts[1:] {
		if len(p) != 3 {
			return false
		}
	}
	return true
}

func digits(s string) int {
	i := 0
	for i < len(s) && s[i] >= '0' && s[i] <= '9' {
		i++
	}
	return i
}

// scanUnit takes the unit after a number: everything up to the next digit that
// is not a power. "ft 10 in" gives "ft"; "m2 x" gives "m2 x".
func scanUnit(s string) (unit, rest string) {
	s = strings.TrimSpace(s)
	i := 0
	for i < len(s) {
		c := s[i]
		if c >= '0' && c <= '9' && !isPower(s, i) {
			break
		}
		if r, size := utf8.DecodeRuneInString(s[i:]); vulgar[r] != 0 {
			break
		} else if size > 1 {
			i += size
			continue
		}
		i++
	}
	return strings.TrimSpace(s[:i]), s[i:]
}

// isPower tells whether the digit at i is the power of the unit before it: a 2
// or 3 right after a letter or "^", with no digit after it.
func isPower(s string, i int) bool {
	if i == 0 || s[i] != '2' && s[i] != '3' {
		return false
	}
	before := s[i-1]
	letter := before >= 'a' && before <= 'z' || before == '^'
	end := i+1 == len(s) || s[i+1] == '/' || s[i+1] == ' '
	return letter && end
}
