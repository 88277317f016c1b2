package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"meltwright/internal/ui/kit"
	"meltwright/internal/ui/look"
)

// typist types into the height of a commission of three pieces, one key a turn:
// 2.19 m, 2.1 m, 2.19 m …
func typist(b *testing.B) (*bench, func(turn int)) {
	s := sit(b, withDemo)
	s.wear(look.Light, 100)
	s.win.Resize(fyne.NewSize(1280, 820))
	s.field("form.height").Focus()
	s.press(fyne.KeyHome, fyne.KeyRight, fyne.KeyRight, fyne.KeyRight)
	first := s.price()
	key := func(turn int) {
		if turn%2 == 0 {
			s.press(fyne.KeyDelete)
		} else {
			s.win.Canvas().Focused().TypedRune('9') // and not focused anew, which selects it all
			s.press(fyne.KeyLeft)
		}
	}
	key(0)
	require.NotEqual(b, first, s.price())
	key(1)
	require.Equal(b, first, s.price())
	return s, key
}

// BenchmarkKeystrokeToPrice measures from a key to the price: reckoned, every
// part of the window brought up to date, and the price panel painted in
// software, where a graphics card would take but the letters that changed.
func BenchmarkKeystrokeToPrice(b *testing.B) {
	s, key := typist(b)
	panel := kit.NewPricePanel()
	panel.Set(s.quote().priceShown())
	glass := test.NewTempWindow(b, panel)
	glass.SetPadded(false)
	glass.Resize(s.quote().price.Size())
	glass.Canvas().Capture()
	for i := 0; b.Loop(); i++ {
		key(i)
		panel.Set(s.quote().priceShown())
		glass.Canvas().Capture()
	}
}

// BenchmarkKeystrokeToWindow measures the same without painting: what the
// program itself does between a key and the next frame.
func BenchmarkKeystrokeToWindow(b *testing.B) {
	_, key := typist(b)
	for i := 0; b.Loop(); i++ {
		key(i)
	}
}
