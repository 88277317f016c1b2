package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"meltwright/internal/quantity"
	"meltwright/internal/ui/kit"
)

// heightSlider draws a height from one place to another. Arrow keys go by a
// step, Page Up and Page Down by ten, Home and End to the ends.
type heightSlider struct {
	widget.Slider
	ended func() // told when the drag ends, or the keyboard goes elsewhere
	of    int    // the option whose height it is
}

func newHeightSlider(told func(quantity.Length), ended func()) *heightSlider {
	s := &heightSlider{ended: ended, of: -1}
	s.Orientation = widget.Horizontal
	s.OnChanged = func(v float64) { told(quantity.Length(v)) }
	s.ExtendBaseWidget(s)
	return s
}

// put shows the height of option i between two others, in steps of the units,
// without telling anybody. The ends stay where they are while the same option's
// height is between them, so that a drag has firm ground.
func (s *heightSlider) put(i int, h, low, high quantity.Length, sys quantity.System) {
	v, step := float64(h), 0.01
	if sys == quantity.InchPound {
		step = quantity.Inch.Size / 2
	}
	if i != s.of || step != s.Step || v < s.Min || v > s.Max || s.Min < float64(low) {
		s.of, s.Step, s.Min, s.Max = i, step, min(float64(low), v), max(float64(high), v)
	} else if s.Value == v {
		return
	}
	s.Value = v
	s.Refresh()
}

// DragEnd implements fyne.Draggable.
func (s *heightSlider) DragEnd() {
	s.Slider.DragEnd()
	s.ended()
}

// FocusLost implements fyne.Focusable.
func (s *heightSlider) FocusLost() {
	s.Slider.FocusLost()
	s.ended()
}

// FocusGained implements fyne.Focusable.
func (s *heightSlider) FocusGained() {
	s.Slider.FocusGained()
	kit.Reveal(s)
}

// TypedKey implements fyne.Focusable.
func (s *heightSlider) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyPageUp:
		s.SetValue(s.Value + 10*s.Step)
	case fyne.KeyPageDown:
		s.SetValue(s.Value - 10*s.Step)
	case fyne.KeyHome:
		s.SetValue(s.Min)
	case fyne.KeyEnd:
		s.SetValue(s.Max)
	default:
		s.Slider.TypedKey(e)
	}
}
