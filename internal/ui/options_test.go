package ui

import (
	"fmt"
	"image"
	"slices"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/drawing"
	"meltwright/internal/mesh"
)

func TestWithoutOptionsTheQuoteStandsAloneAndAHeightCanBeAdded(t *testing.T) {
	b, o := weigh(t)
	assert.Contains(t, b.said(), "As quoted Add a height to compare it with.")
	assert.Same(t, o.table, b.focused())
	b.press(fyne.KeyReturn)
	b.typed("life and a half")
	b.press(fyne.KeyReturn, fyne.KeyReturn) // on to the button, and press it
	assert.Len(t, o.sheet.Commission().Options, 2)
	assert.Contains(t, b.said(), "Life and a half Option 2 of 2")
	assert.Contains(t, b.said(), "2.625 m")
	assert.Empty(t, b.field("option.add").Text())
	b.menu("Undo")
	assert.Empty(t, o.sheet.Commission().Options)
}

func TestAHeightThatIsNoneIsToldBesideItAndStays(t *testing.T) {
	b, o := weigh(t, "1 m")
	b.fill("option.add", "huge")
	b.tap(addHeight)
	assert.Equal(t, "huge", b.field("option.add").Text())
	assert.Contains(t, b.field("option.add").Fault(), "is not a length")
	assert.Len(t, o.sheet.Commission().Options, 2)
	b.fill("option.add", "")
	o.panel.add()
	assert.Contains(t, b.field("option.add").Fault(), "is empty")
}

func TestTheWholeJobGoesByKeyboard(t *testing.T) {
	b, o := weigh(t, "life size", "life and a half")
	b.press(fyne.KeyHome, fyne.KeyRight)
	assert.Equal(t, 1, o.chosen)
	b.press(fyne.KeyReturn) // into its height
	b.fill("option.height", "1.9 m")
	assert.Equal(t, "1.9 m", o.sheet.Commission().Options[1].Height)
	assert.Contains(t, b.said(), "1.9 m Option 2 of 3")
	b.fill("option.name", "By the quay")
	assert.Contains(t, b.said(), "By the quay Option 2 of 3")
	b.field("option.recommended").Focus()
	b.typed(" ")
	b.fill("option.why", "It stands above the railing.")
	assert.True(t, o.sheet.Commission().Options[1].Recommended)
	assert.Equal(t, "It stands above the railing.", o.sheet.Commission().Options[1].Why)

	price := o.list[1].Estimate.Price
	b.tap("Make it the quote")
	assert.Equal(t, price, o.sheet.Latest().Price)
	assert.Equal(t, "“By the quay” is the quote now.", b.w.toast.Said())
	assert.True(t, o.list[1].IsQuote)
	b.tap("Undo")
	assert.NotEqual(t, price, o.sheet.Latest().Price, "one step back")

	b.menu("Stages, or back to the fields")
	assert.Same(t, o.table, b.focused())
	b.press(fyne.KeyDelete)
	assert.Equal(t, "“By the quay” is taken away.", b.w.toast.Said())
	assert.Len(t, o.list, 2)
	b.tap("Undo")
	assert.Len(t, o.list, 3)
}

func TestTheKeyboardScrollsToTheBarsAndTheCurveAndBack(t *testing.T) {
	b, o := fourHeights(t)
	b.win.Resize(fyne.NewSize(1024, 700))
	b.win.Canvas().Focus(o.table)
	b.press(fyne.KeyPageDown, fyne.KeyPageDown)
	end := o.body.scroll.Content().Size().Height - o.body.scroll.Size().Height
	assert.InDelta(t, end, o.body.scroll.Offset(), 1)
	b.press(fyne.KeyUp)
	assert.Less(t, o.body.scroll.Offset(), end-50)
	b.press(fyne.KeyDown)
	assert.InDelta(t, end, o.body.scroll.Offset(), 1)
	b.press(fyne.KeyPageUp, fyne.KeyPageUp)
	assert.Zero(t, o.body.scroll.Offset())
}

func TestTheSliderDrawsTheHeightInOneStepOfUndo(t *testing.T) {
	b, o := weigh(t, "life size", "life and a half")
	o.choose(1)
	before := o.sheet.Commission().Options[1].Height
	s := o.panel.slider
	b.win.Canvas().Focus(s)
	b.press(fyne.KeyRight, fyne.KeyRight, fyne.KeyPageUp)
	assert.InDelta(t, 1.87, float64(o.now().Height), 1e-9)
	assert.Equal(t, "1.87 m", b.field("option.height").Text())
	b.press(fyne.KeyPageDown, fyne.KeyLeft)
	assert.InDelta(t, 1.76, float64(o.now().Height), 1e-9)
	b.menu("Undo")
	assert.Equal(t, before, o.sheet.Commission().Options[1].Height)
	assert.InDelta(t, 1.75, s.Value, 1e-9)
	b.press(fyne.KeyEnd)
	assert.InDelta(t, s.Max, float64(o.now().Height), 0.01)
	b.press(fyne.KeyHome)
	assert.InDelta(t, s.Min, float64(o.now().Height), 0.01)
	assert.Empty(t, o.now().Faults, "the least is what the walls leave room for")
}

func TestTheBudgetSaysWhatFitsAndWhatIsInTheWay(t *testing.T) {
	b, o := weigh(t, "life size")
	assert.Contains(t, b.said(), "Up to 2.299 m fits: $399,855.00 with tax. There the budget ends. Next: another heat at 2.302 m")
	assert.Contains(t, b.said(), "Left for the artist:")
	b.tap(addLargest)
	assert.InDelta(t, 2.299, float64(o.now().Height), 1e-9)
	assert.Contains(t, b.said(), "$145 left")

	b.fill("price.budget", "100")
	assert.Contains(t, b.said(), "No height fits. The smallest whose walls fit the form")
	assert.Contains(t, b.said(), "Nothing is left for the artist")
	b.tap(addLargest)
	assert.Contains(t, b.said(), "There is no largest height")
	b.tap("Close")

	b.fill("price.budget", "many")
	assert.Contains(t, b.field("price.budget").Fault(), "is not an amount")
	assert.Equal(t, "many", o.sheet.Commission().Inputs["price.budget"], "what was typed stays")
	b.fill("price.budget", "")
	assert.NotContains(t, b.said(), "Left for the artist")
	assert.NotContains(t, b.said(), "Against the budget")
}

func TestAnOptionIsMadeOtherwiseThanTheQuote(t *testing.T) {
	b, o := weigh(t, "life size")
	o.choose(1)
	o.panel.differs.fold.set(true)
	assert.Equal(t, "", b.field("option.form.wall").Text())
	other := o.list[0].Estimate.Total
	b.fill("option.form.wall", "8 mm")
	assert.Equal(t, other, o.list[0].Estimate.Total, "the other stays what it was")
	assert.InDelta(t, 0.008, float64(o.now().Estimate.Pieces[0].Wall), 1e-12)
	assert.Contains(t, o.panel.differs.fold.button.Text(), "1 changed here")
	o.panel.differs.pieces.choose(1)
	b.fill("option.form.casts", "two")
	assert.Contains(t, b.field("option.form.casts").Fault(), "is not a whole number")
	assert.Contains(t, b.said(), "cannot be made so")
	assert.True(t, o.panel.quote.Disabled())
	b.fill("option.form.casts", "2")
	assert.Empty(t, b.field("option.form.casts").Fault())
	assert.Equal(t, 2, o.now().Estimate.Pieces[1].Casts)
	b.fill("option.form.casts", "")
	assert.Equal(t, 1, o.now().Estimate.Pieces[1].Casts, "as the quote again")
}

func TestOptionsAreMovedAndDoubled(t *testing.T) {
	b, o := weigh(t, "life size", "life and a half")
	o.choose(2)
	b.tap("To the left")
	b.tap("To the left")
	b.tap("To the left")
	assert.Equal(t, 0, o.chosen)
	assert.Equal(t, "Life and a half", o.list[0].Name)
	b.tap("To the right")
	assert.Equal(t, 1, o.chosen)
	b.tap("Duplicate")
	assert.Equal(t, 2, o.chosen)
	assert.Len(t, o.list, 4)
	b.tap("Remove")
	assert.Len(t, o.list, 3)
}

func TestWhatIsDoneToOptionsIsKept(t *testing.T) {
	b, o := weigh(t, "life size")
	o.choose(1)
	b.fill("option.name", "Smaller")
	b.clock.pass(time.Second)
	q, err := b.store.Quote(t.Context(), o.sheet.Quote().ID)
	require.NoError(t, err)
	assert.Equal(t, "Smaller", q.Commission.Options[1].Name)
	b.win.Canvas().Unfocus()
	o.bar.Held()[0].(fyne.Tappable).Tapped(&fyne.PointEvent{})
	assert.Same(t, o.q, b.w.screen, "the way back leads to the quote")
	o = newOptionsScreen(b.quote())
	b.w.show(o)
	assert.Contains(t, b.said(), "Smaller")
}

func TestTabGoesThroughTheOptions(t *testing.T) {
	b, o := fourHeights(t)
	assert.Equal(t, []string{
		"[]", "[Add a height]", "[Largest within the budget]", "[Make proposal]", "rows",
		"price.budget", "price.budget_is", "option.add", "[Add a height]",
		"option.height", "rows", "option.name", "option.recommended", "option.why", "[Make it the quote]",
		"[Made otherwise]", "[Duplicate]", "[To the left]", "[To the right]", "[Remove]",
	}, withoutDisabled(o, b.around()))
}

// withoutDisabled is an order of Tab as it would be if the quote could be made
// of what it is already.
func withoutDisabled(o *optionsScreen, names []string) []string {
	if !o.panel.quote.Disabled() {
		return names
	}
	var out []string
	for _, n := range names {
		if n == "[Made otherwise]" {
			out = append(out, "[Make it the quote]")
		}
		out = append(out, n)
	}
	return out
}

func TestMoreOptionsThanGoIntoTheWindowAreGoneThrough(t *testing.T) {
	b, o := weigh(t, "0.6 m", "0.9 m", "1.2 m", "1.5 m", "1.8 m", "2 m", "2.4 m", "2.8 m", "3.2 m")
	b.win.Resize(fyne.NewSize(1024, 700))
	o.choose(0)
	n := o.table.plan.n
	require.Less(t, n, len(o.list))
	assert.Contains(t, b.said(), "more ›")
	assert.Len(t, o.lineUp(frame100()).Figures, n, "the drawing shows those of the table")
	b.win.Canvas().Focus(o.table)
	b.press(fyne.KeyEnd)
	assert.Equal(t, len(o.list)-1, o.chosen)
	assert.Contains(t, b.said(), "‹ ")
	assert.Equal(t, len(o.list)-n, o.table.plan.first)
	test.TapAt(o.table, fyne.NewPos(4, 14))
	assert.Equal(t, o.table.plan.first, o.chosen, "the mouse goes on to the one before")
}

func TestATapChoosesTheOptionUnderIt(t *testing.T) {
	b, o := fourHeights(t)
	b.win.Resize(fyne.NewSize(1280, 820))
	p := o.table.plan
	test.TapAt(o.table, fyne.NewPos(p.centre(1), 120))
	assert.Equal(t, 1, o.chosen)
}

func TestEveryNumberOfTheTableIsTheEstimates(t *testing.T) {
	b, o := fourHeights(t)
	b.win.Resize(fyne.NewSize(1280, 820))
	said := b.said()
	for _, x := range o.list {
		assert.Contains(t, said, headline(x.Estimate))
		assert.Contains(t, said, x.Estimate.Currency.Print(x.Estimate.Total, locale))
		finished, poured, _ := optionWeights(x.Estimate)
		assert.Contains(t, said, fmt.Sprintf("%.1f kg", finished))
		assert.Contains(t, said, fmt.Sprintf("%.1f kg", poured))
		assert.Contains(t, said, fmt.Sprintf("%.1f weeks", x.Weeks))
		assert.Contains(t, said, fmt.Sprintf("%.3f m", float64(x.Height)))
	}
	assert.Contains(t, said, "$111,746 over")
	assert.Contains(t, said, "1,465 kg at 6 m")
}

// dark is how far a pixel is from white.
func dark(img image.Image, x, y int) float64 {
	r, g, b, _ := img.At(x, y).RGBA()
	return 3 - float64(r+g+b)/0xffff
}

// ruled reads the lines of a ruler in column x of a picture, from the ground up:
// the middle of each.
func ruled(img image.Image, x int) (lines []float64) {
	sheet, sum, weight := dark(img, x, 0), 0.0, 0.0
	for y := img.Bounds().Dy() - 1; y >= 0; y-- {
		switch d := dark(img, x, y) - sheet; {
		case d > 0.02:
			sum, weight = sum+d*(float64(y)+0.5), weight+d
		case weight > 0:
			lines, sum, weight = append(lines, sum/weight), 0, 0
		}
	}
	return lines
}

// topmost is the first row between two columns in which two pictures differ.
func topmost(a, b image.Image, left, right int) int {
	for y := range a.Bounds().Dy() {
		for x := left; x < right; x++ {
			if d := dark(a, x, y) - dark(b, x, y); d > 0.04 || d < -0.04 {
				return y
			}
		}
	}
	return -1
}

// The figures are measured in the picture that the window shows, against the
// lines of its ruler, to a pixel.
func TestFiguresInTheWindowAreAsTallAsTheirNumbersSay(t *testing.T) {
	b, o := fourHeights(t)
	b.win.Resize(fyne.NewSize(1280, 820))
	for _, scale := range []int{1, 2} { // pixels to a unit of the window
		w, h := int(o.picture.Size().Width)*scale, int(o.picture.Size().Height)*scale
		frame, pixels := frameOf(o.picture, w, h)
		frame.Height += frame.Text
		s := o.lineUp(frame).Scene()
		s.Items = slices.DeleteFunc(s.Items, func(item drawing.Item) bool { _, figure := item.(drawing.Group); return figure })
		img, bare := o.drawPicture(w, h), paintScene(s, pixels, w, h)
		lines := ruled(bare, int(o.table.plan.label)*scale*7/8)
		for len(lines) > 1 && lines[0]-lines[1] < float64(30*scale) {
			lines = lines[1:] // words below the ground
		}
		require.Greater(t, len(lines), 2)
		var most float64 // what is written at the highest line
		for _, text := range s.Texts() {
			var v float64
			if _, err := fmt.Sscanf(text.Words, "%g m", &v); err == nil {
				most = max(most, v)
			}
		}
		perMetre := (lines[0] - lines[len(lines)-1]) / most
		for i, option := range o.list {
			half := o.table.plan.column * 0.48
			left, right := int(o.table.plan.centre(i)-half)*scale, int(o.table.plan.centre(i)+half)*scale
			assert.InDelta(t, lines[0]-float64(option.Estimate.Pieces[0].Standing)*perMetre, float64(topmost(img, bare, left, right)), 1,
				"%s at %.0f pixels to the metre", option.Name, perMetre)
		}
	}
}

func TestAGroupStandsTogetherInTheWindow(t *testing.T) {
	_, o := fourHeights(t)
	for i, f := range o.lineUp(frame100()).Figures {
		require.Len(t, f.Beside, 2)
		assert.Equal(t, "dog", f.Beside[0].Drawing.Name)
		assert.InDelta(t, float64(o.list[i].Estimate.Pieces[1].Height), f.Beside[0].Height, 1e-9)
	}
}

func TestAScannedPieceIsDrawnByItsOwnOutline(t *testing.T) {
	_, o := weigh(t, "life size")
	x := o.list[1]
	assert.Equal(t, "standing", o.silhouette(x, 0).Name)
	x.Commission = x.Commission.Clone()
	x.Commission.Pieces[0].Scan = &mesh.Scan{Front: mesh.Outline{{{-0.1, 0}, {0.1, 0}, {0.2, 1}, {-0.2, 1}}}}
	drawn := o.silhouette(x, 0)
	assert.Equal(t, "scan", drawn.Name)
	assert.InDelta(t, 0.4, drawn.Width(), 1e-9)
	x.Commission.Pieces[0].Scan = &mesh.Scan{}
	assert.Equal(t, "standing", o.silhouette(x, 0).Name, "a scan without an outline")
	o.sheet.SetWords("drawing.0", "seated")
	assert.Equal(t, "seated", o.silhouette(x, 0).Name, "the one that was chosen")
}

func TestAHeightThatCannotBeReadTakesTheSliderAway(t *testing.T) {
	b, o := weigh(t, "life size")
	o.choose(1)
	b.fill("option.height", "1.8 mm m")
	assert.False(t, o.panel.slider.Visible())
	assert.NotEmpty(t, b.field("option.height").Fault())
	b.fill("option.height", "1.8 m")
	assert.True(t, o.panel.slider.Visible())
	assert.InDelta(t, 1.8, o.panel.slider.Value, 1e-9)
}

func TestTheCurveHasTheOptionsOnItAndTheBudget(t *testing.T) {
	_, o := fourHeights(t)
	c := o.priceCurve(frame100())
	assert.Len(t, c.Options, 4)
	assert.InDelta(t, 400000, c.Budget, 1e-9)
	assert.Greater(t, len(c.Points), curvePoints)
	for i, x := range []int{0, 1, 2} { // the fourth has another wall
		at := c.Options[i]
		near := false
		for k := 1; k < len(c.Points); k++ {
			a, b := c.Points[k-1], c.Points[k]
			if a.Height <= at.Height && at.Height <= b.Height && min(a.Price, b.Price)-1 <= at.Price && at.Price <= max(a.Price, b.Price)+1 {
				near = true
			}
		}
		assert.True(t, near, "option %d lies on the curve", x)
	}
}

func TestAnotherShopBookCountsOnTheWayBack(t *testing.T) {
	b, o := weigh(t, "life size")
	before := o.list[1].Estimate.Total
	require.NoError(t, b.w.desk.SetBook(t.Context(), b.w.desk.Book().With("labour.sculptor", "144 / h", "2026-03-14")))
	o.sheet.Reckon()
	b.w.show(o)
	assert.Greater(t, o.list[1].Estimate.Total, before)
}

func BenchmarkASliderStep(b *testing.B) {
	_, o := fourHeights(b)
	o.w.win.Resize(fyne.NewSize(1280, 820))
	o.choose(0)
	heights := []string{"0.9 m", "0.91 m"}
	i := 0
	for b.Loop() {
		i++
		o.edit(func() { o.sheet.SetOptionHeight(0, heights[i%2]) })
		o.drawPicture(892, 236)
		o.drawBars(892, 160)
		o.drawCurve(892, 250)
	}
}

func frame100() drawing.Frame { return drawing.Frame{Width: 900, Height: 240, Text: 12} }
