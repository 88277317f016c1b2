package proposal

import (
	"math"
	"slices"

	"meltwright/internal/estimate"
)

// casting is one section on its way through the foundry, or several that share a
// page.
type casting struct {
	piece, from, to int     // sections of the piece through all its casts, from 1
	heats           []int   // that they are poured from, from 1
	least, most     float64 // of the metal of one cast that a section takes
}

// many is how many sections share the page.
func (s casting) many() int { return s.to - s.from + 1 }

// place is room for a section in a heat.
type place struct {
	heat int // from 1
	kg   float64
}

// castingsOf lists the sections of an estimate with their weights, which a plan
// of the scan tells apart, and the heats they are poured from: sections that weigh
// the same take their places in the heats in order.
func castingsOf(e *estimate.Estimate) (all []casting) {
	places := placesOf(e)
	total := 0
	for _, p := range e.Pieces {
		total += p.Sections * p.Casts
	}
	for i, p := range e.Pieces {
		n := p.Sections * p.Casts
		step := 1
		if total > mostTravellers {
			step = n
		}
		for k := 1; k <= n; k += max(1, step) {
			s := casting{piece: i, from: k, to: k + step - 1, least: math.Inf(1)}
			s.weigh(p, &places[i])
			all = append(all, s)
		}
	}
	return all
}

// placesOf is the room in the heats for the sections of each piece.
func placesOf(e *estimate.Estimate) [][]place {
	places := make([][]place, len(e.Pieces))
	for i, h := range e.Heats {
		for _, share := range h.Sections {
			places[share.Piece] = append(places[share.Piece], slices.Repeat([]place{{i + 1, share.Kg}}, share.Count)...)
		}
	}
	return places
}

// weigh finds what the sections of a page take of the metal, and their heats.
func (s *casting) weigh(p estimate.PieceResult, places *[]place) {
	kilos := loadsOf(p)
	for at := s.from; at <= s.to; at++ {
		kg := kilos[(at-1)%len(kilos)]
		part := kg / float64(p.Poured)
		s.least, s.most = min(s.least, part), max(s.most, part)
		if heat, ok := takePlace(places, kg); ok && !slices.Contains(s.heats, heat) {
			s.heats = append(s.heats, heat)
		}
	}
	slices.Sort(s.heats)
}

// loadsOf gives what is poured for each section of a cast, in kilograms, in the
// order of the plan.
func loadsOf(p estimate.PieceResult) (kilos []float64) {
	for _, l := range p.Loads {
		kilos = append(kilos, slices.Repeat([]float64{l.Kg}, l.Count)...)
	}
	if len(kilos) != p.Sections {
		return slices.Repeat([]float64{float64(p.SectionPour)}, max(1, p.Sections))
	}
	return kilos
}

// takePlace takes the first place for a section of so many kilograms.
func takePlace(places *[]place, kg float64) (heat int, ok bool) {
	at := slices.IndexFunc(*places, func(p place) bool { return math.Abs(p.kg-kg) <= kg*1e-9 })
	if at < 0 {
		return 0, false
	}
	heat = (*places)[at].heat
	if at == 0 { // nothing is moved where all weigh the same
		*places = (*places)[1:]
	} else {
		*places = slices.Delete(*places, at, at+1)
	}
	return heat, true
}
