package proposal

import (
	"bytes"
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/quote"
	"meltwright/internal/risk"
)

// ranged is a quote's paper with its range, which its proposal is to say.
func ranged(t testing.TB, q quote.Quote) quote.Paper {
	t.Helper()
	p := paperOf(t, q)
	r, err := risk.Draw(context.Background(), p.Quote.Commission, p.Shop, risk.Ask{Trials: 400})
	require.NoError(t, err)
	p.Range = &r
	return p
}

func TestAProposalSaysTheRangeInItsLanguageWhereItIsAskedTo(t *testing.T) {
	for code, want := range map[string][]string{
		"en": {"How sure this is", "400 times over", "Eight times in ten it comes to between"},
		"fr": {"Jusqu’où c’est sûr", "400 fois", "Huit fois sur dix"},
		"es": {"Hasta dónde es seguro", "400 veces", "Ocho veces de cada diez"},
	} {
		p := inLanguage(ranged(t, waterfront()), code)
		p.Quote.Words["sections"] = "price, range"
		text := flat(textOf(t, made(t, func(b *bytes.Buffer) error { return Maker{}.Proposal(b, p) }), "-layout"))
		for _, w := range want {
			assert.Contains(t, text, w)
		}
		c := p.Estimate.Currency
		l := languageOf(code, c)
		assert.Contains(t, text, flat(l.whole(c, p.Range.Price.P10)))
		assert.Contains(t, text, flat(l.whole(c, p.Range.Price.P90)))

		p.Quote.Words["sections"] = ""
		assert.NotContains(t, textOf(t, made(t, func(b *bytes.Buffer) error { return Maker{}.Proposal(b, p) })), want[0], "not unless it is asked for")
	}
}

func TestTheCostSheetSaysHowSureThePriceIs(t *testing.T) {
	p := ranged(t, waterfront())
	text := flat(textOf(t, made(t, func(b *bytes.Buffer) error { return Maker{}.CostSheet(b, p) }), "-layout"))
	c := p.Estimate.Currency
	l := languageOf("en", c)
	assert.Contains(t, text, flat(p.Range.Words(c, "en-CA")))
	for _, a := range []risk.Spread{p.Range.Cost, p.Range.Price} {
		assert.Contains(t, text, flat(l.whole(c, a.P10)+" "+l.whole(c, a.P50)+" "+l.whole(c, a.P80)+" "+l.whole(c, a.P90)))
	}
	assert.Contains(t, text, p.Range.Drivers[0].Name)
	assert.Contains(t, text, "400 trials, seed 1")
	assert.NotContains(t, textOf(t, costSheetOf(t, waterfront())), "How sure", "not where it was not drawn")
}

func TestTheRangeStaysWithinTheMarginsAndItsWordsApart(t *testing.T) {
	for name, q := range stories() {
		p := ranged(t, q)
		if p.Quote.Words == nil {
			p.Quote.Words = map[string]string{}
		}
		p.Quote.Words["sections"] = "range"
		d, err := Maker{}.proposal(p)
		require.NoError(t, err, name)
		for _, d := range []*document{d, costSheet(p)} {
			for i, page := range d.pages {
				texts := page.Texts()
				for k, words := range texts {
					b := words.Box()
					assert.True(t, b.Min.X > d.sheet.left-7 && b.Max.X < d.sheet.width-d.sheet.right+7, "%s, page %d: %q", name, i+1, words.Words)
					for n := range k {
						assert.False(t, tight(texts[n]).Overlaps(tight(words)), "%s, page %d: %q and %q", name, i+1, texts[n].Words, words.Words)
					}
				}
			}
		}
	}
}
