package ui

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"meltwright/internal/desk"
)

func TestAWordChangedAfterIssueIsToldAndNotCalledAlike(t *testing.T) {
	b := issued(t)
	b.clock.pass(time.Second)
	b.quote().edit(func() {
		b.quote().sheet.SetWords("care", "Wax it in May.")
		b.quote().sheet.SetWords("language", "fr")
	})
	b.quote().choose(revisionsID)
	b.clock.pass(time.Second)
	said := b.said()
	assert.NotContains(t, said, "They are alike.")
	assert.Contains(t, said, "The price is the same")
	assert.Contains(t, said, "Words of “Care” – Wax it in May.")
	assert.Contains(t, said, "Language of the proposal English français")
}

func TestAnOptionAddedAfterIssueIsTold(t *testing.T) {
	b := issued(t)
	b.quote().edit(func() { _, _ = b.quote().sheet.AddOption("3 m") })
	b.quote().choose(revisionsID)
	b.clock.pass(time.Second)
	assert.Contains(t, b.said(), "Option added – ")
	assert.Contains(t, b.said(), "3 m")
}

func TestALongTextIsShownWhereItDiffers(t *testing.T) {
	long := strings.Repeat("A keeper stands by the weir. ", 20)
	was, is := excerpts(long+"He looks east.", long+"He looks west.")
	assert.Equal(t, "… e looks east.", was)
	assert.Equal(t, "… e looks west.", is)
	was, is = excerpts("", long)
	assert.Equal(t, "–", was)
	assert.Equal(t, "A keeper stands by the w …", is)
}

func TestPartsOfTheWordsAreSaidAsTheWindowCallsThem(t *testing.T) {
	for part, want := range map[string]string{
		"idea": "Words of “The idea”", "drawing.0": "Drawing of piece 1", desk.Start: "Work would begin", desk.Sections: "Sections of the proposal",
	} {
		assert.Equal(t, want, inputName(desk.OfWords+part))
	}
	assert.Equal(t, "The idea, Price", partText(desk.OfWords+desk.Sections, "idea, price"))
	assert.Equal(t, "as usual", partText(desk.OfWords+desk.Sections, ""))
	assert.Equal(t, "as the units ask for", partText(desk.OfWords+"paper", ""))
	assert.Equal(t, "A4", partText(desk.OfWords+"paper", "a4"))
	assert.Equal(t, "fr", partText("form.wall", "fr"), "an input is as it was typed")
}
