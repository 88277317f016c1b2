package look

import "fyne.io/fyne/v2"

// Names of the stages' colours, each after the material the stage is made in.
const (
	StageForm      fyne.ThemeColorName = "stage-form"
	StageClay      fyne.ThemeColorName = "stage-clay"
	StageRubber    fyne.ThemeColorName = "stage-rubber"
	StageWax       fyne.ThemeColorName = "stage-wax"
	StageGating    fyne.ThemeColorName = "stage-gating"
	StageShell     fyne.ThemeColorName = "stage-shell"
	StageBronze    fyne.ThemeColorName = "stage-bronze"
	StageMetalwork fyne.ThemeColorName = "stage-metalwork"
	StagePatina    fyne.ThemeColorName = "stage-patina"
	StageStone     fyne.ThemeColorName = "stage-stone"
	StageDelivery  fyne.ThemeColorName = "stage-delivery"
	StagePrice     fyne.ThemeColorName = "stage-price"
)

// stageOf tells a stage's colour by the stage's own name.
var stageOf = map[string]fyne.ThemeColorName{
	"form":      StageForm,
	"original":  StageClay,
	"mould":     StageRubber,
	"wax":       StageWax,
	"gating":    StageGating,
	"shell":     StageShell,
	"pour":      StageBronze,
	"metalwork": StageMetalwork,
	"patina":    StagePatina,
	"base":      StageStone,
	"delivery":  StageDelivery,
	"price":     StagePrice,
}

var stageLight = palette{
	StageForm: hex(0xb9ae9a), StageClay: hex(0x7f8a72), StageRubber: hex(0x5f7f9f), StageWax: hex(0x8c4334),
	StageGating: hex(0xbb746b), StageShell: hex(0xd9c592), StageBronze: hex(0xc9862a), StageMetalwork: hex(0x896840),
	StagePatina: hex(0x3e7c6f), StageStone: hex(0x727076), StageDelivery: hex(0x4d5a70), StagePrice: hex(0x2b251e),
}

var stageDark = palette{
	StageForm: hex(0xa2988a), StageClay: hex(0x8e9b7f), StageRubber: hex(0x7095ba), StageWax: hex(0xb0584a),
	StageGating: hex(0xcf8e85), StageShell: hex(0xddcda4), StageBronze: hex(0xdf9c3c), StageMetalwork: hex(0xa98657),
	StagePatina: hex(0x54a08f), StageStone: hex(0x8d8a91), StageDelivery: hex(0x7585a3), StagePrice: hex(0xdcd3c2),
}

// StageColour names the colour of the stage whose own name is id ("form",
// "original", "mould", "wax", "gating", "shell", "pour", "metalwork", "patina",
// "base", "delivery", "price"). An unknown stage has the colour of plain form.
func StageColour(id string) fyne.ThemeColorName {
	if name, ok := stageOf[id]; ok {
		return name
	}
	return StageForm
}
