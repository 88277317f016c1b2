package proposal

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestTheCostSheetHasEveryLineWithItsWorking(t *testing.T) {
	for _, name := range []string{"waterfront", "edition", "casting only", "inch-pound", "yen"} {
		q := stories()[name]
		p := paperOf(t, q)
		e := p.Estimate
		l := languageOf("en", e.Currency)
		text := flat(textOf(t, costSheetOf(t, q), "-layout"))
		for _, line := range e.Lines {
			row := flat(line.Item + " " + line.QuantityText() + " " + line.Unit + " " + line.RateText(e.Currency.Digits))
			if line.Per != "" {
				row += " / " + line.Per
			}
			row += " " + flat(l.amount(e.Currency, line.Amount))
			assert.True(t, strings.Contains(unspaced(text), unspaced(row)), "%s: %s", name, row)
			working := flat(strings.ReplaceAll(e.Working(line).Numbers, "√", "root"))
			working = working[:min(len(working), 60)]
			assert.True(t, strings.Contains(text, working), "%s: %s", name, working)
		}
		for _, s := range e.Stages {
			if s.Amount != 0 && s.ID != "price" {
				assert.Contains(t, text, s.Name)
				assert.Contains(t, text, flat(l.amount(e.Currency, s.Amount)))
			}
		}
		for _, x := range e.PriceLines {
			assert.True(t, strings.Contains(text, flat(l.amount(e.Currency, x.Amount))), "%s, %s", name, x.Name)
		}
		assert.Contains(t, text, "Total "+flat(l.amount(e.Currency, e.Total)))
	}
}

func TestTheCostSheetTellsWhereValuesComeFrom(t *testing.T) {
	text := flat(textOf(t, costSheetOf(t, waterfront()), "-layout"))
	assert.Contains(t, text, "Du Bois")
	assert.Contains(t, text, "shop book: common practice, no source")
	assert.Contains(t, text, "typed: 2.19 m")
	assert.Contains(t, text, "Reckoned with the shop book of 2026-01-05, on 2026-03-14, in CAD.")
	assert.Contains(t, text, "check the rate; 2025-04-01; Canada.ca")
	assert.Contains(t, text, "Danger. Molten bronze")
	assert.Contains(t, text, "29 CFR 1910.1053")
	assert.Contains(t, text, "each section is poured from one heat")
}

func TestEveryPageOfTheCostSheetIsForTheShopAlone(t *testing.T) {
	pages := strings.Split(strings.TrimSuffix(textOf(t, costSheetOf(t, waterfront())), "\f"), "\f")
	for i, page := range pages {
		assert.Contains(t, page, forTheShop, "page %d", i+1)
	}
}

func TestTheCostSheetOfAnEditionTellsTheFirstCastAndTheNext(t *testing.T) {
	p := paperOf(t, edition())
	l := languageOf("en", p.Estimate.Currency)
	text := flat(textOf(t, costSheetOf(t, edition()), "-layout"))
	hare := p.Estimate.Pieces[0]
	row := "Hare 12"
	for _, a := range []string{l.amount(p.Estimate.Currency, hare.Once), l.amount(p.Estimate.Currency, hare.FirstCast), l.amount(p.Estimate.Currency, hare.NextCast), l.amount(p.Estimate.Currency, hare.AverageCast)} {
		row += " " + a
	}
	assert.Contains(t, text, row)
}

// unspaced is text without its spaces, which readers of PDFs guess at.
func unspaced(s string) string { return strings.ReplaceAll(s, " ", "") }
