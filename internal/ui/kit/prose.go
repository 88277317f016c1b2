package kit

import (
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/ui/look"
)

// Prose is a paragraph that wraps and can be given other words.
type Prose = para

// NewProse makes a paragraph of plain text.
func NewProse(text string) *Prose {
	p := newPara(theme.SizeNameText)
	p.say(span{text: text, colour: look.Ink})
	return p
}

// Say changes the words; without any the paragraph takes no room.
func (p *para) Say(text string) {
	if p.say(span{text: text, colour: look.Ink}) {
		p.Refresh()
	}
	show(p, text != "")
}
