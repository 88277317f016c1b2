package ui

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
	"meltwright/internal/ui/kit"
	"meltwright/internal/ui/look"
)

// weigh opens the demo's group with four heights, one of them recommended,
// against a budget.
func weigh(t testing.TB, heights ...string) (*bench, *optionsScreen) {
	t.Helper()
	b := sit(t, withDemo)
	s := b.quote().sheet
	for _, h := range heights {
		_, err := s.AddOption(h)
		require.NoError(t, err)
	}
	s.Set(estimate.Whole, "price.budget", "400000")
	o := newOptionsScreen(b.quote())
	b.w.show(o)
	return b, o
}

// fourHeights are those of the pictures and the masters.
func fourHeights(t testing.TB) (*bench, *optionsScreen) {
	b, o := weigh(t, "half life size", "life size", "life and a half")
	o.edit(func() {
		o.sheet.MoveOption(0, 2)
		o.sheet.Recommend(2, true)
		o.sheet.ExplainOption(2, "At one and a quarter life size the keeper stands above the railing and is seen from the ferry.")
		o.sheet.SetOption(3, 0, "form.wall", "6 mm")
	})
	o.choose(2)
	b.clock.pass(rest) // their ranges are drawn
	return b, o
}

func TestTheOptionsAtEverySizeAndTextSize(t *testing.T) {
	views := []struct {
		size    fyne.Size
		percent int
	}{{fyne.NewSize(1280, 820), 100}, {fyne.NewSize(1024, 700), 100}, {fyne.NewSize(1024, 700), 200}, {fyne.NewSize(1600, 1000), 150}}
	for variant, mode := range bothModes {
		for _, v := range views {
			t.Run(fmt.Sprintf("%s %.0f %d", variant, v.size.Width, v.percent), func(t *testing.T) {
				b, o := fourHeights(t)
				b.wear(mode, v.percent)
				b.win.Resize(v.size)
				name := fmt.Sprintf("options-%s-%.0f-%d", variant, v.size.Width, v.percent)
				b.holdsItsWords(v.size.Width)
				b.picture(name)
				o.panel.differs.fold.set(true)
				for _, scroll := range []*kit.FocusScroll{o.body.scroll, o.panel.body.scroll} {
					kit.RevealPart(scroll.Content(), scroll.Content().Size().Height-1, scroll.Content().Size().Height)
				}
				b.holdsItsWords(v.size.Width)
				b.picture(name + "-below")
			})
		}
	}
}

func TestTheOptionsLookAsTheyDid(t *testing.T) {
	for variant, mode := range map[string]look.Mode{"light": look.Light, "dark": look.Dark} {
		b, _ := fourHeights(t)
		b.wear(mode, 100)
		b.win.Resize(fyne.NewSize(1280, 820))
		test.AssertRendersToMarkup(t, "options-"+variant+".xml", b.win.Canvas())
	}
}
