package kit

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
)

func TestAProgressTellsHowFarAndWhat(t *testing.T) {
	plaster(t)
	w := window(t, NewText("The screen below."), 640, 400)
	p := ShowProgress(w.Canvas(), "Measuring the scan", "ferry-pilot.stl", func() {})
	over := w.Canvas().Overlays().Top()
	p.Set(0.42, "welding corners")
	assert.True(t, says(over, "welding corners 42 %"))
	assert.InDelta(t, 0.42, p.gauge.full.Size().Width/p.gauge.trough.Size().Width, 0.01)
	p.Set(7, "done")
	assert.True(t, says(over, "100 %"))
	p.Set(-1, "looking for the end")
	assert.False(t, says(over, "%"), "nobody knows")
	p.Done()
	assert.Nil(t, w.Canvas().Overlays().Top())
}

func TestWorkIsCalledOffOnce(t *testing.T) {
	plaster(t)
	w := window(t, NewText("The screen below."), 640, 400)
	calls := 0
	p := ShowProgress(w.Canvas(), "Measuring the scan", "", func() { calls++ })
	press(w, fyne.KeyEscape, fyne.KeyEscape, fyne.KeyReturn)
	assert.Equal(t, 1, calls)
	assert.True(t, says(w.Canvas().Overlays().Top(), "Stopping …"), "it stays until the work has stopped")
	p.Done()
}
