package kit

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/ui/look"
)

func TestTheRailLooksAsItDid(t *testing.T) {
	master(t, "rail", 290, 420, func() fyne.CanvasObject { return railOfStates() })
}

func demoRail(t *testing.T, w, h float32) (*Rail, fyne.Window) {
	plaster(t)
	r := NewRail()
	r.SetRows(demoRows())
	return r, window(t, r, w, h)
}

func TestTheArrowsGoFromStageToStage(t *testing.T) {
	r, w := demoRail(t, 290, 700)
	var told []string
	r.OnSelect = func(id string) { told = append(told, id) }
	r.Focus()
	assert.Equal(t, "form", r.Selected(), "the focus begins at the top")
	press(w, fyne.KeyDown, fyne.KeyDown)
	assert.Equal(t, "mould", r.Selected())
	press(w, fyne.KeyUp, fyne.KeyEnd, fyne.KeyDown)
	assert.Equal(t, "price", r.Selected(), "below the last there is none")
	press(w, fyne.KeyHome, fyne.KeyUp)
	assert.Equal(t, []string{"form", "original", "mould", "original", "price", "form"}, told)
}

func TestEnterGoesOnToTheStage(t *testing.T) {
	r, w := demoRail(t, 290, 700)
	var entered string
	r.OnEnter = func(id string) { entered = id }
	r.Select("wax")
	r.Focus()
	press(w, fyne.KeyReturn)
	assert.Equal(t, "wax", entered)
}

func TestATapChoosesAStage(t *testing.T) {
	r, w := demoRail(t, 290, 700)
	var told string
	r.OnSelect = func(id string) { told = id }
	h := r.body.rowHeight()
	tapAt(r.body, 100, 10+h*4.5)
	assert.Equal(t, "gating", told)
	assert.Same(t, r.body, w.Canvas().Focused())
	tapAt(r.body, 100, 1e5)
	tapAt(r.body, 100, 1)
	assert.Equal(t, "gating", r.Selected())
	hoverAt(r.body, 100, 10+h*2.5)
	assert.True(t, r.body.veil.Visible())
	r.body.MouseOut()
	assert.False(t, r.body.veil.Visible())
}

func TestChoosingFromOutsideTellsNobody(t *testing.T) {
	r, _ := demoRail(t, 290, 700)
	r.OnSelect = func(string) { t.Error("told") }
	r.Select("shell")
	assert.Equal(t, "shell", r.Selected())
	r.SetRows(demoRows()[:3])
	assert.Empty(t, r.Selected(), "a stage that is gone is not chosen")
	r.SetRows(demoRows())
	r.Select("no such stage")
	assert.Empty(t, r.Selected())
}

func TestAFaultHasASignAndItsWords(t *testing.T) {
	plaster(t)
	r := railOfStates()
	w := window(t, r, 290, 420)
	assert.True(t, r.body.cells[0].mark.Visible())
	assert.False(t, r.body.cells[1].mark.Visible())
	assert.True(t, says(w.Content(), "height is below zero"))
	rows := demoRows()[:6]
	r.SetRows(rows)
	assert.False(t, r.body.cells[0].mark.Visible(), "and it goes with the fault")
}

func TestAmountsGoBelowNamesWhereSomeNameIsTooLong(t *testing.T) {
	r, _ := demoRail(t, 290, 700)
	assert.False(t, r.body.stacked)
	r.Resize(fyne.NewSize(212, 700))
	assert.True(t, r.body.stacked)
	assert.Equal(t, "Fees, margin and tax", r.body.cells[11].name.Text.Text, "no name is cut")
	rows := demoRows()
	rows[11].Amount = "1,260,852.00"
	r.Resize(fyne.NewSize(290, 700))
	r.SetRows(rows)
	assert.True(t, r.body.stacked, "a larger amount may do it too")
}

func TestAShortRailScrollsToTheChosenStage(t *testing.T) {
	r, w := demoRail(t, 290, 260)
	assert.False(t, says(w.Content(), "Delivery and install"))
	r.Select("delivery")
	assert.True(t, says(w.Content(), "Delivery and install"))
}

// The column is measured: each stage's colour is as tall as its share.
func TestTheColumnShowsTheSharesOfTheCost(t *testing.T) {
	r, _ := demoRail(t, 290, 700)
	s := r.body.strata
	width, height := int(s.raster.Size().Width), 1000
	img := s.draw(width, height).(*image.NRGBA)
	var sum float64
	for _, row := range demoRows() {
		sum += row.Share
	}
	for _, row := range demoRows() {
		want := row.Share / sum * float64(height)
		tone, got := nrgba(colour(row.Colour)), 0
		for y := range height {
			if img.NRGBAAt(2, y) == tone {
				got++
			}
		}
		assert.InDelta(t, want, float64(got), 3, row.ID)
	}
}

func TestTheBandsEndAtTheirRows(t *testing.T) {
	r, _ := demoRail(t, 290, 700)
	s := r.body.strata
	img := s.draw(int(s.raster.Size().Width), 1200).(*image.NRGBA)
	x := int(s.place.swatch - s.place.column + 2)
	for i, row := range demoRows() {
		assert.Equal(t, nrgba(colour(row.Colour)), img.NRGBAAt(x, i*100+50), row.ID)
	}
}

func TestSharesThatCannotBeAreNone(t *testing.T) {
	plaster(t)
	s := newStrata()
	nan := 0.0
	nan /= nan
	s.setRows([]RailRow{{Share: nan, Colour: look.StageForm}, {Share: -1}, {Share: 1 / (nan - nan)}})
	assert.Equal(t, []float64{0, 0, 0, 0}, s.edges(100))
	s.lay(s.plan(290), 0, 50, 3)
	require.NotPanics(t, func() { s.draw(60, 150) })
	assert.Equal(t, image.Rect(0, 0, 60, 150), s.draw(60, 150).Bounds())
	s.setRows(nil)
	require.NotPanics(t, func() { s.draw(1, 1) })
}

func TestAChosenBandIsStrongerThanAHoveredOneThanTheRest(t *testing.T) {
	s := newStrata()
	s.emphasise(2, 4)
	assert.Greater(t, s.strength(2), s.strength(4))
	assert.Greater(t, s.strength(4), s.strength(1))
}

func TestTheMarkOfWhatOthersDoIsHollow(t *testing.T) {
	r, _ := demoRail(t, 290, 700)
	rows := demoRows()
	rows[2].State = StageByOthers
	r.SetRows(rows)
	s := r.body.strata
	img := s.draw(int(s.raster.Size().Width), 1200).(*image.NRGBA)
	left, tone := int(s.place.swatch-s.place.column), nrgba(colour(rows[2].Colour))
	assert.Equal(t, tone, img.NRGBAAt(left, 250), "an outline at the left")
	assert.Zero(t, img.NRGBAAt(left+2, 250).A, "and nothing inside")
	assert.Equal(t, tone, img.NRGBAAt(left+2, 200), "but a line above")
}

func TestARailWithoutAColumnHasItsRowsAtTheEdge(t *testing.T) {
	plaster(t)
	with, without := NewRail(), NewRail().WithoutColumn()
	for _, r := range []*Rail{with, without} {
		r.SetRows(demoRows())
		window(t, r, 290, 760)
	}
	assert.Less(t, without.body.cells[0].name.Position().X, with.body.cells[0].name.Position().X)
	assert.Less(t, without.body.cells[0].name.Position().X, float32(25))
}
