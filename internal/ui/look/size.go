package look

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// Least and most that the text may be enlarged, in per cent.
const (
	LeastPercent = 100
	MostPercent  = 200
)

// Text is the size of plain text at 100 %, in Fyne's device-independent pixels.
const Text = 14

// Names of text sizes beyond Fyne's own.
const (
	SizePrice fyne.ThemeSizeName = "price" // the price itself
	SizeTitle fyne.ThemeSizeName = "title" // the name of the work in the top bar
)

// letters are the sizes that grow in full with the text.
var letters = map[fyne.ThemeSizeName]float32{
	theme.SizeNameText:           Text,
	theme.SizeNameCaptionText:    12,
	theme.SizeNameHeadingText:    23,
	theme.SizeNameSubHeadingText: 17,
	theme.SizeNameInlineIcon:     18,
	SizePrice:                    34,
	SizeTitle:                    18,
}

// gaps are the sizes that grow half as much as the text: what is far apart
// already need not be farther.
var gaps = map[fyne.ThemeSizeName]float32{
	theme.SizeNamePadding:              4,
	theme.SizeNameInnerPadding:         8,
	theme.SizeNameLineSpacing:          4,
	theme.SizeNameScrollBar:            12,
	theme.SizeNameScrollBarSmall:       4,
	theme.SizeNameScrollBarRadius:      3,
	theme.SizeNameWindowButtonHeight:   16,
	theme.SizeNameWindowButtonRadius:   8,
	theme.SizeNameWindowButtonIcon:     14,
	theme.SizeNameWindowTitleBarHeight: 26,
}

// hairs are the sizes that never grow.
var hairs = map[fyne.ThemeSizeName]float32{
	theme.SizeNameSeparatorThickness: 1,
	theme.SizeNameInputBorder:        1,
	theme.SizeNameInputRadius:        4,
	theme.SizeNameSelectionRadius:    3,
}

// sizeAt is the size called name when text is factor times its plain size; an
// unknown name is that of plain text.
func sizeAt(name fyne.ThemeSizeName, factor float32) float32 {
	if s, ok := letters[name]; ok {
		return s * factor
	}
	if s, ok := gaps[name]; ok {
		return s * (1 + (factor-1)/2)
	}
	if s, ok := hairs[name]; ok {
		return s
	}
	return Text * factor
}
