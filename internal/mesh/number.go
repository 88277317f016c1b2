package mesh

import (
	"bytes"
	"math"
	"strconv"
)

// exact are the powers of ten that a double holds without rounding.
var exact = [...]float64{
	1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11,
	1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22,
}

// number reads the word that b begins with as a decimal number, and says how
// long the word is. The decimal mark may be a comma. What programs write for
// "no number" and "infinite" is read as such; the value is then not finite.
//
// Up to 15 digits and a power of ten up to 22, one product of two exact doubles
// is the correctly rounded value (W. D. Clinger, 1990). Up to 19 digits it is
// within two units of the last place, far finer than a mesh keeps; what is
// longer is left to strconv.
func number(b []byte) (value float64, length int, ok bool) {
	i, negative := 0, false
	if len(b) > 0 && (b[0] == '-' || b[0] == '+') {
		negative = b[0] == '-'
		i = 1
	}
	var digits uint64
	first, mark := i, -1
	for ; i < len(b); i++ {
		c := b[i] - '0'
		if c > 9 {
			if (b[i] != '.' && b[i] != ',') || mark >= 0 {
				break
			}
			mark = i
			continue
		}
		digits = digits*10 + uint64(c)
	}
	count, power := i-first, 0
	if mark >= 0 {
		count--
		power = mark + 1 - i
	}
	if count > 0 && i < len(b) && b[i]|0x20 == 'e' {
		e, n := exponent(b[i+1:])
		if n == 0 {
			return oddNumber(b)
		}
		power += e
		i += 1 + n
	}
	if count == 0 || count > 19 || power > 22 || power < -22 || i < len(b) && b[i] > ' ' {
		return oddNumber(b)
	}
	value = float64(digits)
	if power < 0 {
		value /= exact[-power]
	} else {
		value *= exact[power]
	}
	if negative {
		value = -value
	}
	return value, i, true
}

// exponent reads what follows an e, and says how long it is: 0 if it is none.
func exponent(b []byte) (e, length int) {
	i, sign := 0, 1
	if len(b) > 0 && (b[0] == '-' || b[0] == '+') {
		if b[0] == '-' {
			sign = -1
		}
		i = 1
	}
	first := i
	for ; i < len(b) && b[i]-'0' <= 9 && i < first+5; i++ {
		e = e*10 + int(b[i]-'0')
	}
	if i == first {
		return 0, 0
	}
	return sign * e, i
}

// oddNumber reads the numbers that are too long or too strange for number.
func oddNumber(b []byte) (value float64, length int, ok bool) {
	n := 0
	for n < len(b) && n < longest && b[n] > ' ' {
		n++
	}
	word := bytes.ToLower(b[:n])
	bare := bytes.TrimLeft(word, "+-")
	if bytes.HasPrefix(bare, []byte("nan")) || bytes.Contains(bare, []byte(".#")) {
		return math.NaN(), n, true
	}
	if bytes.ContainsAny(word, "_xp") {
		return 0, n, false // Go's own spelling, which no format has
	}
	value, err := strconv.ParseFloat(string(bytes.Replace(word, []byte(","), []byte("."), 1)), 64)
	if err != nil && math.IsInf(value, 0) {
		return value, n, true // too large for any number, yet a number
	}
	return value, n, err == nil
}

// whole reads the word that b begins with as a whole number, up to its end or
// the first character that is no digit, and says how much it read: 0 if it is
// none, or beyond 15 digits.
func whole(b []byte) (value int64, length int) {
	i, negative := 0, false
	if len(b) > 0 && (b[0] == '-' || b[0] == '+') {
		negative = b[0] == '-'
		i = 1
	}
	first := i
	for ; i < len(b) && b[i]-'0' <= 9; i++ {
		if i-first == 15 {
			return 0, 0
		}
		value = value*10 + int64(b[i]-'0')
	}
	if i == first {
		return 0, 0
	}
	if negative {
		value = -value
	}
	return value, i
}
