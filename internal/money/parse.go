package money

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/bojanz/currency"
	"github.com/shopspring/decimal"

	"meltwright/internal/fault"
	"meltwright/internal/quantity"
)

// longest is the most bytes that any amount needs; more is a paste gone wrong.
const longest = 60

// Parse reads an amount as typed: "1200", "$1,200.50", "1 200,50 €", "CAD 90".
// It is rounded to the currency's smallest unit; the field shows to what. One
// comma before three digits sets thousands apart, one point begins decimals,
// except that a currency without decimals has none.
//
// The error is a Fault without a field.
func (c Currency) Parse(text string) (Amount, error) { return c.parse(text, '.', "") }

// ParseLocal is Parse for a reader of locale ("fr-CA", "de-CH"): its decimal
// mark decides what "1.234" is, and its symbol of the currency is known. It
// reads whatever Print, Plain and Whole give for that locale.
func (c Currency) ParseLocal(text, locale string) (Amount, error) {
	symbol, _ := currency.GetSymbol(c.Code, currency.NewLocale(locale))
	return c.parse(text, localMark(locale), symbol)
}

func (c Currency) parse(text string, mark byte, symbol string) (Amount, error) {
	if c.Digits == 0 {
		mark = 0
	}
	s := even(text)
	d, ok := number(s, c.symbols(even(symbol)), mark)
	switch {
	case !ok && c.isForeign(s):
		return 0, fault.Fault{Value: shown(text), Problem: "is in another currency than " + c.Code, Remedy: "give the amount in " + c.Code}
	case !ok:
		return 0, fault.Fault{Value: shown(text), Problem: "is not an amount of money", Remedy: "give one such as 1,200 or 1200.50"}
	case d.Abs().Shift(c.Digits).GreaterThan(decimal.New(int64(Most), 0)):
		return 0, fault.Fault{Value: shown(text), Problem: "is too much money to reckon with", Remedy: "check the number of zeros"}
	}
	return c.Of(d), nil
}

// ParseDecimal reads a decimal number, digit groups and a currency's sign
// allowed: "12.50", "1 200,50", "$6.20".
func ParseDecimal(text string) (Decimal, error) {
	s := even(text)
	var signs []string
	if at := strings.IndexFunc(s, isSign); at >= 0 {
		sign, _ := utf8.DecodeRuneInString(s[at:])
		signs = []string{string(sign)}
	}
	d, ok := number(s, signs, '.')
	if !ok {
		return Decimal{}, fault.Fault{Value: shown(text), Problem: "is not a number", Remedy: "give one such as 12.50"}
	}
	return d, nil
}

// ParseRate reads money for a unit, as typed and not rounded: "6.205", "CAD 90",
// "€6,20". Any sign does where the currency is not known.
func (c Currency) ParseRate(text string) (Decimal, error) {
	if d, ok := number(even(text), c.symbols(""), '.'); ok {
		return d, nil
	}
	if c.Foreign(text) {
		return Decimal{}, fault.Fault{Value: shown(text), Problem: "is in another currency than " + c.Code, Remedy: "give the amount in " + c.Code}
	}
	return ParseDecimal(text)
}

// Foreign tells whether text names another currency than c, by code or sign.
func (c Currency) Foreign(text string) bool { return c.Code != "" && c.isForeign(even(text)) }

// number reads s, evened out, as a number with one of symbols before or behind
// it and its minus anywhere before the figures.
func number(s string, symbols []string, mark byte) (Decimal, bool) {
	s, minus := cutMinus(s)
	s, hasSymbol := cutSymbol(s, symbols)
	if hasSymbol && !minus {
		s, minus = cutMinus(s)
	}
	s = quantity.PlainNumberWith(s, mark)
	if !isPlain(s) {
		return Decimal{}, false
	}
	d, err := decimal.NewFromString(s)
	if minus {
		d = d.Neg()
	}
	return d, err == nil
}

// isPlain tells whether s is figures with at most one point among them.
func isPlain(s string) bool {
	whole, part, _ := strings.Cut(s, ".")
	digits := whole + part
	return digits != "" && len(digits) < longest && strings.Trim(digits, "0123456789") == ""
}

func cutMinus(s string) (rest string, minus bool) {
	if rest, ok := strings.CutPrefix(s, "-"); ok {
		return strings.TrimSpace(rest), true
	}
	return strings.TrimSpace(strings.TrimPrefix(s, "+")), false
}

// cutSymbol takes one of symbols off one end of s.
func cutSymbol(s string, symbols []string) (string, bool) {
	for _, symbol := range symbols {
		if rest, ok := strings.CutPrefix(s, symbol); ok {
			return strings.TrimSpace(rest), true
		}
		if rest, ok := strings.CutSuffix(s, symbol); ok {
			return strings.TrimSpace(rest), true
		}
	}
	return s, false
}

// even gives text in capitals with one spelling of spaces and minus, without
// the marks that turn the writing direction.
func even(text string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		switch {
		case r == '\u200e' || r == '\u200f' || r == '\u061c':
			return -1
		case r == '−' || r == '–':
			return '-'
		case r == '￥':
			return '¥'
		case unicode.IsSpace(r):
			return ' '
		}
		return unicode.ToUpper(r)
	}, text))
}

// shown is text as a fault repeats it: without outer spaces, and cut if long.
func shown(text string) string {
	text = strings.TrimSpace(text)
	if len(text) <= longest {
		return text
	}
	return strings.ToValidUTF8(text[:longest/2], "") + "…"
}
