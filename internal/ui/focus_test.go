package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"

	"meltwright/internal/ui/kit"
)

// around goes once around the window by Tab and names what it comes to: fields
// by their IDs, buttons by their texts, and lists as such.
func (b *bench) around() []string {
	b.Helper()
	names := b.nameFields()
	var out []string
	c := b.win.Canvas()
	c.Unfocus()
	for range 400 {
		c.FocusNext()
		name := nameOf(b.focused(), names)
		if len(out) > 0 && name == out[0] {
			return out
		}
		out = append(out, name)
	}
	assert.Fail(b, "Tab does not come around")
	return out
}

// nameFields gives every shown field's input its ID.
func (b *bench) nameFields() map[fyne.Focusable]string {
	names := map[fyne.Focusable]string{}
	walk(b.win.Canvas().Content(), func(o fyne.CanvasObject) {
		if g, ok := o.(*kit.FieldGrid); ok {
			for _, f := range g.Fields() {
				b.win.Canvas().Unfocus()
				f.Focus()
				if at := b.win.Canvas().Focused(); at != nil {
					names[at] = f.ID()
				}
			}
		}
	})
	return names
}

func nameOf(f fyne.Focusable, names map[fyne.Focusable]string) string {
	if id, ok := names[f]; ok {
		return id
	}
	switch f := f.(type) {
	case *kit.PageStrip:
		return "pages"
	case *kit.Button:
		text, _, _ := strings.Cut(f.Text(), " (") // without how much is in a fold
		return "[" + text + "]"
	case *kit.Entry:
		return "search"
	case *tabs:
		return "pieces"
	case *kit.Picker:
		return "choice"
	case *turntable:
		return "the picture"
	}
	return "rows"
}

func TestTabGoesThroughTheListOfQuotes(t *testing.T) {
	b := sit(t, withDemo)
	b.menu("All quotes")
	assert.Equal(t, []string{"[Bin]", "[Clients and calls]", "[Shop book]", "[Duplicate]", "[Delete]", "[New quote]", "choice", "choice", "search", "rows"}, b.around())
}

func TestTabGoesThroughANewCommission(t *testing.T) {
	b := sit(t)
	b.menu("New quote")
	bar := []string{"[]", "[Shop book]", "[Scale options]", "[Cost sheet]", "[Make proposal]", "rows"}
	assert.Equal(t, append(bar, "head.title", "head.client", "head.place", "head.currency", "head.units", "words.idea", "words.recommendation"), b.around())
}

func TestTabGoesFromAStagesInputsToItsLinesAndToWhatIsFoldedAway(t *testing.T) {
	b := sit(t, withDemo)
	b.quote().choose("shell")
	order := b.around()
	assert.Equal(t, []string{
		"pieces", "shell.fine", "shell.medium", "shell.coarse", "shell.seal",
		"rows", "[Copy]", "[Hours and use]", "[Rates]", "[Add a line of your own]",
	}, order[6:])
	b.quote().pageOf("shell").(*workPage).rates.fold.toggle()
	assert.Contains(t, b.around(), "shell.flour_price")
}

func TestTabGoesThroughTheShopBook(t *testing.T) {
	b := sit(t)
	b.menu("Shop book")
	assert.Equal(t, []string{"[]", "rows", "search", "house.name", "house.address", "house.currency", "house.units"}, b.around())
	b.book().choose("crucibles")
	assert.Equal(t, []string{"name", "holds", "source", "[Add a crucible]", "[Up]", "[Down]", "[Remove this crucible]"}, b.around()[4:])
}

func TestTheFocusedFieldIsInView(t *testing.T) {
	b := sit(t, withDemo)
	b.win.Resize(fyne.NewSize(1024, 700))
	c := b.win.Canvas()
	for range 60 {
		c.FocusNext()
		o := b.focused().(fyne.CanvasObject)
		at := fyne.CurrentApp().Driver().AbsolutePositionForObject(o)
		if _, isButton := o.(*kit.Button); isButton || o.Size().Height < 60 {
			assert.GreaterOrEqual(t, at.Y, float32(0), "%T", o)
			assert.LessOrEqual(t, at.Y+o.Size().Height, float32(700), "%T", o)
		}
	}
}

func TestAltAndArrowsGoThroughTheStagesAndTheKeyboardStaysInTheFields(t *testing.T) {
	b := sit(t, withDemo)
	for _, want := range order()[2:] {
		b.menu("Next stage")
		assert.Equal(t, want, b.quote().stage)
		assert.NotNil(t, b.win.Canvas().Focused(), want)
	}
	b.menu("Next stage")
	last := len(order()) - 1
	assert.Equal(t, order()[last], b.quote().stage, "no farther than the last")
	b.menu("Stages, or back to the fields")
	assert.True(t, b.quote().railFocused())
	b.press(fyne.KeyUp)
	assert.Equal(t, order()[last-1], b.quote().stage)
	b.menu("Stages, or back to the fields")
	assert.False(t, b.quote().railFocused())
}
