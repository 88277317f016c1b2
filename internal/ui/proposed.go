package ui

import (
	"meltwright/internal/estimate"
	"meltwright/internal/quantity"
)

// proposed is what the program works out for an input while nothing is typed,
// where the estimate tells; empty where it does not.
func (q *quoteScreen) proposed(e estimate.Entry) string {
	latest := q.sheet.Latest()
	if e.Field.Path() == "pour.holds" && latest.Fill > 0 {
		return quantity.Print(quantity.KindMass, float64(latest.Usable)/latest.Fill, latest.System)
	}
	if e.Piece < 0 || e.Piece >= len(latest.Pieces) {
		return ""
	}
	p := latest.Pieces[e.Piece]
	switch e.Field.Path() {
	case "form.height":
		return quantity.Print(quantity.KindLength, float64(p.Height), latest.System)
	case "form.sections":
		return quantity.Number(float64(p.Sections), 0)
	case "form.weld":
		return quantity.Print(quantity.KindLength, float64(p.Weld), latest.System)
	case "form.width":
		return quantity.Print(quantity.KindLength, float64(p.Width)/p.Scale, latest.System)
	case "form.depth":
		return quantity.Print(quantity.KindLength, float64(p.Depth)/p.Scale, latest.System)
	case "form.dress_factor":
		return quantity.Number(p.Dress, 2)
	case "form.animal_k":
		return quantity.Number(p.MeehK, 3)
	case "shell.coarse":
		return quantity.Number(float64(p.Coarse), 0)
	case "base.frame":
		return quantity.Print(quantity.KindMass, float64(p.Frame), latest.System)
	case "base.anchors":
		return quantity.Number(float64(p.Anchors), 0)
	}
	return ""
}
