package look

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"meltwright/assets"
)

// The letters of the window: Noto Sans, whose digits are all of one width, so
// that figures stand under figures. Bold text is the semi-bold cut, which reads
// better at the size of a table.
var (
	regular  = fyne.NewStaticResource("NotoSans-Regular.ttf", assets.NotoSansRegular)
	semiBold = fyne.NewStaticResource("NotoSans-SemiBold.ttf", assets.NotoSansSemiBold)
	italic   = fyne.NewStaticResource("NotoSans-Italic.ttf", assets.NotoSansItalic)
)

// font is the one place that says which letters the window is set in.
func font(style fyne.TextStyle) fyne.Resource {
	switch {
	case style.Monospace, style.Symbol:
		return theme.DefaultTheme().Font(style)
	case style.Bold:
		return semiBold
	case style.Italic:
		return italic
	}
	return regular
}
