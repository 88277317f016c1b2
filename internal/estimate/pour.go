package estimate

import (
	"math"

	"meltwright/internal/field"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

var pourStage = &Stage{
	ID: "pour", Name: "Pour", Does: "Dewax and burn-out, melt, pour; a share fails and goes back to wax", Foundry: true,
	lines: pourLines, wholeLines: pourWholeLines, byOthers: never,
	cautions: pourCautions,
	swing: func(v *Variation, it *item) float64 {
		switch {
		case it.class == Labour:
			return 1
		case it.unit == kilogram:
			return v.Metal
		}
		return v.Material
	},
}

var (
	crucibleField = register(Field{
		Def: field.Def{Key: "crucible", Label: "Crucible", Sort: field.Choice}, Stage: "pour", Book: shop.Unset, Start: "Bilge no. 30",
		FromBook: func(s *shop.Shop) (names []string) {
			for _, c := range s.Crucibles {
				names = append(names, c.Name)
			}
			return names
		},
	})
	holdsField       = askedWhole("pour", "holds", "It holds", quantity.KindMass, field.AboveZero, "", "of the crucible, by the shop book")
	fillField        = fromBookWhole("pour", "fill", Choices, shop.UsableFill)
	yieldField       = fromBookWhole("pour", "yield", Choices, shop.Yield)
	weeklyField      = fromBookWhole("pour", "weekly", Choices, shop.WeeklyPour)
	chargedDayField  = askedWhole("pour", "days", "Pour days charged", quantity.KindFactor, field.ZeroUp, "", "whole days by capacity").hint("a part, where other jobs share the day")
	lossField        = fromBookWhole("pour", "loss", Hours, shop.MeltLoss)
	peopleField      = fromBookWhole("pour", "people", Hours, shop.PourPeople)
	dayHoursField    = fromBookWhole("pour", "day_hours", Hours, shop.PourDayHours)
	heatHoursField   = fromBookWhole("pour", "heat_hours", Hours, shop.PourHeatHours)
	burnoutLoadField = fromBookWhole("pour", "burnout_load", Hours, shop.BurnoutLoad)
	burnoutHourField = fromBookWhole("pour", "burnout_hours", Hours, shop.BurnoutHours)
	burnoutFuelField = fromBookWhole("pour", "burnout_fuel", Hours, shop.BurnoutFuel)
	pourTempField    = fromBookWhole("pour", "temperature", Hours, shop.PourTemp)
	airTempField     = fromBookWhole("pour", "air", Hours, shop.AirTemp)
	heatCapField     = fromBookWhole("pour", "heat_capacity", Hours, shop.HeatCapacity)
	latentField      = fromBookWhole("pour", "latent_heat", Hours, shop.LatentHeat)
	furnaceField     = fromBookWhole("pour", "efficiency", Hours, shop.FurnaceShare)
	pourLabourRate   = fromBookWhole("pour", "labour", Rates, shop.LabourPour)
	fuelRate         = fromBookWhole("pour", "fuel_price", Rates, shop.FuelPrice)
	heatRate         = fromBookWhole("pour", "sundries", Rates, shop.HeatSundries)
)

// takeCrucible is what one heat pours.
func (r *run) takeCrucible() {
	holds := r.input(&r.whole, holdsField, kilogram)
	if !r.whole.has(holdsField) {
		for _, c := range r.shop.Crucibles {
			if c.Name == r.whole.word(crucibleField) {
				holds = r.fact(r.words("crucible ", c.Name), float64(c.Holds), kilogram, field.Origin{From: field.ShopBook, Source: c.Source})
			}
		}
	}
	r.usable = r.named("usable crucible", r.mul(holds, r.share(&r.whole, fillField)), kilogram)
}

// takeHeats packs all sections of all casts into heats, alloy by alloy, and
// counts the pour days.
func (r *run) takeHeats() {
	var alloys []string
	byAlloy := map[string][]Load{}
	sections := 0.0
	var poured expr
	for _, p := range r.pieces {
		a := p.in.word(alloyField)
		if _, ok := byAlloy[a]; !ok {
			alloys = append(alloys, a)
		}
		n := p.sections.v * float64(p.casts)
		if sections <= mostSections && sections+n > mostSections {
			r.tooMany(p, sections+n)
		}
		sections += n
		if p.loads == nil {
			byAlloy[a] = append(byAlloy[a], Load{p.index, p.sectionPour.v, int(n)})
		}
		byAlloy[a] = append(byAlloy[a], p.loads...)
		poured = r.also(poured, r.allCasts(p, p.poured))
	}
	days := r.pour(alloys, byAlloy, sections)
	r.sections = r.fact("sections of all casts", sections, none, field.Origin{From: field.Proposed, Source: "sections × casts of every piece"})
	r.heats = r.packed("heats", len(r.est.Heats), "sections packed into crucibles of ", r.usable.v, ", each section from one heat")
	r.pouredAll = r.named("metal poured, all casts", poured, kilogram)
	r.charged = r.named("metal charged", r.div(r.pouredAll, r.less1(r.share(&r.whole, lossField))), kilogram)
	r.days = r.packed("pour days", days, "whole sections as charged, packed into pour days of ", r.whole.num(weeklyField), "")
	r.daysCharged = r.days
	if r.whole.has(chargedDayField) {
		r.daysCharged = r.input(&r.whole, chargedDayField, none)
	}
}

// packed is a number that packing into so many kilograms came to.
func (r *run) packed(name string, n int, how string, kg float64, after string) expr {
	if r.bare {
		return expr{v: float64(n)}
	}
	return r.fact(name, float64(n), none, field.Origin{From: field.Proposed, Source: how + r.mass(kg) + after})
}

// mostSections is what no foundry casts in one commission: more is a slip, in a
// height or a number of casts.
const mostSections = 100000

func (r *run) tooMany(p *piece, sections float64) {
	f, remedy := castsField, "check the number of casts"
	if p.casts == 1 {
		f, remedy = heightField, "check the heights, made and measured, the wall and the crucible"
	}
	r.fault(p, f, "comes to "+quantity.Number(sections, 0)+" sections, more than anybody casts", remedy)
}

// also adds to a sum that may not have begun.
func (n *nodes) also(sum, x expr) expr {
	if sum == (expr{}) {
		return x
	}
	return n.add(sum, x)
}

// tooHeavy tells of a section over the crucible, of which the piece has a fault
// already, or of a size that cannot be packed.
func (r *run) tooHeavy(loads []Load) bool {
	for _, l := range loads {
		if !(l.Kg > 0) || l.Kg > r.usable.v*(1+1e-9) || math.IsInf(l.Kg, 0) {
			return true
		}
	}
	return false
}

func (r *run) allCasts(p *piece, one expr) expr {
	if p.casts == 1 {
		return one
	}
	return r.mul(one, r.input(&p.in, castsField, none))
}

// pourLines is the metal of a piece: what leaves in the bronze, and what the
// melt of its charge loses. Gates go back to the pot.
func pourLines(r *run, st *Stage, p *piece) {
	charged := r.named("metal charged for one cast", r.div(p.poured, r.less1(r.share(&r.whole, lossField))), kilogram)
	lost := r.mul(charged, r.share(&r.whole, lossField))
	p.lost = lost
	used := r.perCast(st, p, r.add(p.finished, lost))
	p.used = used
	a := r.alloyOf(p)
	r.write(st, item{piece: p, name: r.words("Bronze used up, ", a.Name), q: used, unit: kilogram, rate: a.Price, from: field.Origin{From: field.ShopBook, Source: a.Priced}})
}

func pourWholeLines(r *run, st *Stage) {
	from := len(r.est.Lines)
	loads := r.named("burn-out loads", r.ceil(r.div(r.sections, r.input(&r.whole, burnoutLoadField, none))), none)
	r.loads = loads
	r.labour(st, nil, "Burn-out", r.mul(loads, r.input(&r.whole, burnoutHourField, hour)), pourLabourRate)
	hours := r.add(r.mul(r.daysCharged, r.input(&r.whole, dayHoursField, hour)), r.mul(r.heats, r.input(&r.whole, heatHoursField, hour)))
	r.labour(st, nil, "Melting and pouring", r.mul(r.input(&r.whole, peopleField, none), hours), pourLabourRate)
	r.material(st, nil, "Fuel, burn-out", r.mul(loads, r.input(&r.whole, burnoutFuelField, kilowattHour)), kilowattHour, fuelRate)
	r.material(st, nil, "Fuel, melting", r.meltEnergy(), kilowattHour, fuelRate)
	r.counted(st, nil, "Flux, deoxidiser, crucible wear", "heat", Material, r.heats, heatRate)
	r.pourRecast(st, from)
}

// meltEnergy is charge × (c ΔT + latent heat) over the furnace's efficiency, in
// kilowatt-hours.
func (r *run) meltEnergy() expr {
	rise := r.sub(r.input(&r.whole, pourTempField, degrees), r.input(&r.whole, airTempField, degrees))
	perKilo := r.named("heat to melt a kilogram", r.add(r.mul(r.input(&r.whole, heatCapField, none), rise), r.input(&r.whole, latentField, none)), kilojoulePerKilo)
	return r.div(r.mul(r.charged, perKilo), r.mul(r.number(3600), r.share(&r.whole, furnaceField)))
}

// pourRecast charges failed castings with their part of the pour and with the
// metal their second melt loses.
func (r *run) pourRecast(st *Stage, from int) {
	var recasts expr
	lost := 0.0
	for _, p := range r.pieces {
		recasts = r.also(recasts, p.recasts)
		a := r.alloyOf(p)
		rate, _ := r.priceRate(a.Price, kilogram)
		kg := quantity.Kilogram.Size
		if r.system == quantity.InchPound {
			kg = 1 / quantity.Pound.Size
		}
		lost += p.lost.v / p.sections.v * p.recasts.v * kg * rate.InexactFloat64()
	}
	r.recasts = recasts
	if !(recasts.v > 0) {
		return
	}
	total := money.Amount(0)
	for _, l := range r.est.Lines[from:] {
		total += l.Amount
	}
	each := r.currency.Decimal(total).InexactFloat64()/r.sections.v + lost/recasts.v
	r.writeExact(st, item{
		name: "Expected recasts", class: Recast, q: recasts, word: "section",
		rate: field.Value{Dec: money.Round(each, r.currency.Digits), Num: each},
		from: field.Origin{From: field.Proposed, Source: "burn-out, melt and pour ÷ sections, and the metal a second melt loses"},
	})
}

func pourCautions(r *run) []Caution {
	list := []Caution{
		{Level: Danger, Stage: "pour", Text: "Molten bronze near 1,950 °F (1,066 °C): dry, hot tools, shells and ingots; one drop of water under metal explodes. Full face, hands and body cover; two trained people on the crucible."},
		{Level: Note, Stage: "pour", Text: "Metal fume: copper fume 0.1 mg/m³ over eight hours; extract at the furnace and the grinder.", Source: "OSHA Table Z-1, from memory"},
	}
	for _, p := range r.pieces {
		if a := r.alloyOf(p); a.Caution != "" {
			list = append(list, Caution{Level: Danger, Stage: "pour", Text: a.Name + " " + a.Caution + ": lead fume and dust, limit 50 µg/m³. Blood tests, change of clothes, wet cleaning; not for what children touch.", Source: "29 CFR 1910.1025, from memory"})
			break
		}
	}
	return list
}
