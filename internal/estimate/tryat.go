package estimate

import (
	"meltwright/internal/field"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
)

// Steps are what does not grow smoothly with size, and so makes the price jump.
type Steps struct {
	Sections []int // of each piece, all casts
	Heats    int
	Days     int
	Loads    int // of the burn-out kiln
	Lift     string
	Coats    []int
	Frames   int // pieces with an inner frame
	Stamps   int // engineer's
}

// TryAt estimates the commission with its first piece at height h, and those
// that scale along in proportion. It is false where that cannot be made.
func (m *Model) TryAt(rule Rule, h quantity.Length) (Outcome, Steps, bool) {
	r := m.sized(rule, h)
	o := m.outcome(r)
	s := Steps{Heats: len(r.est.Heats), Days: r.est.PourDays, Loads: int(r.loads.v), Lift: r.est.Lift.By}
	for _, p := range r.pieces {
		s.Sections = append(s.Sections, int(p.sections.v)*p.casts)
		s.Coats = append(s.Coats, int(p.coats.v))
		if p.frame.v > 0 {
			s.Frames++
		}
	}
	for _, l := range r.est.Lines {
		if l.Rate.Equal(r.whole.value(engineerRate).Dec) && l.Stage == baseStage.ID && l.Per == "stamp" {
			s.Stamps = int(l.Quantity.IntPart())
		}
	}
	return o, s, len(r.faults) == 0
}

// SectionsAt is how many sections each piece would need at that height.
func (m *Model) SectionsAt(rule Rule, h quantity.Length) []int {
	r := m.sized(rule, h)
	r.takeCrucible()
	out := make([]int, len(r.pieces))
	for i, p := range r.pieces {
		r.takeForm(p)
		r.takeBronze(p)
		out[i] = int(p.sections.v) * p.casts
	}
	return out
}

// sized is a fresh run with other heights.
func (m *Model) sized(rule Rule, h quantity.Length) *run {
	r := m.fresh()
	for i, p := range r.pieces {
		if !rule.along[i] || rule.Height == 0 {
			continue
		}
		in := p.in
		in.values = append([]field.Value(nil), in.values...)
		in.given = append([]bool(nil), in.given...)
		// As printed in a commission: to a micrometre.
		v, _ := heightField.Read(metres(rule.heights[i]*h/rule.Height), field.Context{})
		in.values[heightField.id], in.given[heightField.id] = v, true
		p.in = in
	}
	return r
}

// HeatPrice is a bound on what one heat adds to the total: its hours, its flux
// and its part of overhead and all that is taken on top, tax included.
func (m *Model) HeatPrice() money.Amount {
	still := Still(len(m.first.pieces))
	r := m.fresh()
	r.vary = &still
	o := m.outcome(r)
	if o.Direct == 0 {
		return 0
	}
	rate, _ := r.priceRate(r.whole.value(pourLabourRate), hour)
	flux, _ := r.priceRate(r.whole.value(heatRate), none)
	direct := r.whole.num(peopleField)*r.whole.num(heatHoursField)*rate.InexactFloat64() + flux.InexactFloat64()
	direct *= 1 + o.Recasts
	return r.currency.Of(money.Round(2*direct*float64(o.Total)/float64(o.Direct), 4))
}
