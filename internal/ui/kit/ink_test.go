package kit

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"meltwright/internal/ui/look"
)

func TestAShortenedTextFitsAndIsItsOwnBeginning(t *testing.T) {
	plaster(t)
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[A-Za-zé ,·²]{0,40}`).Draw(t, "text")
		width := rapid.Float32Range(0, 300).Draw(t, "width")
		got := elide(text, width, 14, plain)
		if got == text {
			return
		}
		assert.True(t, got == "" || strings.HasSuffix(got, "…"), got)
		assert.LessOrEqual(t, fyne.MeasureText(got, 14, plain).Width, width+1)
		assert.True(t, strings.HasPrefix(text, strings.TrimSuffix(got, "…")))
	})
}

func TestAFigureIsNeverCut(t *testing.T) {
	plaster(t)
	amount := newInk(theme.SizeNameText, look.Ink, plain).trailing()
	amount.say("1,284,000.00")
	amount.place(0, 0, 20, 20)
	assert.Equal(t, "1,284,000.00", amount.Text.Text)
	name := newInk(theme.SizeNameText, look.Ink, plain)
	name.say("Delivery and install")
	name.place(0, 0, 60, 20)
	assert.Equal(t, "Deliver…", name.Text.Text)
	name.place(0, 0, 400, 20)
	assert.Equal(t, "Delivery and install", name.Text.Text, "and it comes back with the room")
}

// The width of a figure is reckoned from its digits; the letters are drawn by
// Fyne, whose measure is the one that counts.
func TestTheReckonedWidthOfAFigureIsTheMeasuredOne(t *testing.T) {
	plaster(t)
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[$€£]?[0-9]{1,3}(,[0-9]{3}){0,3}(\.[0-9]{2})?( %)?`).Draw(t, "figure")
		style := fyne.TextStyle{Bold: rapid.Bool().Draw(t, "bold")}
		assert.True(t, isFigure(text))
		assert.InDelta(t, fyne.MeasureText(text, 14, style).Width, textWidth(text, 14, style), 1)
	})
	assert.False(t, isFigure("41 kg"))
	assert.Zero(t, textWidth("", 14, plain))
}

func TestInkRepaintsOnlyWhatChanged(t *testing.T) {
	plaster(t)
	i := newInk(theme.SizeNameText, look.Ink, plain)
	assert.True(t, i.say("6,310"))
	assert.False(t, i.say("6,310"))
	i.tint(look.Bad)
	assert.Equal(t, look.Colour(look.Bad, false), i.Color)
	i.weigh(true)
	assert.True(t, i.TextStyle.Bold)
}
