package money

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/fault"
)

func TestAmountsAreReadAsPeopleTypeThem(t *testing.T) {
	for _, c := range []struct {
		code, text string
		want       Amount
	}{
		{"CAD", "1200", 120000},
		{"CAD", "1200.5", 120050},
		{"CAD", "$1,200.50", 120050},
		{"CAD", "1 200,50 $", 120050},
		{"CAD", "$ 1 200,50", 120050},
		{"CAD", "CAD 90", 9000},
		{"CAD", "90cad", 9000},
		{"CAD", "CA$90", 9000},
		{"CAD", "C$ 90", 9000},
		{"CAD", "90 $ CA", 9000},
		{"CAD", "-$5", -500},
		{"CAD", "$-5", -500},
		{"CAD", "− 5 $", -500},
		{"CAD", "+5", 500},
		{"CAD", ".5", 50},
		{"CAD", ",5", 50},
		{"CAD", "5.", 500},
		{"CAD", "1.234.567,89", 123456789},
		{"CAD", "1,234,567", 123456700},
		{"CAD", "1'234.50", 123450},
		{"CHF", "CHF 1’234.50", 123450},
		{"INR", "₹12,34,567.5", 123456750},
		{"EUR", "1\u202f200,50\u00a0€", 120050},
		{"USD", "US$ 5", 500},
		{"GBP", "£5", 500},
		{"JPY", "￥1,200", 1200},
		{"JPY", "1.200", 1200}, // the yen has no decimals
		{"JPY", "¥12.5", 13},
		{"KWD", "12.345", 12345},
		{"KWD", "1,234.5", 1234500},
		{"CAD", "12.345", 1235}, // half a cent is a cent
		{"CAD", "12.344", 1234},
		{"CAD", "-12.345", -1235},
		{"CAD", "12,345", 1234500},
		{"CAD", "0", 0},
		{"CAD", "10000000000000", Most},
	} {
		got, err := must(t, c.code).Parse(c.text)
		if assert.NoError(t, err, c.text) {
			assert.Equal(t, c.want, got, c.text)
		}
	}
}

// 128.400 € is a headline in Spanish; in English a figure with three decimals.
func TestTheReadersDecimalMarkDecidesWhatCouldBeEither(t *testing.T) {
	for _, c := range []struct {
		code, text, locale string
		want               Amount
	}{
		{"EUR", "128.400", "es-ES", 12840000},
		{"EUR", "128.400 €", "de-DE", 12840000},
		{"EUR", "128.400", "en-IE", 12840},
		{"EUR", "12,345", "de-DE", 1235},
		{"EUR", "12,345", "en-IE", 1234500},
		{"KWD", "12,345", "fr-CA", 12345},
		{"KWD", "12,345", "en-CA", 12345000},
		{"CHF", "1'234.50", "de-CH", 123450},
		{"SEK", "−1 234,50 kr", "sv-SE", -123450},
		{"PLN", "1234,50 zł", "pl", 123450},
		{"EUR", "1234.50", "es-ES", 123450},
	} {
		got, err := must(t, c.code).ParseLocal(c.text, c.locale)
		if assert.NoError(t, err, c.text) {
			assert.Equal(t, c.want, got, "%s in %s", c.text, c.locale)
		}
	}
}

func TestWhatIsNoAmountIsRefusedWithASentence(t *testing.T) {
	cad := must(t, "CAD")
	const remedy = "give one such as 1,200 or 1200.50"
	for _, text := range []string{
		"", " ", "-", "$", "CAD", "dear", "12.5 %", "1e9", "1E9", "0x10", "1_000", "NaN", "Inf", "∞", "1/2", "--5", "-$-5", "5-", "(5)",
		"12 50", "1 2 3", "1$2", "1CAD2", "CAD CAD 5", "$$5", "1,2,3", "1.2.3", "12,34.5", "1234 567", "US$ 5", "5 $ US", "٣", "5 kg",
		"½", "1,,5", "5..", strings.Repeat("9", 70), strings.Repeat("1,", 1e5),
	} {
		_, err := cad.Parse(text)
		require.Error(t, err, "%q", text)
		f := err.(fault.Fault)
		assert.Equal(t, "is not an amount of money", f.Problem, text)
		assert.Equal(t, remedy, f.Remedy)
		assert.Less(t, len(f.Error()), 150)
	}
	_, err := cad.Parse("10,000,000,000,000.01")
	assert.EqualError(t, err, "“10,000,000,000,000.01” is too much money to reckon with; check the number of zeros")
}

func TestMoneyOfAnotherCurrencyIsRefused(t *testing.T) {
	for code, texts := range map[string][]string{
		"CAD": {"5 €", "£5", "USD 5", "5 eur", "₩500"},
		"EUR": {"$5", "CAD 5", "¥5"},
		"JPY": {"$5", "€5", "EUR 5"},
	} {
		for _, text := range texts {
			_, err := must(t, code).Parse(text)
			assert.EqualError(t, err, "“"+text+"” is in another currency than "+code+"; give the amount in "+code)
		}
	}
}

func TestRatesAndSharesAreReadExactly(t *testing.T) {
	for text, want := range map[string]string{
		"12.50": "12.5", "9.975": "9.975", "1 200,50": "1200.5", "$6.20": "6.2", "6,20 €": "6.2", "-0,5": "-0.5",
		"0.000001": "0.000001", "1,250": "1250", "0,125": "0.125", " 7 ": "7", "−3": "-3", "₽ 12": "12",
	} {
		d, err := ParseDecimal(text)
		if assert.NoError(t, err, text) {
			assert.Equal(t, want, d.String(), text)
		}
	}
	for _, text := range []string{"", "12.5 %", "1e9", "x", "1_0", "0x1", "12 50", "$", "$1€", "6.20 / kg", "NaN", "--1", strings.Repeat("1", 1e5)} {
		_, err := ParseDecimal(text)
		assert.ErrorContains(t, err, "is not a number; give one such as 12.50", "%.20q", text)
	}
}

// FuzzParse holds that nothing typed panics, that what is refused is refused
// with a sentence, and that what is read stays within what can be reckoned with
// and reads the same again when printed.
func FuzzParse(f *testing.F) {
	for _, text := range []string{"$1,200.50", "1 200,50 €", "CAD 90", "1’234.50", "12.345", "-$-5", "1e9", "５", "", "9999999999999999", ".", "US$ 5"} {
		f.Add(text, "CAD", "en-CA")
		f.Add(text, "JPY", "es-ES")
		f.Add(text, "KWD", "de-CH")
		f.Add(text, "USD", "-00")
	}
	f.Fuzz(func(t *testing.T, text, code, locale string) {
		if d, err := ParseDecimal(text); err == nil && len(d.String()) > 2*longest {
			t.Fatalf("%q is read as %s", text, d)
		}
		c, err := NewCurrency(code)
		if err != nil || len(locale) > 10 {
			return
		}
		a, err := c.ParseLocal(text, locale)
		if err != nil {
			if said := err.(fault.Fault); said.Problem == "" || said.Remedy == "" {
				t.Fatalf("%q is refused without a reason", text)
			}
			return
		}
		if a > Most || a < -Most {
			t.Fatalf("%q is read as %d", text, a)
		}
		if back, err := c.Parse(c.Text(a)); err != nil || back != a {
			t.Fatalf("%q is read as %s and then as %d, %v", text, c.Text(a), back, err)
		}
	})
}
