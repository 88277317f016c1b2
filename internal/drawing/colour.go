package drawing

import (
	"image/color"
	"math"
)

// Role is what a colour is for. None draws nothing.
type Role uint8

// Roles of grounds, of text, and of what figures are made of.
const (
	None Role = iota

	Sheet // ground that is drawn on
	Side  // ground beside it
	Wash  // ground of what is chosen or recommended

	Ink    // text, ground line, marker; on Sheet, Side and Wash
	Muted  // lesser text; on the same
	Bronze // text that invites; on the same
	Good   // text of what is in order; on the same
	Bad    // text of what is not; on the same

	Accent // fill of marks
	Rule   // hairlines
	Trough // the whole of a range
	Likely // the likely part of a range

	Metal       // bronze figures
	MetalShade  // their planes away from the light
	MetalLight  // their planes towards it
	Plinth      // what figures stand on
	PlinthShade // its planes away from the light
	PlinthLight // its planes towards it
	Visitor     // the person for scale
	VisitorShade
	VisitorLight

	StageForm // a stage's colour is that of its material
	StageClay
	StageRubber
	StageWax
	StageGating
	StageShell
	StagePour
	StageMetalwork
	StagePatina
	StageStone
	StageDelivery
	StagePrice

	roles // how many there are
)

// textRoles are for text, groundRoles are what it may lie on.
var (
	textRoles   = []Role{Ink, Muted, Bronze, Good, Bad}
	groundRoles = []Role{Sheet, Side, Wash}
)

// Stage is the colour of the stage whose own name is id ("form", "original",
// "mould", "wax", "gating", "shell", "pour", "metalwork", "patina", "base",
// "delivery", "price"); an unknown stage has the colour of plain form.
func Stage(id string) Role {
	if role, ok := stages[id]; ok {
		return role
	}
	return StageForm
}

var stages = map[string]Role{
	"form": StageForm, "original": StageClay, "mould": StageRubber, "wax": StageWax,
	"gating": StageGating, "shell": StageShell, "pour": StagePour, "metalwork": StageMetalwork,
	"patina": StagePatina, "base": StageStone, "delivery": StageDelivery, "price": StagePrice,
}

// Palette gives every role its colour. All colours are opaque, so that a
// document needs no transparency.
type Palette [roles]color.NRGBA

// Light is plaster, ink and bronze; paper and the light window.
func Light() Palette { return light }

// Dark is the same by lamplight.
func Dark() Palette { return dark }

// Colour is the colour of r; None and roles of tomorrow have none.
func (p Palette) Colour(r Role) color.NRGBA {
	if r == None || r >= roles {
		return color.NRGBA{}
	}
	return p[r]
}

// rgb reads 0xRRGGBB.
func rgb(v uint32) color.NRGBA {
	return color.NRGBA{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v), A: 0xff}
}

var light = Palette{
	Sheet: rgb(0xfffdf8), Side: rgb(0xebe6da), Wash: rgb(0xf6eddd),
	Ink: rgb(0x221d17), Muted: rgb(0x665b4b), Bronze: rgb(0x85501e), Good: rgb(0x2d6154), Bad: rgb(0x993527),
	Accent: rgb(0xa4662c), Rule: rgb(0xdcd5c6), Trough: rgb(0xd3cbba), Likely: rgb(0xcb9a66),
	Metal: rgb(0xa4662c), MetalShade: rgb(0x70421b), MetalLight: rgb(0xcd9860),
	Plinth: rgb(0xb3aa9a), PlinthShade: rgb(0x948a79), PlinthLight: rgb(0xcfc7b8),
	Visitor: rgb(0xc3b9a6), VisitorShade: rgb(0xaca18c), VisitorLight: rgb(0xd8d0c0),
	StageForm: rgb(0xb9ae9a), StageClay: rgb(0x7f8a72), StageRubber: rgb(0x5f7f9f), StageWax: rgb(0x8c4334),
	StageGating: rgb(0xbb746b), StageShell: rgb(0xd9c592), StagePour: rgb(0xc9862a), StageMetalwork: rgb(0x896840),
	StagePatina: rgb(0x3e7c6f), StageStone: rgb(0x727076), StageDelivery: rgb(0x4d5a70), StagePrice: rgb(0x2b251e),
}

var dark = Palette{
	Sheet: rgb(0x1e1a16), Side: rgb(0x28231d), Wash: rgb(0x30281e),
	Ink: rgb(0xf2ecdf), Muted: rgb(0xb8ac9a), Bronze: rgb(0xe2a869), Good: rgb(0x7dbdae), Bad: rgb(0xee9482),
	Accent: rgb(0xd6975a), Rule: rgb(0x3b342b), Trough: rgb(0x453d33), Likely: rgb(0xa97a47),
	Metal: rgb(0xb9793c), MetalShade: rgb(0x80502a), MetalLight: rgb(0xe0ad74),
	Plinth: rgb(0x756c5f), PlinthShade: rgb(0x5a5248), PlinthLight: rgb(0x8d8374),
	Visitor: rgb(0x6d6456), VisitorShade: rgb(0x585045), VisitorLight: rgb(0x82786a),
	StageForm: rgb(0xa2988a), StageClay: rgb(0x8e9b7f), StageRubber: rgb(0x7095ba), StageWax: rgb(0xb0584a),
	StageGating: rgb(0xcf8e85), StageShell: rgb(0xddcda4), StagePour: rgb(0xdf9c3c), StageMetalwork: rgb(0xa98657),
	StagePatina: rgb(0x54a08f), StageStone: rgb(0x8d8a91), StageDelivery: rgb(0x7585a3), StagePrice: rgb(0xdcd3c2),
}

// Contrast is how far apart two opaque colours are to the eye, from 1 (the same)
// to 21 (black on white): the contrast ratio of WCAG 2.1.
func Contrast(a, b color.NRGBA) float64 {
	la, lb := luminance(a), luminance(b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

// luminance is WCAG 2.1's relative luminance of an sRGB colour, 0 to 1.
func luminance(c color.NRGBA) float64 {
	linear := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.03928 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}
