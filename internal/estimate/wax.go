package estimate

import (
	"meltwright/internal/shop"
)

var waxStage = &Stage{
	ID: "wax", Name: "Wax", Does: "Brushed and slushed to the wall, pulled and chased", Foundry: true,
	lines:    waxLines,
	byOthers: func(p *piece) bool { return p.starts(startWax) },
	cautions: func(*run) []Caution {
		return []Caution{{Level: Note, Stage: "wax", Text: "Hot wax burns and its fumes are flammable: melt it by thermostat, near 220 °F (104 °C), never over an open flame."}}
	},
}

var (
	waxPourField    = fromBook("wax", "pour_hours", Hours, shop.WaxPourHours)
	waxChaseField   = fromBook("wax", "chase_hours", Hours, shop.WaxChaseHours)
	waxDensityField = fromBook("wax", "density", Hours, shop.WaxDensity)
	waxLossField    = fromBook("wax", "loss", Hours, shop.WaxLoss)
	waxLabourRate   = fromBookWhole("wax", "labour", Rates, shop.LabourWax)
	waxRate         = fromBookWhole("wax", "price", Rates, shop.WaxPrice)
)

func waxLines(r *run, st *Stage, p *piece) {
	from := len(r.est.Lines)
	r.labour(st, p, "Brushing and slushing", r.mul(p.area, r.input(&p.in, waxPourField, hourPerArea)), waxLabourRate)
	r.labour(st, p, "Pulling and chasing", r.mul(p.area, r.input(&p.in, waxChaseField, hourPerArea)), waxLabourRate)
	r.material(st, p, "Wax lost after reclaim", r.mul(r.waxMass(p), r.share(&p.in, waxLossField)), kilogram, waxRate)
	r.recast(st, p, from)
}

// waxMass is the wax of one cast's walls. Wax and metal fill the same wall:
// m(bronze) = m(wax) × ρ(bronze)/ρ(wax).
func (r *run) waxMass(p *piece) expr {
	return r.named("wax in the walls", r.mul(p.wallVolume, r.input(&p.in, waxDensityField, gramPerCubicCM)), kilogram)
}
