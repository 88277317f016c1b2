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

// pourDays packs sections, as charged, into days of so many kilograms. One over a
// day's metal takes a day of its own.
func (r *run) pourDays(sections []Load) (days int) {
	most := r.whole.num(weeklyField) * (1 - r.whole.num(lossField)) // poured, on a day
	fits := sections[:0]
	for _, l := range sections {
		if l.Kg <= most {
			fits = append(fits, l)
		} else {
			days += l.Count
		}
	}
	return days + len(packHeats(fits, most))
}
