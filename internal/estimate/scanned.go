package estimate

import (
	"fmt"
	"math"

	"meltwright/internal/field"
	"meltwright/internal/form"
	"meltwright/internal/quantity"
)

// wayScan is a form known by a scan, which its piece carries.
const wayScan = "scan"

func (p *piece) scanned() bool { return p.in.word(wayField) == wayScan && p.scan != nil }

// scanForm is the form as scanned. A piece without its scan is a fault.
func (r *run) scanForm(p *piece) (form.Body, expr, expr) {
	if p.scan == nil {
		r.fault(p, wayField, "names a scan, and there is none yet", "open a scan file for the piece, or say how else its form is known")
		return form.Surface{Outside: 1}, r.number(1), r.number(1)
	}
	from := field.Origin{From: field.Scanned, Source: p.scan.File}
	height := r.fact("height as scanned", p.scan.Height(), metre, from)
	area := r.fact("surface as scanned", p.scan.Profile.Area, squareMetre, from)
	return form.Scan{Profile: &p.scan.Profile, Box: p.scan.Box}, height, area
}

// planned takes sections and welds from the section plan of the scan as it is at
// this size, each with its own weight, unless the user said otherwise; it tells
// whether it did. What the plan cannot cut small enough is split as a piece
// without a plan is, so that every scale can be estimated.
func (r *run) planned(p *piece) bool {
	if !p.scanned() || p.in.has(sectionsField) || len(p.scan.Plan.Sections) == 0 {
		return false
	}
	whole := p.scan.Profile.Metal(p.scale.v, float64(p.wall))
	if !(whole > 0) || !(r.usable.v > 0) || !(p.poured.v > 0) {
		return false
	}
	limits := r.sectionLimits(p)
	limits.Metal = whole * r.usable.v / p.poured.v
	plan := p.scan.PlanAt(p.scale.v, float64(p.wall), limits)
	n, weld := 0.0, plan.Weld
	loads := make([]Load, 0, len(plan.Sections))
	for _, s := range plan.Sections {
		kg := p.poured.v * s.Metal / whole
		parts := math.Max(1, math.Max(math.Ceil(kg/r.usable.v-1e-9), math.Ceil(s.Area/limits.Area-1e-9)))
		if n += parts; n > mostSections {
			return false
		}
		loads = append(loads, Load{p.index, kg / parts, int(parts) * p.casts})
		weld += 2 * math.Sqrt(s.Area) * (math.Sqrt(parts) - 1)
	}
	from := field.Origin{From: field.Scanned, Source: "section plan of " + p.scan.File + ", cut further where crucible, tank or kiln ask for it"}
	p.loads = loads
	p.sections = r.fact("sections of the plan", n, none, from)
	p.sectionPour = r.div(p.poured, p.sections)
	p.weld = r.fact("length of the plan's seams", weld, metre, from)
	if p.in.has(weldField) {
		p.weld = r.input(&p.in, weldField, metre)
	}
	return true
}

// exactNote says how the metal was found, and what area × wall would have given.
func (r *run) exactNote(p *piece) string {
	how := "exact, the solids less the rooms inside their walls"
	if p.scanned() {
		how = "measured below the skin"
	}
	return fmt.Sprintf("%s; surface × wall would have given %s L", how, quantity.Significant(p.area.v*float64(p.wall)*1000, 4))
}
