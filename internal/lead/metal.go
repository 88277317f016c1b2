package lead

import (
	"slices"

	"meltwright/internal/shop"
)

// finish has what comes after the pours of a piece: knock-off batch by batch;
// joining, frame, patina and mounting as soon as whole casts are there.
func (b *builder) finish(p int) {
	piece := b.estimate.Pieces[p]
	stone := b.stone(p)
	var knocked []int32 // of the casts not joined yet
	whole := int32(0)   // casts
	for at, x := range b.batches {
		c := x.share[p]
		if c.to == c.from {
			continue
		}
		j := b.hands(b.inBatch("Knock-off and blast", p, at), p, "metalwork", metalShop, welder, b.partOf(p, knocking, c), b.pours[at])
		j.made = c
		knocked = append(knocked, b.add(j))
		if n := c.to / int32(piece.Sections); n > whole {
			b.join(p, castings{whole * int32(piece.Sections), n * int32(piece.Sections)}, knocked, stone)
			knocked, whole = knocked[len(knocked)-1:], n
		}
	}
}

// stone has the order of a piece's plinth, from the first day on.
func (b *builder) stone(p int) []int32 {
	if !b.line(p, "base", "plinth") {
		return nil
	}
	return []int32{b.add(b.wait(b.of("Plinth", p), p, "base", outside, days(b.book(shop.WaitStone), 7)))}
}

// join has the work on casts that are whole, from fitting to mounting.
func (b *builder) join(p int, c castings, knocked, stone []int32) {
	last := []int32{b.add(b.hands(b.forCasts("Fit, weld, chase", p, c), p, "metalwork", metalShop, welder, b.partOf(p, joining, c), knocked...))}
	if h := b.partOf(p, framing, c); h > 0 {
		last = append(last, b.add(b.hands(b.forCasts("Frame", p, c), p, "base", baseShop, baser, h, slices.Concat(b.engineer, knocked)...)))
	}
	if h := b.partOf(p, colouring, c); h > 0 {
		j := b.hands(b.forCasts("Patina", p, c), p, "patina", patinaRoom, patineur, h, last...)
		last = []int32{b.add(j)}
	}
	if h := b.partOf(p, mounting, c); h > 0 {
		last = []int32{b.add(b.hands(b.forCasts("Mounting", p, c), p, "base", baseShop, baser, h, slices.Concat(last, stone)...))}
	} else {
		last = slices.Concat(last, stone)
	}
	b.done = append(b.done, last...)
}
