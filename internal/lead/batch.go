package lead

import (
	"cmp"
	"slices"

	"meltwright/internal/estimate"
)

// batch is what goes through wax, shell and kiln together: the sections that one
// pour day's metal fills.
type batch struct {
	heats []float64 // kilograms charged, each
	share []castings
}

// mostBatches bounds the pour days of one commission: six years of them.
const mostBatches = 330

// batches fills pour days with the estimate's heats: those of one piece first,
// piece by piece, then those that several share, each into the first day whose
// metal and hours still hold it. Sections are counted cast by cast, so that the
// first casts are whole first. It is false where there are too many.
func batches(heats []estimate.Heat, pieces int, c crew, aDay int32, charged func(kg float64) float64) ([]batch, bool) {
	heats = slices.Clone(heats)
	slices.SortStableFunc(heats, func(a, b estimate.Heat) int { return cmp.Compare(turn(a), turn(b)) })
	var days []batch
	var kg []float64
	counts := [][]int32{}
	open := 0
	for _, h := range heats {
		need := charged(h.Kg)
		at := open
		for at < len(days) && (kg[at]+need > c.kg*(1+1e-9) || int32(len(days[at].heats)) >= aDay) {
			if at == open && int32(len(days[at].heats)) >= aDay {
				open++
			}
			at++
		}
		if at == len(days) {
			if at == mostBatches {
				return nil, false
			}
			days, kg, counts = append(days, batch{}), append(kg, 0), append(counts, make([]int32, pieces))
		}
		days[at].heats, kg[at] = append(days[at].heats, need), kg[at]+need
		for _, s := range h.Sections {
			counts[at][s.Piece] += int32(s.Count)
		}
	}
	done := make([]int32, pieces)
	for i := range days {
		for p, n := range counts[i] {
			days[i].share = append(days[i].share, castings{done[p], done[p] + n})
			done[p] += n
		}
	}
	return days, true
}

// turn puts heats of one piece before those of several.
func turn(h estimate.Heat) int {
	if len(h.Sections) == 1 {
		return h.Sections[0].Piece
	}
	return 1 << 30
}
