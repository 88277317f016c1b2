package proposal

import (
	"io/fs"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/drawing"
	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
	"meltwright/templates"
)

// everyFace is what the papers are set in.
var everyFace = []drawing.Face{drawing.Sans, drawing.SansSemiBold, drawing.SansBold, drawing.Serif, drawing.SerifBold}

// printable asserts that every face prints words as they are.
func printable(t *testing.T, words string) {
	t.Helper()
	for _, f := range everyFace {
		var l letters
		got, _ := l.clean(f, words)
		if assert.Empty(t, l.lost, "%q in %d", words, f) {
			assert.Equal(t, strings.ReplaceAll(words, "√", "root"), strings.ReplaceAll(got, "√", "root"))
		}
	}
}

func TestEveryWordOfTheTemplatesCanBePrinted(t *testing.T) {
	require.NoError(t, fs.WalkDir(templates.Wording, ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		words, err := fs.ReadFile(templates.Wording, path)
		for line := range strings.Lines(string(words)) {
			printable(t, strings.TrimSpace(line))
		}
		return err
	}))
}

func TestEveryAmountInEveryCurrencyAndLanguageCanBePrinted(t *testing.T) {
	for _, code := range money.Codes() {
		c, err := money.NewCurrency(code)
		require.NoError(t, err)
		for language := range marks {
			l := languageOf(language, c)
			for _, a := range []money.Amount{0, -1234567890, 12345678901} {
				printable(t, l.amount(c, a))
			}
		}
	}
}

func TestEveryWordOfTheStartingShopBookCanBePrinted(t *testing.T) {
	for _, d := range shop.Settings() {
		printable(t, d.Label)
		printable(t, d.Source)
		printable(t, d.Start)
	}
	for _, table := range shop.Tables() {
		for _, row := range table.Start {
			for _, words := range row {
				printable(t, words)
			}
		}
	}
}

func TestEveryWordOfTheStagesCanBePrinted(t *testing.T) {
	book, err := shop.Read(shop.Start())
	require.NoError(t, err)
	for _, st := range estimate.Stages {
		printable(t, st.Name)
		for _, of := range []bool{true, false} {
			for _, f := range st.Fields(of) {
				printable(t, f.Explain(book))
			}
		}
	}
}

func TestEveryWordOfEveryPaperCanBePrintedButTheNastyOnes(t *testing.T) {
	seen := map[string]bool{}
	for name, q := range stories() {
		p := paperOf(t, q)
		for _, l := range p.Estimate.Lines {
			for _, part := range p.Estimate.Working(l).Parts {
				if words := part.Name + part.Origin.String(); !seen[words] && name != "nasty" {
					seen[words] = true
					printable(t, l.Item+words)
				}
			}
		}
		missing, err := Maker{}.Missing(p)
		require.NoError(t, err)
		if name != "nasty" {
			assert.Empty(t, missing, name)
			assert.Empty(t, costSheet(p).lost, name)
		}
		pages, err := Maker{}.Pages(p)
		require.NoError(t, err)
		for _, page := range pages {
			for _, words := range page.Texts() {
				assert.Empty(t, words.Face.Missing(words.Words), words.Words)
			}
		}
	}
}

func TestEveryUnitCanBePrinted(t *testing.T) {
	for _, k := range []quantity.Kind{quantity.KindLength, quantity.KindArea, quantity.KindMass, quantity.KindDensity, quantity.KindTimePerArea, quantity.KindTemperature} {
		for _, s := range []quantity.System{quantity.Metric, quantity.InchPound} {
			printable(t, quantity.Print(k, 1.5, s))
		}
	}
}

func TestMissingLettersAreListedOnceAndAskedFor(t *testing.T) {
	missing, err := Maker{}.Missing(paperOf(t, nasty()))
	require.NoError(t, err)
	for _, r := range "王س🎉" {
		assert.Contains(t, missing, r)
	}
	assert.NotContains(t, missing, 'П', "Cyrillic is printed")
	assert.NotContains(t, missing, 'Π', "Greek is printed")
}

func TestEveryMissingLetterAndEmojiIsOneQuestionMark(t *testing.T) {
	for words, want := range map[string]string{
		"王小明": "???", "日本": "??", "Ms 王 Li": "Ms ? Li", "Party 🎉!": "Party ?!", "𝔘nit": "?nit",
		"नमस्ते": "????", "heart ❤\ufe0f🎉": "heart ??", "👩\u200d🎨": "??", "日́本": "??", "tab\there": "tab here",
		"2√A ≈ 3 → ok": "2rootA ~ 3 -> ok", "soft\u00adhyphen": "softhyphen", "zero\u200bwidth": "zero width", "bell\x07": "bell", "été": "été",
	} {
		var l letters
		got, _ := l.clean(drawing.Sans, words)
		assert.Equal(t, want, got)
	}
}

func TestWhatTheSerifLacksTheSansPrints(t *testing.T) {
	var l letters
	words, face := l.clean(drawing.SerifBold, "ᾠδή")
	if len(drawing.SerifBold.Missing(words)) > 0 {
		assert.Equal(t, drawing.SansSemiBold, face)
	}
	assert.Empty(t, face.Missing(words))
	assert.Empty(t, l.lost)
}

func TestTitlesOfTheDocumentKeepEveryScriptThatTheLibraryWrites(t *testing.T) {
	assert.Equal(t, "王 ", basic("王 🎉\x00"))
}
