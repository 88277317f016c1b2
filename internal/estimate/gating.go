package estimate

import (
	"meltwright/internal/shop"
)

var gatingStage = &Stage{
	ID: "gating", Name: "Gating", Does: "Cup, runners and vents on every section", Foundry: true,
	lines: gatingLines, byOthers: never,
}

var (
	gatingField        = fromBook("gating", "share", Choices, shop.GatingShare)
	gatingSectionField = fromBook("gating", "section_hours", Hours, shop.GatingSection)
	gatingHoursField   = fromBook("gating", "hours", Hours, shop.GatingHours)
	gatingLabourRate   = fromBookWhole("gating", "labour", Rates, shop.LabourWax)
	cupRate            = fromBookWhole("gating", "cup_price", Rates, shop.CupPrice)
)

func gatingLines(r *run, st *Stage, p *piece) {
	from := len(r.est.Lines)
	hours := r.add(r.mul(p.sections, r.input(&p.in, gatingSectionField, hour)), r.mul(p.area, r.input(&p.in, gatingHoursField, hourPerArea)))
	r.labour(st, p, "Gating the sections", hours, gatingLabourRate)
	gates := r.mul(r.waxMass(p), p.gating, r.share(&p.in, waxLossField))
	r.material(st, p, "Gating wax lost after reclaim", gates, kilogram, waxRate)
	r.counted(st, p, "Cups, vents and pins", "section", Material, p.sections, cupRate)
	r.recast(st, p, from)
}
