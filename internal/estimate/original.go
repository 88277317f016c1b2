package estimate

import (
	"meltwright/internal/shop"
)

var originalStage = &Stage{
	ID: "original", Name: "Original", Does: "Armature and clay, or a printed or milled original", Once: true,
	lines:    originalLines,
	byOthers: func(p *piece) bool { return p.starts(startOrig, startMould, startWax) },
	cautions: func(*run) []Caution {
		return []Caution{{Level: Note, Stage: "original", Text: "Plaster, clay and foam dust: wet methods and a dust mask; cutting foam gives off fumes."}}
	},
}

var (
	originalWayField   = choice("original", "made", "Made in", "clay", "print", "milled foam").hint("a digital file is printed unless you say milled")
	originalHoursField = fromBook("original", "hours", Hours, shop.OriginalHours)
	outputHoursField   = fromBook("original", "output_hours", Hours, shop.OutputHours)
	sculptorRate       = fromBookWhole("original", "labour", Rates, shop.LabourSculptor)
	armatureRate       = fromBookWhole("original", "armature", Rates, shop.Armature)
	printedRate        = fromBookWhole("original", "printed", Rates, shop.PrintedRate)
	milledRate         = fromBookWhole("original", "milled", Rates, shop.MilledRate)
)

func originalLines(r *run, st *Stage, p *piece) {
	way := p.in.word(originalWayField)
	if way == "clay" && p.starts(startFile) {
		way = "print"
	}
	if way == "clay" {
		r.labour(st, p, "Sculpting in clay", r.mul(p.originalArea, r.input(&p.in, originalHoursField, hourPerArea)), sculptorRate)
		r.material(st, p, "Armature, clay and supports", p.originalArea, squareMetre, armatureRate)
		return
	}
	name, rate := "Printed original", printedRate
	if way == "milled foam" {
		name, rate = "Milled foam original", milledRate
	}
	r.write(st, item{piece: p, name: name, class: Bought, q: p.originalArea, unit: squareMetre, rate: r.whole.value(rate), from: r.whole.origin(rate)})
	r.labour(st, p, "Finishing the original", r.mul(p.originalArea, r.input(&p.in, outputHoursField, hourPerArea)), sculptorRate)
	if !p.starts(startFile) {
		r.labour(st, p, "Modelling", r.mul(p.originalArea, r.input(&p.in, originalHoursField, hourPerArea)), sculptorRate)
	}
}
