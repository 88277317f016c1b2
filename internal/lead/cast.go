package lead

import (
	"fmt"
	"math"

	"meltwright/internal/estimate"
	"meltwright/internal/shop"
)

// castAll has the waxes, shells, burn-outs and pours, batch by batch.
func (b *builder) castAll() {
	for at, x := range b.batches {
		var shells []int32
		sections := int32(0)
		for p, c := range x.share {
			if c.to > c.from {
				shells = append(shells, b.shell(p, at, c))
				sections += c.to - c.from
			}
		}
		b.pours = append(b.pours, b.pourBatch(at, x, sections, shells))
	}
}

// shell has one piece's part of a batch from wax to dried shell.
func (b *builder) shell(p, at int, c castings) int32 {
	last := b.moulds[p]
	then := func(j job) { last = []int32{b.add(j)} }
	if h := b.partOf(p, waxing, c); h > 0 {
		then(b.hands(b.inBatch("Wax", p, at), p, "wax", waxRoom, waxer, h, last...))
		if n := days(b.book(shop.WaitWaxes), 1); n > 0 {
			then(job{name: b.inBatch("Approval of the waxes", p, at), sort: idle, piece: p, stage: "wax", room: outside, skill: nobody, days: n, after: last})
		}
	}
	then(b.hands(b.inBatch("Gating", p, at), p, "gating", waxRoom, waxer, b.partOf(p, gating, c), last...))
	j := b.hands(b.inBatch("Shell", p, at), p, "shell", shellRoom, sheller, b.partOf(p, dipping, c), last...)
	j.sort, j.rest = coats, true
	j.steps = b.coats(p)
	j.gap = math.Min(float64(b.floor.slots)/b.model.Value(p, coatsADay).Num, slowest)
	j.dips = c.to - c.from
	then(j)
	return last[0]
}

// coats is how many times a section of a piece is dipped.
func (b *builder) coats(p int) int32 {
	return int32(min(1000, max(1, b.estimate.Pieces[p].Coats)))
}

// slowest is the slots from coat to coat that are as good as never.
const slowest = 20_000

// pourBatch has the burn-out and the pour of a batch, and gives the pour.
func (b *builder) pourBatch(at int, x batch, sections int32, shells []int32) int32 {
	mark := ""
	if len(b.batches) > 1 {
		mark = fmt.Sprintf(", batch %d of %d", at+1, len(b.batches))
	}
	fired := b.add(job{name: "Burn-out" + mark, sort: burning, piece: estimate.Whole, stage: "pour", room: kilnRoom, skill: pourer, people: 1, loads: b.firing(sections), after: shells})
	return b.add(job{name: "Pour" + mark, sort: pouring, piece: estimate.Whole, stage: "pour", room: furnace, skill: pourer, people: b.crew.people, heats: x.heats, rest: true, after: []int32{fired}})
}
