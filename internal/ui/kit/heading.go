package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"meltwright/internal/ui/look"
)

// Heading is the head of a screen: a title and a line about it.
type Heading struct {
	widget.BaseWidget
	title, line *para
}

// NewHeading makes a heading; either text may be empty.
func NewHeading(title, line string) *Heading {
	h := &Heading{title: newPara(theme.SizeNameHeadingText), line: newPara(theme.SizeNameText)}
	h.ExtendBaseWidget(h)
	h.Set(title, line)
	return h
}

// Set changes the texts.
func (h *Heading) Set(title, line string) {
	a := h.title.say(span{text: title, colour: look.Ink, bold: true})
	b := h.line.say(span{text: line, colour: look.Muted})
	if a || b {
		h.Refresh()
	}
}

func (h *Heading) heightFor(width float32) float32 {
	return h.title.heightFor(width) + h.line.heightFor(width)
}

// CreateRenderer implements fyne.Widget.
func (h *Heading) CreateRenderer() fyne.WidgetRenderer {
	lay := func(s fyne.Size) {
		top := h.title.heightFor(s.Width)
		put(h.title, 0, 0, s.Width, top)
		put(h.line, 0, top, s.Width, h.line.heightFor(s.Width))
	}
	return face{
		objects: just(h.title, h.line),
		layout:  lay,
		min:     func() fyne.Size { return fyne.NewSize(px(100), h.title.height+h.line.height) },
		refresh: func() {
			h.title.Refresh()
			h.line.Refresh()
			lay(h.Size())
			canvas.Refresh(h)
		},
	}
}

// NewText makes a paragraph that wraps: an explanation, or what an empty screen says.
func NewText(text string) fyne.Widget {
	p := newPara(theme.SizeNameText)
	p.say(span{text: text, colour: look.Ink})
	return p
}
