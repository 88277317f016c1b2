package kit

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
)

func TestAColumnGivesEachPartTheHeightItNeedsInItsWidth(t *testing.T) {
	plaster(t)
	long := NewText("Over 45 kg: lift with rated gear. Anchors and frame need a licensed engineer.").(*para)
	short := NewText("Yes.").(*para)
	c := NewColumn(10, long, short)
	c.Resize(fyne.NewSize(200, 500))
	assert.Equal(t, long.heightFor(200), long.Size().Height)
	assert.InDelta(t, long.Size().Height+10, short.Position().Y, 1)
	assert.InDelta(t, long.Size().Height+10+short.Size().Height, c.MinSize().Height, 0.01)
	long.Hide()
	assert.InDelta(t, short.Size().Height, c.MinSize().Height, 0.01, "what is hidden takes no room, nor its gap")
}

func TestAPageIsNoWiderThanCanBeRead(t *testing.T) {
	plaster(t)
	h := NewHeading("Shell", "Slurry and stucco")
	w := window(t, NewPage(h), 2000, 600)
	assert.Equal(t, float32(880), h.Size().Width)
	w.Resize(fyne.NewSize(500, 600))
	assert.Equal(t, float32(444), h.Size().Width)
}

func TestAMarginStandsAroundItsObject(t *testing.T) {
	plaster(t)
	o := NewText("Yes.")
	c := NewPadded(20, 10, o)
	c.Resize(fyne.NewSize(200, 100))
	assert.Equal(t, fyne.NewPos(20, 10), o.Position())
	assert.Equal(t, fyne.NewSize(160, 80), o.Size())
}

func TestAHeadingTakesLinesAsItNeedsThem(t *testing.T) {
	plaster(t)
	h := NewHeading("Shell", "Slurry and stucco over the gated waxes, inside and out")
	assert.Greater(t, h.heightFor(150), h.heightFor(600))
	h.Set("Pour", "")
	w := window(t, h, 300, 100)
	assert.True(t, says(w.Content(), "Pour"))
	assert.InDelta(t, lineHeight("headingText"), h.heightFor(600), 1)
}
