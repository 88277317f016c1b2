package kit

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"

	"meltwright/internal/ui/look"
)

func TestButtonsLookAsTheyDid(t *testing.T) {
	master(t, "buttons", 640, 80, func() fyne.CanvasObject { return buttons() })
}

func TestSpaceAndEnterPressAButton(t *testing.T) {
	plaster(t)
	pressed, left := 0, 0
	b := NewButton("Issue", Primary, func() { pressed++ })
	b.OnEscape = func() { left++ }
	w := window(t, b, 120, 40)
	w.Canvas().Focus(b)
	press(w, fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter, fyne.KeyEscape, fyne.KeyLeft)
	b.TypedRune('x')
	assert.Equal(t, 3, pressed)
	assert.Equal(t, 1, left)
	test.Tap(b)
	assert.Equal(t, 4, pressed)
}

func TestTheRingSaysWhichButtonHasTheFocus(t *testing.T) {
	plaster(t)
	b := NewButton("Issue", Plain, nil)
	w := window(t, b, 120, 40)
	assert.False(t, b.ring.Visible())
	w.Canvas().Focus(b)
	assert.True(t, b.ring.Visible())
	w.Canvas().Focus(nil)
	assert.False(t, b.ring.Visible())
}

func TestADisabledButtonDoesNothingAndStaysReadable(t *testing.T) {
	plaster(t)
	for _, style := range []ButtonStyle{Plain, Primary, Danger, Quiet} {
		b := NewButton("Issue", style, func() { t.Error("pressed") })
		b.Disable()
		test.Tap(b)
		assert.GreaterOrEqual(t, look.Contrast(b.label.Color, look.Colour(look.Panel, false)), 4.5)
		b.MouseIn(nil)
		assert.False(t, b.veil.Visible())
		b.MouseOut()
	}
}

func TestAButtonChangesItsWords(t *testing.T) {
	plaster(t)
	b := NewButton("Copy", Quiet, nil)
	narrow := b.MinSize().Width
	b.SetText("Copied just now")
	assert.Equal(t, "Copied just now", b.Text())
	assert.Greater(t, b.MinSize().Width, narrow)
	b.MouseIn(nil)
	assert.True(t, b.veil.Visible())
}
