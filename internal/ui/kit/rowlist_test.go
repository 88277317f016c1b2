package kit

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
)

// wordList is a list of n rows of which every fifth, from the first, is a head.
func wordList(n int) *rowList {
	var l *rowList
	l = newRowList(func() stripRow { return newWordRow() }, func(r stripRow, i int) { r.(*wordRow).show(manyWords(n)[i], i == l.chosen) })
	l.can = func(i int) bool { return i%5 != 0 }
	l.setRows(n, none)
	return l
}

func TestTheArrowsPassOverHeads(t *testing.T) {
	plaster(t)
	l := wordList(20)
	w := window(t, NewFocusScroll(l), 200, 200)
	var chosen []int
	l.onSelect = func(i int) { chosen = append(chosen, i) }
	w.Canvas().Focus(l)
	assert.Equal(t, 1, l.chosen, "the focus chooses the first that can be")
	for range 4 {
		press(w, fyne.KeyDown)
	}
	assert.Equal(t, []int{1, 2, 3, 4, 6}, chosen)
	press(w, fyne.KeyUp)
	assert.Equal(t, 4, l.chosen)
	press(w, fyne.KeyEnd)
	assert.Equal(t, 19, l.chosen)
	press(w, fyne.KeyHome)
	assert.Equal(t, 1, l.chosen, "the very first is a head")
	press(w, fyne.KeyUp)
	assert.Equal(t, 1, l.chosen, "and there is nothing above")
	press(w, fyne.KeyPageDown)
	assert.Equal(t, 11, l.chosen)
	press(w, fyne.KeyPageUp)
	assert.Equal(t, 1, l.chosen)
}

func TestTheChosenRowIsScrolledIntoView(t *testing.T) {
	plaster(t)
	l := wordList(100)
	s := NewFocusScroll(l)
	w := window(t, s, 200, 200)
	assert.False(t, says(w.Content(), "Stone 100"))
	w.Canvas().Focus(l)
	press(w, fyne.KeyEnd)
	assert.True(t, says(w.Content(), "Stone 100"))
	assert.Less(t, l.strip.last-l.strip.first, 15, "no more rows than can be seen")
	press(w, fyne.KeyHome)
	assert.LessOrEqual(t, s.Offset(), float32(34))
	assert.True(t, says(w.Content(), "Stone 2"))
}

func TestATapChoosesAndTheNextOneOpens(t *testing.T) {
	plaster(t)
	l := wordList(10)
	w := window(t, NewFocusScroll(l), 200, 400)
	var opened []int
	l.onOpen = func(i int) { opened = append(opened, i) }
	tapAt(l, 10, 34*2+5)
	assert.Equal(t, 2, l.chosen)
	assert.Empty(t, opened)
	tapAt(l, 10, 34*2+5)
	assert.Equal(t, []int{2}, opened)
	tapAt(l, 10, 34*5+5)
	assert.Equal(t, 2, l.chosen, "a head cannot be chosen")
	tapAt(l, 10, 34*50)
	assert.Equal(t, 2, l.chosen, "nor what is not there")
	press(w, fyne.KeyReturn)
	assert.Equal(t, []int{2, 2}, opened)
}

func TestHoverMarksWhatCanBeChosen(t *testing.T) {
	plaster(t)
	l := wordList(10)
	window(t, NewFocusScroll(l), 200, 400)
	hoverAt(l, 5, 34*3+1)
	assert.True(t, l.veil.Visible())
	assert.Equal(t, float32(34*3), l.veil.Position().Y)
	hoverAt(l, 5, 34*5+1)
	assert.False(t, l.veil.Visible(), "not a head")
	l.MouseOut()
	assert.Equal(t, none, l.hovered)
}

func TestAShorterListForgetsAChoiceThatIsGone(t *testing.T) {
	plaster(t)
	l := wordList(10)
	window(t, NewFocusScroll(l), 200, 400)
	l.choose(9)
	l.setRows(5, 9)
	assert.Equal(t, none, l.chosen)
	l.setRows(0, none)
	l.FocusGained()
	assert.Equal(t, none, l.chosen)
}
