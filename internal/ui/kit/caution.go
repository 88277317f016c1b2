package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"meltwright/internal/ui/look"
)

// CautionKind says how much a caution matters.
type CautionKind int

// The kinds of caution.
const (
	CautionNote CautionKind = iota // worth knowing
	CautionWarn                    // can hurt somebody, or the price
)

// Caution is a few sentences to be seen.
type Caution struct {
	Kind CautionKind
	Text string
}

// CautionBox shows a caution in a box with a sign of its own.
type CautionBox struct {
	widget.BaseWidget
	what        Caution
	ground, bar *canvas.Rectangle
	sign        *badge
	text        *para
}

// NewCautionBox makes a box.
func NewCautionBox(c Caution) *CautionBox {
	b := &CautionBox{what: c, ground: &canvas.Rectangle{}, bar: &canvas.Rectangle{}}
	b.sign = newBadge(theme.IconNameInfo, look.NoteEdge)
	b.text = newPara(theme.SizeNameText)
	b.ExtendBaseWidget(b)
	b.Set(c)
	return b
}

// Set shows another caution.
func (b *CautionBox) Set(c Caution) {
	changed := b.text.say(span{text: c.Text, colour: look.Ink}) || b.what.Kind != c.Kind
	b.what = c
	b.dress()
	if changed {
		b.lay(b.Size())
		canvas.Refresh(b)
	}
}

func (b *CautionBox) dress() {
	ground, edge, icon := look.NoteGround, look.NoteEdge, theme.IconNameInfo
	if b.what.Kind == CautionWarn {
		ground, edge, icon = look.WarnGround, look.WarnEdge, theme.IconNameWarning
	}
	fill(b.ground, ground)
	fill(b.bar, edge)
	b.sign.become(icon, edge)
	b.sign.dress()
}

// indent is where the text begins.
func (b *CautionBox) indent() float32 { return gap(12) + px(18) + gap(8) }

func (b *CautionBox) heightFor(width float32) float32 {
	return b.text.heightFor(width-b.indent()-gap(10)) + 2*gap(8)
}

func (b *CautionBox) lay(s fyne.Size) {
	put(b.ground, 0, 0, s.Width, s.Height)
	put(b.bar, 0, 0, px(4), s.Height)
	side := px(18)
	put(b.sign, gap(12), gap(8)+(lineHeight(theme.SizeNameText)-side)/2, side, side)
	room := s.Width - b.indent() - gap(10)
	put(b.text, b.indent(), gap(8), room, b.text.heightFor(room))
}

// CreateRenderer implements fyne.Widget.
func (b *CautionBox) CreateRenderer() fyne.WidgetRenderer {
	return face{
		objects: just(b.ground, b.bar, b.sign.Image, b.text),
		layout:  b.lay,
		min:     func() fyne.Size { return fyne.NewSize(px(140), b.text.height+2*gap(8)) },
		refresh: func() {
			b.dress()
			b.text.Refresh()
			b.lay(b.Size())
			canvas.Refresh(b)
		},
	}
}
