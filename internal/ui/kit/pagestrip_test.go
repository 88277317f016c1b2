package kit

import (
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"

	"meltwright/internal/drawing"
)

// sheets are so many pages of A4, the first of which has a dark half.
func sheets(n int) []drawing.Scene {
	pages := make([]drawing.Scene, n)
	for i := range pages {
		pages[i] = drawing.Scene{Width: 595, Height: 842}
	}
	pages[0].Items = []drawing.Item{drawing.Shape{Path: drawing.Rect(0, 0, 595, 421), Fill: drawing.Ink}}
	return pages
}

func TestPagesStandInAsManyRowsAsTheyTake(t *testing.T) {
	s := NewPageStrip(nil)
	assert.Zero(t, s.heightFor(300), "none takes no room")
	s.SetPages(sheets(7))
	one := s.heightFor(2000)
	assert.InDelta(t, 2*one, s.heightFor(250), 0.01)
	assert.InDelta(t, 7*one, s.heightFor(10), 0.01)
}

func TestAPageIsChosenByTappingAndByKeys(t *testing.T) {
	var told []int
	s := NewPageStrip(func(page int) { told = append(told, page) })
	s.SetPages(sheets(7))
	s.Resize(fyne.NewSize(250, s.heightFor(250)))
	w, _, h, across := s.cell(250)
	tap := func(column, row float32) {
		test.TapAt(s, fyne.NewPos((column+0.5)*(w+px(smallGap)), (row+0.4)*h))
	}
	tap(2, 0)
	tap(2, 0)
	tap(0, 1)
	tap(6, 1) // nothing is there
	assert.Equal(t, []int{2, across}, told)
	for key, want := range map[fyne.KeyName]int{fyne.KeyHome: 0, fyne.KeyEnd: 6} {
		s.TypedKey(&fyne.KeyEvent{Name: key})
		assert.Equal(t, want, s.Chosen())
	}
	s.Choose(3)
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	assert.Equal(t, 2+across, s.Chosen())
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	assert.Equal(t, 2+across, s.Chosen(), "there is none below")
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	assert.Equal(t, min(3+across, 6)-across, s.Chosen())
}

func TestFewerPagesKeepTheChoiceAmongThem(t *testing.T) {
	s := NewPageStrip(nil)
	s.SetPages(sheets(7))
	s.Choose(6)
	s.SetPages(sheets(3))
	assert.Equal(t, 2, s.Chosen())
	assert.Len(t, s.objects(), 9)
	s.Choose(3)
	assert.Equal(t, 2, s.Chosen())
}

func TestASmallPageIsThePageOnWhitePaper(t *testing.T) {
	s := NewPageStrip(nil)
	s.SetPages(sheets(2))
	img := s.picture(0, 44, 62)
	paper := drawing.Light().Colour(drawing.Sheet)
	assert.NotEqual(t, color.RGBAModel.Convert(paper), img.At(22, 10))
	assert.Equal(t, color.RGBAModel.Convert(paper), img.At(22, 50))
	assert.NotPanics(t, func() { s.picture(9, 0, 0) })
}
