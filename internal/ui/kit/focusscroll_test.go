package kit

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"

	"meltwright/internal/ui/look"
)

func TestTheScrollFollowsTheFocus(t *testing.T) {
	plaster(t)
	q := newQuoteScreen()
	w := window(t, q.sheet, 1024, 300)
	q.grid.Field("fine").Focus()
	for range q.grid.Fields() {
		inView(t, w, w.Canvas().Focused().(fyne.CanvasObject))
		test.FocusNext(w.Canvas())
	}
	assert.Greater(t, q.middle.Offset(), float32(100))
	q.grid.Field("fine").Focus()
	inView(t, w, q.grid.Field("fine").box)
	q.middle.ScrollToTop()
	assert.Zero(t, q.middle.Offset())
}

// inView holds that an object lies within the scroll around it.
func inView(t *testing.T, w fyne.Window, o fyne.CanvasObject) {
	t.Helper()
	d := fyne.CurrentApp().Driver()
	y := d.AbsolutePositionForObject(o).Y
	assert.GreaterOrEqual(t, y, float32(50))
	assert.LessOrEqual(t, y+o.Size().Height, w.Canvas().Size().Height)
}

func TestRevealGoesThroughScrollsWithinScrolls(t *testing.T) {
	plaster(t)
	deep := NewButton("Deep", Plain, nil)
	tall := func(o fyne.CanvasObject) fyne.CanvasObject {
		return container.NewVBox(&tallThing{}, o, &tallThing{})
	}
	inner := container.NewVScroll(tall(deep))
	inner.SetMinSize(fyne.NewSize(100, 150))
	outer := NewFocusScroll(tall(inner))
	w := window(t, container.NewStack(outer), 200, 200)
	w.Canvas().Focus(deep)
	assert.Greater(t, inner.Offset.Y, float32(300))
	assert.Greater(t, outer.Offset(), float32(300))
}

func TestRevealOfWhatIsNowhereDoesNothing(t *testing.T) {
	plaster(t)
	w := window(t, NewFocusScroll(&tallThing{}), 200, 200)
	Reveal(NewButton("elsewhere", Plain, nil))
	assert.Zero(t, w.Content().(*FocusScroll).Offset())
}

func TestALongTableDrawsOnlyWhatCanBeSeen(t *testing.T) {
	plaster(t)
	table := longTable(500)
	page := NewPage(NewHeading("Shell", ""), table)
	w := window(t, page, 700, 400)
	assert.Less(t, table.list.strip.last, 20)
	assert.True(t, says(w.Content(), "Section 3, shell and stucco"))
	assert.False(t, says(w.Content(), "Section 300, shell and stucco"))
	test.Scroll(w.Canvas(), fyne.NewPos(300, 200), 0, -34*300)
	assert.True(t, says(w.Content(), "Section 300, shell and stucco"))
	assert.Less(t, table.list.strip.last-table.list.strip.first, 20)
	assert.Less(t, len(table.list.strip.pool), 70, "the same few rows serve")
}

func TestOtherContentBeginsAtItsTop(t *testing.T) {
	plaster(t)
	s := NewFocusScroll(longTable(100))
	w := window(t, s, 500, 300)
	test.Scroll(w.Canvas(), fyne.NewPos(100, 100), 0, -500)
	assert.Greater(t, s.Offset(), float32(0))
	text := NewText("Nothing was scanned yet.")
	s.SetContent(text)
	assert.Zero(t, s.Offset())
	assert.Same(t, text, s.Content())
	assert.True(t, says(w.Content(), "Nothing was scanned yet."))
}

// tallThing is something taller than a window.
type tallThing struct{ widget.BaseWidget }

func (x *tallThing) MinSize() fyne.Size { return fyne.NewSize(50, 500) }
func (x *tallThing) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewWithoutLayout())
}

// When a note below a field comes to need another line, what follows moves down;
// the table must hear of it.
func TestATableHearsThatItWasMoved(t *testing.T) {
	plaster(t)
	table, above := longTable(100), NewText("One line.").(*para)
	page := NewPage(above, table)
	w := window(t, page, 500, 300)
	test.Scroll(w.Canvas(), fyne.NewPos(100, 100), 0, -34*20)
	first := table.list.strip.first
	above.say(span{text: strings.Repeat("Over 45 kg: lift with rated gear. ", 80), colour: look.Ink})
	page.Refresh()
	assert.Less(t, table.list.strip.first, first)
}
