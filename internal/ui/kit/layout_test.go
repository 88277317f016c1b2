package kit

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/ui/look"
)

var windowSizes = [][2]float32{{1024, 700}, {1280, 820}, {1600, 1000}, {2560, 1400}}

func TestNoTextOverlapsAnotherOrLeavesTheWindow(t *testing.T) {
	for _, size := range windowSizes {
		for _, percent := range []int{100, 125, 150, 175, 200} {
			t.Run(fmt.Sprintf("%.0fx%.0f at %d %%", size[0], size[1], percent), func(t *testing.T) {
				wear(t, look.Light, percent)
				w := window(t, newQuoteScreen().sheet, size[0], size[1])
				apart(t, texts(w.Content()), size[0], size[1])
			})
		}
	}
}

// apart holds that texts stand clear of each other and inside the window.
func apart(t *testing.T, all []seen, w, h float32) {
	t.Helper()
	const slack = 1.5
	require.NotEmpty(t, all)
	for i, a := range all {
		assert.GreaterOrEqual(t, a.x, float32(-slack), "%q begins left of the window", a.text)
		assert.LessOrEqual(t, a.x+a.w, w+slack, "%q ends right of the window", a.text)
		assert.LessOrEqual(t, a.y+a.h, h+slack, "%q ends below the window", a.text)
		for _, b := range all[i+1:] {
			across := min(a.x+a.w, b.x+b.w) - max(a.x, b.x)
			down := min(a.y+a.h, b.y+b.h) - max(a.y, b.y)
			assert.False(t, across > slack && down > max(4, 0.3*min(a.h, b.h)), "%q lies over %q", a.text, b.text)
		}
	}
}

func TestThePriceIsInViewAtEverySize(t *testing.T) {
	for _, size := range windowSizes {
		for _, percent := range []int{100, 150, 200} {
			wear(t, look.Dark, percent)
			w := window(t, newQuoteScreen().sheet, size[0], size[1])
			assert.True(t, says(w.Content(), "$128,400"), "%v at %d %%", size, percent)
		}
	}
}

func TestTabGoesThroughTheScreenInTheOrderOfTheWork(t *testing.T) {
	plaster(t)
	q := newQuoteScreen()
	w := window(t, q.sheet, 1280, 820)
	want := []fyne.Focusable{q.bar.back, q.bar.buttons[0], q.bar.buttons[1], q.bar.buttons[2], q.rail.body}
	for _, f := range q.grid.Fields() {
		want = append(want, f.box.(fyne.Focusable))
	}
	want = append(want, q.table.list, q.working.copyButton)
	for i, f := range want {
		test.FocusNext(w.Canvas())
		require.Same(t, f, w.Canvas().Focused(), "stop %d", i)
	}
	test.FocusNext(w.Canvas())
	assert.Same(t, want[0], w.Canvas().Focused(), "and round again")
	test.FocusPrevious(w.Canvas())
	assert.Same(t, want[len(want)-1], w.Canvas().Focused())
}

// Whoever changes the look while the window is open sees what they would have
// seen had it been opened so.
func TestTheLookCanBeChangedWhileTheWindowIsOpen(t *testing.T) {
	wear(t, look.Dark, 150)
	fresh := test.RenderToMarkup(window(t, newQuoteScreen().sheet, 1280, 820).Canvas())
	wear(t, look.Light, 100)
	w := window(t, newQuoteScreen().sheet, 1280, 820)
	test.ApplyTheme(t, look.New(look.Dark, 150))
	w.Content().Refresh()
	assert.Equal(t, fresh, test.RenderToMarkup(w.Canvas()))
}

// A part that is shown where nobody put our look on must still be readable.
func TestPartsDoNotFailUnderAnotherTheme(t *testing.T) {
	test.NewTempApp(t)
	w := window(t, newQuoteScreen().sheet, 1280, 820)
	assert.True(t, says(w.Content(), "Shell"))
}
