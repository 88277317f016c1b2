package estimate

import (
	"meltwright/internal/shop"
)

var metalworkStage = &Stage{
	ID: "metalwork", Name: "Metalwork", Does: "Knock off, blast, cut gates, fit, weld, chase", Foundry: true,
	lines: metalworkLines, byOthers: never,
	cautions: func(*run) []Caution {
		return []Caution{{Level: Note, Stage: "metalwork", Text: "Knock-off and blasting free silica dust; welding bronze gives off copper and zinc fume; grinding throws burrs and noise. Extraction, screens, eye and ear protection.", Source: "29 CFR 1910.1053 counts knock-off"}}
	},
}

var (
	knockSectionField = fromBook("metalwork", "knock_section", Hours, shop.KnockSection)
	knockField        = fromBook("metalwork", "knock_hours", Hours, shop.KnockHours)
	fitField          = fromBook("metalwork", "fit", Hours, shop.FitHours)
	weldHoursField    = fromBook("metalwork", "weld", Hours, shop.WeldHours)
	chaseField        = fromBook("metalwork", "chase", Hours, shop.ChaseHours)
	chaseWeldField    = fromBook("metalwork", "chase_weld", Hours, shop.ChaseWeld)
	rodFactorField    = fromBook("metalwork", "rod_factor", Hours, shop.RodFactor)
	metalLabourRate   = fromBookWhole("metalwork", "labour", Rates, shop.LabourMetal)
	rodRate           = fromBookWhole("metalwork", "rod_price", Rates, shop.RodPrice)
	gasRate           = fromBookWhole("metalwork", "gas_price", Rates, shop.GasPrice)
	abrasiveRate      = fromBookWhole("metalwork", "abrasives", Rates, shop.Abrasives)
)

func metalworkLines(r *run, st *Stage, p *piece) {
	knock := r.add(r.mul(p.sections, r.input(&p.in, knockSectionField, hour)), r.mul(p.area, r.input(&p.in, knockField, hourPerArea)))
	r.labour(st, p, "Knock-off and blast", knock, metalLabourRate)
	r.labour(st, p, "Cutting gates and fitting", r.mul(p.sections, r.input(&p.in, fitField, hour)), metalLabourRate)
	r.labour(st, p, "Welding", r.mul(p.weld, r.input(&p.in, weldHoursField, hourPerMetre)), metalLabourRate)
	chase := r.add(r.mul(p.area, r.input(&p.in, chaseField, hourPerArea)), r.mul(p.weld, r.input(&p.in, chaseWeldField, hourPerMetre)))
	r.labour(st, p, "Chasing", chase, metalLabourRate)
	// m × mm² is cubic centimetres; with g/cm³, grams.
	wall := r.input(&p.in, wallField, millimetre)
	rod := r.div(r.mul(p.weld, wall, wall, p.density, r.input(&p.in, rodFactorField, none)), r.number(1000))
	r.material(st, p, "Welding rod", rod, kilogram, rodRate)
	r.material(st, p, "Argon and tungsten", p.weld, metre, gasRate)
	r.material(st, p, "Discs, burrs and blast media", p.area, squareMetre, abrasiveRate)
}
