package money

import (
	"strings"
	"sync"

	"github.com/bojanz/currency"
)

// style is which of an amount's printed forms is wanted.
type style uint8

const (
	withSymbol style = iota
	figures          // no symbol
	wholeUnits       // the symbol, no decimals
)

// layout is how one locale writes one currency. It is learned once by printing
// probes with the CLDR formatter, which takes microseconds for every amount;
// the window prints dozens at every keystroke.
type layout struct {
	before, after           string // around the figures
	minusBefore, minusAfter string // around those of a negative amount
	mark, group             string // before the decimals, between groups
	decimals                int
	last, others            int // digits in the last group, in each before it; 0 for none
	least                   int // digits from which on groups are made
}

// layoutKey is what a layout depends on.
type layoutKey struct {
	currency Currency
	locale   string
	style    style
}

// layouts keeps what has been learned. A locale may come from a file, so there
// is an end to how many are kept.
var layouts = struct {
	sync.RWMutex
	known map[layoutKey]*layout
}{known: map[layoutKey]*layout{}}

const mostLayouts = 500

func layoutOf(c Currency, locale string, s style) *layout {
	key := layoutKey{c, locale, s}
	layouts.RLock()
	l := layouts.known[key]
	layouts.RUnlock()
	if l != nil {
		return l
	}
	l = learn(c, locale, s)
	layouts.Lock()
	defer layouts.Unlock()
	if len(layouts.known) >= mostLayouts {
		clear(layouts.known)
	}
	layouts.known[key] = l
	return l
}

// learn finds out how amounts are written from a large one, its negative, and
// one of four digits.
func learn(c Currency, locale string, s style) *layout {
	l := &layout{decimals: max(0, int(c.Digits))}
	if s == wholeUnits {
		l.decimals = 0
	}
	tail := ""
	if l.decimals > 0 {
		tail = "." + strings.Repeat("2", l.decimals)
	}
	format := formatter(locale, s, l.decimals)
	large, ok := probe(format, c.Code, "1111111111"+tail)
	if !ok {
		return unlisted(l, c, s)
	}
	first, end := figuresIn(large)
	if first < 0 {
		return learn(c, "en", s) // a locale without a language has no format
	}
	negative, _ := probe(format, c.Code, "-1111111111"+tail)
	four, _ := probe(format, c.Code, "1111"+tail)
	l.before, l.after = large[:first], large[end:]
	minusFirst, minusEnd := figuresIn(negative)
	l.minusBefore, l.minusAfter = negative[:minusFirst], negative[minusEnd:]
	if s == figures {
		l.before, l.after, l.minusAfter = "", "", ""
		l.minusBefore = strings.TrimSpace(l.minusBefore)
	}
	l.learnFigures(large[first:end])
	l.least = 5
	if first, end := figuresIn(four); l.group != "" && strings.Contains(four[first:end], l.group) {
		l.least = 4
	}
	return l
}

// learnFigures takes "1,111,111,111.22" apart.
func (l *layout) learnFigures(s string) {
	whole := s[:strings.LastIndexByte(s, '1')+1]
	l.mark = strings.TrimRight(s[len(whole):], "2")
	groups := strings.FieldsFunc(whole, func(r rune) bool { return r != '1' })
	if len(groups) < 2 {
		return
	}
	l.last, l.others = len(groups[len(groups)-1]), len(groups[len(groups)-2])
	rest := whole[len(groups[0]):]
	l.group = rest[:strings.IndexByte(rest, '1')]
}

// probe prints number with Latin digits; false if the currency is unknown.
func probe(f *currency.Formatter, code, number string) (string, bool) {
	a, err := currency.NewAmount(number, code)
	if err != nil {
		return "", false
	}
	return latinDigits.Replace(f.Format(a)), true
}

// latinDigits writes the probes' two digits as the fonts of window and
// documents have them.
var latinDigits = strings.NewReplacer(
	"١", "1", "٢", "2", "۱", "1", "۲", "2", "১", "1", "২", "2", "१", "1", "२", "2", "၁", "1", "၂", "2",
)

// figuresIn finds the figures of a probe.
func figuresIn(s string) (first, end int) {
	return strings.IndexAny(s, "12"), strings.LastIndexAny(s, "12") + 1
}

// unlisted lays out amounts of a currency that the formatter does not know.
func unlisted(l *layout, c Currency, s style) *layout {
	l.mark, l.minusBefore = ".", "-"
	if s != figures {
		l.after = strings.TrimRight(" "+c.Code, " ")
		l.minusAfter = l.after
	}
	return l
}

func formatter(locale string, s style, decimals int) *currency.Formatter {
	f := currency.NewFormatter(currency.NewLocale(locale))
	f.MinDigits, f.MaxDigits = uint8(decimals), uint8(decimals)
	if s == figures {
		f.CurrencyDisplay = currency.DisplayNone
	}
	return f
}
