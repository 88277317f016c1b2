package kit

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"meltwright/internal/ui/look"
)

func TestTheSheetLooksAsItDid(t *testing.T) {
	master(t, "sheet", 1280, 820, func() fyne.CanvasObject { return newQuoteScreen().sheet })
}

func TestThreeColumnsHaveTheWidthsOfTheDesign(t *testing.T) {
	plaster(t)
	q := newQuoteScreen()
	window(t, q.sheet, 1280, 820)
	assert.Equal(t, float32(290), q.rail.Size().Width)
	assert.Equal(t, float32(300), q.price.Size().Width)
	assert.Equal(t, float32(690), q.middle.Size().Width)
	assert.InDelta(t, q.bar.Size().Height, q.rail.Position().Y, 0.5)
}

func TestAt1024NotesStillStandBesideTheirFields(t *testing.T) {
	plaster(t)
	q := newQuoteScreen()
	window(t, q.sheet, 1024, 700)
	f := q.grid.Field("medium")
	assert.Greater(t, f.note.Position().X, f.box.Position().X+f.box.Size().Width)
	assert.Equal(t, float32(0), q.price.Position().X-q.middle.Position().X-q.middle.Size().Width)
}

func TestWithLargeTextThePriceIsAStripBelow(t *testing.T) {
	wear(t, look.Light, 200)
	q := newQuoteScreen()
	window(t, q.sheet, 1024, 700)
	assert.Zero(t, q.price.Position().X)
	assert.Equal(t, float32(1024), q.price.Size().Width)
	assert.InDelta(t, 700, q.price.Position().Y+q.price.Size().Height, 1)
	assert.Greater(t, q.middle.Size().Height, float32(380), "most of the height is for the work")
	assert.Greater(t, q.middle.Size().Width, float32(600))
}

func TestPartsOfASheetNeverOverlap(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		percent := rapid.IntRange(100, 200).Draw(r, "percent")
		fyne.CurrentApp().Settings().SetTheme(look.New(look.Light, percent))
		w, h := rapid.Float32Range(800, 3000).Draw(r, "w"), rapid.Float32Range(500, 1800).Draw(r, "h")
		q := newQuoteScreen()
		q.sheet.Resize(fyne.NewSize(w, h))
		parts := q.sheet.Held()
		var area float32
		for i, a := range parts {
			area += a.Size().Width * a.Size().Height
			assert.Positive(r, a.Size().Width)
			assert.Positive(r, a.Size().Height)
			for _, b := range parts[i+1:] {
				across := min(a.Position().X+a.Size().Width, b.Position().X+b.Size().Width) - max(a.Position().X, b.Position().X)
				down := min(a.Position().Y+a.Size().Height, b.Position().Y+b.Size().Height) - max(a.Position().Y, b.Position().Y)
				assert.False(r, across > 1 && down > 1)
			}
		}
		assert.InEpsilon(r, w*h, area, 0.01, "nor leave anything out")
	})
}

func TestASheetMayLackARailOrAPrice(t *testing.T) {
	plaster(t)
	bar, list := demoBar(nil), demoList()
	s := NewSheet(bar, nil, list, nil)
	window(t, s, 1000, 600)
	assert.Equal(t, float32(1000), list.Size().Width)
	text := NewText("Nothing here.")
	s.SetMiddle(text)
	assert.Equal(t, float32(1000), text.Size().Width)
	assert.Len(t, NewSheet(nil, nil, nil, nil).Held(), 0)
}
