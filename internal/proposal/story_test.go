package proposal

import (
	"bytes"
	"fmt"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
	"meltwright/internal/quote"
	"meltwright/internal/shop"
)

// waterfront is a group for a town that does not exist: a figure on a granite
// base, its dog and a bench.
func waterfront() quote.Quote {
	return quote.Quote{
		Number: "2026-014", Letter: "B",
		Words: map[string]string{"idea": "The lock keeper looks up the canal. Her dog has seen the boat first."},
		Commission: estimate.Commission{
			Title: "The Lock Keeper", Client: "Town of Ashmere Cross", Place: "Upper Basin", Currency: "CAD", Units: "metric",
			Inputs: map[string]string{
				"pour.crucible": "Bilge no. 60", "delivery.distance": "140 km", "delivery.days": "2", "delivery.permits": "450", "delivery.site_works": "3200",
				"delivery.documentation": "900", "price.fee": "a share of the price", "price.fee_share": "15 %", "price.tax": "Nova Scotia",
			},
			Pieces: []estimate.Piece{
				{Name: "Lock keeper", Inputs: map[string]string{
					"form.height": "2.19 m", "form.dress": "coat and boots", "patina.colours": "2", "base.plinth": "block", "base.stone": "Granite",
					"base.height": "0.45 m", "base.width": "1.1 m", "base.depth": "1.1 m", "base.footing": "by us",
				}},
				{Name: "Dog", Inputs: map[string]string{"form.known_by": "animal", "form.animal": "Dog", "form.animal_mass": "32 kg", "form.measured_height": "0.62 m", "form.height": "0.78 m", "form.wall": "4.5 mm"}},
				{Name: "Bench", Inputs: map[string]string{"form.known_by": "solids", "form.measured_height": "0.45 m", "form.wall": "6 mm", "base.footing": "by others"}, Solids: []map[string]string{
					{"shape": "box", "length": "1.6 m", "width": "0.42 m", "height": "0.09 m"},
				}},
			},
		},
	}
}

// edition is twelve casts of a small animal, for a gallery that fetches them.
func edition() quote.Quote {
	return quote.Quote{Number: "2026-015", Letter: "A", Commission: estimate.Commission{
		Title: "Hare, Listening", Client: "Gallery Tern", Currency: "CAD",
		Inputs: map[string]string{"pour.days": "2", "delivery.by": "by others", "base.engineer": "0", "price.gallery": "40 %"},
		Pieces: []estimate.Piece{{Name: "Hare", Inputs: map[string]string{
			"form.known_by": "animal", "form.animal": "Other animal", "form.animal_mass": "4 kg", "form.measured_height": "0.3 m", "form.height": "0.2 m", "form.wall": "4 mm",
			"form.casts": "12", "form.repeat": "92 %", "base.plinth": "drum", "base.stone": "Hardwood", "base.height": "4 cm", "base.width": "18 cm",
		}}},
	}}
}

// castingOnly is a foundry's job for an artist who brings waxes and sees to all
// the rest.
func castingOnly() quote.Quote {
	return quote.Quote{Number: "2026-016", Letter: "A", Commission: estimate.Commission{
		Title: "Torso", Client: "An artist", Currency: "USD", Units: "inch-pound",
		Inputs: map[string]string{"delivery.by": "by others", "price.exchange": "0.74"},
		Pieces: []estimate.Piece{{Name: "Torso", Inputs: map[string]string{
			"form.known_by": "typed area", "form.area": "6 ft²", "form.measured_height": "28 in", "form.wall": "3/16 in", "form.start": "their wax", "form.alloy": "C83600 leaded red brass 85-5-5-5",
			"patina.by": "by others", "base.by": "by others",
		}}},
	}}
}

// inchPound is a group in feet, inches, pounds and dollars.
func inchPound() quote.Quote {
	q := waterfront()
	c := q.Commission.Clone()
	c.Units, c.Currency = "inch-pound", "USD"
	c.Inputs["price.exchange"] = "0.74"
	delete(c.Inputs, "price.tax")
	q.Commission = c
	return q
}

// inMoney is the waterfront in another currency.
func inMoney(code, exchange, step string) quote.Quote {
	q := waterfront()
	c := q.Commission.Clone()
	c.Currency, c.Inputs["price.exchange"], c.Inputs["price.step"] = code, exchange, step
	for _, sum := range []string{"delivery.permits", "delivery.site_works", "delivery.documentation"} {
		delete(c.Inputs, sum)
	}
	q.Commission = c
	return q
}

// manyPieces is forty pieces with names of every length.
func manyPieces() quote.Quote {
	q := waterfront()
	c := q.Commission.Clone()
	dog := c.Pieces[1]
	c.Pieces = nil
	for i := range 40 {
		p := dog.Clone()
		p.Name = fmt.Sprintf("Animal %d, %s", i+1, strings.Repeat("walking ", i%7))
		c.Pieces = append(c.Pieces, p)
	}
	q.Commission = c
	return q
}

// nasty has what people paste: very long texts, words without end, emoji, other
// scripts, signs of markup and of templates.
func nasty() quote.Quote {
	q := waterfront()
	c := q.Commission.Clone()
	c.Title = "Überlänge: " + strings.Repeat("The Very Long Title of a Work 王 ", 9)
	c.Client = strings.Repeat("Donaudampfschifffahrtsgesellschaft", 7)
	c.Place = "ساحة النهر 🎉 Площадь, Πλατεία"
	c.Pieces[0].Name = strings.Repeat("NameWithoutEnd", 30)
	c.Pieces[1].Name = "{{.Price}} <b>=1+1</b>"
	c.Pieces[2].Name = ""
	c.Extras = []estimate.Extra{{Stage: "metalwork", Item: "=HYPERLINK(\"x\") \x00\x07 \U0001F525 𝔘𝔫𝔦", Quantity: "1", Rate: "12.345"}}
	q.Commission = c
	q.Words = map[string]string{
		"idea": strings.Repeat("Ten thousand letters of an idea that would not end, été à Ávila, naïve café — “quoted”. ", 115) +
			"\n# no title\n\n" + strings.Repeat("x", 900) + "\ttab\u200bzero\u00adsoft \ufffd 👩‍👩‍👧",
		"care": "Wash it.\nWax it.",
	}
	return q
}

// stories are the quotes that every paper has to stand.
func stories() map[string]quote.Quote {
	none := waterfront()
	none.Words, none.Number, none.Letter = nil, "", ""
	none.Commission.Title, none.Commission.Client, none.Commission.Place = "", "", ""
	one := waterfront()
	one.Commission.Pieces = one.Commission.Pieces[:1]
	return map[string]quote.Quote{
		"waterfront": waterfront(), "edition": edition(), "casting only": castingOnly(), "inch-pound": inchPound(), "forty pieces": manyPieces(),
		"nasty": nasty(), "nothing typed": none, "one piece": one,
		"yen": inMoney("JPY", "108", "1000"), "dinars": inMoney("KWD", "0.22", "0.25"), "euros": inMoney("EUR", "0.62", "10"),
	}
}

// paperOf prices a quote with the starting shop book.
func paperOf(t testing.TB, q quote.Quote) quote.Paper {
	t.Helper()
	s, err := shop.Read(shop.Start().WithHouse("Alder Quay Foundry", "12 Slipway Lane\nAshmere Cross", "CAD", "metric", "2026-01-05"))
	require.NoError(t, err)
	e, err := estimate.Of(q.Commission, s)
	require.NoError(t, err)
	return quote.Paper{Quote: q, Estimate: e, Shop: s, Date: "2026-03-14", Until: "2026-05-13"}
}

// made gives the bytes of a paper.
func made(t testing.TB, write func(*bytes.Buffer) error) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, write(&b))
	return b.Bytes()
}

// The papers of stories, made once for all tests that look at them.
var proposals, costSheets sync.Map

func proposalOf(t testing.TB, q quote.Quote) []byte {
	return once(&proposals, q, func() []byte {
		p := paperOf(t, q)
		return made(t, func(b *bytes.Buffer) error { return Maker{}.Proposal(b, p) })
	})
}

func costSheetOf(t testing.TB, q quote.Quote) []byte {
	return once(&costSheets, q, func() []byte {
		p := paperOf(t, q)
		return made(t, func(b *bytes.Buffer) error { return Maker{}.CostSheet(b, p) })
	})
}

// once makes what there is none of yet.
func once(all *sync.Map, q quote.Quote, make func() []byte) []byte {
	key := fmt.Sprint(q.Commission, q.Words, q.Number)
	if data, ok := all.Load(key); ok {
		return data.([]byte)
	}
	data := make()
	all.Store(key, data)
	return data
}

func workbookOf(t testing.TB, q quote.Quote) []byte {
	p := paperOf(t, q)
	return made(t, func(b *bytes.Buffer) error { return Maker{}.Workbook(b, p) })
}
