package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"meltwright/internal/ui/look"
)

// ButtonStyle says how much a button asks to be pressed.
type ButtonStyle int

// The styles of buttons.
const (
	Plain   ButtonStyle = iota // one action among others: outlined
	Primary                    // the one to press: filled with bronze
	Quiet                      // text alone, for what stands beside other text
	Danger                     // what takes something away: filled with red
)

// Button is a button of our own look, for the sheet or for the dark top bar.
// Space and Enter press it.
type Button struct {
	widget.DisableableWidget
	OnTapped func()
	OnEscape func() // called for Escape while focused; nil does nothing

	style            ButtonStyle
	onBar            bool
	hovered, focused bool
	ground, veil     *canvas.Rectangle
	ring             ring
	label            *ink
	icon             *badge // nil without one
}

var (
	_ fyne.Tappable     = (*Button)(nil)
	_ fyne.Focusable    = (*Button)(nil)
	_ desktop.Hoverable = (*Button)(nil)
	_ fyne.Disableable  = (*Button)(nil)
)

// NewButton makes a button that calls tapped.
func NewButton(text string, style ButtonStyle, tapped func()) *Button {
	b := &Button{OnTapped: tapped, style: style, ground: &canvas.Rectangle{}, veil: &canvas.Rectangle{}, ring: newRing()}
	b.label = newInk(theme.SizeNameText, look.Ink, fyne.TextStyle{Bold: style != Quiet})
	b.label.Alignment = fyne.TextAlignCenter
	b.label.say(text)
	b.ExtendBaseWidget(b)
	b.dress()
	return b
}

// WithIcon puts Fyne's icon of that name before the text.
func (b *Button) WithIcon(icon fyne.ThemeIconName) *Button {
	b.icon = newBadge(icon, b.textColour())
	return b
}

// forBar makes the button one of the dark top bar.
func (b *Button) forBar() *Button {
	b.onBar = true
	b.dress()
	return b
}

// SetText changes the text.
func (b *Button) SetText(text string) {
	if b.label.say(text) {
		b.Refresh()
	}
}

// Text is what the button says.
func (b *Button) Text() string { return b.label.full }

// Tapped implements fyne.Tappable.
func (b *Button) Tapped(*fyne.PointEvent) { b.press() }

func (b *Button) press() {
	if !b.Disabled() && b.OnTapped != nil {
		b.OnTapped()
	}
}

// MouseIn implements desktop.Hoverable.
func (b *Button) MouseIn(*desktop.MouseEvent) { b.hovered = true; b.dress() }

// MouseMoved implements desktop.Hoverable.
func (b *Button) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (b *Button) MouseOut() { b.hovered = false; b.dress() }

// FocusGained implements fyne.Focusable.
func (b *Button) FocusGained() { b.focused = true; b.dress(); Reveal(b) }

// FocusLost implements fyne.Focusable.
func (b *Button) FocusLost() { b.focused = false; b.dress() }

// TypedRune implements fyne.Focusable.
func (b *Button) TypedRune(rune) {}

// TypedKey implements fyne.Focusable.
func (b *Button) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		b.press()
	case fyne.KeyEscape:
		if b.OnEscape != nil {
			b.OnEscape()
		}
	}
}

// textColour is the colour of text and icon.
func (b *Button) textColour() fyne.ThemeColorName {
	switch {
	case b.Disabled() && b.onBar:
		return look.OnBarLow
	case b.Disabled():
		return look.Muted
	case b.style == Primary:
		return look.OnAccent
	case b.style == Danger:
		return look.Sheet
	case b.onBar:
		return look.OnBar
	case b.style == Quiet:
		return look.Bronze
	}
	return look.Ink
}

// dress gives every piece the colour of the button's state.
func (b *Button) dress() {
	b.ground.CornerRadius, b.veil.CornerRadius = gap(4), gap(4)
	b.ground.Hidden = b.style == Quiet
	b.ground.StrokeWidth, b.ground.StrokeColor = 0, nil
	switch {
	case b.onBar && (b.style == Plain || b.Disabled()):
		fill(b.ground, look.BarButton)
	case b.Disabled():
		fill(b.ground, look.Panel)
		outline(b.ground, look.Rule, 1)
	case b.style == Primary:
		fill(b.ground, look.Accent)
	case b.style == Danger:
		fill(b.ground, look.Bad)
	case b.style == Plain:
		fill(b.ground, look.Raised)
		outline(b.ground, look.Edge, 1)
	}
	fill(b.veil, theme.ColorNamePressed)
	show(b.veil, b.hovered && !b.Disabled())
	ringColour := look.Accent
	if b.onBar || b.style == Primary || b.style == Danger {
		ringColour = look.OnBar
	}
	if b.style != Plain && !b.onBar {
		ringColour = look.Ink
	}
	b.ring.dress(ringColour, gap(4))
	show(b.ring, b.focused && !b.Disabled())
	b.label.tint(b.textColour())
	b.label.dress()
	if b.icon != nil {
		b.icon.become(b.icon.icon, b.textColour())
	}
}

// CreateRenderer implements fyne.Widget.
func (b *Button) CreateRenderer() fyne.WidgetRenderer {
	return face{
		objects: func() []fyne.CanvasObject {
			objects := []fyne.CanvasObject{b.ground, b.veil, b.label.Text}
			if b.icon != nil {
				objects = append(objects, b.icon.Image)
			}
			return append(objects, b.ring.Rectangle)
		},
		layout: b.lay,
		min:    b.least,
		refresh: func() {
			b.dress()
			if b.icon != nil {
				b.icon.dress()
			}
			b.lay(b.Size())
			canvas.Refresh(b)
		},
	}
}

func (b *Button) least() fyne.Size {
	w := b.label.natural()
	if b.icon != nil {
		w += px(18)
		if b.label.full != "" {
			w += px(6)
		}
	}
	side := gap(14)
	if b.style == Quiet {
		side = gap(6)
	}
	return fyne.NewSize(w+2*side, lineHeight(theme.SizeNameText)+gap(15))
}

func (b *Button) lay(s fyne.Size) {
	put(b.ground, 0, 0, s.Width, s.Height)
	put(b.veil, 0, 0, s.Width, s.Height)
	put(b.ring, 0, 0, s.Width, s.Height)
	if b.icon != nil {
		text := b.label.natural()
		between := px(6)
		if b.label.full == "" {
			between = 0
		}
		start := max((s.Width-px(18)-between-text)/2, 0)
		put(b.icon, start, (s.Height-px(18))/2, px(18), px(18))
		b.label.place(start+px(18)+between, 0, text, s.Height)
		return
	}
	b.label.place(0, 0, s.Width, s.Height)
}
