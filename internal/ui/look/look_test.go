package look

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/assert"

	"meltwright/assets"
)

// WCAG 2.1, success criterion 1.4.3: text needs at least 4.5 : 1.
const readable = 4.5

// WCAG 2.1, success criterion 1.4.11: outlines and marks need at least 3 : 1.
const visible = 3.0

var bothVariants = map[string]bool{"light": false, "dark": true}

func TestEveryTextIsReadableOnEveryGroundItIsWrittenOn(t *testing.T) {
	pairs := map[fyne.ThemeColorName][]fyne.ThemeColorName{
		Ink:                                {Sheet, Side, Panel, Raised, NoteGround, WarnGround},
		Muted:                              {Sheet, Side, Panel, Raised},
		Bronze:                             {Sheet, Side, Panel, Raised},
		Good:                               {Sheet, Side, Panel, Raised},
		Bad:                                {Sheet, Side, Panel, Raised},
		OnAccent:                           {Accent},
		OnBar:                              {Bar, BarButton},
		OnBarLow:                           {Bar},
		theme.ColorNamePlaceHolder:         {theme.ColorNameInputBackground},
		theme.ColorNameDisabled:            {theme.ColorNameBackground, theme.ColorNameDisabledButton},
		theme.ColorNameHyperlink:           {theme.ColorNameBackground, theme.ColorNameOverlayBackground},
		theme.ColorNameForegroundOnPrimary: {theme.ColorNamePrimary},
		theme.ColorNameForegroundOnError:   {theme.ColorNameError},
		theme.ColorNameForegroundOnSuccess: {theme.ColorNameSuccess},
		theme.ColorNameForegroundOnWarning: {theme.ColorNameWarning},
		theme.ColorNameForeground: {
			theme.ColorNameMenuBackground, theme.ColorNameHeaderBackground,
			theme.ColorNameButton, theme.ColorNameOverlayBackground,
		},
	}
	for variant, dark := range bothVariants {
		for text, grounds := range pairs {
			for _, ground := range grounds {
				got := Contrast(Colour(text, dark), Colour(ground, dark))
				assert.GreaterOrEqual(t, got, readable, "%s: %s on %s", variant, text, ground)
			}
		}
	}
}

func TestTextStaysReadableUnderHoverAndSelection(t *testing.T) {
	for variant, dark := range bothVariants {
		for _, over := range []fyne.ThemeColorName{theme.ColorNameHover, theme.ColorNameSelection, theme.ColorNameFocus} {
			for _, ground := range []fyne.ThemeColorName{Sheet, Side, Raised} {
				seen := Over(Colour(over, dark), Colour(ground, dark))
				assert.GreaterOrEqual(t, Contrast(Colour(Ink, dark), seen), readable, "%s: ink under %s on %s", variant, over, ground)
			}
		}
	}
}

func TestOutlinesAndMarksCanBeSeen(t *testing.T) {
	pairs := map[fyne.ThemeColorName][]fyne.ThemeColorName{
		Edge:     {Sheet, Raised},
		Accent:   {Sheet, Raised, Side},
		NoteEdge: {NoteGround},
		WarnEdge: {WarnGround},
	}
	for variant, dark := range bothVariants {
		for mark, grounds := range pairs {
			for _, ground := range grounds {
				got := Contrast(Colour(mark, dark), Colour(ground, dark))
				assert.GreaterOrEqual(t, got, visible, "%s: %s on %s", variant, mark, ground)
			}
		}
	}
}

func TestThePlasterIsTheOneAgreedOn(t *testing.T) {
	assert.Equal(t, hex(0xfffdf8), Colour(Sheet, false))
	assert.Equal(t, hex(0xebe6da), Colour(Side, false))
	assert.Equal(t, hex(0x221d17), Colour(Ink, false))
	assert.Equal(t, hex(0xa4662c), Colour(Accent, false))
	assert.Equal(t, hex(0xa63d2f), Colour(WarnEdge, false))
	assert.Equal(t, hex(0x3e7c6f), Colour(StagePatina, false))
}

// WCAG 2.1 gives 21 : 1 for black on white; #767676 is known as the lightest
// grey that passes on white, at 4.54 : 1 (from memory).
func TestContrastAgreesWithWCAG(t *testing.T) {
	assert.InDelta(t, 21, Contrast(hex(0), hex(0xffffff)), 1e-9)
	assert.InDelta(t, 4.54, Contrast(hex(0x767676), hex(0xffffff)), 0.005)
	assert.InDelta(t, 1, Contrast(hex(0xa4662c), hex(0xa4662c)), 1e-12)
	assert.Equal(t, Contrast(hex(0xff0000), hex(0xffffff)), Contrast(hex(0xffffff), hex(0xff0000)))
}

func TestEveryStageHasAColourOfItsOwn(t *testing.T) {
	for variant, dark := range bothVariants {
		seen := map[string]string{}
		for id, name := range stageOf {
			key := fmt.Sprint(Colour(name, dark))
			assert.Empty(t, seen[key], "%s: %s looks like %s", variant, id, seen[key])
			seen[key] = id
			assert.NotEqual(t, Colour(Side, dark), Colour(name, dark), "%s: %s cannot be told from the rail", variant, id)
		}
		assert.Len(t, seen, 12)
	}
	assert.Equal(t, StageShell, StageColour("shell"))
	assert.Equal(t, StageForm, StageColour("a stage of tomorrow"))
}

func TestTextGrowsInFullAndGapsByHalf(t *testing.T) {
	plain, twice := New(Light, 100), New(Light, 200)
	assert.Equal(t, float32(14), plain.Size(theme.SizeNameText))
	assert.Equal(t, float32(28), twice.Size(theme.SizeNameText))
	assert.Equal(t, float32(8), plain.Size(theme.SizeNameInnerPadding))
	assert.Equal(t, float32(12), twice.Size(theme.SizeNameInnerPadding))
	assert.Equal(t, float32(1), twice.Size(theme.SizeNameInputBorder))
	assert.Equal(t, float32(21), New(Light, 150).Size("a size of tomorrow"))
}

func TestTextSizeIsHeldBetweenOneAndTwo(t *testing.T) {
	for asked, got := range map[int]int{-5: 100, 0: 100, 100: 100, 125: 125, 199: 199, 200: 200, 1000: 200} {
		assert.Equal(t, got, New(Auto, asked).Percent(), "asked for %d %%", asked)
	}
	assert.Equal(t, 100, (&Theme{}).Percent())
}

func TestTheModeDecidesAndAutoFollowsTheComputer(t *testing.T) {
	day, dusk := Colour(Sheet, false), Colour(Sheet, true)
	assert.Equal(t, day, New(Light, 100).Color(Sheet, theme.VariantDark))
	assert.Equal(t, dusk, New(Dark, 100).Color(Sheet, theme.VariantLight))
	assert.Equal(t, day, New(Auto, 100).Color(Sheet, theme.VariantLight))
	assert.Equal(t, dusk, New(Auto, 100).Color(Sheet, theme.VariantDark))
	assert.Equal(t, Dark, New(Dark, 100).Mode())
}

func TestEveryNameThatFyneAsksForIsAnswered(t *testing.T) {
	test.AssertAllColorNamesDefined(t, New(Light, 100), "light")
	test.AssertAllColorNamesDefined(t, New(Dark, 100), "dark")
	for _, style := range []fyne.TextStyle{{}, {Bold: true}, {Italic: true}, {Bold: true, Italic: true}, {Monospace: true}} {
		assert.NotNil(t, New(Auto, 100).Font(style))
	}
	assert.NotNil(t, New(Auto, 100).Icon(theme.IconNameWarning))
}

// Figures stand under figures only if every digit is as wide as the others.
func TestDigitsAreAllOfOneWidth(t *testing.T) {
	test.NewTempApp(t)
	test.ApplyTheme(t, New(Light, 100))
	for _, bold := range []bool{false, true} {
		zero := fyne.MeasureText("0000000000", 40, fyne.TextStyle{Bold: bold}).Width
		for d := 1; d <= 9; d++ {
			text := strings.Repeat(fmt.Sprint(d), 10)
			assert.InDelta(t, zero, fyne.MeasureText(text, 40, fyne.TextStyle{Bold: bold}).Width, 0.01, "%s, bold %v", text, bold)
		}
	}
}

// The papers are set in the Noto Sans of package assets; a line of the window and
// a line of the papers are of one length.
func TestTheWindowsLettersAreThoseOfThePapers(t *testing.T) {
	test.NewTempApp(t)
	test.ApplyTheme(t, New(Light, 100))
	for style, ttf := range map[fyne.TextStyle][]byte{{}: assets.NotoSansRegular, {Bold: true}: assets.NotoSansSemiBold} {
		paper := fyne.NewStaticResource("paper.ttf", ttf)
		for _, text := range []string{"Stucco, fused silica", "6.17 m² × 12 coats × 2.00 kg/m² = 148.0 kg", "Größe, façade, señal"} {
			size, _ := fyne.CurrentApp().Driver().RenderedTextSize(text, 14, style, paper)
			assert.InDelta(t, size.Width, fyne.MeasureText(text, 14, style).Width, 0.05, text)
		}
	}
}

func TestTakingATableOutOfAFontLeavesTheRest(t *testing.T) {
	lean := without(assets.NotoSansSemiBold, "GSUB")
	assert.Len(t, lean, len(assets.NotoSansSemiBold))
	assert.Equal(t, bytes.Count(assets.NotoSansSemiBold[:500], []byte("GSUB"))-1, bytes.Count(lean[:500], []byte("GSUB")))
	assert.Equal(t, []byte("GSUB"), assets.NotoSansSemiBold[bytes.Index(assets.NotoSansSemiBold, []byte("GSUB")):][:4], "the font itself is not touched")
	assert.Empty(t, without(nil, "GSUB"))
	assert.Equal(t, []byte("short"), without([]byte("short"), "GSUB"))
}
