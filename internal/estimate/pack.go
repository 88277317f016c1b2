package estimate

import (
	"slices"
)

// Load is a section to be poured: its metal, and how many alike there are.
type Load struct {
	Piece int
	Kg    float64
	Count int
}

// Heat is one crucible of metal and the sections it fills, by piece.
type Heat struct {
	Alloy    string
	Kg       float64
	Sections []HeatShare
}

// HeatShare is how many sections of a piece a heat fills.
type HeatShare struct {
	Piece, Count int
}

// mostStates bounds the search for fewer heats than the first packing, by the
// number of ways that sections can be left over. Past it the first packing
// stands; its heats are at most eleven ninths of the fewest and a hair (falling
// sizes, D. S. Johnson, 1973).
const mostStates = 20000

// packHeats puts every section into a heat, each section from one heat, in as
// few heats of at most capacity kilograms as it finds. Sections alike are taken
// together, so that an edition of a thousand is as quick as a figure.
func packHeats(loads []Load, capacity float64) []Heat {
	loads = slices.Clone(loads)
	slices.SortStableFunc(loads, func(a, b Load) int {
		switch {
		case a.Kg > b.Kg:
			return -1
		case a.Kg < b.Kg:
			return 1
		}
		return 0
	})
	limit := capacity * (1 + 1e-9)
	best := bestFit(loads, limit)
	least := fewest(loads, limit)
	if len(best) > least && states(loads) <= mostStates {
		if exact := fewestHeats(loads, limit); len(exact) < len(best) {
			best = exact
		}
	}
	return best
}

// bestFit takes the sections from the heaviest down, each into the fullest heat
// that still holds it.
func bestFit(loads []Load, limit float64) []Heat {
	var heats []Heat
	for _, l := range loads {
		for left := l.Count; left > 0; {
			best := -1
			for i, h := range heats {
				if h.Kg+l.Kg <= limit && (best < 0 || h.Kg > heats[best].Kg) {
					best = i
				}
			}
			if best < 0 {
				heats = append(heats, Heat{})
				best = len(heats) - 1
			}
			fits := max(1, int((limit-heats[best].Kg)/l.Kg))
			heats[best].put(l, min(fits, left))
			left -= min(fits, left)
		}
	}
	return heats
}

func (h *Heat) put(l Load, n int) {
	h.Kg += l.Kg * float64(n)
	for i := range h.Sections {
		if h.Sections[i].Piece == l.Piece {
			h.Sections[i].Count += n
			return
		}
	}
	h.Sections = append(h.Sections, HeatShare{l.Piece, n})
}

// fewest is a number of heats that no packing can be below: by weight, and by
// sections of more than half a heat, of which no two share one, with the space
// that these leave (Martello & Toth's bound L2, 1990).
func fewest(loads []Load, limit float64) int {
	most := 0
	for _, edge := range loads {
		alpha := edge.Kg
		if alpha > limit/2 {
			alpha = 0
		}
		big, middle, room, small := 0, 0, 0.0, 0.0
		for _, l := range loads {
			switch {
			case l.Kg > limit-alpha:
				big += l.Count
			case l.Kg > limit/2:
				middle += l.Count
				room += float64(l.Count) * (limit - l.Kg)
			case l.Kg >= alpha:
				small += float64(l.Count) * l.Kg
			}
		}
		need := big + middle
		if small > room {
			need += ceilDiv(small-room, limit)
		}
		most = max(most, need)
	}
	return most
}

func ceilDiv(a, b float64) int {
	n := int(a / b)
	if float64(n)*b < a*(1-1e-12) {
		n++
	}
	return n
}
