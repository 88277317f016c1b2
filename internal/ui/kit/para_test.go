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

// lines are the texts of a paragraph by line.
func (p *para) lines() []string {
	var lines []string
	last := float32(-1)
	for _, t := range p.pieces[:p.used] {
		if t.Position().Y != last {
			lines, last = append(lines, ""), t.Position().Y
		}
		lines[len(lines)-1] += t.Text
	}
	return lines
}

func TestAParagraphKeepsEveryWordInOrderAndEveryLineInItsWidth(t *testing.T) {
	plaster(t)
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(strings.Fields(rapid.StringMatching(`([a-zé]{1,14} ){0,20}[a-z]{1,30}`).Draw(t, "text")), " ")
		width := rapid.Float32Range(40, 400).Draw(t, "width")
		cut := rapid.IntRange(0, len([]rune(text))).Draw(t, "cut")
		p := newPara(theme.SizeNameText)
		p.say(span{text: string([]rune(text)[:cut]), colour: look.Ink}, span{text: string([]rune(text)[cut:]), colour: look.Muted, bold: true})
		height := p.heightFor(width)
		joined := strings.Join(p.lines(), "")
		assert.Equal(t, strings.ReplaceAll(text, " ", ""), strings.ReplaceAll(joined, " ", ""))
		for _, piece := range p.pieces[:p.used] {
			wide := fyne.MeasureText(strings.TrimRight(piece.Text, " "), piece.TextSize, piece.TextStyle).Width
			assert.LessOrEqual(t, piece.Position().X+wide, width+2, piece.Text)
		}
		assert.InDelta(t, float32(len(p.lines()))*lineHeight(theme.SizeNameText), height, 1)
	})
}

func TestAParagraphBreaksBetweenWords(t *testing.T) {
	plaster(t)
	p := newPara(theme.SizeNameText)
	p.say(span{text: "Over 45 kg: lift with rated gear.\nAnchors need an engineer.", colour: look.Ink})
	p.heightFor(150)
	assert.Equal(t, []string{"Over 45 kg: lift with ", "rated gear.", "Anchors need an ", "engineer."}, p.lines())
	p.heightFor(1000)
	assert.Equal(t, []string{"Over 45 kg: lift with rated gear.", "Anchors need an engineer."}, p.lines())
}

func TestAWordLongerThanTheLineIsBroken(t *testing.T) {
	plaster(t)
	p := newPara(theme.SizeNameText)
	p.say(span{text: "ferry-pilot-of-alder-reach-final-final.stl", colour: look.Ink})
	p.heightFor(100)
	assert.Greater(t, len(p.lines()), 2)
	p.heightFor(1)
	assert.Len(t, p.lines(), 42, "at least one letter a line")
}

func TestAnEmptyParagraphTakesNoRoom(t *testing.T) {
	plaster(t)
	p := newPara(theme.SizeNameText)
	assert.Zero(t, p.heightFor(200))
	assert.True(t, p.say(span{text: "a", colour: look.Ink}))
	assert.False(t, p.say(span{text: "a", colour: look.Ink}, span{}), "an empty span is none")
	assert.True(t, p.say())
	assert.Zero(t, p.heightFor(200))
	assert.True(t, p.empty())
}
