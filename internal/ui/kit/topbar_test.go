package kit

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func demoBar(do func(string)) *TopBar {
	b := NewTopBar()
	b.SetTitle("The Ferry Pilot", "Town of Alder Reach · draft, revision B")
	action := func(text string, primary bool) Action {
		return Action{Text: text, Primary: primary, Do: func() { do(text) }}
	}
	b.SetActions(action("Scale options", false), action("Cost sheet", false), action("Make proposal", true))
	return b
}

func TestTheTopBarLooksAsItDid(t *testing.T) {
	master(t, "topbar", 900, 56, func() fyne.CanvasObject { return demoBar(nil) })
}

func TestTheActionsActAndTheWayBackGoesBack(t *testing.T) {
	plaster(t)
	var done []string
	b := demoBar(func(s string) { done = append(done, s) })
	window(t, b, 900, 56)
	for _, button := range b.buttons {
		test.Tap(button)
	}
	assert.False(t, b.back.Visible())
	b.SetBack(func() { done = append(done, "back") })
	test.Tap(b.back)
	assert.Equal(t, []string{"Scale options", "Cost sheet", "Make proposal", "back"}, done)
	b.SetBack(nil)
	assert.False(t, b.back.Visible())
}

func TestANarrowBarFoldsItsPlainActionsIntoAMenu(t *testing.T) {
	plaster(t)
	var done string
	b := demoBar(func(s string) { done = s })
	w := window(t, b, 540, 56)
	assert.True(t, b.more.Visible())
	assert.True(t, b.buttons[2].Visible(), "the chief action stays")
	assert.Equal(t, 1, b.folded)
	b.Resize(fyne.NewSize(440, 56))
	assert.Equal(t, 2, b.folded)
	test.Tap(b.more)
	items := folded(w)
	require.Len(t, items, 2)
	items[1].Tapped(nil)
	assert.Equal(t, "Cost sheet", done)
	b.Resize(fyne.NewSize(900, 56))
	assert.False(t, b.more.Visible())
	apart(t, texts(b), 900, 56)
}

// folded are the tappable items of the open menu.
func folded(w fyne.Window) []fyne.Tappable {
	var items []fyne.Tappable
	for _, o := range test.LaidOutObjects(w.Canvas().Overlays().Top()) {
		if _, isMenu := o.(*widget.PopUpMenu); isMenu {
			continue
		}
		if item, ok := o.(fyne.Tappable); ok && len(texts(o)) == 1 {
			items = append(items, item)
		}
	}
	return items
}

func TestAnActionCanBeOutOfReach(t *testing.T) {
	plaster(t)
	var done string
	b := demoBar(func(s string) { done = s })
	window(t, b, 900, 56)
	b.SetDisabled("Make proposal", true)
	test.Tap(b.buttons[2])
	assert.Empty(t, done)
	b.SetDisabled("Make proposal", false)
	test.Tap(b.buttons[2])
	assert.Equal(t, "Make proposal", done)
}

func TestALongTitleIsCutAndTheLineBesideItGoes(t *testing.T) {
	plaster(t)
	b := demoBar(nil)
	window(t, b, 620, 56)
	b.SetTitle("A Very Long Name for a Monument to All Ferry Pilots of the Coast", "Town")
	apart(t, texts(b), 620, 56)
	assert.False(t, b.subtitle.Visible())
}
