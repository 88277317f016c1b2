package kit

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// ink is one line of text. It ends in … where its room is too narrow, and it
// repaints only when something about it changed.
type ink struct {
	*canvas.Text
	full   string
	colour fyne.ThemeColorName
	size   fyne.ThemeSizeName
	fitted float32 // the width it was last cut to
	whole  bool    // never cut: half a number is a wrong number
}

func newInk(size fyne.ThemeSizeName, name fyne.ThemeColorName, style fyne.TextStyle) *ink {
	t := &ink{Text: &canvas.Text{TextStyle: style}, colour: name, size: size}
	t.dress()
	return t
}

// trailing aligns the text with the right edge of its room and shows it whole:
// for numbers.
func (t *ink) trailing() *ink {
	t.Alignment, t.whole = fyne.TextAlignTrailing, true
	return t
}

// say changes the text, and tells whether it was another one.
func (t *ink) say(text string) bool {
	if t.full == text {
		return false
	}
	t.full = text
	t.cut()
	return true
}

// tint changes the colour.
func (t *ink) tint(name fyne.ThemeColorName) {
	if t.colour != name {
		t.colour = name
		t.dress()
	}
}

// weigh makes the text bold or not.
func (t *ink) weigh(heavy bool) {
	if t.TextStyle.Bold != heavy {
		t.TextStyle.Bold = heavy
		t.cut()
		t.Text.Refresh()
	}
}

// dress takes colour and size from the theme again.
func (t *ink) dress() {
	c, s := colour(t.colour), letterSize(t.size)
	if t.Color == c && t.TextSize == s {
		return
	}
	resized := t.TextSize != s
	t.Color, t.TextSize = c, s
	if resized {
		t.cut()
	}
	t.Text.Refresh()
}

// natural is the width that the whole text takes.
func (t *ink) natural() float32 { return textWidth(t.full, t.TextSize, t.TextStyle) }

// place gives the text its room; it is centred in the height.
func (t *ink) place(x, y, w, h float32) {
	if t.fitted != w {
		t.fitted = w
		t.cut()
	}
	line := fyne.MeasureText("Mg", t.TextSize, t.TextStyle).Height
	put(t.Text, x, y+(h-line)/2, w, line)
}

// cut shortens the text to its room.
func (t *ink) cut() {
	text := t.full
	if t.fitted > 0 && !t.whole {
		text = elide(t.full, t.fitted, t.TextSize, t.TextStyle)
	}
	if t.Text.Text != text {
		t.Text.Text = text
		t.Text.Refresh()
	}
}

// elide is the longest beginning of text that fits the width, with … for the rest.
func elide(text string, width, size float32, style fyne.TextStyle) string {
	const slack = 0.5 // rounding of pixels
	if textWidth(text, size, style) <= width+slack {
		return text
	}
	runes := []rune(text)
	low, high := 0, len(runes)
	for low < high {
		mid := (low + high + 1) / 2
		if fyne.MeasureText(shortened(runes[:mid]), size, style).Width <= width+slack {
			low = mid
		} else {
			high = mid - 1
		}
	}
	if low == 0 {
		return ""
	}
	return shortened(runes[:low])
}

func shortened(runes []rune) string { return strings.TrimRight(string(runes), " ,·") + "…" }
