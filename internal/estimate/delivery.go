package estimate

import (
	"math"

	"meltwright/internal/field"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

var deliveryStage = &Stage{
	ID: "delivery", Name: "Delivery and install", Does: "Crate, freight, crane, crew, travel, permits",
	wholeLines: deliveryLines, byOthers: never,
	cautions: deliveryCautions,
	swing: func(v *Variation, it *item) float64 {
		if it.unit == squareMetre || it.unit == kilogram || it.unit == kilometre {
			return v.Freight
		}
		return v.Site
	},
}

func weDeliver(in *inputs) bool { return in.word(deliveryByField) != byOthers }

func weInstall(in *inputs) bool { return in.word(deliveryByField) == deliverInstall }

const (
	deliverInstall = "delivered and installed"
	deliverOnly    = "delivered"
)

var (
	deliveryByField   = choiceWhole("delivery", "by", "The work is", deliverInstall, deliverOnly, byOthers)
	distanceField     = askedWhole("delivery", "distance", "Distance, one way", quantity.KindLength, field.ZeroUp, "0 km", "").bare("km", "mi").when(weDeliver)
	reachField        = askedWhole("delivery", "reach", "Crane's reach", quantity.KindLength, field.AboveZero, "6 m", "").bare("m", "ft").when(weInstall)
	craneDaysField    = askedWhole("delivery", "crane_days", "Days of crane or hoist", quantity.KindFactor, field.ZeroUp, "1", "").when(weInstall)
	siteDaysField     = askedWhole("delivery", "days", "Days on site", quantity.KindFactor, field.ZeroUp, "1", "").when(weInstall)
	nightsField       = askedWhole("delivery", "nights", "Nights away", quantity.KindCount, field.ZeroUp, "0", "").when(weInstall)
	tripsField        = askedWhole("delivery", "trips", "Trips of the crew", quantity.KindCount, field.ZeroUp, "1", "").when(weInstall)
	permitsField      = sum("delivery", "permits", "Permits")
	siteWorksField    = sum("delivery", "site_works", "Site works, bought in")
	documentField     = sum("delivery", "documentation", "Photographs and records")
	crewField         = fromBookWhole("delivery", "crew", Hours, shop.CrewPeople).when(weInstall)
	siteHoursField    = fromBookWhole("delivery", "day_hours", Hours, shop.DayHours).when(weInstall)
	boxField          = fromBook("delivery", "box", Hours, shop.BoxWidth)
	crateMarginField  = fromBookWhole("delivery", "margin", Hours, shop.CrateMargin)
	crateTareField    = fromBookWhole("delivery", "tare", Hours, shop.CrateTare)
	volumeWeightField = fromBookWhole("delivery", "volume_weight", Hours, shop.VolumeWeight)
	crateRate         = fromBookWhole("delivery", "crate_price", Rates, shop.CratePrice)
	freightRate       = fromBookWhole("delivery", "freight_price", Rates, shop.FreightPrice)
	freightKmRate     = fromBookWhole("delivery", "freight_km", Rates, shop.FreightKm)
	hoistRate         = fromBookWhole("delivery", "hoist_price", Rates, shop.HoistPrice)
	installRate       = fromBookWhole("delivery", "labour", Rates, shop.LabourInstall)
	travelRate        = fromBookWhole("delivery", "travel_km", Rates, shop.TravelKm)
	nightRate         = fromBookWhole("delivery", "night", Rates, shop.NightPrice)
)

// takeDelivery works out the crates and what must be lifted.
func (r *run) takeDelivery() {
	for _, p := range r.pieces {
		r.crate(p)
		if m := p.finished.v + p.frame.v; m > r.heaviest {
			r.heaviest = m
		}
		if p.plinthMass.v > r.heaviest && !baseStage.byOthers(p) {
			r.heaviest = p.plinthMass.v
		}
	}
	r.takeLift()
}

// crate is a box wider than the piece by the margin on every side. What the
// carrier charges is the larger of its weight and its volume's.
func (r *run) crate(p *piece) {
	margin := r.mul(r.number(2), r.input(&r.whole, crateMarginField, metre))
	wide := r.named("width of the crate", r.add(p.wide, margin), metre)
	deep := r.named("depth of the crate", r.add(p.deep, margin), metre)
	height := r.named("height of the crate", r.add(p.finishedHeight, margin), metre)
	area := r.add(r.mul(r.number(2), wide, deep), r.around(wide, deep, height))
	p.crate = [3]float64{wide.v, deep.v, height.v}
	actual := r.mul(r.add(p.finished, p.frame), r.plus1(r.share(&r.whole, crateTareField)))
	byVolume := r.mul(wide, deep, height, r.input(&r.whole, volumeWeightField, kiloPerCubicMetre))
	weight := r.named("chargeable weight", r.max(actual, byVolume), kilogram)
	if !baseStage.byOthers(p) && p.plinthMass.v > 0 {
		weight = r.add(weight, p.plinthMass)
	}
	p.chargeable = weight.v
	r.crateArea = r.also(r.crateArea, r.allCasts(p, area))
	r.chargeable = r.also(r.chargeable, r.allCasts(p, weight))
}

// takeLift chooses how the heaviest part is lifted: by hands, by hoist, or by
// the smallest crane of the shop book that holds it at the reach.
func (r *run) takeLift() {
	hands, hoist := r.shop.Num(shop.HandsLimit), r.shop.Num(shop.HoistLimit)
	l := &r.est.Lift
	l.Kg, l.Reach = r.heaviest, r.whole.num(reachField)
	switch n := math.Ceil(r.heaviest / hands); {
	case r.heaviest <= 4*hands && r.heaviest <= hoist:
		l.By, l.People = "hands", int(max(n, 1))
		return
	case r.heaviest <= hoist:
		l.By = "hoist"
		return
	}
	moment := r.heaviest / 1000 * l.Reach
	least := math.Inf(1)
	for _, c := range r.shop.Cranes {
		if c.Moment >= moment && c.Moment < least {
			least = c.Moment
			l.By, r.crane, r.craneFrom = c.Name, c.Day, c.Source
		}
	}
	if !math.IsInf(least, 1) {
		return
	}
	if weInstall(&r.whole) {
		r.fault(nil, reachField, "takes a load of "+r.mass(r.heaviest)+" beyond the largest crane in the shop book", "give a shorter reach, or put a larger crane into the shop book")
	}
}

func deliveryLines(r *run, st *Stage) {
	if weDeliver(&r.whole) {
		r.freightLines(st)
	}
	if weInstall(&r.whole) {
		r.installLines(st)
	}
	r.bought(st, permitsField, "Permits")
	r.bought(st, siteWorksField, "Site works")
	r.bought(st, documentField, "Photographs and records")
}

func (r *run) freightLines(st *Stage) {
	r.material(st, nil, "Crates", r.named("surface of the crates", r.crateArea, squareMetre), squareMetre, crateRate)
	km := r.input(&r.whole, distanceField, kilometre)
	if km.v > 0 {
		r.write(st, item{name: "Freight by weight", class: Bought, q: r.named("chargeable weight of all crates", r.chargeable, kilogram), unit: kilogram, rate: r.whole.value(freightRate), from: r.whole.origin(freightRate)})
		r.write(st, item{name: "Freight by distance", class: Bought, q: km, unit: kilometre, rate: r.whole.value(freightKmRate), from: r.whole.origin(freightKmRate)})
	}
}

func (r *run) installLines(st *Stage) {
	r.liftLine(st)
	people := r.input(&r.whole, crewField, none)
	days := r.input(&r.whole, siteDaysField, none)
	r.labour(st, nil, "Installation crew", r.mul(people, days, r.input(&r.whole, siteHoursField, hour)), installRate)
	there := r.mul(r.input(&r.whole, distanceField, kilometre), r.number(2), r.input(&r.whole, tripsField, none))
	r.write(st, item{name: "Travel of the crew", class: Bought, q: there, unit: kilometre, rate: r.whole.value(travelRate), from: r.whole.origin(travelRate)})
	r.counted(st, nil, "Lodging and meals", "night", Bought, r.mul(people, r.input(&r.whole, nightsField, none)), nightRate)
}

func (r *run) liftLine(st *Stage) {
	days := r.input(&r.whole, craneDaysField, none)
	switch l := r.est.Lift; {
	case l.By == "hands":
	case l.By == "hoist":
		r.counted(st, nil, "Hoist", "day", Bought, days, hoistRate)
	case l.By != "":
		r.write(st, item{name: l.By, class: Bought, q: days, rate: r.crane, word: "day", from: field.Origin{From: field.ShopBook, Source: r.craneFrom}})
	}
}

func deliveryCautions(r *run) []Caution {
	hands := r.shop.Num(shop.HandsLimit)
	if r.heaviest <= hands {
		return nil
	}
	return []Caution{{Level: Danger, Stage: "delivery", Text: "Heaviest part " + r.mass(r.heaviest) + ": over " + r.mass(hands) + " a person, lift with rated gear. Slings load more as they spread: two legs at 45° carry " + r.mass(SlingLeg(r.heaviest, 2, 45)) + " each. A licensed rigger plans the lift.", Source: "OSHA 1910.184; NIOSH, from memory"}}
}
