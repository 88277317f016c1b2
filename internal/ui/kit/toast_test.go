package kit

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
)

func TestTheToastLooksAsItDid(t *testing.T) {
	master(t, "toast", 500, 120, func() fyne.CanvasObject {
		toast := NewToast()
		toast.Offer("Deleted Ferry Pilot", "Undo", func() {})
		return OverAll(NewText("The screen below."), toast)
	})
}

// timers keeps what a toast wants called later.
type timers struct{ later []func() }

func (x *timers) after(_ time.Duration, f func()) { x.later = append(x.later, f) }

func toastOver(t *testing.T) (*Toast, *timers, fyne.Window) {
	plaster(t)
	toast, x := NewToast(), &timers{}
	toast.After = x.after
	return toast, x, window(t, OverAll(NewText("The screen below."), toast), 600, 300)
}

func TestUndoTakesTheDeletionBackAndTheBarAway(t *testing.T) {
	toast, x, _ := toastOver(t)
	assert.Empty(t, toast.Said())
	undone := 0
	toast.Offer("Deleted Ferry Pilot", "Undo", func() { undone++ })
	assert.Equal(t, "Deleted Ferry Pilot", toast.Said())
	assert.Empty(t, x.later, "a way back does not go by itself")
	test.Tap(toast.act)
	assert.Equal(t, 1, undone)
	assert.Empty(t, toast.Said())
}

func TestAWordGoesByItselfUnlessAnotherCame(t *testing.T) {
	toast, x, _ := toastOver(t)
	toast.Say("Saved")
	assert.False(t, toast.act.Visible())
	toast.Say("Exported")
	x.later[0]()
	assert.Equal(t, "Exported", toast.Said(), "the first timer is not for it")
	x.later[1]()
	assert.Empty(t, toast.Said())
}

func TestTheBarCanBeClosedByKeyboard(t *testing.T) {
	toast, _, w := toastOver(t)
	toast.Offer("Deleted Ferry Pilot", "Undo", func() { t.Error("undone") })
	w.Canvas().Focus(toast.act)
	press(w, fyne.KeyEscape)
	assert.Empty(t, toast.Said())
	toast.Offer("Deleted Ferry Pilot", "Undo", func() { t.Error("undone") })
	test.Tap(toast.closer)
	assert.Empty(t, toast.Said())
}

func TestALongWordIsCutAndTheWayBackStays(t *testing.T) {
	toast, _, w := toastOver(t)
	toast.Offer("Deleted A Very Long Name for a Monument to All Ferry Pilots of the Coast and of the Islands", "Undo", func() {})
	w.Content().Refresh()
	apart(t, texts(w.Content()), 600, 300)
	assert.True(t, says(w.Content(), "Undo"))
}
