package estimate

import (
	"math"
	"strings"

	"meltwright/internal/quantity"
)

// sum puts the results of the run into the estimate.
func (r *run) sum() {
	e := r.est
	r.sumStages()
	e.Sections, e.PourDays, e.DaysCharged = int(r.sections.v), int(r.days.v), r.daysCharged.v
	e.Usable, e.Charged = quantity.Mass(r.usable.v), quantity.Mass(r.charged.v)
	e.Fill = r.whole.num(fillField)
	e.ValidDays = int(r.whole.num(validField))
	e.Recasts = r.recasts.v
	e.RecastRisk = 1 - math.Pow(r.whole.num(yieldField), r.sections.v)
	used := 0.0
	for _, p := range r.pieces {
		again := 0.0
		if p.sections.v > 0 {
			again = p.lost.v / p.sections.v * p.recasts.v
		}
		used += p.used.v + again
	}
	e.MetalUsed = quantity.Mass(used)
	if r.bare {
		return
	}
	e.WaxToMetal = r.waxToMetal()
	for _, p := range r.pieces {
		e.Pieces = append(e.Pieces, r.pieceResult(p))
	}
	r.sumCasts()
	r.metalClause()
	r.sumCautions()
	e.nodes = r.nodes
	e.exchange, e.exchangeFrom = r.exchange, r.whole.origin(exchangeField)
}

func (r *run) sumStages() {
	e := r.est
	e.Stages = make([]StageResult, len(Stages))
	for i, st := range Stages {
		e.Stages[i] = StageResult{ID: st.ID, Name: st.Name, ByOthers: r.allByOthers(st)}
	}
	i := 0
	for _, l := range e.Lines {
		for e.Stages[i].ID != l.Stage { // lines come in the order of the stages
			i = (i + 1) % len(Stages)
		}
		e.Stages[i].Amount += l.Amount
		e.Stages[i].Hours += quantity.Time(l.Hours)
	}
	e.Stages[priceStage.index].Amount += e.Price - e.Direct
	for i, st := range Stages {
		if st.Foundry {
			e.Foundry += e.Stages[i].Hours
		}
	}
}

func (r *run) allByOthers(st *Stage) bool {
	if st == deliveryStage {
		return r.whole.word(deliveryByField) == byOthers
	}
	for _, p := range r.pieces {
		if !st.byOthers(p) {
			return false
		}
	}
	return len(r.pieces) > 0
}

func (r *run) pieceResult(p *piece) PieceResult {
	res := PieceResult{
		Name: p.name, Finished: quantity.Mass(p.finished.v), Poured: quantity.Mass(p.poured.v),
		Height: quantity.Length(p.finishedHeight.v), OriginalHeight: quantity.Length(p.originalHeight.v), Standing: quantity.Length(p.standing()),
		Scale: p.scale.v, Area: quantity.Area(p.area.v), OriginalArea: quantity.Area(p.originalArea.v),
		Inside: quantity.Area(p.inside.v), Shelled: quantity.Area(p.shelled.v),
		Wall: p.wall, Alloy: p.in.word(alloyField), Sections: int(p.sections.v), SectionPour: quantity.Mass(p.sectionPour.v),
		ShellMass: quantity.Mass(p.shellMass.v), Coats: int(p.coats.v), Weld: quantity.Length(p.weld.v),
		Plinth: quantity.Mass(p.plinthMass.v), Width: quantity.Length(p.wide.v), Depth: quantity.Length(p.deep.v),
		CrateWidth: quantity.Length(p.crate[0]), CrateDepth: quantity.Length(p.crate[1]), CrateHeight: quantity.Length(p.crate[2]),
		Chargeable: quantity.Mass(p.chargeable), Casts: p.casts, SolidParts: p.solidNote(), SolidShare: p.solidShare,
		AreaTimesWall: quantity.Mass(p.area.v*float64(p.wall)*p.density.v*1000*(1+p.in.num(thickField)) + p.in.num(lugsField)), CrossChecks: p.crossChecks, Parts: p.parts,
		Coarse: int(p.coarse.v), Dress: p.dress, MeehK: p.meehK, Frame: quantity.Mass(p.frame.v),
		node: pieceNodes{p.finished.at, p.poured.at, p.area.at, p.sections.at, p.weld.at},
	}
	for _, l := range p.loads {
		res.Loads = append(res.Loads, Load{l.Piece, l.Kg, l.Count / p.casts})
	}
	if !baseByOthers(p) {
		res.Anchors = int(r.anchors(p).v)
	}
	for _, st := range Stages {
		if st.byOthers(p) {
			res.ByOthers = append(res.ByOthers, st.Name)
		}
	}
	return res
}

// waxToMetal is the time from gated wax to poured metal of the piece that takes
// longest, in weeks: gating by two people, the coats at so many a day, burn-out
// a day, half the wait from one pour day to the next, a week, and a week for each
// further pour day. The calendar of a job is another room's; this is the
// foundry's rule of thumb.
func (r *run) waxToMetal() float64 {
	longest := 0.0
	for _, p := range r.pieces {
		gating := (p.sections.v*p.in.num(gatingSectionField) + p.area.v*p.in.num(gatingHoursField)) * p.in.num(difficultyField) / 16
		days := gating + p.coats.v/p.in.num(coatsADayField) + 1
		longest = math.Max(longest, days/5+0.5)
	}
	return longest + math.Max(0, r.days.v-1)
}

func (r *run) metalClause() {
	if len(r.pieces) == 0 || r.whole.num(metalBasisField) == 0 {
		return
	}
	a := r.alloyOf(r.pieces[0])
	rate, unit := r.priceRate(a.Price, kilogram)
	r.est.MetalClause = a.Name + " at " + rate.StringFixed(r.currency.Digits) + " " + r.currency.Code + " / " + unit.Symbol
}

func (r *run) sumCautions() {
	if r.recasts.v > 0 && r.est.Sections > 0 {
		which := "at least one of " + quantity.Number(float64(r.est.Sections), 0) + " sections"
		if r.est.Sections == 1 {
			which = "its one section"
		}
		r.est.Cautions = append(r.est.Cautions, Caution{Level: Note, Stage: "pour", Text: quantity.Number(r.est.RecastRisk*100, 0) + " in 100 chance that " + which + " must be cast again: about two weeks."})
	}
	for _, p := range r.pieces {
		if parts := p.solidNote(); len(parts) > 0 {
			r.est.Cautions = append(r.est.Cautions, Caution{Level: Note, Stage: "form", Text: p.name + " casts solid where it is thinner than two walls: " + joinWords(parts) + "."})
		}
	}
	for _, st := range Stages {
		if st.cautions != nil && !r.allByOthers(st) {
			r.est.Cautions = append(r.est.Cautions, st.cautions(r)...)
		}
	}
}

func joinWords(words []string) string {
	s := words[0]
	for i, w := range words[1:] {
		if i == len(words)-2 {
			s += " and " + w
		} else {
			s += ", " + w
		}
	}
	return s
}

// Working gives the working of one line: its quantity, then its rate.
func (e *Estimate) Working(l Line) Working {
	w := e.nodes.working(l.Item, l.node, l.result(), e.System)
	rate := l.RateText(e.Currency.Digits)
	if sum, _, ok := strings.Cut(w.Numbers, " = "); ok && sum == l.result() {
		w.Numbers = sum // a lump sum is one
	}
	w.Parts = append(w.Parts, e.rateParts(l, rate)...)
	w.Numbers += " × " + rate + " = " + e.Currency.Text(l.Amount)
	return w
}

// rateParts are a line's rate and, where it was taken into other money or another
// unit, what it was before and how.
func (e *Estimate) rateParts(l Line, rate string) []Part {
	p := Part{Name: "rate", Value: strings.TrimSpace(rate + " " + perUnit(l.Per)), Origin: l.RateFrom}
	if l.book == nil {
		return []Part{p}
	}
	was := Part{Name: "rate as set", Value: l.book.Dec.String(), Origin: l.RateFrom}
	p.Numbers = was.Value
	if from := l.book.Unit; from.Symbol != "" {
		was.Value += " / " + from.Symbol
		if u, ok := quantity.ParseUnit(l.Per); ok && from.Symbol != u.Symbol {
			p.Numbers += " × " + quantity.Significant(u.Size/from.Size, 8)
		}
	}
	if !l.traded {
		return []Part{p, was}
	}
	p.Numbers += " × " + e.exchange.String()
	return []Part{p, was, {Name: "exchange rate", Value: e.exchange.String(), Origin: e.exchangeFrom}}
}

func perUnit(unit string) string {
	if unit == "" {
		return ""
	}
	return "/ " + unit
}

// WorkingOf gives the working of a piece's weight, surface, sections or weld.
func (e *Estimate) WorkingOf(p PieceResult, what string) (Working, bool) {
	at, unit := int32(0), ""
	v := 0.0
	switch what {
	case "finished":
		at, unit, v = p.node.finished, "kg", float64(p.Finished)
	case "poured":
		at, unit, v = p.node.poured, "kg", float64(p.Poured)
	case "area":
		at, unit, v = p.node.area, "m²", float64(p.Area)
	case "sections":
		at, v = p.node.sections, float64(p.Sections)
	case "weld":
		at, unit, v = p.node.weld, "m", float64(p.Weld)
	default:
		return Working{}, false
	}
	result := quantity.Significant(v, 5)
	if unit != "" {
		result += " " + unit
	}
	return e.nodes.working(what, at, result, e.System), true
}
