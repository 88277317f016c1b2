package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// Check is a box to tick. Beyond Fyne's it scrolls into view when it gains the
// focus, and Delete takes the tick back to what holds by itself.
type Check struct {
	widget.Check
	OnFocus func(focused bool)
	onClear func()
}

// NewCheck makes a box that calls changed when the user ticks or unticks it.
func NewCheck(text string, changed func(bool)) *Check {
	c := &Check{}
	c.Text, c.OnChanged = text, changed
	c.ExtendBaseWidget(c)
	return c
}

// FocusGained implements fyne.Focusable.
func (c *Check) FocusGained() {
	c.Check.FocusGained()
	Reveal(c)
	if c.OnFocus != nil {
		c.OnFocus(true)
	}
}

// FocusLost implements fyne.Focusable.
func (c *Check) FocusLost() {
	c.Check.FocusLost()
	if c.OnFocus != nil {
		c.OnFocus(false)
	}
}

// TypedKey implements fyne.Focusable.
func (c *Check) TypedKey(e *fyne.KeyEvent) {
	if (e.Name == fyne.KeyDelete || e.Name == fyne.KeyBackspace) && c.onClear != nil {
		c.onClear()
		return
	}
	c.Check.TypedKey(e)
}

// put ticks or unticks without telling anybody.
func (c *Check) put(ticked bool) {
	changed := c.OnChanged
	c.OnChanged = nil
	c.SetChecked(ticked)
	c.OnChanged = changed
}
