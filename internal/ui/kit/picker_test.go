package kit

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// stone is a field that chooses among n stones.
func stone(t *testing.T, n int) (*Field, *[]string, fyne.Window) {
	plaster(t)
	var told []string
	f := NewField(FieldSpec{
		ID: "stone", Kind: ChoiceField, Label: "Stone", Options: manyWords(n), Default: "Stone 2", Origin: "shop book",
		OnChanged: func(s string) { told = append(told, s) },
	})
	w := window(t, NewFieldGrid(f), 640, 480)
	f.Focus()
	return f, &told, w
}

func TestAShortChoiceIsMadeWithTheArrows(t *testing.T) {
	f, told, w := stone(t, 5)
	press(w, fyne.KeySpace)
	require.NotNil(t, w.Canvas().Overlays().Top())
	press(w, fyne.KeyDown, fyne.KeyDown, fyne.KeyReturn)
	assert.Equal(t, []string{"Stone 4"}, *told, "from the default, which is marked")
	assert.Nil(t, w.Canvas().Overlays().Top())
	assert.Same(t, f.box, w.Canvas().Focused(), "the focus comes back")
	assert.True(t, says(w.Content(), "instead of Stone 2, shop book"))
}

func TestALongChoiceIsFilteredAsOneTypes(t *testing.T) {
	_, told, w := stone(t, 1000)
	w.Canvas().Focused().TypedRune('9')
	filter, ok := w.Canvas().Focused().(*Entry)
	require.True(t, ok, "a place to type has the focus")
	test.Type(filter, "87")
	assert.Equal(t, "987", filter.Text)
	assert.True(t, says(w.Canvas().Overlays().Top(), "Stone 987"))
	assert.False(t, says(w.Canvas().Overlays().Top(), "Stone 98 "))
	press(w, fyne.KeyReturn)
	assert.Equal(t, []string{"Stone 987"}, *told)
}

func TestTheArrowsMoveInTheListWhileOneTypes(t *testing.T) {
	_, told, w := stone(t, 100)
	press(w, fyne.KeyDown)
	test.Type(w.Canvas().Focused(), "1")
	press(w, fyne.KeyDown, fyne.KeyReturn)
	assert.Equal(t, []string{"Stone 10"}, *told)
}

func TestEscapeLeavesTheChoiceAsItWas(t *testing.T) {
	f, told, w := stone(t, 100)
	for _, n := range []int{100, 3} {
		f.SetOptions(manyWords(n))
		press(w, fyne.KeySpace)
		press(w, fyne.KeyEscape)
		assert.Nil(t, w.Canvas().Overlays().Top())
		assert.Same(t, f.box, w.Canvas().Focused())
	}
	assert.Empty(t, *told)
}

func TestWhatMatchesNothingChoosesNothing(t *testing.T) {
	_, told, w := stone(t, 100)
	press(w, fyne.KeySpace)
	test.Type(w.Canvas().Focused(), "marble of Carrara")
	press(w, fyne.KeyDown, fyne.KeyReturn)
	assert.Empty(t, *told)
	assert.Nil(t, w.Canvas().Overlays().Top())
}

func TestDeleteTakesAChoiceBack(t *testing.T) {
	f, told, w := stone(t, 5)
	press(w, fyne.KeyDelete)
	assert.Empty(t, *told, "there was none")
	f.SetText("Stone 5")
	press(w, fyne.KeyBackspace)
	assert.Equal(t, []string{""}, *told)
	assert.True(t, says(w.Content(), "Stone 2"), "the default shows again")
	f.SetText("Stone 5")
	tapAt(f.box.(*Picker).cross, 1, 1)
	assert.Equal(t, []string{"", ""}, *told)
}

func TestAShortListIsShownWhole(t *testing.T) {
	_, _, w := stone(t, 5)
	press(w, fyne.KeySpace)
	list := w.Canvas().Focused().(*rowList)
	view := w.Canvas().Overlays().Top().(*widget.PopUp).Content
	assert.InDelta(t, list.MinSize().Height, view.Size().Height, 0.5)
}

func TestATapInTheListChooses(t *testing.T) {
	f, told, w := stone(t, 5)
	test.Tap(f.box.(*Picker))
	list, ok := w.Canvas().Focused().(*rowList)
	require.True(t, ok)
	tapAt(list, 5, 34*4+5)
	assert.Equal(t, []string{"Stone 5"}, *told)
}

func TestTheListOpensUpwardsWhereThereIsNoRoomBelow(t *testing.T) {
	plaster(t)
	f := NewField(FieldSpec{ID: "stone", Kind: ChoiceField, Label: "Stone", Options: manyWords(12)})
	w := window(t, NewColumn(0, &tallThing{}, NewFieldGrid(f)), 640, 560)
	f.Focus()
	press(w, fyne.KeySpace)
	for _, s := range texts(w.Canvas().Overlays().Top()) {
		assert.Less(t, s.y+s.h, float32(520), s.text)
	}
}

func TestAPickerThatMayOnlyBeReadDoesNotOpen(t *testing.T) {
	f, told, w := stone(t, 5)
	f.SetText("Stone 3")
	f.SetReadOnly(true)
	press(w, fyne.KeySpace, fyne.KeyDelete)
	w.Canvas().Focused().TypedRune('s')
	assert.Nil(t, w.Canvas().Overlays().Top())
	assert.Empty(t, *told)
}

func TestAMatchHoldsEveryWordInAnyCase(t *testing.T) {
	options := []string{"Granite, grey", "Granite, black", "Basalt, grey", "Limestone"}
	assert.Equal(t, []string{"Granite, grey"}, matching(options, "GREY gran"))
	assert.Equal(t, options, matching(options, "  "))
	assert.Empty(t, matching(options, "granite limestone"))
	rapid.Check(t, func(t *rapid.T) {
		typed := rapid.StringMatching(`[a-z ]{0,4}`).Draw(t, "typed")
		for _, m := range matching(options, typed) {
			for _, word := range strings.Fields(typed) {
				assert.Contains(t, strings.ToLower(m), word)
			}
		}
	})
}

func TestHoverAndChoiceShowOnAPicker(t *testing.T) {
	f, _, _ := stone(t, 5)
	p := f.box.(*Picker)
	p.MouseIn(nil)
	p.MouseMoved(nil)
	assert.True(t, p.veil.Visible())
	p.MouseOut()
	assert.False(t, p.veil.Visible())
	f.SetText("Stone 4")
	assert.Equal(t, "Stone 4", p.Choice())
}
