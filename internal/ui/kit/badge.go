package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
)

// badge is the small sign beside what needs attention, so that colour is never
// the only sign of it.
type badge struct {
	*canvas.Image
	icon  fyne.ThemeIconName
	tone  fyne.ThemeColorName
	drawn color.Color // the colour it was last drawn in; drawing costs a little
}

func newBadge(icon fyne.ThemeIconName, tone fyne.ThemeColorName) *badge {
	b := &badge{Image: &canvas.Image{FillMode: canvas.ImageFillContain}}
	b.become(icon, tone)
	return b
}

// become changes sign and colour.
func (b *badge) become(icon fyne.ThemeIconName, tone fyne.ThemeColorName) {
	if b.icon != icon || b.tone != tone {
		b.icon, b.tone, b.drawn = icon, tone, nil
		b.dress()
	}
}

// dress draws the sign in the theme's colour, if that is another one than before.
func (b *badge) dress() {
	if c := colour(b.tone); b.drawn != c {
		b.drawn = c
		b.Resource = theme.NewColoredResource(theme.Current().Icon(b.icon), b.tone)
		b.Image.Refresh()
	}
}
