package proposal

import (
	"regexp"
	"strconv"
	"strings"
	"time"
	"unicode"

	"meltwright/internal/drawing"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
)

// language is how one language writes numbers, amounts and dates.
type language struct {
	code   string // of its wording: "en"
	locale string // of its amounts: "en-CA"
	mark   string // before decimals
	group  string // between thousands
	short  bool   // numbers of four digits have no mark between thousands
}

// marks are the decimal mark and the mark between thousands, by language: CLDR,
// from memory; a test holds them against the amounts, which come from CLDR.
var marks = map[string][2]string{
	"en": {".", ","},
	"fr": {",", "\u202f"},
	"es": {",", "."},
}

// Languages lists the codes of the languages that proposals are written in.
func Languages() []string { return []string{"en", "fr", "es"} }

// Sizes lists the papers that proposals are printed on.
func Sizes() []string { return []string{"a4", "letter"} }

// countries are those whose money people write in their own way.
var countries = map[string]string{
	"CAD": "CA", "USD": "US", "GBP": "GB", "AUD": "AU", "NZD": "NZ", "MXN": "MX", "INR": "IN", "CHF": "CH", "ZAR": "ZA",
}

// languageOf gives the language of a code, English where it is not known, as the
// money's own country writes it.
func languageOf(code string, c money.Currency) language {
	code, _, _ = strings.Cut(strings.ToLower(strings.TrimSpace(code)), "-")
	if _, ok := marks[code]; !ok {
		code = "en"
	}
	l := language{code: code, locale: code}
	if country := countries[c.Code]; country != "" {
		l.locale = code + "-" + country
	}
	// Quantities follow the amounts beside them: Spanish has a point in Mexico
	// and a comma in Spain.
	l.mark, l.group = marks[code][0], marks[code][1]
	plain := (money.Currency{Code: "USD", Digits: 2}).Plain(123456789, l.locale)
	if first := strings.IndexFunc(plain, notDigit); first > 0 {
		last := strings.LastIndexFunc(plain, notDigit)
		if group := strings.TrimRight(plain[first:], "0123456789"); last > first {
			l.group, l.mark = firstRune(group), firstRune(plain[last:])
		}
	}
	l.short = !strings.Contains((money.Currency{Code: "USD", Digits: 2}).Plain(123456, l.locale), l.group)
	return l
}

func notDigit(r rune) bool { return r < '0' || r > '9' }

func firstRune(s string) string {
	for _, r := range s {
		return string(r)
	}
	return ""
}

// number rewrites a number, or a quantity, that was printed with a decimal point
// and commas between thousands.
func (l language) number(s string) string {
	if l.mark == "." && l.group == "," {
		return s
	}
	if l.short {
		s = fourDigits.ReplaceAllString(s, "$1$2$3")
	}
	const held = "\x00"
	s = strings.ReplaceAll(s, ",", held)
	s = strings.ReplaceAll(s, ".", l.mark)
	return strings.ReplaceAll(s, held, l.group)
}

// fourDigits is a number of four digits before its decimals.
var fourDigits = regexp.MustCompile(`(^|[^\d,.])(\d),(\d{3}\b)`)

// count prints a whole number.
func (l language) count(n int) string { return l.number(quantity.Number(float64(n), 0)) }

// amount prints money with its symbol, or with its code where the fonts lack the
// symbol.
func (l language) amount(c money.Currency, a money.Amount) string {
	words := strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Cf, r) { // marks of direction
			return -1
		}
		return r
	}, c.Print(a, l.locale))
	var check letters
	if isASCII(words) || check.lacks(drawing.Sans, words) == 0 {
		return words
	}
	return c.Plain(a, l.locale) + "\u00a0" + c.Code
}

// percent prints a share: "9.975 %".
func (l language) percent(share money.Decimal) string {
	return l.number(share.Shift(2).String()) + "\u00a0%"
}

// size prints a quantity with three significant digits, which is as much as an
// estimate knows of a weight.
func (l language) size(k quantity.Kind, v float64, s quantity.System) string {
	u := k.Unit(s)
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(u.In(v), 'g', 3, 64), 64)
	if err != nil {
		rounded = u.In(v)
	}
	return l.fixed(quantity.Print(k, rounded*u.Size, s))
}

// length prints a length as it is.
func (l language) length(v quantity.Length, s quantity.System) string {
	return l.fixed(quantity.Print(quantity.KindLength, float64(v), s))
}

// fixed keeps a number and its unit on one line.
func (l language) fixed(s string) string {
	return strings.ReplaceAll(l.ownUnits(l.number(s)), " ", "\u00a0")
}

// day reads an ISO date; false if it is none.
func day(iso string) (time.Time, bool) {
	t, err := time.Parse(time.DateOnly, iso)
	return t, err == nil
}
