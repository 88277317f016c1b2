package estimate

import (
	"meltwright/internal/field"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

const byOthers = "by others"

var patinaStage = &Stage{
	ID: "patina", Name: "Patina", Does: "Colour by torch, and wax", Foundry: true,
	lines:    patinaLines,
	byOthers: func(p *piece) bool { return p.in.word(patinaByField) == byOthers },
	cautions: func(*run) []Caution {
		return []Caution{{Level: Warning, Stage: "patina", Text: "Nitrates and chlorides on hot metal give off acid fume; liver of sulphur with any acid gives off hydrogen sulphide, which kills. Extraction, goggles, gloves; never mix them."}}
	},
}

var (
	patinaByField    = choice("patina", "by", "Patina is", "by us", byOthers)
	coloursField     = asked("patina", "colours", "Colours", quantity.KindCount, field.Bounds{Min: 1, Max: 20}, "1", "")
	patinaFixedField = fromBook("patina", "fixed", Hours, shop.PatinaFixed)
	patinaHoursField = fromBook("patina", "hours", Hours, shop.PatinaHours)
	colourExtraField = fromBook("patina", "colour_extra", Hours, shop.ColourExtra)
	patinaLabourRate = fromBookWhole("patina", "labour", Rates, shop.LabourPatina)
	patinaRate       = fromBookWhole("patina", "chemicals", Rates, shop.PatinaPrice)
	patinaWaxRate    = fromBookWhole("patina", "wax", Rates, shop.PatinaWax)
)

func patinaLines(r *run, st *Stage, p *piece) {
	colours := r.input(&p.in, coloursField, none)
	hours := r.add(r.input(&p.in, patinaFixedField, hour), r.mul(p.area, r.input(&p.in, patinaHoursField, hourPerArea)))
	if colours.v > 1 {
		hours = r.mul(hours, r.plus1(r.mul(r.share(&p.in, colourExtraField), r.sub(colours, r.number(1)))))
	}
	r.labour(st, p, "Colouring and waxing", hours, patinaLabourRate)
	r.material(st, p, "Patina chemicals", r.mul(p.area, colours), squareMetre, patinaRate)
	r.material(st, p, "Finishing wax", p.area, squareMetre, patinaWaxRate)
}
