package estimate

import (
	"math"
	"slices"

	"meltwright/internal/field"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

// Steps are what does not grow smoothly with size, and so makes the price jump.
// Between two heights with the same steps the price only rises.
type Steps struct {
	Sections []int // of one cast of each piece
	Heats    int
	Days     int
	Loads    int // of the burn-out kiln
	Lift     string
	Coats    []int // of shell on each piece
	Frames   int   // pieces with an inner frame
	Stamps   int   // engineer's
	// Uneven tells of sections of unlike weights, which may fill fewer heats at
	// one height than at a lower and a higher one: steps at two heights then say
	// nothing of what lies between.
	Uneven bool
}

// Same tells whether nothing has jumped between a and b.
func (a Steps) Same(b Steps) bool {
	return a.Heats == b.Heats && a.Days == b.Days && a.Loads == b.Loads && a.Lift == b.Lift && a.Frames == b.Frames && a.Stamps == b.Stamps &&
		slices.Equal(a.Sections, b.Sections) && slices.Equal(a.Coats, b.Coats)
}

// Trial is a commission estimated at another height, without its workings.
type Trial struct {
	Outcome
	Steps Steps
	Holds bool // it can be made so
	// Floor is a price, and FloorTotal a total, that no height from this one up
	// can be below: as if the metal filled its heats to the brim, the cheapest
	// of the larger cranes came, the least coats were dipped that the shop book
	// has for larger pieces, and every rounding fell well.
	Floor, FloorTotal money.Amount
}

// TryAt estimates the commission with its first piece at height h, and those
// that scale along in proportion.
func (m *Model) TryAt(rule Rule, h quantity.Length) Trial {
	r := m.sized(rule, h)
	t := Trial{Outcome: m.outcome(r), Holds: len(r.faults) == 0}
	t.Steps = Steps{Heats: len(r.est.Heats), Days: r.est.PourDays, Loads: int(r.loads.v), Lift: r.est.Lift.By}
	for _, p := range r.pieces {
		t.Steps.Sections = append(t.Steps.Sections, int(p.sections.v))
		t.Steps.Coats = append(t.Steps.Coats, int(p.coats.v))
		t.Steps.Uneven = t.Steps.Uneven || len(p.loads) > 1
		if p.frame.v > 0 {
			t.Steps.Frames++
		}
	}
	for _, l := range r.est.Lines {
		if l.Stage == baseStage.ID && l.Per == "stamp" {
			t.Steps.Stamps = int(l.Quantity.IntPart())
		}
	}
	r.floor(&t, rule)
	return t
}

// WallFits tells whether the walls of all pieces fit their forms with the first
// piece at height h.
func (m *Model) WallFits(rule Rule, h quantity.Length) bool {
	r := m.sized(rule, h)
	for _, p := range r.pieces {
		r.takeForm(p)
	}
	return len(r.faults) == 0
}

// sized is a fresh run with other heights.
func (m *Model) sized(rule Rule, h quantity.Length) *run {
	r := m.fresh()
	for i, p := range r.pieces {
		if !rule.along[i] || rule.Height == 0 {
			continue
		}
		in := p.in
		in.values, in.given = slices.Clone(in.values), slices.Clone(in.given)
		in.values[heightField.id], in.given[heightField.id] = field.Value{Num: micrometres(rule.heights[i] * h / rule.Height)}, true
		p.in = in
	}
	return r
}

// micrometres is a length as metres prints it and reading gives it back.
func micrometres(l quantity.Length) float64 { return money.Round(float64(l), 6).InexactFloat64() }

// floor puts the floors into a trial. What lies between a price and its floor is
// what heats, lifting and coats could save, with all that is taken on top of
// them, a step of rounding, and the cents that rounding the rates of recasts may
// move.
func (r *run) floor(t *Trial, rule Rule) {
	saved := r.dearerLift() + r.spareCoats(rule)
	if n := len(r.est.Heats); n > 0 {
		saved += float64(n-r.fewestByWeight())*r.heatCost() + r.spareDays()*r.dayCost()
	}
	price, total := r.onTop()
	slack := r.currency.Decimal(money.Amount(100)).InexactFloat64()*(1+r.est.Recasts*0.1) + r.whole.num(stepField)
	down := func(a money.Amount, onTop float64) money.Amount {
		return a - r.currency.Of(money.Round(saved*onTop+slack*max(1, total), 4))
	}
	t.Floor, t.FloorTotal = down(t.Price, price), down(t.Total, total)
}

// fewestByWeight is how many heats the metal fills, whatever its sections.
func (r *run) fewestByWeight() int {
	kg := map[string]float64{}
	for _, p := range r.pieces {
		kg[p.in.word(alloyField)] += p.sectionPour.v * p.sections.v * float64(p.casts)
	}
	n := 0
	for _, m := range kg {
		n += max(1, int(math.Ceil(m/r.usable.v-1e-6)))
	}
	return n
}

// heatCost is what one heat adds to the direct cost: its hours, its flux, and
// its part in the pour of what is cast again.
func (r *run) heatCost() float64 {
	rate, _ := r.priceRate(r.whole.value(pourLabourRate), hour)
	flux, _ := r.priceRate(r.whole.value(heatRate), none)
	direct := r.whole.num(peopleField)*r.whole.num(heatHoursField)*rate.InexactFloat64() + flux.InexactFloat64()
	return direct / r.whole.num(yieldField)
}

// spareDays are the pour days that would go if heats filled them to the brim.
func (r *run) spareDays() float64 {
	if r.whole.has(chargedDayField) {
		return 0
	}
	return r.days.v - math.Ceil(r.charged.v/r.whole.num(weeklyField)-1e-6)
}

// dayCost is what one pour day adds to the direct cost.
func (r *run) dayCost() float64 {
	rate, _ := r.priceRate(r.whole.value(pourLabourRate), hour)
	return r.whole.num(peopleField) * r.whole.num(dayHoursField) * rate.InexactFloat64() / r.whole.num(yieldField)
}

// dearerLift is what could be saved on lifting by what a larger weight brings.
func (r *run) dearerLift() float64 {
	if !weInstall(&r.whole) {
		return 0
	}
	day := func(v field.Value) float64 {
		d, _ := r.priceRate(v, none)
		return d.InexactFloat64()
	}
	rates := []float64{0, day(r.whole.value(hoistRate))}
	at := slices.Index([]string{"hands", "hoist"}, r.est.Lift.By)
	for i, c := range r.shop.Cranes {
		if at < 0 && c.Name == r.est.Lift.By {
			at = i + 2
		}
		rates = append(rates, day(c.Day))
	}
	if at < 0 {
		return 0 // beyond the largest crane: it cannot be made at all
	}
	return (rates[at] - slices.Min(rates[at:])) * r.whole.num(craneDaysField)
}

// onTop is what a unit of direct cost adds to the price and to the total, as
// labour, which overhead falls on in either way of taking it.
func (r *run) onTop() (price, total float64) {
	price = (1 + r.whole.num(overheadField)) * (1 + r.whole.num(contingencyField))
	taken := r.whole.num(insuranceField) + r.whole.num(bondField) + r.whole.num(agentField) + r.whole.num(galleryField)
	switch r.whole.word(feeWayField) {
	case feeCost:
		price *= 1 + r.whole.num(feeShareField)
	case feePrice:
		taken += r.whole.num(feeShareField)
	}
	if r.whole.word(profitWayField) == "markup" {
		price *= 1 + r.whole.num(profitField)
	} else {
		price /= 1 - r.whole.num(profitField)
	}
	price /= 1 - taken
	total = price
	for _, t := range r.est.Taxes {
		total += price * t.Rate.InexactFloat64()
	}
	return price, total
}

// spareCoats is what would be saved if pieces that grow came to have the least
// coats that the shop book has for heavier ones.
func (r *run) spareCoats(rule Rule) float64 {
	saved := 0.0
	for i, p := range r.pieces {
		share := 1 - r.leastCoats(p)/p.coarse.v
		if !rule.along[i] || p.in.has(coarseField) || !(share > 0) {
			continue
		}
		for _, l := range r.est.Lines {
			if l.Stage == shellStage.ID && l.Piece == i {
				saved += share * r.currency.Decimal(l.Amount).InexactFloat64()
			}
		}
	}
	return saved
}

// leastCoats is the least of the coarse coats that a piece has at its weight or
// at a larger one.
func (r *run) leastCoats(p *piece) float64 {
	least := p.coarse.v
	if p.finished.v <= r.shop.Num(shop.SmallPiece) {
		least = min(least, r.shop.Num(shop.CoarseMiddle))
	}
	if p.finished.v < r.shop.Num(shop.LargePiece) {
		least = min(least, r.shop.Num(shop.CoarseLarge))
	}
	return least
}
