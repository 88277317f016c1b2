package lead

import "math"

// redo is what making one section of a piece again takes of the shop, besides
// the weeks.
type redo struct {
	wax, coats, knock int32   // minutes of the wax room, the shell room, the metal shop
	dips              int32   // in the slurry tanks
	kg                float64 // charged
}

// remake is how a shop makes castings again.
type remake struct {
	pieces []redo
	firing firing // of one load
	aLoad  int32  // sections in it
	heat   float64
	days   int32 // that it takes at least, for the shells to dry
}

// redoes reckons what making sections again takes: their part of the hours of
// their piece, their metal, and their room in a heat.
func (b *builder) redoes(loss float64, days int32) remake {
	r := remake{firing: b.firing(1), aLoad: count(b.whole(kilnLoad)), days: days}
	for p, x := range b.estimate.Pieces {
		one := castings{0, 1}
		r.pieces = append(r.pieces, redo{
			wax:   toMinutes(b.partOf(p, waxing, one) + b.partOf(p, gating, one)),
			coats: toMinutes(b.partOf(p, dipping, one)),
			knock: toMinutes(b.partOf(p, knocking, one)),
			dips:  b.coats(p),
			kg:    float64(x.Poured) / math.Max(1, float64(x.Sections)) / (1 - loss),
		})
	}
	for _, h := range b.estimate.Heats {
		r.heat = math.Max(r.heat, h.Kg/(1-loss))
	}
	return r
}

// heats are those that so many sections of a piece are poured in again.
func (r remake) heats(piece, n int32) (heats []float64) {
	kg := r.pieces[piece].kg
	each := int32(1)
	if kg > 0 {
		each = max(1, int32(math.Min(float64(n), r.heat/kg+1e-9)))
	}
	for ; n > 0; n -= each {
		heats = append(heats, float64(min(n, each))*kg)
	}
	return heats
}

// castAgain takes so many sections of a piece back through wax, shell, kiln, pour
// and knock-off, in what is left of the shop, and gives when they are there: at
// the same hour so many days later, or later where the shop has no room before.
// They are burnt out and poured in the last week of it, when the shells are dry.
func (f *floor) castAgain(r remake, c crew, piece, n, from int32) (end int32, ok bool) {
	x := r.pieces[piece]
	due := f.later(from, r.days) + (from-1)%f.slots + 1
	at := from
	for _, w := range []struct {
		skill         skill
		minutes, dips int32
	}{{waxer, x.wax, 0}, {sheller, x.coats, x.dips}} {
		if at, ok = f.byHand(w.skill, w.minutes, w.dips, n, at); !ok {
			return 0, false
		}
	}
	at = max(at, f.later(from, max(0, r.days-7)))
	load := r.firing
	load.loads = (n + r.aLoad - 1) / r.aLoad
	if _, at, ok = f.fire(load, at); !ok {
		return 0, false
	}
	if _, at, _, ok = f.pour(c, r.heats(piece, n), at); !ok {
		return 0, false
	}
	at, ok = f.byHand(welder, x.knock, 0, n, at)
	return max(at, due), ok
}

// byHand takes one person's minutes, and dips, for each of n sections, from a
// slot on.
func (f *floor) byHand(k skill, minutes, dips, n, slot int32) (end int32, ok bool) {
	total := int64(minutes) * int64(n)
	if total == 0 {
		return slot, true
	}
	_, end, ok = f.dip(k, slot, int32(min(total, mostMinutes)), slotMinutes, dips*n)
	return end, ok
}
