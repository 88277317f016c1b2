package look

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// font is the one place that says which letters the window is set in.
func font(style fyne.TextStyle) fyne.Resource {
	return theme.DefaultTheme().Font(style)
}
