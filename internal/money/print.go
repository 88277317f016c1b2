package money

import (
	"strconv"
	"strings"
)

// Text gives a as plain decimal text with a point, for files: "1130.00".
func (c Currency) Text(a Amount) string { return c.Decimal(a).StringFixed(c.Digits) }

// Print gives a as people of locale ("en-CA", "fr-CA", "es") write it, with the
// currency's symbol.
func (c Currency) Print(a Amount, locale string) string {
	return layoutOf(c, locale, withSymbol).print(a)
}

// Plain gives a as Print does, but without the symbol: for columns of figures.
func (c Currency) Plain(a Amount, locale string) string {
	return layoutOf(c, locale, figures).print(a)
}

// Whole gives a to the nearest whole unit, for a headline: "$128,400".
func (c Currency) Whole(a Amount, locale string) string {
	return layoutOf(c, locale, wholeUnits).print(Amount(c.Decimal(a).Round(0).IntPart()))
}

// print writes a, in the smallest unit that l shows.
func (l *layout) print(a Amount) string {
	before, after := l.before, l.after
	n := uint64(a)
	if a < 0 {
		before, after, n = l.minusBefore, l.minusAfter, -n
	}
	var digits [48]byte
	s := strconv.AppendUint(append(digits[:0], "0000000000000000000"...), n, 10)
	for len(s) > l.decimals+1 && s[0] == '0' {
		s = s[1:]
	}
	var buffer [96]byte
	out := append(buffer[:0], before...)
	point := len(s) - l.decimals
	out = l.appendGrouped(out, s[:point])
	if l.decimals > 0 {
		out = append(out, l.mark...)
		out = append(out, s[point:]...)
	}
	return string(append(out, after...))
}

// appendGrouped appends the digits before the decimal mark.
func (l *layout) appendGrouped(out, s []byte) []byte {
	grouped := l.last > 0 && len(s) >= l.least
	for i, d := range s {
		left := len(s) - i // digits from here to the mark
		if grouped && i > 0 && left >= l.last && (left-l.last)%l.others == 0 {
			out = append(out, l.group...)
		}
		out = append(out, d)
	}
	return out
}

// localMark is the decimal mark of a locale, '.' or ','.
func localMark(locale string) byte {
	if strings.HasPrefix(layoutOf(Currency{"USD", 2}, locale, figures).mark, ",") {
		return ','
	}
	return '.'
}
