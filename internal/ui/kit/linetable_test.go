package kit

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
)

func shortTable() *LineTable {
	t := NewLineTable()
	t.SetLines(append([]Line{{ID: "figure", Kind: LineHead, Name: "Figure"}}, demoLines()...))
	t.Select("stucco")
	return t
}

func TestTheTableLooksAsItDid(t *testing.T) {
	master(t, "linetable", 640, 260, func() fyne.CanvasObject { return NewFocusScroll(shortTable()) })
}

func TestFiguresStandUnderFiguresAndUnitsUnderUnits(t *testing.T) {
	plaster(t)
	w := window(t, NewFocusScroll(shortTable()), 640, 260)
	end := func(words string) float32 {
		for _, s := range texts(w.Content()) {
			if s.text == words {
				return s.x + s.w
			}
		}
		t.Errorf("%q is not there", words)
		return 0
	}
	assert.InDelta(t, end("96.4"), end("148.0"), 0.6)
	assert.InDelta(t, end("31.5"), end("0.6"), 0.6)
	assert.InDelta(t, end("6.20"), end("243.17"), 0.6)
	assert.InDelta(t, end("597.68"), end("1,827.00"), 0.6)
	assert.InDelta(t, end("Cost"), end("597.68"), 0.6)
}

func TestTheChosenLineStaysChosenAsFiguresChange(t *testing.T) {
	plaster(t)
	table := shortTable()
	window(t, NewFocusScroll(table), 640, 260)
	lines := demoLines()
	lines[1].Cost = "1,347.80"
	table.SetLines(lines)
	assert.Equal(t, "stucco", table.Selected(), "though it stands one row higher")
	assert.Equal(t, 1, table.list.chosen)
	table.SetLines(demoLines()[2:])
	assert.Empty(t, table.Selected())
}

func TestOnlyItemsCanBeChosen(t *testing.T) {
	plaster(t)
	table := shortTable()
	w := window(t, NewFocusScroll(table), 640, 260)
	var told []string
	table.OnSelect = func(id string) { told = append(told, id) }
	table.OnOpen = func(id string) { told = append(told, "open "+id) }
	table.Select("sum")
	assert.Empty(t, table.Selected(), "a subtotal is no line")
	w.Canvas().Focus(table.list)
	press(w, fyne.KeyDown, fyne.KeyEnd, fyne.KeyReturn)
	assert.Equal(t, []string{"slurry", "stucco", "recasts", "open recasts"}, told)
}

func TestANarrowTableGivesUpTheRatesUnitsBeforeTheName(t *testing.T) {
	plaster(t)
	table := shortTable()
	window(t, NewFocusScroll(table), 390, 260)
	assert.Zero(t, table.cols.per.w)
	assert.NotZero(t, table.cols.unit.w)
	assert.Greater(t, table.cols.name.w, float32(100))
	table.Resize(fyne.NewSize(700, 260))
	assert.NotZero(t, table.cols.per.w)
}

func TestTheHeadsMayBeInAnotherLanguage(t *testing.T) {
	plaster(t)
	table := shortTable()
	w := window(t, NewFocusScroll(table), 640, 260)
	table.SetHeads("Poste", "Quantité", "Taux", "Coût")
	assert.True(t, says(w.Content(), "Quantité"))
}

func TestAnEmptyTableIsOnlyItsHead(t *testing.T) {
	plaster(t)
	table := NewLineTable()
	window(t, NewFocusScroll(table), 640, 260)
	table.SetLines(nil)
	assert.Empty(t, table.Selected())
	assert.InDelta(t, 30, table.MinSize().Height, 1)
}
