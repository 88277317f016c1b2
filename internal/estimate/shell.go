package estimate

import (
	"meltwright/internal/field"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

var shellStage = &Stage{
	ID: "shell", Name: "Shell", Does: "Slurry and stucco over the gated waxes, inside and out, each coat dried", Foundry: true,
	lines: shellLines, byOthers: never,
	cautions: func(r *run) []Caution {
		list := []Caution{{Level: Warning, Stage: "shell", Text: "Respirable crystalline silica: limit 50 µg/m³ over eight hours, action level 25. Flour, stucco, sanding and knock-off all raise it: extraction, wet cleaning, fitted respirators.", Source: "29 CFR 1910.1053"}}
		for _, p := range r.pieces {
			if each := (p.shellMass.v + p.poured.v) / p.sections.v; each > r.shop.Num(shop.HandsLimit) {
				list = append(list, Caution{Level: Warning, Stage: "shell", Text: "A section of " + p.name + " weighs about " + r.mass(each) + " in its shell when poured, more than one person lifts: hoist or tongs."})
			}
		}
		return list
	},
}

var (
	fineField       = fromBook("shell", "fine", Choices, shop.FineCoats)
	mediumField     = fromBook("shell", "medium", Choices, shop.MediumCoats)
	coarseField     = asked("shell", "coarse", "Coarse coats", quantity.KindCount, field.ZeroUp, "", "by the weight of the piece, from the shop book")
	sealField       = fromBook("shell", "seal", Choices, shop.SealCoats)
	slurryField     = fromBook("shell", "slurry", Hours, shop.SlurryCoat)
	stuccoField     = fromBook("shell", "stucco", Hours, shop.StuccoCoat)
	drainField      = fromBook("shell", "drain_loss", Hours, shop.DrainLoss)
	stuccoLossField = fromBook("shell", "stucco_loss", Hours, shop.StuccoLoss)
	flourField      = fromBook("shell", "flour_ratio", Hours, shop.FlourRatio)
	insideField     = fromBook("shell", "inside", Hours, shop.InsideShare)
	gateAreaField   = fromBook("shell", "gate_area", Hours, shop.GateArea)
	dipField        = fromBook("shell", "dip_hours", Hours, shop.DipHours)
	dipSectionField = fromBook("shell", "dip_section", Hours, shop.DipSection)
	coatThickField  = fromBook("shell", "coat_thickness", Hours, shop.CoatThickness)
	shellDensField  = fromBook("shell", "density", Hours, shop.ShellDensity)
	coatsADayField  = fromBook("shell", "coats_a_day", Hours, shop.CoatsADay)
	shellLabourRate = fromBookWhole("shell", "labour", Rates, shop.LabourShell)
	binderRate      = fromBookWhole("shell", "binder_price", Rates, shop.BinderPrice)
	flourRate       = fromBookWhole("shell", "flour_price", Rates, shop.FlourPrice)
	fineRate        = fromBookWhole("shell", "fine_price", Rates, shop.FinePrice)
	mediumRate      = fromBookWhole("shell", "medium_price", Rates, shop.MediumPrice)
	coarseRate      = fromBookWhole("shell", "coarse_price", Rates, shop.CoarsePrice)
)

// takeShell works out the surface that is dipped, the coats and the weight of
// the fired shell.
func (r *run) takeShell(p *piece) {
	gates := r.mul(p.area, r.share(&p.in, gateAreaField))
	p.shelled = r.named("shelled area", r.add(p.area, p.inside, gates), squareMetre)
	p.coarse = r.coarseCoats(p)
	stuccoed := r.add(r.input(&p.in, fineField, none), r.input(&p.in, mediumField, none), p.coarse)
	p.coats = r.named("coats", r.add(stuccoed, r.input(&p.in, sealField, none)), none)
	thick := r.mul(p.coats, r.input(&p.in, coatThickField, millimetre))
	p.shellMass = r.named("fired shell", r.mul(p.shelled, thick, r.input(&p.in, shellDensField, gramPerCubicCM)), kilogram)
}

// coarseCoats proposes coats by the weight of the piece: it goes up with size
// and wall, as the load on the shell does.
func (r *run) coarseCoats(p *piece) expr {
	if p.in.has(coarseField) {
		return r.input(&p.in, coarseField, none)
	}
	k := shop.CoarseMiddle
	switch {
	case p.finished.v <= r.shop.Num(shop.SmallPiece):
		k = shop.CoarseSmall
	case p.finished.v >= r.shop.Num(shop.LargePiece):
		k = shop.CoarseLarge
	}
	return r.fact(k.Def().Label, r.shop.Num(k), none, r.shop.Origin(k))
}

func shellLines(r *run, st *Stage, p *piece) {
	from := len(r.est.Lines)
	perCoat := r.add(r.mul(p.shelled, r.input(&p.in, dipField, hourPerArea)), r.mul(p.sections, r.input(&p.in, dipSectionField, hour)))
	r.labour(st, p, "Dipping and sanding", r.mul(perCoat, p.coats), shellLabourRate)
	slurry := r.named("slurry", r.mul(p.shelled, p.coats, r.input(&p.in, slurryField, kiloPerArea), r.plus1(r.share(&p.in, drainField))), kilogram)
	ratio := r.input(&p.in, flourField, none)
	r.material(st, p, "Binder, colloidal silica", r.div(slurry, r.plus1(ratio)), kilogram, binderRate)
	r.material(st, p, "Flour, fused silica", r.div(r.mul(slurry, ratio), r.plus1(ratio)), kilogram, flourRate)
	r.stuccoLine(st, p, "Stucco, fine", r.input(&p.in, fineField, none), fineRate)
	r.stuccoLine(st, p, "Stucco, medium", r.input(&p.in, mediumField, none), mediumRate)
	r.stuccoLine(st, p, "Stucco, coarse", p.coarse, coarseRate)
	r.recast(st, p, from)
}

func (r *run) stuccoLine(st *Stage, p *piece, name string, coats expr, rate *Field) {
	kg := r.mul(p.shelled, coats, r.input(&p.in, stuccoField, kiloPerArea), r.plus1(r.share(&p.in, stuccoLossField)))
	r.material(st, p, name, kg, kilogram, rate)
}
