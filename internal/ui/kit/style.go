package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/ui/look"
)

// unit is how large the text is, 1 at plain size: lengths grow with it.
func unit() float32 { return theme.TextSize() / look.Text }

// px is a length of n at plain text size.
func px(n float32) float32 { return n * unit() }

// gap is a distance of n at plain text size, which grows half as much as text.
func gap(n float32) float32 { return n * (1 + unit()) / 2 }

// colour is the current theme's colour of that name; under a theme that is not
// ours, and does not know our names, it is the plaster one.
func colour(name fyne.ThemeColorName) color.Color {
	if _, ours := theme.Current().(*look.Theme); ours {
		return theme.Color(name)
	}
	return look.Colour(name, false)
}

// letterSize is the current theme's text size of that name.
func letterSize(name fyne.ThemeSizeName) float32 {
	if _, ours := theme.Current().(*look.Theme); ours {
		return theme.Size(name)
	}
	return look.New(look.Light, look.LeastPercent).Size(name)
}

var (
	plain = fyne.TextStyle{}
	bold  = fyne.TextStyle{Bold: true}
)

// lineHeight is the height of one line of text of that size.
func lineHeight(size fyne.ThemeSizeName) float32 {
	return fyne.MeasureText("Mg", letterSize(size), plain).Height
}
