package estimate

import (
	"math"

	"meltwright/internal/field"
	"meltwright/internal/form"
	"meltwright/internal/quantity"
)

// takeBronze works out the weights of a piece, its sections and its welds.
func (r *run) takeBronze(p *piece) {
	wall := quantity.Length(p.in.num(wallField))
	metal, solid := p.body.Metal(wall)
	p.wall = wall
	p.wallVolume = r.wallVolume(p, float64(metal)*1000)
	if metal > 0 {
		p.solidShare = float64(solid / metal)
	}
	alloy := r.alloyOf(p)
	p.density = r.fact(r.words("density of ", alloy.Name), alloy.Density, gramPerCubicCM, field.Origin{From: field.ShopBook, Source: alloy.Source})
	cast := r.mul(p.density, p.wallVolume, r.plus1(r.share(&p.in, thickField)))
	cast = r.variedWall(p, cast)
	if p.in.num(lugsField) > 0 {
		cast = r.add(cast, r.input(&p.in, lugsField, kilogram))
	}
	p.finished = r.named("finished bronze", cast, kilogram)
	p.gating = r.share(&p.in, gatingField)
	p.poured = r.named("metal poured", r.mul(p.finished, r.plus1(p.gating)), kilogram)
	r.takeInside(p)
	r.takeSections(p)
	r.takeCasts(p)
}

// alloy is what r needs of the shop book's alloy.
type alloy struct {
	Name    string
	Density float64 // g/cm³
	Price   field.Value
	Source  string
	Caution string
	Priced  string
}

func (r *run) alloyOf(p *piece) alloy {
	for _, a := range r.shop.Alloys {
		if a.Name == p.in.word(alloyField) {
			return alloy{a.Name, float64(a.Density) / 1000, a.Price, a.Source, a.Caution, a.Priced}
		}
	}
	return alloy{}
}

// wallVolume is in litres. Where the form gives its wall exactly, that; else
// area × wall, and no more than the form displaces.
func (r *run) wallVolume(p *piece, litres float64) expr {
	if p.body.Body.Exact() {
		o := field.Origin{From: field.Proposed}
		if p.scanned() {
			o.From = field.Scanned
		}
		if !r.bare {
			o.Source = r.exactNote(p)
		}
		return r.fact("metal in the wall, by the form itself", litres, litre, o)
	}
	v := r.mul(p.area, r.input(&p.in, wallField, millimetre))
	if room, ok := p.body.Volume(); ok && float64(room)*1000 < v.v {
		all := r.fact("displaced volume", float64(room)*1000, litre, field.Origin{From: field.Proposed, Source: "the piece casts solid"})
		return r.named("volume of metal", r.min(v, all), litre)
	}
	return r.named("volume of metal", v, litre)
}

// takeInside is the inner surface, for the shell: the form's own, or a share of
// the outside; never more than the outside.
func (r *run) takeInside(p *piece) {
	if a, ok := p.body.Inside(p.wall); ok {
		p.inside = r.fact("inside surface, by the form itself", float64(a), squareMetre, field.Origin{From: field.Proposed, Source: "exact"})
		return
	}
	p.inside = r.named("inside surface", r.mul(p.area, r.share(&p.in, insideField)), squareMetre)
}

// takeSections proposes the number of sections, or takes the user's, and the
// length of their welds.
func (r *run) takeSections(p *piece) {
	if r.planned(p) {
		return
	}
	usable := r.usable
	proposed := r.max(r.ceil(r.div(p.poured, usable)), r.ceil(r.div(p.area, r.input(&p.in, tankField, squareMetre))))
	p.sections = r.named("sections", proposed, none)
	if p.in.has(sectionsField) {
		p.sections = r.input(&p.in, sectionsField, none)
	}
	p.sectionPour = r.div(p.poured, p.sections)
	if p.sectionPour.v > usable.v*(1+1e-9) {
		least := math.Ceil(p.poured.v/usable.v - 1e-9)
		r.fault(p, sectionsField, "leaves a section of "+r.mass(p.sectionPour.v)+", more than the "+r.mass(usable.v)+" that the crucible pours",
			"give at least "+quantity.Number(least, 0)+" sections, or a larger crucible")
	}
	if p.in.has(weldField) {
		p.weld = r.input(&p.in, weldField, metre)
		return
	}
	// n equal square patches over a closed surface: seam 2√(nA), less the same
	// form at n = 1.
	p.weld = r.named("length of weld", r.mul(r.number(2), r.sqrt(p.area), r.sub(r.sqrt(p.sections), r.number(1))), metre)
}

func (r *run) mass(kg float64) string { return quantity.Print(quantity.KindMass, kg, r.system) }

// takeCasts works out the failures to expect: n good castings take n/y casts on
// average.
func (r *run) takeCasts(p *piece) {
	all := p.sections
	if p.casts > 1 {
		all = r.mul(all, r.input(&p.in, castsField, none))
	}
	extra := r.sub(r.div(r.number(1), r.share(&r.whole, yieldField)), r.number(1))
	p.recasts = r.named("expected recasts", r.mul(all, extra), none)
	p.recasts = r.drawnRecasts(p, p.recasts, int(p.sections.v)*p.casts)
	p.repeat = repeatOf(p.in.word(curveField), p.in.num(repeatField), p.casts)
}

// solidNote says which parts of the piece cast solid, or nothing.
func (p *piece) solidNote() []string {
	if p.in.word(wayField) == wayFigure {
		return form.SolidLimbs(quantity.Length(p.finishedHeight.v), p.wall)
	}
	if p.solidShare > 0 {
		return []string{quantity.Significant(p.solidShare*100, 2) + " % of the metal"}
	}
	return nil
}

// known says how well the form is known.
func (p *piece) known() field.From {
	if p.scanned() {
		return field.Scanned
	}
	return field.Typed
}
