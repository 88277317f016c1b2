package kit

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// textWidth is the room a text takes on one line. Figures change at every
// keystroke and measuring a new text costs much: their width is the sum of their
// digits', which are measured once.
func textWidth(text string, size float32, style fyne.TextStyle) float32 {
	if !isFigure(text) {
		return fyne.MeasureText(text, size, style).Width
	}
	key := glyphKey{size: size, bold: style.Bold, font: theme.Current().Font(style)}
	var sum float32
	for _, r := range text {
		key.r = r
		sum += glyphWidth(key, style)
	}
	return sum
}

// isFigure says that a text is made of digits and what stands among them.
func isFigure(text string) bool {
	return strings.Trim(text, "0123456789.,- $€£%") == ""
}

// glyphKey is what the width of one sign depends on.
type glyphKey struct {
	r    rune
	size float32
	bold bool
	font fyne.Resource
}

// glyphs are the widths measured so far; a few dozen signs in a few sizes.
var glyphs = map[glyphKey]float32{}

func glyphWidth(key glyphKey, style fyne.TextStyle) float32 {
	w, known := glyphs[key]
	if !known {
		w = fyne.MeasureText(string(key.r), key.size, style).Width
		glyphs[key] = w
	}
	return w
}
