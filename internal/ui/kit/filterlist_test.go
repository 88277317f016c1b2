package kit

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
)

func TestTheListLooksAsItDid(t *testing.T) {
	master(t, "filterlist", 640, 320, func() fyne.CanvasObject { return demoList() })
}

func TestSearchingIsToldAtEveryKeystroke(t *testing.T) {
	plaster(t)
	l := demoList()
	w := window(t, l, 700, 400)
	var told []string
	l.OnFilter = func(s string) { told = append(told, s) }
	l.Focus()
	test.Type(w.Canvas().Focused(), "fer")
	assert.Equal(t, []string{"f", "fe", "fer"}, told)
	assert.Equal(t, "fer", l.Search())
	press(w, fyne.KeyEscape)
	assert.Equal(t, []string{"f", "fe", "fer", ""}, told, "Escape empties the search")
	l.SetSearch("town")
	assert.Len(t, told, 4)
}

func TestTenThousandRowsAreAskedForAsTheyAreSeen(t *testing.T) {
	plaster(t)
	l := NewFilterList("Search")
	asked := map[int]bool{}
	window(t, l, 700, 400)
	l.SetRows(10000, func(i int) ListRow {
		asked[i] = true
		return ListRow{Title: fmt.Sprint("Quote ", i)}
	}, "10,000 quotes", "")
	assert.Less(t, len(asked), 60)
}

func TestTheArrowsWorkFromTheSearch(t *testing.T) {
	plaster(t)
	l := demoList()
	w := window(t, l, 700, 400)
	l.Select(-1)
	var selected, opened []int
	l.OnSelect = func(i int) { selected = append(selected, i) }
	l.OnOpen = func(i int) { opened = append(opened, i) }
	l.Focus()
	press(w, fyne.KeyReturn)
	assert.Empty(t, opened, "nothing is chosen yet")
	press(w, fyne.KeyDown, fyne.KeyDown, fyne.KeyReturn)
	assert.Equal(t, []int{0, 1}, selected)
	assert.Equal(t, []int{1}, opened)
	assert.Equal(t, 1, l.Selected())
	test.FocusNext(w.Canvas())
	press(w, fyne.KeyEnd)
	assert.Equal(t, 9999, l.Selected())
	assert.True(t, says(w.Content(), "The Ferry Pilot 10000"))
}

func TestNewRowsForgetTheChoice(t *testing.T) {
	plaster(t)
	l := demoList()
	w := window(t, l, 700, 400)
	assert.Equal(t, 2, l.Selected())
	l.SetRows(3, func(int) ListRow { return ListRow{Title: "Harbour Dog"} }, "3 of 10,000", "")
	assert.Equal(t, -1, l.Selected())
	l.Select(1)
	assert.Equal(t, 1, l.Selected())
	assert.True(t, says(w.Content(), "3 of 10,000"))
}

func TestAnEmptyListSaysWhy(t *testing.T) {
	plaster(t)
	l := demoList()
	w := window(t, l, 700, 400)
	l.SetRows(0, nil, "", "No quote holds “harbour dog”.")
	assert.True(t, says(w.Content(), "No quote holds “harbour dog”."))
	l.SetRows(1, func(int) ListRow { return ListRow{Title: "Harbour Dog"} }, "1 quote", "No quote.")
	assert.False(t, says(w.Content(), "No quote."))
}

func TestLongTitlesLeaveRoomForTheAmount(t *testing.T) {
	plaster(t)
	l := NewFilterList("Search")
	w := window(t, l, 420, 300)
	l.SetRows(3, func(int) ListRow {
		return ListRow{Title: "A Very Long Name for a Monument to All Ferry Pilots", Subtitle: "Town", Amount: "CA$1,284,000.00", State: "withdrawn"}
	}, "3 quotes", "")
	apart(t, texts(w.Content()), 420, 300)
}
