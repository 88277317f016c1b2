package proposal

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
	"meltwright/internal/shop"
)

// shopIn is the starting shop book of a shop that speaks a language.
func shopIn(t *testing.T, language string) *shop.Shop {
	s, err := shop.Read(shop.Start().With("papers.language", language, "2026-03-14"))
	require.NoError(t, err)
	return s
}

func TestTheShopsPapersSpeakTheShopsLanguage(t *testing.T) {
	for language, want := range map[string][]string{
		"English":  {"Section 1 of 2 — Torso", "Dipping and sanding", "Danger. Molten bronze near", "For the shop alone", "% lead: lead fume", "1 of 2"},
		"français": {"Section 1 sur 2 — Torso", "Trempage et saupoudrage", "Danger. Bronze en fusion vers", "Réservé à l’atelier", "contient du plomb", "de mémoire", "laiton rouge au plomb", "1 sur 2"},
		"español":  {"Sección 1 de 2 — Torso", "Inmersión y rebozado", "Peligro. Bronce fundido cerca de", "Solo para el taller", "contiene plomo", "de memoria", "1 de 2"},
	} {
		p := paperOf(t, castingOnly())
		p.Shop = shopIn(t, language)
		text := flat(strings.ReplaceAll(textOf(t, made(t, func(b *bytes.Buffer) error { return Maker{}.Traveller(b, p) }), "-layout"), "\u00a0", " "))
		for _, words := range want {
			assert.Contains(t, text, words, language)
		}
	}
	p := paperOf(t, waterfront())
	p.Shop = shopIn(t, "français")
	order := flat(strings.ReplaceAll(textOf(t, made(t, func(b *bytes.Buffer) error { return Maker{}.OrderList(b, p) }), "-layout"), "\u202f", " "))
	for _, words := range []string{"Liste de commande", "Bronze consommé, bronze", "Socle en granit", "2 940,00 $", "Élastomère d’uréthane"} {
		assert.Contains(t, order, words)
	}
	assert.Contains(t, textOf(t, made(t, func(b *bytes.Buffer) error { return Maker{}.CostSheet(b, p) })), "Where the values come from", "the workings are in English, and so is their sheet")
}

func TestTheQuoteMaySayAnotherLanguageForTheShopsPapers(t *testing.T) {
	q := edition()
	q.Words = map[string]string{"shop language": "es", "language": "fr"}
	p := paperOf(t, q)
	assert.Contains(t, textOf(t, made(t, func(b *bytes.Buffer) error { return Maker{}.OrderList(b, p) })), "Lista de pedidos")
}

// Every labour step and material of the starting shop book, every stage and every
// caution of the work has words of its own in every language.
func TestNothingOfTheWorkIsLeftInEnglish(t *testing.T) {
	for _, code := range []string{"fr", "es"} {
		for name, q := range stories() {
			if name == "nasty" {
				continue
			}
			p := paperOf(t, q)
			c := shopPaper(p, code)
			for _, st := range travelled {
				stage, ok := estimate.StageByID(st)
				require.True(t, ok)
				require.NotNil(t, c.words.templates.Lookup(termKey(stage.Name)), stage.Name)
			}
			for _, l := range p.Estimate.Lines {
				told := l.Class == estimate.Material || l.Class == estimate.Labour && strings.Contains(strings.Join(travelled, " "), l.Stage)
				if told && !strings.HasPrefix(l.Item, itemMetal) && !strings.HasSuffix(l.Item, " plinth") {
					assert.NotNil(t, c.words.templates.Lookup(termKey(l.Item)), l.Item)
				}
			}
			for _, x := range p.Estimate.Cautions {
				if strings.Contains(strings.Join(travelled, " "), x.Stage) {
					assert.NotContains(t, c.caution(x), x.Text, "%s: %s", code, x.Text)
				}
			}
			assert.NoError(t, c.words.err)
		}
	}
}

// The English of the templates is that of the estimate.
func TestTheEnglishOfCautionsIsTheEstimates(t *testing.T) {
	for name, q := range stories() {
		p := paperOf(t, q)
		c := shopPaper(p, "en")
		for _, x := range p.Estimate.Cautions {
			for _, s := range spokenCautions {
				m := s.words.FindStringSubmatch(x.Text)
				if m == nil || s.key == "lead" { // whose words are the shop book's
					continue
				}
				assert.Equal(t, x.Text, c.say("caution-"+s.key, m[1:]), name)
			}
		}
	}
}
