package kit

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
)

func demoWorking() *Working {
	w := NewWorking()
	w.Set(demoReckoning())
	return w
}

func TestTheWorkingLooksAsItDid(t *testing.T) {
	master(t, "working", 640, 200, func() fyne.CanvasObject { return NewColumn(0, demoWorking()) })
}

func TestTheWorkingCanBeCopiedAsText(t *testing.T) {
	plaster(t)
	w := demoWorking()
	win := window(t, w, 640, 200)
	test.Tap(w.copyButton)
	want := "Stucco, fused silica\n6.17 m² × 12 coats × 2.00 kg/m² = 148.0 kg\n" +
		"shelled area\t6.17 m²\toutside 2.79 + inside 2.66 + gates 0.72\n" +
		"coats\t12\t2 fine, 2 medium, 8 coarse\n" +
		"use per coat\t2.00 kg/m²\tshop book, 14 March\n"
	assert.Equal(t, want, fyne.CurrentApp().Clipboard().Content())
	assert.True(t, says(win.Content(), "Copied"))
	w.Set(demoReckoning())
	assert.False(t, says(win.Content(), "Copied"))
}

func TestTheWorkingHidesWhenThereIsNone(t *testing.T) {
	plaster(t)
	w := demoWorking()
	assert.True(t, w.Visible())
	w.Set(Reckoning{})
	assert.False(t, w.Visible())
	assert.False(t, NewWorking().Visible())
}

func TestOriginsGoBelowWhereThereIsNoRoomBeside(t *testing.T) {
	plaster(t)
	w := demoWorking()
	wide, narrow := w.heightFor(640), w.heightFor(300)
	assert.Greater(t, narrow, wide+40)
	win := window(t, NewFocusScroll(w), 300, 400)
	assert.True(t, says(win.Content(), "outside 2.79 + inside 2.66"))
	apart(t, texts(win.Content()), 300, 400)
}
