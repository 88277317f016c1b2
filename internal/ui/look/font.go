package look

import (
	"bytes"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"meltwright/assets"
)

// semiBold is the cut that bold text is set in: it reads better than the bold one
// at the size of a table.
var semiBold = fyne.NewStaticResource("NotoSans-SemiBold.ttf", without(assets.NotoSansSemiBold, "GSUB"))

// font is the one place that says which letters the window is set in: Noto Sans,
// whose digits are all of one width. The regular and the italic cut are those
// that Fyne brings, the same design in fewer scripts.
func font(style fyne.TextStyle) fyne.Resource {
	if style.Bold && !style.Italic && !style.Monospace {
		return semiBold
	}
	return theme.DefaultTheme().Font(style)
}

// without is a TrueType font that lacks one of its tables: its entry in the
// table directory gets a name that nobody asks for. Fyne sets up every
// substitution of a font anew for each text it measures, and the hundreds that
// Noto Sans has for Devanagari cost five times what the letters do.
func without(ttf []byte, table string) []byte {
	const head, record = 12, 16
	ttf = bytes.Clone(ttf)
	for at := head; at+record <= len(ttf) && at < head+record*tables(ttf); at += record {
		if string(ttf[at:at+4]) == table {
			ttf[at] = '~'
		}
	}
	return ttf
}

// tables is how many tables a TrueType font says it has.
func tables(ttf []byte) int {
	if len(ttf) < 6 {
		return 0
	}
	return int(ttf[4])<<8 | int(ttf[5])
}
