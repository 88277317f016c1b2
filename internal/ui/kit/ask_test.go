package kit

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"

	"meltwright/internal/ui/look"
)

func TestAQuestionLooksAsItDid(t *testing.T) {
	for variant, mode := range bothModes {
		wear(t, mode, 100)
		w := window(t, NewText("The screen below."), 640, 320)
		Confirm(w.Canvas(), "Delete Ferry Pilot?", "The draft and its three options go.", "Delete", func() {})
		test.AssertRendersToMarkup(t, "ask-"+variant+".xml", w.Canvas())
	}
}

// asked asks whether to delete, over a window; what it deletes is counted.
func asked(t *testing.T) (*int, fyne.Window) {
	plaster(t)
	w, deleted := window(t, NewText("The screen below."), 640, 400), new(int)
	Confirm(w.Canvas(), "Delete Ferry Pilot?", "The draft and its three options go.", "Delete", func() { *deleted++ })
	return deleted, w
}

func TestTheSafeAnswerHasTheKeyboard(t *testing.T) {
	deleted, w := asked(t)
	assert.Equal(t, "Cancel", w.Canvas().Focused().(*Button).Text())
	press(w, fyne.KeyReturn)
	assert.Zero(t, *deleted)
	assert.Nil(t, w.Canvas().Overlays().Top())
}

func TestEscapeGivesTheSafeAnswerFromAnyButton(t *testing.T) {
	deleted, w := asked(t)
	test.FocusNext(w.Canvas())
	assert.Equal(t, "Delete", w.Canvas().Focused().(*Button).Text())
	press(w, fyne.KeyEscape)
	assert.Zero(t, *deleted)
	assert.Nil(t, w.Canvas().Overlays().Top())
}

func TestTheOtherAnswerActsOnce(t *testing.T) {
	deleted, w := asked(t)
	test.FocusNext(w.Canvas())
	press(w, fyne.KeyReturn)
	assert.Equal(t, 1, *deleted)
	assert.Nil(t, w.Canvas().Overlays().Top())
}

func TestAQuestionMayHoldFields(t *testing.T) {
	wear(t, look.Light, 200)
	w := window(t, NewText("The screen below."), 1024, 700)
	name := NewField(FieldSpec{ID: "name", Label: "Name of the copy"})
	var given string
	a := &Ask{Title: "Duplicate", Text: "The copy is a new draft.", Body: NewFieldGrid(name), Choices: []Choice{
		{Text: "Cancel", Safe: true}, {Text: "Duplicate", Style: Primary, Do: func() { given = name.Text() }},
	}}
	a.Show(w.Canvas())
	a.Show(w.Canvas())
	assert.Len(t, w.Canvas().Overlays().List(), 1, "it is asked once")
	apart(t, texts(w.Canvas().Overlays().Top()), 1024, 700)
	name.Focus()
	test.Type(w.Canvas().Focused(), "Ferry Pilot II")
	press(w, fyne.KeyReturn)
	test.FocusNext(w.Canvas())
	press(w, fyne.KeyReturn)
	assert.Equal(t, "Ferry Pilot II", given)
}

func TestManyAnswersStandBelowEachOther(t *testing.T) {
	wear(t, look.Light, 200)
	w := window(t, NewText("The screen below."), 640, 700)
	a := &Ask{Title: "The file is newer", Text: "It was written by a later version.", Choices: []Choice{
		{Text: "Leave it alone"}, {Text: "Open a copy to read"}, {Text: "Look for backups"},
	}}
	a.Show(w.Canvas())
	apart(t, texts(w.Canvas().Overlays().Top()), 640, 700)
	assert.Equal(t, "Leave it alone", w.Canvas().Focused().(*Button).Text(), "without a safe one the first")
	press(w, fyne.KeyEscape)
	assert.NotNil(t, w.Canvas().Overlays().Top(), "and Escape answers nothing")
	a.Close()
	a.Close()
	assert.Nil(t, w.Canvas().Overlays().Top())
}

func TestTellingNeedsOnlyBeRead(t *testing.T) {
	plaster(t)
	w := window(t, NewText("The screen below."), 640, 400)
	Tell(w.Canvas(), "The disk is full", "What you typed is kept; make room and save again.")
	assert.True(t, says(w.Canvas().Overlays().Top(), "What you typed is kept"))
	press(w, fyne.KeySpace)
	assert.Nil(t, w.Canvas().Overlays().Top())
}
