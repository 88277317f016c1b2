package kit

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTheFieldsLookAsTheyDid(t *testing.T) {
	master(t, "fields", 640, 340, func() fyne.CanvasObject { return demoFields() })
}

func TestNarrowFieldsLookAsTheyDid(t *testing.T) {
	master(t, "fields-narrow", 360, 480, func() fyne.CanvasObject { return demoFields() })
}

// wall is a field of a wall thickness, with what it told.
func wall(t *testing.T) (*Field, *[]string, fyne.Window) {
	plaster(t)
	var told []string
	f := NewField(FieldSpec{
		ID: "wall", Label: "Wall thickness", Unit: "mm", Default: "5", Origin: "shop book, 14 March",
		Understand: func(s string) (string, string) {
			if strings.ContainsAny(s, "xyz") {
				return "", "is no thickness; give one such as 5 mm"
			}
			return "= " + s + " mm", ""
		},
		OnChanged: func(s string) { told = append(told, s) },
	})
	return f, &told, window(t, NewFieldGrid(f), 640, 60)
}

func TestEachKeystrokeIsToldAndUnderstood(t *testing.T) {
	f, told, w := wall(t)
	assert.True(t, says(w.Content(), "shop book, 14 March"), "the default says where it comes from")
	f.Focus()
	test.Type(f.box.(fyne.Focusable), "4.5")
	assert.Equal(t, []string{"4", "4.", "4.5"}, *told)
	assert.Equal(t, "4.5", f.Text())
	assert.True(t, says(w.Content(), "= 4.5 mm · instead of 5, shop book, 14 March"))
}

func TestAFaultSaysWhatWouldBeRightAndKeepsWhatWasTyped(t *testing.T) {
	f, told, w := wall(t)
	test.Type(f.box.(fyne.Focusable), "x")
	assert.Equal(t, "is no thickness; give one such as 5 mm", f.Fault())
	assert.True(t, says(w.Content(), "is no thickness; give one such as 5 mm"))
	assert.True(t, f.mark.Visible(), "not by colour alone")
	assert.Equal(t, "x", f.box.(*Entry).Text)
	assert.Equal(t, []string{"x"}, *told)
	f.SetText("4")
	assert.Empty(t, f.Fault())
	assert.False(t, f.mark.Visible())
}

func TestAFaultFromOutsideGoesWithTheNextKeystroke(t *testing.T) {
	f, _, w := wall(t)
	f.SetText("400")
	f.SetFault("is more than the form is thick; give less than 120 mm")
	assert.True(t, says(w.Content(), "is more than the form is thick"))
	test.Type(f.box.(fyne.Focusable), "1")
	assert.Empty(t, f.Fault(), "it was said of another text")
	f.SetFault("again")
	f.SetText("x")
	assert.Equal(t, "is no thickness; give one such as 5 mm", f.Fault(), "what cannot be read comes first")
}

func TestSettingATextFromOutsideTellsNobody(t *testing.T) {
	f, told, _ := wall(t)
	f.SetText("6")
	f.SetText("6")
	assert.Empty(t, *told)
	assert.Equal(t, "6", f.box.(*Entry).Text)
}

func TestAnEchoFromOutsideDoesNotMoveTheCursor(t *testing.T) {
	f, _, _ := wall(t)
	e := f.box.(*Entry)
	test.Type(e, "12")
	e.CursorColumn = 1
	f.SetText("12")
	assert.Equal(t, 1, e.CursorColumn)
}

func TestTheCrossGoesBackToTheDefault(t *testing.T) {
	f, told, w := wall(t)
	tail := f.input.(*typedInput).tail
	assert.False(t, tail.cross.on, "there is nothing to take back")
	tapAt(tail.cross, 1, 1)
	assert.Empty(t, *told)
	f.SetText("6")
	assert.True(t, tail.cross.on)
	tapAt(tail.cross, 1, 1)
	assert.Equal(t, []string{""}, *told)
	assert.Empty(t, f.Text())
	assert.Same(t, f.box, w.Canvas().Focused())
	assert.True(t, says(w.Content(), "shop book, 14 March"))
}

func TestDefaultsUnitsHintsAndLabelsMayChange(t *testing.T) {
	f, _, w := wall(t)
	f.SetDefault("3/16", "proposed")
	f.SetUnit("in")
	f.SetHint("as cast")
	f.SetLabel("Wall of the figure")
	for _, words := range []string{"3/16", "in", "as cast · proposed", "Wall of the figure"} {
		assert.True(t, says(w.Content(), words), words)
	}
	assert.Equal(t, "wall", f.ID())
}

func TestAFieldThatMayOnlyBeRead(t *testing.T) {
	f, told, _ := wall(t)
	f.SetText("6")
	f.SetReadOnly(true)
	test.Type(f.box.(fyne.Focusable), "7")
	assert.Equal(t, "6", f.Text())
	assert.Empty(t, *told)
	assert.False(t, f.input.(*typedInput).tail.cross.on)
	f.SetReadOnly(false)
	test.Type(f.box.(fyne.Focusable), "7")
	assert.Len(t, *told, 1)
}

func TestEnterGoesOnAndTabLeavesNotesToo(t *testing.T) {
	plaster(t)
	notes := NewField(FieldSpec{ID: "notes", Kind: NotesField, Label: "Notes"})
	g := NewFieldGrid(NewField(FieldSpec{ID: "a", Label: "A"}), NewField(FieldSpec{ID: "b", Label: "B"}), notes)
	w := window(t, g, 640, 300)
	g.Field("a").Focus()
	press(w, fyne.KeyReturn)
	assert.Same(t, g.Field("b").box, w.Canvas().Focused())
	press(w, fyne.KeyEnter)
	assert.Same(t, notes.box, w.Canvas().Focused())
	press(w, fyne.KeyReturn)
	assert.Equal(t, "\n", notes.Text(), "in notes it begins a line")
	assert.False(t, notes.box.(*Entry).AcceptsTab())
}

func TestATickIsYesOrNoAndDeleteTakesItBack(t *testing.T) {
	plaster(t)
	var told []string
	f := NewField(FieldSpec{ID: "seal", Kind: CheckField, Label: "Seal coat", Default: Yes, Origin: "shop book", OnChanged: func(s string) { told = append(told, s) }})
	w := window(t, NewFieldGrid(f), 640, 60)
	c := f.box.(*Check)
	assert.True(t, c.Checked, "as the default has it")
	f.Focus()
	test.Tap(c)
	assert.Equal(t, []string{No}, told)
	assert.True(t, f.cross.on)
	press(w, fyne.KeyDelete)
	assert.Equal(t, []string{No, ""}, told)
	assert.True(t, c.Checked)
	f.SetText(No)
	assert.False(t, c.Checked)
	tapAt(f.cross, 1, 1)
	assert.Empty(t, f.Text())
	assert.Len(t, told, 3)
	f.SetReadOnly(true)
	assert.True(t, c.Disabled())
	c.TypedRune(' ')
	assert.Len(t, told, 3)
}

func TestLeavingAFieldOutClosesItsRoom(t *testing.T) {
	plaster(t)
	g := demoFields()
	window(t, g, 640, 400)
	before := g.MinSize().Height
	g.Field("medium").SetVisible(false)
	assert.InDelta(t, before-44, g.MinSize().Height, 2)
	assert.Len(t, g.Held(), 6)
	g.Field("medium").SetVisible(true)
	assert.Equal(t, before, g.MinSize().Height)
	assert.Nil(t, g.Field("no such field"))
}

func TestAGridUsesTheWidthItHas(t *testing.T) {
	plaster(t)
	g := demoFields()
	beside, below, above := g.heightFor(700), g.heightFor(480), g.heightFor(300)
	require.Less(t, beside, below)
	require.Less(t, below, above)
	for _, width := range []float32{280, 300, 340, 420, 480, 560, 700, 900} {
		w := window(t, NewColumn(0, g), width, 900)
		apart(t, texts(w.Content()), width, 900)
	}
}

func TestAHeadingStandsOverItsFields(t *testing.T) {
	plaster(t)
	g := NewFieldGrid(NewField(FieldSpec{Kind: HeadingField, Label: "Coats"}), NewField(FieldSpec{ID: "fine", Label: "Fine coats"}),
		NewField(FieldSpec{Kind: HeadingField, Label: "Slurry"}), NewField(FieldSpec{ID: "mix", Label: "Mix", Kind: TextField, Wide: true}))
	w := window(t, g, 640, 300)
	assert.True(t, says(w.Content(), "Coats Fine coats Slurry Mix"))
	assert.Len(t, g.Held(), 2)
	assert.Greater(t, g.Field("mix").box.Size().Width, float32(400))
}
