package proposal

import (
	"bytes"
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"meltwright/internal/estimate"
	"meltwright/internal/quote"
	"meltwright/internal/shop"
)

// inTwoMetals has a dog of another alloy than the keeper and the bench.
func inTwoMetals() quote.Quote {
	q := waterfront()
	pieces := slices.Clone(q.Commission.Pieces)
	inputs := map[string]string{"form.alloy": "C90300 tin bronze"}
	for k, v := range pieces[1].Inputs {
		inputs[k] = v
	}
	pieces[1].Inputs = inputs
	q.Commission.Pieces = pieces
	return q
}

// The weights are those of the pieces: finished bronze, and what the melt loses
// of what is charged, 3 % of charge with the starting shop book.
func TestTheMetalClauseNamesEachAlloyItsPriceAndItsWeight(t *testing.T) {
	p := paperOf(t, inTwoMetals())
	e := p.Estimate
	words, err := wordingOf("en", nil)
	require.NoError(t, err)
	o := &offer{paper: p, language: languageOf("en", e.Currency), words: words}
	metals := o.metals()
	require.Len(t, metals, 2)
	assert.Equal(t, []string{"C87300 silicon bronze 95-1-4", "C90300 tin bronze"}, []string{metals[0].Alloy, metals[1].Alloy})
	tin := e.Pieces[1]
	require.Equal(t, "C90300 tin bronze", tin.Alloy)
	loss := p.Shop.Num(shop.MeltLoss)
	once := float64(tin.Finished) + float64(tin.Poured)*loss/(1-loss)
	var kg float64
	_, err = fmt.Sscanf(metals[1].Used, "%f", &kg)
	require.NoError(t, err)
	assert.InDelta(t, once, kg, once*0.03, "and a little for what fails")
	text := flat(textOf(t, made(t, func(b *bytes.Buffer) error { return Maker{}.Proposal(b, p) })))
	for _, m := range metals {
		assert.Contains(t, text, flat(m.Alloy+" at "+m.Price+", of which the work uses up about "+m.Used+"."))
	}
	assert.Contains(t, text, "that difference for every unit of that metal used up")
	assert.NotContains(t, text, "The price rests on C87300")
}

func TestWithoutAMetalClauseNothingIsSaidOfMetal(t *testing.T) {
	q := waterfront()
	q.Commission.Inputs = map[string]string{"price.metal_clause": "0 %"}
	assert.NotContains(t, flat(textOf(t, proposalOf(t, q))), "The price of metal")
}

// Who signs is said even where nobody has a name.
func TestBothWhoSignAreNamed(t *testing.T) {
	s, err := shop.Read(shop.Start())
	require.NoError(t, err)
	q := waterfront()
	q.Commission.Client = ""
	p := paperOf(t, q)
	p.Shop = s
	for code, words := range map[string]string{"en": "For the foundry For the client", "fr": "Pour la fonderie Pour le client", "es": "Por la fundición Por el cliente"} {
		assert.Contains(t, flat(textOf(t, illustratedPDF(t, inLanguage(p, code)), "-layout")), words)
	}
}

// poppler's pdfinfo reads the particulars.
func TestEveryPaperHasATitleAndAnAuthorEvenOfAShopWithoutAName(t *testing.T) {
	pdfinfo := needTool(t, "pdfinfo")
	s, err := shop.Read(shop.Start())
	require.NoError(t, err)
	require.Empty(t, s.Book.Shop)
	for name, q := range map[string]quote.Quote{"demo": waterfront(), "no title": {Commission: estimate.Commission{Pieces: waterfront().Commission.Pieces}}} {
		p := paperOf(t, q)
		p.Shop = s
		for code, author := range map[string]string{"en": "The foundry", "fr": "La fonderie", "es": "La fundición"} {
			out := told(t, pdfinfo, kept(t, "paper.pdf", illustratedPDF(t, inLanguage(p, code))))
			assert.Regexp(t, `Title: +\S`, out, name)
			assert.Regexp(t, `Author: +`+author, out, name)
		}
		for _, write := range []func(*bytes.Buffer) error{
			func(b *bytes.Buffer) error { return Maker{}.CostSheet(b, p) },
			func(b *bytes.Buffer) error { return Maker{}.OrderList(b, p) },
			func(b *bytes.Buffer) error { return Maker{}.Traveller(b, p) },
		} {
			out := told(t, pdfinfo, kept(t, "paper.pdf", made(t, write)))
			assert.Regexp(t, `Title: +[A-Z][a-z ]+: \S`, out)
			assert.Regexp(t, `Author: +The foundry`, out)
		}
		f, err := excelize.OpenReader(bytes.NewReader(made(t, func(b *bytes.Buffer) error { return Maker{}.Workbook(b, p) })))
		require.NoError(t, err)
		props, err := f.GetDocProps()
		require.NoError(t, err)
		assert.Equal(t, "The foundry", props.Creator)
	}
	out := told(t, pdfinfo, kept(t, "paper.pdf", proposalOf(t, waterfront())))
	assert.Regexp(t, `Title: +The Lock Keeper\nAuthor: +Alder Quay Foundry\n`, out)
}

func TestInsuranceAndEngineeringFollowThePrice(t *testing.T) {
	text := flat(textOf(t, proposalOf(t, waterfront())))
	assert.Contains(t, text, "The price includes insurance of the work until it is handed over: in our shop, on the way and while it is installed.")
	assert.Contains(t, text, "The engineer’s design takes account of wind")
	q := castingOnly()
	q.Commission.Inputs = map[string]string{"price.insurance": "0 %", "price.bond": "1 %", "delivery.by": "by others", "price.exchange": "0.73"}
	text = flat(textOf(t, proposalOf(t, q)))
	assert.Contains(t, text, "No insurance of the work is in the price")
	assert.Contains(t, text, "A performance bond is in the price.")
	assert.Contains(t, text, "No engineer’s design is in the price.")
}
