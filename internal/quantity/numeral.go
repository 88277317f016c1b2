package quantity

import (
	"strings"
	"unicode/utf8"
)

// PlainNumber turns a numeral with digit groups and a point or comma, as people
// write it, into one with a point alone: "1 234,5" gives "1234.5". Text that is
// no such numeral comes back as it is.
//
// Where one comma or point could be either, before exactly three digits, a
// comma sets groups apart and a point begins the decimals.
func PlainNumber(s string) string { return PlainNumberWith(s, '.') }

// PlainNumberWith is PlainNumber for readers whose decimal mark is known: '.',
// ',' or, for numbers that have no decimals, 0. Only what could be read either
// way hangs on it: "1.234" is a thousand and more where the mark is ','.
func PlainNumberWith(s string, mark byte) string {
	n := digits(s)
	if n == len(s) || mark == '.' && s[n] == '.' && n+1 < len(s) && n+1+digits(s[n+1:]) == len(s) {
		return s
	}
	whole, part := s, ""
	if at := decimalMark(s, mark); at >= 0 {
		whole, part = s[:at], s[at+1:]
		if digits(part) != len(part) || whole == "" && part == "" {
			return s
		}
	}
	whole, ok := ungrouped(whole)
	if !ok {
		return s
	}
	if part == "" {
		return whole
	}
	return whole + "." + part
}

// decimalMark finds where the decimals of s begin, or −1: the last point or
// comma, unless it sets groups apart.
func decimalMark(s string, mark byte) int {
	at := strings.LastIndexAny(s, ".,")
	if at < 0 {
		return -1
	}
	sign := s[at : at+1]
	alone := digits(s[:at]) == at
	switch {
	case strings.Count(s, sign) > 1:
		return -1
	case alone && s[at] != mark && len(s)-at-1 == 3 && at >= 1 && at <= 3 && s[0] != '0':
		return -1
	}
	return at
}

// ungrouped takes the separators out of the whole part of a numeral: one sort
// of them, one to three digits before the first, three after the last, and
// three between, or two as in India.
func ungrouped(s string) (string, bool) {
	n := digits(s)
	if n == len(s) {
		return s, true
	}
	separator, size := utf8.DecodeRuneInString(s[n:])
	if n < 1 || n > 3 || s[0] == '0' || !isSeparator(separator) {
		return s, false
	}
	groups := strings.Split(s, s[n:n+size])[1:]
	between, last := len(groups[0]), len(groups)-1
	if between != 2 && between != 3 {
		return s, false
	}
	for i, g := range groups {
		if i == last {
			between = 3
		}
		if len(g) != between || digits(g) != between {
			return s, false
		}
	}
	return s[:n] + strings.Join(groups, ""), true
}

func isSeparator(r rune) bool {
	return r == '.' || r == ',' || r == '\'' || r == '’' || isSpace(r)
}

// isSpace knows the spaces that printed numbers are grouped with.
func isSpace(r rune) bool { return r == ' ' || r == '\u00a0' || r == '\u202f' || r == '\u2009' }

// digits counts the decimal digits at the start of s.
func digits(s string) int {
	i := 0
	for i < len(s) && s[i] >= '0' && s[i] <= '9' {
		i++
	}
	return i
}
