package estimate

import "math"

// pour packs the sections of each alloy into heats and the heats into pour days,
// and gives the days. Heats that are few and full may fill the days badly: where
// the sections themselves fit into fewer days, each day's heats are packed by
// themselves, for a day costs more than a heat.
func (r *run) pour(alloys []string, byAlloy map[string][]Load, sections float64) (days int) {
	var sound []string
	for _, a := range alloys {
		if r.usable.v > 0 && sections <= mostSections && !r.tooHeavy(byAlloy[a]) {
			sound = append(sound, a)
			r.est.Heats = append(r.est.Heats, heatsOf(a, byAlloy[a], r.usable.v)...)
		}
	}
	most := r.whole.num(weeklyField) * (1 - r.whole.num(lossField)) // poured, on a day
	days = len(packDays(heatLoads(r.est.Heats), most))
	if days <= fewestDays(r.est.Heats, most) {
		return days
	}
	var each []Load
	var of []int // of each load: its alloy's place
	for i, a := range sound {
		for range byAlloy[a] {
			of = append(of, i)
		}
		each = append(each, byAlloy[a]...)
	}
	loads := make([]Load, len(each))
	for i, l := range each {
		loads[i] = Load{i, l.Kg, l.Count}
	}
	byDay := packDays(loads, most)
	if len(byDay) >= days {
		return days
	}
	r.est.Heats = r.est.Heats[:0]
	for _, day := range byDay {
		for i, a := range sound {
			var today []Load
			for _, s := range day.Sections {
				if of[s.Piece] == i {
					today = append(today, Load{each[s.Piece].Piece, each[s.Piece].Kg, s.Count})
				}
			}
			r.est.Heats = append(r.est.Heats, heatsOf(a, today, r.usable.v)...)
		}
	}
	return len(byDay)
}

func heatsOf(alloy string, loads []Load, usable float64) []Heat {
	heats := packHeats(loads, usable)
	for i := range heats {
		heats[i].Alloy = alloy
	}
	return heats
}

// heatLoads are heats as what is to be packed into days, those alike together.
func heatLoads(heats []Heat) (loads []Load) {
	for _, h := range heats {
		if last := len(loads) - 1; last >= 0 && loads[last].Kg == h.Kg {
			loads[last].Count++
			continue
		}
		loads = append(loads, Load{Kg: h.Kg, Count: 1})
	}
	return loads
}

// packDays packs what is not to be parted into days of most kilograms. What is
// over a day's metal takes a day of its own.
func packDays(loads []Load, most float64) (days []Heat) {
	var fits []Load
	for _, l := range loads {
		if l.Kg <= most {
			fits = append(fits, l)
			continue
		}
		for range l.Count {
			days = append(days, Heat{Kg: l.Kg, Sections: []HeatShare{{l.Piece, 1, l.Kg}}})
		}
	}
	return append(days, packHeats(fits, most)...)
}

// fewestDays is a number of days that no packing of the metal can be below.
func fewestDays(heats []Heat, most float64) int {
	kg := 0.0
	for _, h := range heats {
		kg += h.Kg
	}
	return int(math.Ceil(kg/most - 1e-9))
}
