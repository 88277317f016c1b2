package money

import (
	"strconv"
	"sync"
	"testing"

	"github.com/bojanz/currency"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const (
	hard   = "\u00a0" // the space that does not break
	narrow = "\u202f"
)

// Where the sign stands: in English Canada before the figures, "$2,000,000"
// (Translation Bureau, Writing Tips Plus, "numbers: money"); in French behind
// them after a hard space, "25,99 $"; the euro behind them in Spanish and
// Portuguese and before them in English (EU Interinstitutional Style Guide
// 7.3.3). The rest by CLDR.
func TestAmountsPrintAsTheirReadersWriteThem(t *testing.T) {
	for _, c := range []struct {
		code, locale string
		a            Amount
		print, whole string
	}{
		{"CAD", "en-CA", 200000000, "$2,000,000.00", "$2,000,000"},
		{"CAD", "en-CA", 113000, "$1,130.00", "$1,130"},
		{"CAD", "fr-CA", 2599, "25,99" + hard + "$", "26" + hard + "$"},
		{"CAD", "fr-CA", 113000, "1" + hard + "130,00" + hard + "$", "1" + hard + "130" + hard + "$"},
		{"CAD", "en-US", 113000, "CA$1,130.00", "CA$1,130"},
		{"USD", "en-US", -12840050, "-$128,400.50", "-$128,401"},
		{"EUR", "es-ES", 3000, "30,00" + hard + "€", "30" + hard + "€"},
		{"EUR", "es-ES", 113000, "1130,00" + hard + "€", "1130" + hard + "€"},
		{"EUR", "es-ES", 1234567, "12.345,67" + hard + "€", "12.346" + hard + "€"},
		{"EUR", "pt-PT", 3000, "30,00" + hard + "€", "30" + hard + "€"},
		{"EUR", "en-IE", 3000, "€30.00", "€30"},
		{"EUR", "fr-FR", 123456789, "1" + narrow + "234" + narrow + "567,89" + hard + "€", "1" + narrow + "234" + narrow + "568" + hard + "€"},
		{"CHF", "de-CH", 123456789, "CHF" + hard + "1'234'567.89", "CHF" + hard + "1'234'568"},
		{"CHF", "de-CH", -500, "CHF-5.00", "CHF-5"},
		{"SEK", "sv-SE", -123450, "−1" + hard + "234,50" + hard + "kr", "−1" + hard + "235" + hard + "kr"},
		{"INR", "en-IN", 1234567850, "₹1,23,45,678.50", "₹1,23,45,679"},
		{"JPY", "ja-JP", 1234567, "￥1,234,567", "￥1,234,567"},
		{"JPY", "en-US", 5, "¥5", "¥5"},
		{"KWD", "en-CA", 1234567, "KWD" + hard + "1,234.567", "KWD" + hard + "1,235"},
		{"CAD", "en-CA", 0, "$0.00", "$0"},
		{"CAD", "en-CA", 7, "$0.07", "$0"},
		{"CAD", "no such place", 7, "CA$0.07", "CA$0"},
		{"CAD", "-00", 7, "CA$0.07", "CA$0"},
	} {
		currency := must(t, c.code)
		assert.Equal(t, c.print, currency.Print(c.a, c.locale))
		assert.Equal(t, c.whole, currency.Whole(c.a, c.locale))
	}
}

func TestColumnsOfFiguresHaveNoSymbol(t *testing.T) {
	assert.Equal(t, "1,130.00", must(t, "CAD").Plain(113000, "en-CA"))
	assert.Equal(t, "-1"+hard+"130,00", must(t, "CAD").Plain(-113000, "fr-CA"))
	assert.Equal(t, "-1'130.00", must(t, "CHF").Plain(-113000, "de-CH"))
	assert.Equal(t, "113,000", must(t, "JPY").Plain(113000, "en-CA"))
	assert.Equal(t, "113.000", must(t, "KWD").Plain(113000, "en-CA"))
}

func TestACurrencyOfNoListIsNamedByItsCode(t *testing.T) {
	token := Currency{"QQQ", 2}
	assert.Equal(t, "-12.34 QQQ", token.Print(-1234, "en-CA"))
	assert.Equal(t, "-12.34", token.Plain(-1234, "fr-CA"))
	assert.Equal(t, "12 QQQ", token.Whole(1234, "en-CA"))
	assert.Equal(t, "1234", Currency{}.Print(1234, ""))
}

// locales of the Americas, Europe and Asia that write with Latin digits.
var locales = []string{
	"en-CA", "fr-CA", "en-US", "en-GB", "en-AU", "en-IE", "en-IN", "en-ZA", "en", "fr", "fr-FR", "fr-CH", "fr-BE", "es", "es-ES", "es-MX", "es-CL", "es-AR",
	"pt-BR", "pt-PT", "de", "de-DE", "de-AT", "de-CH", "it", "it-CH", "nl", "sv", "nb", "da", "fi", "is", "pl", "cs", "sk", "hu", "ro", "tr", "el", "bg",
	"uk", "ru", "hr", "sl", "et", "lv", "lt", "ja", "ko", "zh-CN", "zh-TW", "vi", "th", "id", "hi", "", "zz",
}

// The layouts are learned from the CLDR formatter: it is asked again here for
// every currency, one amount at a time.
func TestLearnedLayoutsPrintWhatTheFormatterPrints(t *testing.T) {
	amounts := []Amount{0, 1, -1, 99, 100, 12345, -99999, 123456, 1234567, -12345678, 1234567890, Most, -Most}
	for _, locale := range locales {
		f := currency.NewFormatter(currency.NewLocale(locale))
		f.MaxDigits = currency.DefaultDigits
		for _, code := range Codes() {
			c := must(t, code)
			for _, a := range amounts {
				v, err := currency.NewAmount(c.Text(a), code)
				require.NoError(t, err)
				require.Equal(t, f.Format(v), c.Print(a, locale), "%s in %s", code, locale)
			}
		}
	}
}

func TestWhateverIsPrintedReadsBackToTheCent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, _ := NewCurrency(rapid.SampledFrom(Codes()).Draw(t, "currency"))
		locale := rapid.SampledFrom(locales).Draw(t, "locale")
		a := Amount(rapid.Int64Range(-int64(Most), int64(Most)).Draw(t, "amount"))
		if rapid.Bool().Draw(t, "small") {
			a %= 1e7
		}
		for _, text := range []string{c.Print(a, locale), c.Plain(a, locale)} {
			back, err := c.ParseLocal(text, locale)
			require.NoError(t, err)
			assert.Equal(t, a, back, text)
		}
		back, err := c.ParseLocal(c.Whole(a, locale), locale)
		require.NoError(t, err)
		assert.Equal(t, c.Of(c.Decimal(a).Round(0)), back)
		back, err = c.Parse(c.Text(a))
		require.NoError(t, err)
		assert.Equal(t, a, back)
	})
}

func TestManyLocalesAtOnceAreKeptApart(t *testing.T) {
	var all sync.WaitGroup
	for worker := range 4 {
		all.Go(func() {
			for i := range 2 * mostLayouts {
				locale := "zz-" + strconv.Itoa(100+(i+worker)%900)
				assert.Equal(t, "CA$1.00", Currency{"CAD", 2}.Print(100, locale))
			}
		})
	}
	all.Wait()
	layouts.RLock()
	defer layouts.RUnlock()
	assert.LessOrEqual(t, len(layouts.known), mostLayouts)
}
