package proposal

import (
	"io/fs"
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"
	"text/template"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
	"meltwright/internal/quantity"
	"meltwright/internal/quote"
	"meltwright/internal/shop"
	"meltwright/templates"
)

// languagesOf are the folders of wording that there are.
func languagesOf(t *testing.T) (codes []string) {
	folders, err := fs.ReadDir(templates.Wording, ".")
	require.NoError(t, err)
	for _, f := range folders {
		codes = append(codes, f.Name())
	}
	require.Equal(t, []string{"en", "es", "fr"}, codes)
	return codes
}

// alone are the templates of one language, without what English lends it.
func alone(t *testing.T, code string) *template.Template {
	t.Helper()
	own := template.New(code)
	require.NoError(t, readWording(own, templates.Wording, code))
	return own
}

// namesOf are the templates that have words of their own.
func namesOf(set *template.Template) (names []string) {
	for _, one := range set.Templates() {
		if one.Tree != nil {
			names = append(names, one.Name())
		}
	}
	slices.Sort(names)
	return names
}

// said in a template of its data: .Name, .Own.idea.
var fieldName = regexp.MustCompile(`\.[A-Za-z]+`)

// action is what a template does, as against what it says.
var action = regexp.MustCompile(`\{\{.*?\}\}`)

// fieldsOf are the facts that a template uses.
func fieldsOf(one *template.Template) (names []string) {
	seen := map[string]bool{}
	for _, a := range action.FindAllString(one.Root.String(), -1) {
		for _, name := range fieldName.FindAllString(a, -1) {
			seen[name] = true
		}
	}
	return slices.Sorted(maps.Keys(seen))
}

func TestEveryLanguageHasTheSameTemplatesThatUseTheSameFacts(t *testing.T) {
	english := alone(t, "en")
	for _, code := range languagesOf(t) {
		set := alone(t, code)
		require.Equal(t, namesOf(english), namesOf(set), "the templates of %s are those of en: give each new one its words in every language", code)
		for _, name := range namesOf(english) {
			assert.Equal(t, fieldsOf(english.Lookup(name)), fieldsOf(set.Lookup(name)), "%s of %s", name, code)
		}
	}
}

// wordsIn are the words of four letters and more, small.
func wordsIn(text string) map[string]bool {
	seen := map[string]bool{}
	for _, w := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) }) {
		if len([]rune(w)) > 3 {
			seen[w] = true
		}
	}
	return seen
}

// saidIn is all that the templates of a language say.
func saidIn(t *testing.T, code string) string {
	var all strings.Builder
	set := alone(t, code)
	for _, name := range namesOf(set) {
		all.WriteString(action.ReplaceAllString(set.Lookup(name).Root.String(), " ") + "\n")
	}
	return all.String()
}

// typedIn is all that people typed into a quote.
func typedIn(q quote.Quote) string {
	c := q.Commission
	all := []string{c.Title, c.Client, c.Place, "Alder Quay Foundry 12 Slipway Lane Ashmere Cross"}
	for _, p := range c.Pieces {
		all = append(all, p.Name)
	}
	for _, x := range c.Extras {
		all = append(all, x.Item)
	}
	for _, words := range q.Words {
		all = append(all, words)
	}
	return strings.Join(all, "\n")
}

func TestNoEnglishWordIsLeftInAnotherLanguage(t *testing.T) {
	english := wordsIn(saidIn(t, "en"))
	for _, code := range []string{"es", "fr"} {
		own := wordsIn(saidIn(t, code))
		for name, q := range stories() {
			if name == "nasty" { // its words are of every language
				continue
			}
			q.Words = maps.Clone(q.Words)
			if q.Words == nil {
				q.Words = map[string]string{}
			}
			q.Words["language"] = code
			typed := wordsIn(typedIn(q))
			text, err := said(t, Maker{}, q)
			require.NoError(t, err)
			for w := range wordsIn(text) {
				assert.False(t, english[w] && !own[w] && !typed[w], "%s, %s: %q", code, name, w)
			}
			assert.NotContains(t, text, "by others")
			assert.NotContains(t, text, "<no value>")
		}
	}
}

func TestEveryNameThatThePapersSayHasItsWordsInEveryLanguage(t *testing.T) {
	var names []string
	for _, table := range shop.Tables() {
		if table.Key == shop.StoneTable || table.Key == shop.AlloyTable || table.Key == shop.CraneTable {
			for _, row := range table.Start {
				names = append(names, row[0])
			}
		}
		if table.Key == shop.TaxTable {
			for _, row := range table.Start {
				names = append(names, row[1])
			}
		}
	}
	plan, err := estimate.ParsePayments(shop.Payments.Def().Start)
	require.NoError(t, err)
	for _, p := range plan {
		names = append(names, p.When)
	}
	plinth, _ := estimate.FieldByPath("base.plinth", true)
	names = append(names, plinth.Choices[1:]...)
	english := alone(t, "en")
	for _, name := range names {
		require.NotNil(t, english.Lookup(termKey(name)), "%s wants a template called %s", name, termKey(name))
		assert.True(t, strings.EqualFold(name, english.Lookup(termKey(name)).Root.String()), name)
	}
}

func TestANameOfTheShopsOwnStaysAsItIs(t *testing.T) {
	words, err := wordingOf("fr", nil)
	require.NoError(t, err)
	o := offer{words: words}
	assert.Equal(t, "granit", o.term("Granite"))
	assert.Equal(t, "Ashmere whinstone", o.term("Ashmere whinstone"))
	assert.Equal(t, "ardoise", lowerFirst("Ardoise"))
	assert.Equal(t, "érable", lowerFirst("Érable"))
	assert.Empty(t, lowerFirst(""))
}

func TestUnitsHaveTheNamesOfTheLanguage(t *testing.T) {
	c := currency(t, "USD")
	for code, want := range map[string]string{"en": "6\u00a0ft", "fr": "6\u00a0pi", "es": "6\u00a0pies"} {
		assert.Equal(t, want, languageOf(code, c).fixed("6 ft"))
	}
	assert.Equal(t, "12,5\u00a0po²,", languageOf("fr", c).fixed("12.5 in²,"[:len("12.5 in²")])+",")
	assert.Equal(t, "5\u00a0inches", languageOf("fr", c).fixed("5 inches"), "a word is no unit")
}

func TestDatesAreThoseOfTheLanguage(t *testing.T) {
	for code, want := range map[string][2]string{"fr": {"1er\u00a0mars 2026", "14\u00a0mars 2026"}, "es": {"1 de marzo de 2026", "14 de marzo de 2026"}} {
		words, err := wordingOf(code, nil)
		require.NoError(t, err)
		o := offer{words: words}
		assert.Equal(t, want, [2]string{o.date("2026-03-01"), o.date("2026-03-14")})
	}
}

func TestThePDFInEveryLanguageReadsBackWithItsAmounts(t *testing.T) {
	for code, want := range map[string][]string{
		"fr": {"Lock Keeper", "Entente signée", "TVH, 14 %", "372 335,40 $", "valable jusqu’au 13 mai 2026", "bloc en granit", "ciselure", "chape rigide", "décochage"},
		"es": {"Lock Keeper", "Acuerdo firmado", "HST, 14 %", "vigente hasta el 13 de mayo de 2026", "bloque de granito", "contramolde rígido", "cera perdida", "cincelan", "pátina"},
	} {
		q := waterfront()
		q.Words = map[string]string{"language": code}
		text := flat(textOf(t, proposalOf(t, q), "-layout"))
		for _, words := range want {
			assert.Contains(t, strings.NewReplacer("\u00a0", " ", "\u202f", " ").Replace(text), words, code)
		}
	}
}

func TestThePaperIsTheQuotesChoiceAndElseThatOfItsUnits(t *testing.T) {
	for words, want := range map[string]sheet{"": a4, "letter": letter, " A4 ": a4} {
		q := waterfront()
		q.Words = map[string]string{"paper": words}
		d, err := Maker{}.proposal(paperOf(t, q))
		require.NoError(t, err)
		assert.Equal(t, want, d.sheet, words)
		assert.Equal(t, want.width, costSheet(paperOf(t, q)).sheet.width, "the shop's papers are on the same")
	}
	assert.Equal(t, letter, sheetOf(quantity.InchPound))
	q := waterfront()
	q.Words = map[string]string{"paper": "a5"}
	_, err := Maker{}.proposal(paperOf(t, q))
	assert.ErrorContains(t, err, "Paper “a5” is none that is printed on here; choose a4 or letter")
}
