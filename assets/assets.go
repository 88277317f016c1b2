// Package assets holds the fonts, the icon and the drawings that travel inside
// the program.
package assets

import "embed"

// Noto Sans, for the window, tables and drawings; TrueType, SIL Open Font License 1.1.
var (
	//go:embed fonts/NotoSans-Regular.ttf
	NotoSansRegular []byte
	//go:embed fonts/NotoSans-Italic.ttf
	NotoSansItalic []byte
	//go:embed fonts/NotoSans-SemiBold.ttf
	NotoSansSemiBold []byte
	//go:embed fonts/NotoSans-Bold.ttf
	NotoSansBold []byte
	// NotoSansLicence is the licence that must travel with the font.
	//go:embed fonts/NotoSans-OFL.txt
	NotoSansLicence string
)

// Source Serif 4, for headings in documents; TrueType, SIL Open Font License 1.1.
var (
	//go:embed fonts/SourceSerif4-Regular.ttf
	SourceSerifRegular []byte
	//go:embed fonts/SourceSerif4-Italic.ttf
	SourceSerifItalic []byte
	//go:embed fonts/SourceSerif4-SemiBold.ttf
	SourceSerifSemiBold []byte
	//go:embed fonts/SourceSerif4-Bold.ttf
	SourceSerifBold []byte
	// SourceSerifLicence is the licence that must travel with the font.
	//go:embed fonts/SourceSerif4-OFL.txt
	SourceSerifLicence string
)

// Icon is the program's picture, a PNG of 512 by 512 pixels.
//
//go:embed icon.png
var Icon []byte

// Silhouettes holds one file a drawing, silhouettes/NAME.svgpath: a line that
// says what it shows, then its outline ("body") and its darker ("shade") and
// lighter ("light") planes as SVG path data. The height is 1, the ground is 0,
// y points up, and x is measured from the axis of the feet.
//
//go:embed silhouettes/*.svgpath
var Silhouettes embed.FS
