package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"meltwright/internal/ui/look"
)

// Entry is a place to type. Beyond Fyne's it scrolls into view when it gains the
// focus, Enter goes on to the next field and, in several lines too, Tab leaves it.
type Entry struct {
	widget.Entry
	OnFocus  func(focused bool)
	OnEscape func()
	onArrow  func(*fyne.KeyEvent) // told of up and down, for a list below
	replaces bool                 // what is typed on arriving replaces what is there
}

// NewEntry makes an entry of one line, or of more if lines is above one.
func NewEntry(lines int) *Entry {
	e := &Entry{}
	e.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	if lines > 1 {
		e.MultiLine = true
		e.Wrapping = fyne.TextWrapWord
		e.SetMinRowsVisible(lines)
	}
	e.ExtendBaseWidget(e)
	return e
}

// AcceptsTab implements fyne.Tabbable: Tab always goes on.
func (e *Entry) AcceptsTab() bool { return false }

// FocusGained implements fyne.Focusable.
func (e *Entry) FocusGained() {
	e.Entry.FocusGained()
	if e.replaces && e.Text != "" {
		// A click places the cursor right after this, and selects nothing.
		e.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
	Reveal(e)
	if e.OnFocus != nil {
		e.OnFocus(true)
	}
}

// FocusLost implements fyne.Focusable.
func (e *Entry) FocusLost() {
	e.Entry.FocusLost()
	if e.OnFocus != nil {
		e.OnFocus(false)
	}
}

// TypedKey implements fyne.Focusable.
func (e *Entry) TypedKey(key *fyne.KeyEvent) {
	switch {
	case key.Name == fyne.KeyEscape && e.OnEscape != nil:
		e.OnEscape()
	case e.onArrow != nil && movesRows(key.Name):
		e.onArrow(key)
	case (key.Name == fyne.KeyReturn || key.Name == fyne.KeyEnter) && !e.MultiLine && e.OnSubmitted == nil:
		if c := fyne.CurrentApp().Driver().CanvasForObject(e); c != nil {
			c.FocusNext()
		}
	default:
		e.Entry.TypedKey(key)
	}
}

func movesRows(key fyne.KeyName) bool {
	return key == fyne.KeyUp || key == fyne.KeyDown || key == fyne.KeyPageUp || key == fyne.KeyPageDown
}

// put changes the text without telling anybody, and leaves the cursor alone if
// it is the same text.
func (e *Entry) put(text string) {
	if e.Text == text {
		return
	}
	tell := e.OnChanged
	e.OnChanged = nil
	e.SetText(text)
	e.OnChanged = tell
}

// tail is what stands at the right end inside an entry: its unit, and a sign to
// take back what was typed.
type tail struct {
	widget.BaseWidget
	unit  *ink
	cross *cross
}

func newTail(unit string, back func()) *tail {
	t := &tail{unit: newInk(theme.SizeNameText, look.Muted, plain).trailing(), cross: newCross(back)}
	t.unit.say(unit)
	t.ExtendBaseWidget(t)
	return t
}

// offer shows the × or hides it; the unit keeps to the right.
func (t *tail) offer(on bool) {
	if t.cross.on != on {
		t.cross.light(on)
		t.Refresh()
	}
}

// CreateRenderer implements fyne.Widget.
func (t *tail) CreateRenderer() fyne.WidgetRenderer {
	lay := func(s fyne.Size) {
		side := t.cross.MinSize().Width
		put(t.cross, s.Width-side, 0, side, s.Height)
		if t.cross.on {
			t.unit.place(0, 0, s.Width-side-gap(1), s.Height)
		} else {
			t.unit.place(0, 0, s.Width-gap(8), s.Height)
		}
	}
	return face{
		objects: just(t.unit.Text, t.cross),
		layout:  lay,
		min: func() fyne.Size {
			w := t.cross.MinSize().Width
			if t.unit.full != "" {
				w += t.unit.natural() + gap(2)
			}
			return fyne.NewSize(w, lineHeight(theme.SizeNameText))
		},
		refresh: func() {
			t.unit.dress()
			t.cross.Refresh()
			lay(t.Size())
			canvas.Refresh(t)
		},
	}
}

// cross is a small × that is pressed with the mouse; the keyboard has no need of
// it, because an emptied field means the same.
type cross struct {
	widget.BaseWidget
	tapped func()
	on     bool
	sign   *badge
}

func newCross(tapped func()) *cross {
	c := &cross{tapped: tapped, sign: newBadge(theme.IconNameCancel, look.Muted)}
	c.sign.Hide()
	c.ExtendBaseWidget(c)
	return c
}

// light shows the × or hides it; its room is kept.
func (c *cross) light(on bool) {
	c.on = on
	show(c.sign, on)
}

// Tapped implements fyne.Tappable.
func (c *cross) Tapped(*fyne.PointEvent) {
	if c.on {
		c.tapped()
	}
}

// CreateRenderer implements fyne.Widget.
func (c *cross) CreateRenderer() fyne.WidgetRenderer {
	return face{
		objects: just(c.sign.Image),
		layout:  func(s fyne.Size) { put(c.sign, (s.Width-px(14))/2, (s.Height-px(14))/2, px(14), px(14)) },
		min:     func() fyne.Size { return fyne.NewSize(px(22), px(14)) },
		refresh: func() { c.sign.dress() },
	}
}
