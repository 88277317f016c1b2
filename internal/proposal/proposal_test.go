package proposal

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/money"
	"meltwright/internal/quote"
)

// flat is text with every run of spaces as one.
func flat(s string) string { return strings.Join(strings.Fields(s), " ") }

// between is the text after one mark and before another.
func between(t *testing.T, text, from, to string) string {
	t.Helper()
	_, rest, ok := strings.Cut(text, from)
	require.True(t, ok, "no %q", from)
	inside, _, ok := strings.Cut(rest, to)
	require.True(t, ok, "no %q after %q", to, from)
	return inside
}

func TestPrintedPartsTaxesAndPaymentsReadBackAddUp(t *testing.T) {
	for _, name := range []string{"waterfront", "edition", "casting only", "inch-pound", "yen", "dinars", "euros", "forty pieces"} {
		t.Run(name, func(t *testing.T) {
			q := stories()[name]
			p := paperOf(t, q)
			e := p.Estimate
			l := languageOf("en", e.Currency)
			text := textOf(t, proposalOf(t, q), "-layout")
			price := between(t, text, "What it covers", "Total in "+e.Currency.Code)
			var sum money.Amount
			for _, a := range amountsIn(t, e.Currency, l, price) {
				sum += a
			}
			if len(e.Taxes) > 0 {
				sum -= e.Price // its own line stands between the parts and the taxes
			}
			assert.Equal(t, e.Total, sum, "parts and taxes add to the total")
			plan := between(t, text, "Share", "In all")
			sum = 0
			for _, a := range amountsIn(t, e.Currency, l, plan) {
				sum += a
			}
			assert.Equal(t, e.Total, sum, "payments add to the total")
			assert.Contains(t, flat(text), "In all "+flat(l.amount(e.Currency, e.Total)))
		})
	}
}

// amountsIn reads every amount at the end of a line.
func amountsIn(t *testing.T, c money.Currency, l language, text string) (all []money.Amount) {
	t.Helper()
	figures := strings.Trim(l.amount(c, 0), "0.,\u00a0")
	amount := regexp.MustCompile(regexp.QuoteMeta(figures) + `[\s\x{a0}]?([\d,]+(?:\.\d+)?)\s*$`)
	for line := range strings.Lines(text) {
		m := amount.FindStringSubmatch(strings.TrimSpace(line))
		if m == nil {
			continue
		}
		a, err := c.Parse(m[1])
		require.NoError(t, err, line)
		all = append(all, a)
	}
	return all
}

func TestAProposalTellsNothingOfTheShopsInnerFigures(t *testing.T) {
	for name, q := range stories() {
		p := paperOf(t, q)
		text := textOf(t, proposalOf(t, q))
		for _, word := range []string{"verhead", "ontingency", "argin", "arkup", "nsurance, of", "1.5 %", "Rounding", "hour", "/ h", "crucible", "yield", "Expected recasts"} {
			assert.NotContains(t, text, word, name)
		}
		l := languageOf("en", p.Estimate.Currency)
		assert.NotContains(t, text, l.amount(p.Estimate.Currency, p.Estimate.Direct), name)
	}
}

func TestAProposalReadsInOrder(t *testing.T) {
	text := flat(textOf(t, proposalOf(t, waterfront())))
	at := 0
	for _, words := range []string{
		"Alder Quay Foundry", "12 Slipway Lane", "The Lock Keeper", "A proposal for a group in bronze at Upper Basin", "beside a visitor of 1.75 m",
		"Prepared for", "Town of Ashmere Cross", "The idea", "The lock keeper looks up the canal. Her dog has seen the boat first.",
		"The work is in 3 pieces", "Height in bronze", "2.19 m", "0.78 m", "0.45 m", "How it is made", "What is included", "granite base of Lock keeper",
		"By others", "The footing, of Bench", "What this rests on", "Price", "Original", "Casting in bronze", "Artist’s fee", "Price before tax", "HST, 14 %",
		"Total in CAD, tax included", "HST is shown at the rate in force on the date of this proposal (14 % since 1 April 2025)", "Payments", "Agreement signed", "30 %",
		"Terms", "stands for 60 days, until 13 May 2026", "C87300 silicon bronze 95-1-4 at $17.80 / kg", "more than 5 %", "Care", "Every six months",
		"General Services Administration", "Rights", "sections 14.1 and 28.2", "not legal advice", "Safety at the site", "licensed rigger", "licensed engineer",
		"Agreement", "For Alder Quay Foundry For Town of Ashmere Cross", "Signature",
	} {
		next := strings.Index(text[at:], words)
		if !assert.GreaterOrEqual(t, next, 0, "%q is not where it should be, after %q", words, text[max(0, at-60):at]) {
			return
		}
		at += next + len(words)
	}
}

func TestWhatOthersDoIsNamedAndCostsNothing(t *testing.T) {
	text := flat(textOf(t, proposalOf(t, castingOnly()), "-layout"))
	for _, words := range []string{"The original.", "The mould.", "The waxes.", "The patina.", "The base.", "Delivery and installation.", "from your waxes"} {
		assert.Contains(t, text, words)
	}
	assert.Contains(t, text, "Original by others Mould by others Casting in bronze ceramic shell, metal and pour", "nothing is named as covered that others do")
	assert.Contains(t, text, "Patina by others Base by others Delivery and site by others")
	assert.Contains(t, text, "Waxes received")
	assert.Contains(t, text, "Finished and accepted")
	for _, words := range []string{"armature", "rame of stainless", "frame,", "installation, ", "Original approved", "Installed"} {
		assert.NotContains(t, text, words)
	}
	assert.NotContains(t, text, "A rubber mould is taken")
	assert.Contains(t, text, "C83600 leaded red brass 85-5-5-5 holds lead: it is not for what children touch")
}

func TestRightsFollowTheMoneyAndTheTax(t *testing.T) {
	uk := inMoney("GBP", "0.55", "10")
	for words, q := range map[string]quote.Quote{
		"17 USC 101, 106A": inchPound(), "sections 14.1 and 28.2": waterfront(), "sections 77 to 80": uk, "law of the place": inMoney("EUR", "0.62", "10"),
	} {
		assert.Contains(t, flat(textOf(t, proposalOf(t, q))), words)
	}
}

func TestAnEditionTellsItsCasts(t *testing.T) {
	text := flat(textOf(t, proposalOf(t, edition())))
	assert.Contains(t, text, "an edition of 12 casts")
	assert.Contains(t, text, "original, mould and 12 casts")
	assert.Contains(t, text, "Each cast is poured in one.")
	assert.Contains(t, text, "No tax is shown")
}

func TestFeetAndInchesAreForFeetAndInches(t *testing.T) {
	text := flat(textOf(t, proposalOf(t, inchPound())))
	assert.Contains(t, text, `7'2 1/4"`)
	assert.Contains(t, text, `visitor, 5'8 7/8"`)
	assert.Contains(t, text, "about 371 lb")
	assert.NotContains(t, text, " kg")
}

func TestTheUsersOwnWordsStandInThePlaceOfOurs(t *testing.T) {
	q := waterfront()
	q.Words = map[string]string{"care": "Polish nothing.\n- Call us", "recommendation": "The granite base.", "sections": "price, recommendation, care", "drawing.0": "seated"}
	text := flat(textOf(t, proposalOf(t, q)))
	assert.Contains(t, text, "Care Polish nothing.")
	assert.Contains(t, text, "What we recommend The granite base.")
	assert.NotContains(t, text, "Every six months")
	assert.NotContains(t, text, "What is included")
	assert.Less(t, strings.Index(text, "Price before tax"), strings.Index(text, "Polish nothing"))
}

func TestASectionThatIsNoneIsToldWithThoseThereAre(t *testing.T) {
	q := waterfront()
	q.Words = map[string]string{"sections": "price, portraits"}
	_, err := Maker{}.proposal(paperOf(t, q))
	assert.EqualError(t, err, "Sections “portraits” is none; choose among idea, recommendation, work, pictures, options, included, rests, timeline, price, range, budget, payments, terms, care, rights, insurance, cautions, signatures")
}

func TestTypedTextIsNeverATemplateOrATitle(t *testing.T) {
	text := flat(textOf(t, proposalOf(t, nasty())))
	assert.Contains(t, text, "{{.Price}} <b>=1+1</b>")
	d, err := Maker{}.proposal(paperOf(t, nasty()))
	require.NoError(t, err)
	for _, m := range d.marks {
		assert.NotEqual(t, "no title", m.words)
	}
}

func TestPagesForAWindowAreThoseOfThePDF(t *testing.T) {
	p := paperOf(t, waterfront())
	pages, err := Maker{}.Pages(p)
	require.NoError(t, err)
	info := told(t, needTool(t, "pdfinfo"), kept(t, "paper.pdf", proposalOf(t, waterfront())))
	assert.Regexp(t, `(?m)^Pages: +`+languageOf("en", p.Estimate.Currency).count(len(pages))+"$", info)
	for _, page := range pages {
		assert.Equal(t, a4.width, page.Width)
	}
}
