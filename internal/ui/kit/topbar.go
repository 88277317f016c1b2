package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"meltwright/internal/ui/look"
)

// Action is something to do, offered in the top bar.
type Action struct {
	Text     string
	Icon     fyne.ThemeIconName // "" for none
	Primary  bool               // the one to press
	Disabled bool
	Do       func()
}

// TopBar is the dark bar over a screen: a way back, the title, a line about it,
// and actions at the right. With too little width the plain actions go, from the
// left, into a menu.
type TopBar struct {
	widget.BaseWidget
	ground          *canvas.Rectangle
	title, subtitle *ink
	back            *Button // hidden without a way back
	actions         []Action
	buttons         []*Button
	more            *Button
	folded          int // how many of the first actions are in the menu
}

// NewTopBar makes a bar without title or actions.
func NewTopBar() *TopBar {
	b := &TopBar{ground: &canvas.Rectangle{}}
	b.title = newInk(look.SizeTitle, look.OnBar, bold)
	b.subtitle = newInk(theme.SizeNameText, look.OnBarLow, plain)
	b.back = NewButton("", Plain, nil).forBar().WithIcon(theme.IconNameNavigateBack)
	b.back.Hide()
	b.more = NewButton("More", Plain, nil).forBar().WithIcon(theme.IconNameMenu)
	b.more.OnTapped = b.openMenu
	b.more.Hide()
	b.ExtendBaseWidget(b)
	return b
}

// SetTitle shows a title and a line beside it.
func (b *TopBar) SetTitle(title, subtitle string) {
	one, other := b.title.say(title), b.subtitle.say(subtitle)
	if one || other {
		b.relay(b.Size())
	}
}

// SetBack shows a way back, or with nil takes it away.
func (b *TopBar) SetBack(back func()) {
	b.back.OnTapped = back
	show(b.back, back != nil)
	b.relay(b.Size())
}

// SetActions offers actions, from left to right.
func (b *TopBar) SetActions(actions ...Action) {
	b.actions = actions
	b.buttons = b.buttons[:0]
	for _, a := range actions {
		b.buttons = append(b.buttons, newActionButton(a))
	}
	b.relay(b.Size())
	canvas.Refresh(b)
}

// SetDisabled makes an action possible or not, by its text.
func (b *TopBar) SetDisabled(text string, disabled bool) {
	for i, a := range b.actions {
		if a.Text != text || a.Disabled == disabled {
			continue
		}
		b.actions[i].Disabled = disabled
		able(b.buttons[i], !disabled)
	}
}

func newActionButton(a Action) *Button {
	style := Plain
	if a.Primary {
		style = Primary
	}
	button := NewButton(a.Text, style, a.Do).forBar()
	if a.Icon != "" {
		button.WithIcon(a.Icon)
	}
	able(button, !a.Disabled)
	return button
}

func able(d fyne.Disableable, on bool) {
	if on {
		d.Enable()
	} else {
		d.Disable()
	}
}

// Held implements Holder.
func (b *TopBar) Held() []fyne.CanvasObject {
	held := []fyne.CanvasObject{b.back}
	for _, button := range b.buttons {
		held = append(held, button)
	}
	return append(held, b.more)
}

// openMenu offers the folded actions below their button.
func (b *TopBar) openMenu() {
	c := fyne.CurrentApp().Driver().CanvasForObject(b.more)
	if c == nil {
		return
	}
	var items []*fyne.MenuItem
	for _, a := range b.actions {
		if a.Primary {
			continue
		}
		item := fyne.NewMenuItem(a.Text, a.Do)
		item.Disabled = a.Disabled
		items = append(items, item)
	}
	items = items[:min(b.folded, len(items))]
	menu := widget.NewPopUpMenu(fyne.NewMenu("", items...), c)
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(b.more)
	x := at.X + b.more.Size().Width - menu.MinSize().Width
	menu.ShowAtPosition(fyne.NewPos(max(x, 0), at.Y+b.more.Size().Height))
	c.Focus(menu)
}

// relay places the bar's parts for a width.
func (b *TopBar) relay(s fyne.Size) {
	if s.Width <= 0 {
		return
	}
	put(b.ground, 0, 0, s.Width, s.Height)
	left, side := gap(20), gap(16)
	if b.back.Visible() {
		size := b.back.MinSize()
		put(b.back, side, (s.Height-size.Height)/2, size.Width, size.Height)
		left = side + size.Width + gap(14)
	}
	least := min(b.title.natural(), px(230))
	right := b.layActions(s, left+least+gap(20))
	room := right - left - gap(20)
	title := min(b.title.natural(), room)
	b.title.place(left, 0, title, s.Height)
	rest := room - title - gap(14)
	show(b.subtitle.Text, rest > px(70))
	b.subtitle.place(left+title+gap(14), px(1), rest, s.Height)
}

// layActions places buttons from the right as far as to the left limit, folds the
// others into the menu, and says where the leftmost begins.
func (b *TopBar) layActions(s fyne.Size, limit float32) float32 {
	between := gap(10)
	b.folded = b.fold(s.Width-gap(20)-limit, between)
	x := s.Width - gap(20)
	place := func(button *Button) {
		size := button.MinSize()
		x -= size.Width
		put(button, x, (s.Height-size.Height)/2, size.Width, size.Height)
		x -= between
	}
	plain := 0
	for i, a := range b.actions {
		hidden := false
		if !a.Primary {
			hidden = plain < b.folded
			plain++
		}
		show(b.buttons[i], !hidden)
	}
	for i := len(b.buttons) - 1; i >= 0; i-- {
		if b.buttons[i].Visible() {
			place(b.buttons[i])
		}
	}
	show(b.more, b.folded > 0)
	if b.folded > 0 {
		place(b.more)
	}
	return x + between
}

// fold is how many plain actions must go into the menu for the rest to fit.
func (b *TopBar) fold(room, between float32) int {
	var all float32
	var plain []float32
	for i, a := range b.actions {
		w := b.buttons[i].MinSize().Width + between
		all += w
		if !a.Primary {
			plain = append(plain, w)
		}
	}
	folded := 0
	for folded < len(plain) && all-between > room {
		if folded == 0 {
			all += b.more.MinSize().Width + between
		}
		all -= plain[folded]
		folded++
	}
	return folded
}

// CreateRenderer implements fyne.Widget.
func (b *TopBar) CreateRenderer() fyne.WidgetRenderer {
	dress := func() {
		fill(b.ground, look.Bar)
		b.title.dress()
		b.subtitle.dress()
	}
	dress()
	return face{
		objects: func() []fyne.CanvasObject {
			objects := []fyne.CanvasObject{b.ground, b.back, b.title.Text, b.subtitle.Text, b.more}
			for _, button := range b.buttons {
				objects = append(objects, button)
			}
			return objects
		},
		layout: b.relay,
		min: func() fyne.Size {
			return fyne.NewSize(px(240), lineHeight(theme.SizeNameText)+gap(37))
		},
		refresh: func() {
			dress()
			for _, o := range b.Held() {
				o.Refresh()
			}
			b.relay(b.Size())
			canvas.Refresh(b)
		},
	}
}
