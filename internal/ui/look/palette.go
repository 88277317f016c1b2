package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// palette is one variant's colours by name.
type palette map[fyne.ThemeColorName]color.NRGBA

// hex reads 0xRRGGBB as an opaque colour.
func hex(rgb uint32) color.NRGBA {
	return color.NRGBA{R: uint8(rgb >> 16), G: uint8(rgb >> 8), B: uint8(rgb), A: 0xff}
}

// veil reads 0xRRGGBB with an opacity of 0 to 255, for what lies over a ground.
func veil(rgb uint32, alpha uint8) color.NRGBA {
	c := hex(rgb)
	c.A = alpha
	return c
}

var plaster = palette{
	Sheet: hex(0xfffdf8), Side: hex(0xebe6da), Panel: hex(0xf5f1e8), Raised: hex(0xfffefc),
	Rule: hex(0xdcd5c6), Edge: hex(0x93876f),
	Ink: hex(0x221d17), Muted: hex(0x665b4b), Bronze: hex(0x85501e), Good: hex(0x2d6154), Bad: hex(0x993527),
	Accent: hex(0xa4662c), OnAccent: hex(0xffffff), Range: hex(0xcb9a66), Trough: hex(0xd3cbba),
	Bar: hex(0x221d17), BarButton: hex(0x3a332b), OnBar: hex(0xfbf7ee), OnBarLow: hex(0xb9ad9a),
	NoteGround: hex(0xf5e6c6), NoteEdge: hex(0xa8721a), WarnGround: hex(0xf4d9d2), WarnEdge: hex(0xa63d2f),
}

var night = palette{
	Sheet: hex(0x1e1a16), Side: hex(0x28231d), Panel: hex(0x2a251f), Raised: hex(0x15120f),
	Rule: hex(0x3b342b), Edge: hex(0x857a69),
	Ink: hex(0xf2ecdf), Muted: hex(0xb8ac9a), Bronze: hex(0xe2a869), Good: hex(0x7dbdae), Bad: hex(0xee9482),
	Accent: hex(0xd6975a), OnAccent: hex(0x1e1a16), Range: hex(0xa97a47), Trough: hex(0x453d33),
	Bar: hex(0x110e0b), BarButton: hex(0x332d26), OnBar: hex(0xf2ecdf), OnBarLow: hex(0xa99d8b),
	NoteGround: hex(0x3c3018), NoteEdge: hex(0xd9a441), WarnGround: hex(0x43231d), WarnEdge: hex(0xe0715d),
}

// alias gives Fyne's own names the colours of ours.
var alias = map[fyne.ThemeColorName]fyne.ThemeColorName{
	theme.ColorNameBackground:          Sheet,
	theme.ColorNameButton:              Panel,
	theme.ColorNameDisabled:            Muted,
	theme.ColorNameDisabledButton:      Panel,
	theme.ColorNameError:               Bad,
	theme.ColorNameForeground:          Ink,
	theme.ColorNameForegroundOnError:   Sheet,
	theme.ColorNameForegroundOnPrimary: OnAccent,
	theme.ColorNameForegroundOnSuccess: Sheet,
	theme.ColorNameForegroundOnWarning: Sheet,
	theme.ColorNameHeaderBackground:    Panel,
	theme.ColorNameHyperlink:           Bronze,
	theme.ColorNameInputBackground:     Raised,
	theme.ColorNameInputBorder:         Edge,
	theme.ColorNameMenuBackground:      Raised,
	theme.ColorNameOverlayBackground:   Sheet,
	theme.ColorNamePlaceHolder:         Muted,
	theme.ColorNamePrimary:             Accent,
	theme.ColorNameScrollBarBackground: Rule,
	theme.ColorNameSeparator:           Rule,
	theme.ColorNameSuccess:             Good,
	theme.ColorNameWarning:             Bronze,
}

// veils are Fyne's names for what lies half transparent over something else.
var veils = [2]palette{
	{
		theme.ColorNameFocus: veil(0xa4662c, 0x38), theme.ColorNameHover: veil(0x221d17, 0x0e),
		theme.ColorNamePressed: veil(0x221d17, 0x22), theme.ColorNameScrollBar: veil(0x221d17, 0x60),
		theme.ColorNameSelection: veil(0xa4662c, 0x40), theme.ColorNameShadow: veil(0x221d17, 0x40),
	},
	{
		theme.ColorNameFocus: veil(0xd6975a, 0x48), theme.ColorNameHover: veil(0xf2ecdf, 0x10),
		theme.ColorNamePressed: veil(0xf2ecdf, 0x2a), theme.ColorNameScrollBar: veil(0xf2ecdf, 0x60),
		theme.ColorNameSelection: veil(0xd6975a, 0x50), theme.ColorNameShadow: veil(0x000000, 0x80),
	},
}

// Colour is the colour called name in the light variant, or in the dark one if
// dark. A name that nobody gave a colour is Ink, so that it can be seen.
func Colour(name fyne.ThemeColorName, dark bool) color.NRGBA {
	own, stages, over := plaster, stageLight, veils[0]
	if dark {
		own, stages, over = night, stageDark, veils[1]
	}
	if to, ok := alias[name]; ok {
		name = to
	}
	for _, p := range []palette{own, stages, over} {
		if c, ok := p[name]; ok {
			return c
		}
	}
	return own[Ink]
}
