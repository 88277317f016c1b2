package estimate

// pour packs the sections of each alloy into heats, and all of them into pour
// days of so much metal, and gives the days: a section is poured from one heat,
// on one day. Each is as few as it can be by itself; the calendar finds the days
// on which the heats fit together.
func (r *run) pour(alloys []string, byAlloy map[string][]Load, sections float64) (days int) {
	var all []Load
	for _, a := range alloys {
		if !(r.usable.v > 0) || sections > mostSections || r.tooHeavy(byAlloy[a]) {
			continue
		}
		all = append(all, byAlloy[a]...)
		for _, h := range packHeats(byAlloy[a], r.usable.v) {
			h.Alloy = a
			r.est.Heats = append(r.est.Heats, h)
		}
	}
	return r.pourDays(all)
}

// pourDays packs sections, as charged, into days of so many kilograms. A day that
// does not hold the heaviest is a fault.
func (r *run) pourDays(sections []Load) (days int) {
	keeps := 1 - r.whole.num(lossField)
	most, heaviest := r.whole.num(weeklyField)*keeps, 0.0
	for _, l := range sections {
		heaviest = max(heaviest, l.Kg)
	}
	if heaviest > most*(1+1e-9) {
		r.fault(nil, weeklyField, "is less than one section takes, "+r.mass(heaviest/keeps)+" as charged", "give more metal a pour day, or cut the piece into more sections")
		return 1
	}
	return len(packHeats(sections, most))
}
