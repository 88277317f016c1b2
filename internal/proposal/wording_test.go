package proposal

import (
	"io/fs"
	"path"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/fault"
	"meltwright/internal/quote"
	"meltwright/templates"
)

// folder is a shop's own wording of one file.
func folder(name, words string) fs.FS {
	return fstest.MapFS{name: &fstest.MapFile{Data: []byte(words)}}
}

// said is the text of a proposal with a shop's own words.
func said(t *testing.T, m Maker, q quote.Quote) (string, error) {
	d, err := m.proposal(paperOf(t, q))
	if err != nil {
		return "", err
	}
	var b strings.Builder
	for _, page := range d.pages {
		for _, words := range page.Texts() {
			b.WriteString(words.Words + " ")
		}
	}
	return b.String(), nil
}

func TestAShopsOwnTemplateStandsInThePlaceOfOurs(t *testing.T) {
	text, err := said(t, Maker{Wording: folder("en/care.tmpl", "# Upkeep\n\nAsk {{.Shop}}.")}, waterfront())
	require.NoError(t, err)
	assert.Contains(t, text, "Upkeep Ask Alder Quay Foundry.")
	assert.NotContains(t, text, "Every six months")
	assert.Contains(t, text, "Safety at the site", "the others are as they were")
	text, err = said(t, Maker{}, waterfront())
	require.NoError(t, err)
	assert.Contains(t, text, "Every six months", "and ours are as they were")
}

func TestAShopsOwnLabelStandsInThePlaceOfOurs(t *testing.T) {
	text, err := said(t, Maker{Wording: folder("en/own.tmpl", `{{define "part-casting"}}Foundry{{end}}`)}, waterfront())
	require.NoError(t, err)
	assert.Contains(t, text, "Foundry wax, ceramic shell")
	assert.NotContains(t, text, "Casting in bronze")
}

func TestAShopsOwnTemplateStandsInItsLanguageAlone(t *testing.T) {
	french := folder("fr/care.tmpl", "# Soins\n\nLavez-la.")
	q := waterfront()
	q.Words = map[string]string{"language": "fr"}
	text, err := said(t, Maker{Wording: french}, q)
	require.NoError(t, err)
	assert.Contains(t, text, "Soins Lavez-la.")
	assert.Contains(t, text, "Sécurité sur le site", "the others are the program's")
	byMaker, err := said(t, Maker{Wording: french, Language: "fr"}, waterfront())
	require.NoError(t, err)
	assert.Contains(t, byMaker, "Soins")
	english, err := said(t, Maker{Wording: french}, waterfront())
	require.NoError(t, err)
	assert.NotContains(t, english, "Soins")
}

func TestATemplateThatWillNotDoIsNamedWithItsPlace(t *testing.T) {
	for words, want := range map[string]string{
		"# Care\n{{.Shop":    "care:2: unclosed action",
		"# Care\n{{.Wrong}}": "can't evaluate field Wrong",
		"{{template \"x\"}}": "template \"x\" not defined",
	} {
		_, err := said(t, Maker{Wording: folder("en/care.tmpl", words)}, waterfront())
		require.Error(t, err)
		f := fault.All(err)[0]
		assert.Equal(t, "Wording", f.Field)
		assert.Contains(t, f.Problem, want)
		assert.NotEmpty(t, f.Remedy)
	}
}

func TestEverySectionAndLabelThatIsAskedForIsThereInEveryLanguage(t *testing.T) {
	folders, err := fs.ReadDir(templates.Wording, ".")
	require.NoError(t, err)
	for _, f := range folders {
		assert.Contains(t, marks, f.Name(), "the numbers of each language are known")
		for _, key := range Sections() {
			_, err := fs.Stat(templates.Wording, path.Join(f.Name(), key+".tmpl"))
			assert.NoError(t, err)
		}
	}
	for name, q := range stories() {
		_, err := said(t, Maker{}, q)
		assert.NoError(t, err, name) // a label that is missing is an error
	}
}
