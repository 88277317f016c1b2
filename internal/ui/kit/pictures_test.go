package kit

import (
	"fmt"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/require"

	"meltwright/internal/ui/look"
)

// picture shows content in a window of that size, and keeps a picture of it.
func picture(t *testing.T, name string, content fyne.CanvasObject, w, h float32) {
	t.Helper()
	keep(t, name, window(t, content, w, h))
}

// keep paints a window into the folder that KIT_PICTURES names, for whoever wants
// to look; without it nothing is painted.
func keep(t *testing.T, name string, w fyne.Window) {
	t.Helper()
	dir := os.Getenv("KIT_PICTURES")
	if dir == "" {
		return
	}
	f, err := os.Create(filepath.Join(dir, name+".png"))
	require.NoError(t, err)
	require.NoError(t, png.Encode(f, w.Canvas().Capture()))
	require.NoError(t, f.Close())
}

func TestTheWholeScreenAtEverySize(t *testing.T) {
	for name, mode := range bothModes {
		for _, size := range [][2]float32{{1280, 820}, {1024, 700}, {1600, 1000}} {
			for _, percent := range []int{100, 150, 200} {
				t.Run(fmt.Sprintf("%s-%.0f-%d", name, size[0], percent), func(t *testing.T) {
					wear(t, mode, percent)
					picture(t, fmt.Sprintf("quote-%s-%.0f-%d", name, size[0], percent), newQuoteScreen().sheet, size[0], size[1])
				})
			}
		}
	}
}

// The gallery is of parts in states that the whole screen does not show.
func TestTheGallery(t *testing.T) {
	for name, mode := range bothModes {
		t.Run(name, func(t *testing.T) {
			wear(t, mode, 100)
			picture(t, "rail-"+name, railOfStates(), 290, 420)
			picture(t, "list-"+name, NewPadded(20, 16, demoList()), 900, 520)
			picture(t, "table-"+name, NewFocusScroll(longTable(40)), 640, 500)
			picture(t, "price-"+name, stalePrice(), 300, 700)
			picture(t, "fields-480-"+name, NewColumn(0, demoFields()), 480, 500)
			picture(t, "fields-330-"+name, NewColumn(0, demoFields()), 330, 620)
			picture(t, "working-"+name, NewColumn(0, demoWorking()), 330, 300)
			picture(t, "topbar-"+name, demoBar(nil), 500, 56)
			picture(t, "buttons-"+name, NewPadded(20, 20, buttons()), 600, 120)
		})
	}
}

func TestOverlaysInPictures(t *testing.T) {
	for name, mode := range bothModes {
		for _, percent := range []int{100, 200} {
			t.Run(fmt.Sprint(name, percent), func(t *testing.T) {
				wear(t, mode, percent)
				end := fmt.Sprintf("-%s-%d", name, percent)
				pictureOver(t, "ask"+end, func(c fyne.Canvas) {
					Confirm(c, "Delete Ferry Pilot?", "The draft and its three options go to the list of deleted quotes, from where they can be taken back for thirty days.", "Delete", func() {})
				})
				pictureOver(t, "progress"+end, func(c fyne.Canvas) {
					ShowProgress(c, "Measuring the scan", "ferry-pilot.stl, 1,240,000 triangles", func() {}).Set(0.42, "welding corners")
				})
			})
		}
	}
}

func TestThePickersListInPictures(t *testing.T) {
	for name, mode := range bothModes {
		wear(t, mode, 100)
		q := newQuoteScreen()
		win := window(t, q.sheet, 1280, 820)
		q.grid.Field("stucco").SetOptions(manyWords(60))
		q.grid.Field("stucco").SetText("Stone 17")
		win.Canvas().Focus(q.grid.Field("stucco").box.(fyne.Focusable))
		q.grid.Field("stucco").box.(*Picker).open("sto")
		keep(t, "picker-"+name, win)
	}
}

// pictureOver shows the quote with something over it.
func pictureOver(t *testing.T, name string, open func(fyne.Canvas)) {
	q := newQuoteScreen()
	toast := NewToast()
	toast.Offer("Deleted Ferry Pilot", "Undo", func() {})
	win := window(t, OverAll(q.sheet, toast), 1024, 700)
	win.Canvas().Focus(q.rail.body)
	open(win.Canvas())
	keep(t, name, win)
}

func manyWords(n int) []string {
	words := make([]string, n)
	for i := range words {
		words[i] = fmt.Sprintf("Stone %d", i+1)
	}
	return words
}

func railOfStates() *Rail {
	r := NewRail()
	rows := demoRows()[:6]
	rows[0].State, rows[0].Detail = StageFault, "height is below zero"
	rows[2].State, rows[2].Detail, rows[2].Amount, rows[2].Share = StageByOthers, "by others", "—", 0
	rows[4].State, rows[4].Detail = StageFault, "no crucible holds section 3 of the figure"
	r.SetRows(rows)
	r.Select("wax")
	return r
}

func demoList() *FilterList {
	l := NewFilterList("Search quotes, clients, towns")
	states := []ListRow{{State: "draft"}, {State: "issued", Tone: look.Bronze}, {State: "accepted", Tone: look.Good}, {State: "declined", Tone: look.Bad}}
	l.SetRows(10000, func(i int) ListRow {
		r := states[i%4]
		r.Title, r.Subtitle, r.Amount = fmt.Sprintf("The Ferry Pilot %d", i+1), "Town of Alder Reach · B · 14 March", "128,400"
		return r
	}, "10,000 quotes", "")
	l.Select(2)
	return l
}

func longTable(n int) *LineTable {
	t := NewLineTable()
	t.SetLines(manyLines(n))
	t.Select("line 3")
	return t
}

func manyLines(n int) []Line {
	lines := []Line{{ID: "head", Kind: LineHead, Name: "Figure"}}
	for i := 1; i < n; i++ {
		lines = append(lines, Line{ID: fmt.Sprintf("line %d", i), Name: fmt.Sprintf("Section %d, shell and stucco", i), Quantity: fmt.Sprintf("%d.4", i*7), Unit: "kg", Rate: "6.20", Per: "/ kg", Cost: fmt.Sprintf("%d.68", i*43)})
	}
	return append(lines, Line{ID: "total", Kind: LineTotal, Name: "All of it", Cost: "128,400.00"})
}

func stalePrice() *PricePanel {
	p := NewPricePanel()
	price := demoPrice()
	price.Amount = "CA$1,284,000.00"
	price.Stale = "The height cannot be read. This is the last good price."
	p.Set(price)
	return p
}

func buttons() *fyne.Container {
	off := NewButton("Not now", Plain, nil)
	off.Disable()
	focused := NewButton("Focused", Primary, nil)
	focused.FocusGained()
	return container.NewHBox(NewButton("Plain", Plain, nil), NewButton("Primary", Primary, nil), NewButton("Quiet", Quiet, nil),
		NewButton("Delete", Danger, nil), off, focused, NewButton("Add", Plain, nil).WithIcon(theme.IconNameContentAdd))
}
