package kit

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"meltwright/internal/ui/look"
)

// benchWindow shows what build makes in a window under the look.
func benchWindow[T fyne.CanvasObject](b *testing.B, build func() T) (T, fyne.Window) {
	test.NewTempApp(b)
	fyne.CurrentApp().Settings().SetTheme(look.New(look.Light, 100))
	content := build()
	w := test.NewTempWindow(b, content)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(1280, 820))
	return content, w
}

func benchQuote(b *testing.B) (*quoteScreen, fyne.Window) {
	var q *quoteScreen
	_, w := benchWindow(b, func() *Sheet {
		q = newQuoteScreen()
		return q.sheet
	})
	return q, w
}

// BenchmarkKeystroke is what a typed digit costs the window's parts: twelve
// stages, thirty lines, the working and the price, all of them with new figures.
func BenchmarkKeystroke(b *testing.B) {
	q, _ := benchQuote(b)
	rows, lines, working, price := demoRows(), manyLines(30), demoReckoning(), demoPrice()
	q.table.SetLines(lines)
	b.ReportAllocs()
	for n := 0; b.Loop(); n++ {
		for i := range rows {
			rows[i].Amount, rows[i].Share = fmt.Sprint(1000+n%977+i), float64(n%17+i)/200
		}
		for i := range lines {
			lines[i].Quantity, lines[i].Cost = fmt.Sprintf("%d.4", n%977+i), fmt.Sprintf("%d.68", n%877+i)
		}
		price.Amount, price.Facts[0].Value = fmt.Sprintf("$%d,400", n%877), fmt.Sprintf("%d kg", n%977)
		price.Range.At = 100000 + float64(n%60000)
		working.Formula = fmt.Sprintf("6.17 m² × 12 coats × 2.00 kg/m² = %d.0 kg", n%977)
		q.rail.SetRows(rows)
		q.table.SetLines(lines)
		q.working.Set(working)
		q.price.Set(price)
	}
}

// BenchmarkTyping is a keystroke in a field with an echo.
func BenchmarkTyping(b *testing.B) {
	q, w := benchQuote(b)
	f := q.grid.Field("dry")
	f.Focus()
	for n := 0; b.Loop(); n++ {
		if n%8 == 7 {
			f.SetText("")
		}
		w.Canvas().Focused().TypedRune('4')
	}
}

// BenchmarkLongTable is a keystroke with five hundred lines in the table.
func BenchmarkLongTable(b *testing.B) {
	q, _ := benchQuote(b)
	lines := manyLines(500)
	q.table.SetLines(lines)
	for n := 0; b.Loop(); n++ {
		for i := range lines {
			lines[i].Cost = fmt.Sprintf("%d.68", n%877+i)
		}
		q.table.SetLines(lines)
	}
}

// BenchmarkFilterList is a keystroke in the search over ten thousand rows.
func BenchmarkFilterList(b *testing.B) {
	l, _ := benchWindow(b, demoList)
	for n := 0; b.Loop(); n++ {
		l.SetRows(10000-n%100, func(i int) ListRow {
			return ListRow{Title: fmt.Sprint("Ferry Pilot ", i+n), Amount: "128,400", State: "draft"}
		}, "10,000 quotes", "")
	}
}

// BenchmarkStrata is the drawing of the rail's column at twice the pixels.
func BenchmarkStrata(b *testing.B) {
	r, _ := benchWindow(b, func() *Rail {
		r := NewRail()
		r.SetRows(demoRows())
		return r
	})
	s := r.body.strata
	for b.Loop() {
		s.draw(int(s.raster.Size().Width*2), int(s.raster.Size().Height*2))
	}
}
