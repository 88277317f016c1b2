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

// HeatShare is how many sections of a piece, alike in weight, a heat fills.
type HeatShare struct {
	Piece, Count int
	Kg           float64 // of each
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

// batch is so many heats filled alike.
type batch struct {
	heat  Heat
	count int
}

// bestFit takes the sections from the heaviest down, each into the fullest heat
// that still holds it. Heats filled alike are filled on together.
func bestFit(loads []Load, limit float64) []Heat {
	batches := make([]batch, 0, len(loads)+8)
	for _, l := range loads {
		for left := l.Count; left > 0; {
			best := -1
			for i, b := range batches {
				if b.heat.Kg+l.Kg <= limit && (best < 0 || b.heat.Kg > batches[best].heat.Kg) {
					best = i
				}
			}
			if best < 0 {
				batches = append(batches, batch{count: left})
				best = len(batches) - 1
			}
			batches, left = fill(batches, best, l, left, limit)
		}
	}
	n := 0
	for _, b := range batches {
		n += b.count
	}
	heats := make([]Heat, 0, n)
	for _, b := range batches {
		for range b.count {
			heats = append(heats, b.heat)
		}
	}
	return heats
}

// fill puts as many sections into each heat of one batch as it holds, until none
// is left: heats that get fewer, or none, become batches of their own. A batch of
// empty heats keeps those that it needs. It gives back what is left over.
func fill(batches []batch, at int, l Load, left int, limit float64) ([]batch, int) {
	was := batches[at]
	fits := max(1, int((limit-was.heat.Kg)/l.Kg))
	whole := min(was.count, left/fits)
	left -= whole * fits
	var room [3]batch
	split := room[:0]
	if whole > 0 {
		split = append(split, batch{was.heat.with(l, fits), whole})
	}
	was.count -= whole
	if was.count > 0 && left > 0 {
		split = append(split, batch{was.heat.with(l, left), 1})
		was.count, left = was.count-1, 0
	}
	if was.heat.Kg > 0 && was.count > 0 {
		split = append(split, was)
	}
	return slices.Replace(batches, at, at+1, split...), left
}

// with is the heat with n more sections. Heats made from one share nothing.
func (h Heat) with(l Load, n int) Heat {
	h.Sections = append(make([]HeatShare, 0, len(h.Sections)+1), h.Sections...)
	h.put(l, n)
	return h
}

func (h *Heat) put(l Load, n int) {
	h.Kg += l.Kg * float64(n)
	for i := range h.Sections {
		if h.Sections[i].Piece == l.Piece && h.Sections[i].Kg == l.Kg {
			h.Sections[i].Count += n
			return
		}
	}
	h.Sections = append(h.Sections, HeatShare{l.Piece, n, l.Kg})
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
