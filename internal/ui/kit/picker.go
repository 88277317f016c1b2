package kit

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"meltwright/internal/ui/look"
)

// filterFrom is how many choices there are before a place to type a part of the
// name stands above them.
const filterFrom = 13

// Picker chooses one of several words, few or thousands: it opens a list below
// itself, with a filter above a longer one. Space, Enter and Down open it,
// letters open it and filter, Delete takes the choice back.
type Picker struct {
	widget.DisableableWidget
	OnChanged func(choice string) // the user chose; "" for a choice taken back
	OnFocus   func(focused bool)

	options          []string
	chosen, standing string // standing is what holds while nothing is chosen
	hovered, focused bool
	ground, veil     *canvas.Rectangle
	text             *ink
	arrow            *badge
	cross            *cross
}

var (
	_ fyne.Tappable     = (*Picker)(nil)
	_ fyne.Focusable    = (*Picker)(nil)
	_ desktop.Hoverable = (*Picker)(nil)
)

// NewPicker makes a picker among options.
func NewPicker(options []string) *Picker {
	p := &Picker{options: options, ground: &canvas.Rectangle{}, veil: &canvas.Rectangle{}}
	p.text = newInk(theme.SizeNameText, look.Ink, plain)
	p.arrow = newBadge(theme.IconNameArrowDropDown, look.Ink)
	p.cross = newCross(func() { p.change("") })
	p.ExtendBaseWidget(p)
	p.dress()
	return p
}

// SetOptions changes what there is to choose from; the choice stays as it is.
func (p *Picker) SetOptions(options []string) { p.options = options }

// Choice is the chosen word, "" for none.
func (p *Picker) Choice() string { return p.chosen }

// Choose shows a choice without telling anybody.
func (p *Picker) Choose(choice string) {
	p.chosen = choice
	p.dress()
}

// SetStanding shows, in grey, what holds while nothing is chosen.
func (p *Picker) SetStanding(text string) {
	p.standing = text
	p.dress()
}

// change is a choice by the user.
func (p *Picker) change(choice string) {
	if choice == p.chosen {
		return
	}
	p.Choose(choice)
	tell(p.OnChanged, choice)
}

// Tapped implements fyne.Tappable.
func (p *Picker) Tapped(*fyne.PointEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(p); c != nil {
		c.Focus(p)
	}
	p.open("")
}

// open shows the list, filtered by what was typed.
func (p *Picker) open(typed string) {
	c := fyne.CurrentApp().Driver().CanvasForObject(p)
	if c == nil || len(p.options) == 0 || p.Disabled() {
		return
	}
	current := p.chosen
	if current == "" {
		current = p.standing
	}
	openPickList(p, c, current, typed)
}

// FocusGained implements fyne.Focusable.
func (p *Picker) FocusGained() { p.setFocus(true); Reveal(p) }

// FocusLost implements fyne.Focusable.
func (p *Picker) FocusLost() { p.setFocus(false) }

func (p *Picker) setFocus(on bool) {
	p.focused = on
	if p.OnFocus != nil {
		p.OnFocus(on)
	}
}

// TypedRune implements fyne.Focusable.
func (p *Picker) TypedRune(r rune) {
	if r != ' ' {
		p.open(string(r))
	}
}

// TypedKey implements fyne.Focusable.
func (p *Picker) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter, fyne.KeyDown, fyne.KeyUp:
		p.open("")
	case fyne.KeyDelete, fyne.KeyBackspace:
		if !p.Disabled() {
			p.change("")
		}
	}
}

// MouseIn implements desktop.Hoverable.
func (p *Picker) MouseIn(*desktop.MouseEvent) { p.hovered = true; p.dress() }

// MouseMoved implements desktop.Hoverable.
func (p *Picker) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (p *Picker) MouseOut() { p.hovered = false; p.dress() }

func (p *Picker) dress() {
	p.ground.CornerRadius, p.veil.CornerRadius = theme.InputRadiusSize(), theme.InputRadiusSize()
	fill(p.ground, theme.ColorNameInputBackground)
	outline(p.ground, theme.ColorNameInputBorder, theme.InputBorderSize())
	fill(p.veil, theme.ColorNameHover)
	show(p.veil, p.hovered && !p.Disabled())
	shown, tone := p.chosen, look.Ink
	if shown == "" {
		shown, tone = p.standing, look.Muted
	}
	if p.Disabled() {
		tone = look.Muted
	}
	p.text.say(shown)
	p.text.tint(tone)
	p.text.dress()
	p.arrow.dress()
	p.cross.light(p.chosen != "" && p.standing != "" && !p.Disabled())
}

// CreateRenderer implements fyne.Widget.
func (p *Picker) CreateRenderer() fyne.WidgetRenderer {
	return face{
		objects: just(p.ground, p.veil, p.text.Text, p.arrow.Image, p.cross),
		layout: func(s fyne.Size) {
			put(p.ground, 0, 0, s.Width, s.Height)
			put(p.veil, 0, 0, s.Width, s.Height)
			side, back := px(20), p.cross.MinSize().Width
			p.text.place(gap(9), 0, s.Width-gap(14)-side-back, s.Height)
			put(p.cross, s.Width-side-gap(5)-back, 0, back, s.Height)
			put(p.arrow, s.Width-side-gap(5), (s.Height-side)/2, side, side)
		},
		min: func() fyne.Size {
			return fyne.NewSize(px(90), lineHeight(theme.SizeNameText)+theme.InnerPadding()*2)
		},
		refresh: func() {
			p.dress()
			p.cross.Refresh()
			canvas.Refresh(p)
		},
	}
}

// matching are the options that hold every word of what was typed, in any case.
func matching(options []string, typed string) []string {
	words := strings.Fields(strings.ToLower(typed))
	if len(words) == 0 {
		return options
	}
	var found []string
	for _, o := range options {
		if holdsAll(strings.ToLower(o), words) {
			found = append(found, o)
		}
	}
	return found
}

func holdsAll(text string, words []string) bool {
	for _, w := range words {
		if !strings.Contains(text, w) {
			return false
		}
	}
	return true
}
