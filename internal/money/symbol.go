package money

import (
	"slices"
	"strings"
	"unicode"

	"github.com/bojanz/currency"
)

// signs are the signs of money that people type, and the currencies that use
// them; a sign that is not here is taken for none.
var signs = []struct{ sign, codes string }{
	{"$", "USD CAD AUD NZD MXN HKD SGD TWD ARS CLP COP UYU DOP CUP BRL BBD BMD BND BSD BZD FJD GYD JMD KYD LRD NAD SBD SRD TTD XCD NIO CVE MOP TOP"},
	{"€", "EUR"},
	{"£", "GBP GIP FKP SHP EGP SYP LBP SSP"},
	{"¥", "JPY CNY"},
	{"₩", "KRW KPW"},
	{"₽", "RUB"},
	{"₹", "INR"},
	{"₺", "TRY"},
	{"₴", "UAH"},
	{"₪", "ILS"},
	{"₫", "VND"},
	{"₱", "PHP"},
	{"฿", "THB"},
	{"₦", "NGN"},
	{"₡", "CRC"},
	{"₲", "PYG"},
	{"₸", "KZT"},
	{"₾", "GEL"},
	{"₼", "AZN"},
	{"₵", "GHS"},
	{"₮", "MNT"},
	{"₭", "LAK"},
}

// symbols are the ways to name c beside an amount, in capitals, the longer
// before the shorter that it holds: "CAD", "CA$", "$ CA", "C$", "$".
func (c Currency) symbols(local string) []string {
	if len(c.Code) != 3 {
		return nil
	}
	out := []string{c.Code}
	if local != "" {
		out = append(out, local)
	}
	country := c.Code[:2]
	for _, s := range signs {
		if strings.Contains(s.codes, c.Code) {
			out = append(out, country+s.sign, s.sign+country, s.sign+" "+country, country[:1]+s.sign, s.sign)
		}
	}
	return out
}

// isForeign tells whether s names another currency, by its code or its sign.
func (c Currency) isForeign(s string) bool {
	own := c.symbols("")
	letters := func(r rune) bool { return !unicode.IsLetter(r) }
	for _, word := range strings.FieldsFunc(s, letters) {
		if word != c.Code && currency.IsValid(word) {
			return true
		}
	}
	for _, r := range s {
		if isSign(r) && !slices.Contains(own, string(r)) {
			return true
		}
	}
	return false
}

func isSign(r rune) bool { return unicode.Is(unicode.Sc, r) }
