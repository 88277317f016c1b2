package proposal

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/money"
	"meltwright/internal/quantity"
)

func currency(t *testing.T, code string) money.Currency {
	t.Helper()
	c, err := money.NewCurrency(code)
	require.NoError(t, err)
	return c
}

func TestAmountsAreThoseOfTheLanguageAndTheMoneysCountry(t *testing.T) {
	for _, x := range []struct{ language, code, want string }{
		{"en", "CAD", "$12,345.67"},
		{"en", "USD", "$12,345.67"},
		{"en", "GBP", "£12,345.67"},
		{"en", "EUR", "€12,345.67"},
		{"en", "JPY", "¥1,234,567"},
		{"en", "KWD", "KWD\u00a01,234.567"},
		{"fr", "CAD", "12\u00a0345,67\u00a0$"},
		{"fr", "EUR", "12\u202f345,67\u00a0€"},
		{"es", "EUR", "12.345,67\u00a0€"},
		{"es", "MXN", "$12,345.67"},
		{"", "CAD", "$12,345.67"},
		{"tlh", "CAD", "$12,345.67"},
		{"fr-CA", "CAD", "12\u00a0345,67\u00a0$"},
	} {
		c := currency(t, x.code)
		assert.Equal(t, x.want, languageOf(x.language, c).amount(c, 1234567), "%s %s", x.language, x.code)
	}
}

func TestQuantitiesFollowTheAmounts(t *testing.T) {
	for _, x := range []struct{ language, code, want string }{
		{"en", "CAD", "1,465.5 kg"}, {"fr", "EUR", "1\u202f465,5 kg"}, {"fr", "CAD", "1\u00a0465,5 kg"}, {"es", "EUR", "1465,5 kg"}, {"es", "MXN", "1,465.5 kg"},
	} {
		assert.Equal(t, x.want, languageOf(x.language, currency(t, x.code)).number("1,465.5 kg"), "%s %s", x.language, x.code)
	}
}

func TestEstimatedWeightsHaveThreeDigits(t *testing.T) {
	l := languageOf("en", currency(t, "CAD"))
	for kg, want := range map[float64]string{1465.25: "1,470\u00a0kg", 168.34: "168\u00a0kg", 63.64: "63.6\u00a0kg", 0.7312: "731\u00a0g", 0: "0\u00a0g"} {
		if kg == 0 {
			want = l.fixed(quantity.Print(quantity.KindMass, 0, quantity.Metric))
		}
		assert.Equal(t, want, l.size(quantity.KindMass, kg, quantity.Metric))
	}
	assert.Equal(t, "371\u00a0lb", l.size(quantity.KindMass, 168.34, quantity.InchPound))
}

func TestSharesKeepEveryDigit(t *testing.T) {
	qst, err := money.ParseDecimal("0.09975")
	require.NoError(t, err)
	assert.Equal(t, "9.975\u00a0%", languageOf("en", currency(t, "CAD")).percent(qst))
	assert.Equal(t, "9,975\u00a0%", languageOf("fr", currency(t, "CAD")).percent(qst))
}

func TestDatesAreSpelledOut(t *testing.T) {
	words, err := wordingOf("en", nil)
	require.NoError(t, err)
	o := offer{words: words}
	for iso, want := range map[string]string{"2026-03-14": "14 March 2026", "2025-12-01": "1 December 2025", "": "", "soon": "soon", "2026-02-30": "2026-02-30"} {
		assert.Equal(t, want, o.date(iso))
	}
}
