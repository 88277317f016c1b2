package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// Mode says which variant a theme shows.
type Mode int

// The modes a user may choose between.
const (
	Auto  Mode = iota // as the computer is set
	Light             // plaster
	Dark              // night
)

// Theme is the look of the window; it implements fyne.Theme. Its zero value is
// the automatic mode at 100 %.
type Theme struct {
	mode  Mode
	extra float32 // what the text grows beyond its plain size, 0 to 1
}

var _ fyne.Theme = (*Theme)(nil)

// New makes the look in a mode, with text at percent of its plain size: 100 to
// 200, less or more is taken as the nearest.
func New(mode Mode, percent int) *Theme {
	percent = max(LeastPercent, min(MostPercent, percent))
	return &Theme{mode: mode, extra: float32(percent)/100 - 1}
}

// Percent is the text size, 100 to 200.
func (t *Theme) Percent() int { return int(t.extra*100 + 100.5) }

// Mode is the mode the theme was made with.
func (t *Theme) Mode() Mode { return t.mode }

// Color implements fyne.Theme.
func (t *Theme) Color(name fyne.ThemeColorName, variant fyne.ThemeVariant) color.Color {
	return Colour(name, t.dark(variant))
}

// Font implements fyne.Theme.
func (t *Theme) Font(style fyne.TextStyle) fyne.Resource { return font(style) }

// Icon implements fyne.Theme: Fyne's own icons, which take their colour from here.
func (t *Theme) Icon(name fyne.ThemeIconName) fyne.Resource {
	return theme.DefaultTheme().Icon(name)
}

// Size implements fyne.Theme.
func (t *Theme) Size(name fyne.ThemeSizeName) float32 { return sizeAt(name, 1+t.extra) }

func (t *Theme) dark(variant fyne.ThemeVariant) bool {
	return t.mode == Dark || t.mode == Auto && variant == theme.VariantDark
}
