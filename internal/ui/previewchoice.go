package ui

import (
	"slices"

	"meltwright/internal/ui/kit"
)

// choices are what a word of the quote may say, with the names that the window
// has for them; the first is what holds without a word.
type choices [][2]string

var (
	languages = choices{{"", "English"}, {"fr", "français"}, {"es", "español"}}
	sizes     = choices{{"", "as the units ask for"}, {"a4", "A4"}, {"letter", "letter"}}
)

// name is what a word is called; empty for what holds without one.
func (c choices) name(word string) string {
	for _, x := range c[1:] {
		if x[0] == word {
			return x[1]
		}
	}
	return ""
}

// word is what is called so.
func (c choices) word(name string) string {
	at := slices.IndexFunc(c, func(x [2]string) bool { return x[1] == name })
	if at < 0 {
		return ""
	}
	return c[at][0]
}

func (c choices) names() (all []string) {
	for _, x := range c {
		all = append(all, x[1])
	}
	return all
}

// choice is a field for a word of the quote that is one of a few.
func (p *previewPage) choice(word, label, hint string, of choices) *kit.Field {
	q := p.q
	return kit.NewField(kit.FieldSpec{
		ID: "preview." + word, Kind: kit.ChoiceField, Label: label, Hint: hint, Options: of.names(), Default: of[0][1],
		OnChanged: q.w.guardedText(func(name string) {
			q.edit(func() { q.sheet.SetWords(word, of.word(name)) })
		}),
	})
}
