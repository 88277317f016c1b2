package lead

import (
	"math"

	"meltwright/internal/estimate"
	"meltwright/internal/shop"
)

// The inputs of the estimate that the schedule reads besides its lines.
const (
	coatsADay   = "shell.coats_a_day"
	pourMetal   = "pour.weekly"
	pourLoss    = "pour.loss"
	pourPeople  = "pour.people"
	pourSetup   = "pour.day_hours"
	pourHeat    = "pour.heat_hours"
	kilnLoad    = "pour.burnout_load"
	kilnTending = "pour.burnout_hours"
	distance    = "delivery.distance"
	siteCrew    = "delivery.crew"
)

// whole reads an input of the whole commission.
func (b *builder) whole(path string) float64 { return b.model.Value(estimate.Whole, path).Num }

// crew reads what pouring takes.
func (b *builder) readCrew() crew {
	minutes := func(path string) int32 { return min(aDay, toMinutes(b.whole(path))) }
	return crew{
		people: min(count(b.whole(pourPeople)), b.floor.heads(pourer)),
		setup:  minutes(pourSetup), heat: minutes(pourHeat), kg: b.whole(pourMetal),
	}
}

// firing reads what one burn-out load takes.
func (b *builder) firing(sections int32) firing {
	aLoad := count(b.whole(kilnLoad))
	return firing{
		loads:   (sections + aLoad - 1) / aLoad,
		slots:   max(1, int32(math.Ceil(b.book(shop.KilnHours)*60/slotMinutes-1e-9))),
		tending: min(7*aDay, toMinutes(b.whole(kilnTending))),
	}
}

func (b *builder) book(k shop.Key) float64 { return b.shop.Num(k) }

// aDay is the minutes of a day: no pour and no heat keeps anybody longer.
const aDay = 24 * 60

// mostMinutes is a hundred years of one person's work: more is no schedule.
const mostMinutes = 100 * 2000 * 60

func toMinutes(hours float64) int32 {
	return int32(math.Min(mostMinutes, math.Max(0, math.Ceil(hours*60-1e-6))))
}

// count is a whole number of things, at least one.
func count(v float64) int32 { return int32(math.Max(1, math.Min(1e6, v))) }

// days is a wait in weeks, or in days, as whole days.
func days(v, each float64) int32 { return int32(math.Ceil(math.Min(v*each, 1e5) - 1e-9)) }
