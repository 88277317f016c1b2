package lead

import (
	"fmt"
	"math"

	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/shop"
)

// builder makes the jobs of a commission, in the order of the work.
type builder struct {
	model    *estimate.Model
	estimate *estimate.Estimate
	shop     *shop.Shop
	floor    *floor
	hours    [][parts]float64
	batches  []batch
	crew     crew
	jobs     []job
	// What later jobs wait for, by piece.
	moulds [][]int32
	pours  []int32 // by batch
	done   []int32 // ends of every piece's work
	engineer,
	permits []int32
}

// build makes the network of jobs.
func (b *builder) build() error {
	if b.estimate.Sections > mostSections {
		return tooLong
	}
	b.hours = hoursOf(b.estimate)
	b.crew = b.readCrew()
	loss := b.whole(pourLoss)
	var ok bool
	b.batches, ok = batches(b.estimate.Heats, len(b.estimate.Pieces), b.crew, b.floor.heatsADay(b.crew), func(kg float64) float64 { return kg / (1 - loss) })
	if !ok {
		return tooLong
	}
	b.elsewhere()
	b.moulds = make([][]int32, len(b.estimate.Pieces))
	for p := range b.estimate.Pieces {
		b.moulds[p] = b.original(p)
	}
	b.castAll()
	for p := range b.estimate.Pieces {
		b.finish(p)
	}
	b.deliver()
	return nil
}

// tooLong is the fault of a commission that the shop could not make in any time
// somebody would wait for.
var tooLong = fault.Fault{Where: "pour.weekly", Field: "Schedule", Problem: "comes out longer than the ten years it is made for", Remedy: "give the shop more metal a pour day, more pour days, people or hours in the shop book's calendar, or divide the commission"}

// mostSections is more than any foundry casts in ten years of one commission.
const mostSections = 50_000

// add puts a job into the network and gives its number. One of no time at all is
// kept, to carry what waits for it.
func (b *builder) add(j job) int32 {
	b.jobs = append(b.jobs, j)
	return int32(len(b.jobs) - 1)
}

// hands is a job of so many hours of a pool.
func (b *builder) hands(name string, piece int, stage, room string, k skill, hours float64, after ...int32) job {
	people := min(count(b.book(shop.PeopleAtOne)), b.floor.heads(k))
	return job{name: name, piece: piece, stage: stage, room: room, skill: k, people: people, minutes: toMinutes(hours), after: after}
}

// wait is a job of waiting so many days of the calendar.
func (b *builder) wait(name string, piece int, stage, room string, days int32, after ...int32) job {
	return job{name: name, sort: waiting, piece: piece, stage: stage, room: room, skill: nobody, days: days, after: after}
}

// of puts the piece's name behind a job's, where there are several pieces.
func (b *builder) of(name string, piece int) string {
	if len(b.estimate.Pieces) == 1 {
		return name
	}
	return name + " of " + b.estimate.Pieces[piece].Name
}

// elsewhere has what others do while the shop works: the engineer, then the
// permits office.
func (b *builder) elsewhere() {
	if b.line(estimate.Whole, "base", "Engineer") {
		b.engineer = append(b.engineer, b.add(b.wait("Engineer's design and stamp", estimate.Whole, "base", outside, days(b.book(shop.WaitEngineer), 7))))
	}
	if b.line(estimate.Whole, "delivery", "Permits") {
		b.permits = append(b.permits, b.add(b.wait("Permits", estimate.Whole, "delivery", outside, days(b.book(shop.WaitPermits), 7), b.engineer...)))
	}
}

// original has what comes before the wax of a piece, and gives what the waxes
// wait for.
func (b *builder) original(p int) []int32 {
	h := b.hours[p]
	var last []int32
	then := func(j job) { last = []int32{b.add(j)} }
	if h[sculpting] > 0 {
		then(b.hands(b.of("Sculpting", p), p, "original", studio, sculptor, h[sculpting]))
	}
	if h[modelling] > 0 {
		then(b.hands(b.of("Modelling", p), p, "original", studio, sculptor, h[modelling], last...))
	}
	if b.line(p, "original", "foam original") || b.line(p, "original", "Printed original") {
		then(b.wait(b.of("Print or mill", p), p, "original", outside, days(b.book(shop.WaitOutput), 7), last...))
	}
	if h[finishing] > 0 {
		then(b.hands(b.of("Finishing", p), p, "original", studio, sculptor, h[finishing], last...))
	}
	if n := days(b.book(shop.WaitApproval), 1); len(last) > 0 && n > 0 {
		then(job{name: b.of("Approval", p), sort: idle, piece: p, stage: "original", room: outside, skill: nobody, days: n, after: last})
	}
	if h[moulding] > 0 {
		then(b.hands(b.of("Mould", p), p, "mould", mouldRoom, moulder, h[moulding], last...))
	}
	return last
}

// part of the hours of a piece's part that falls on some of its sections.
func (b *builder) partOf(p int, what part, c castings) float64 {
	piece := b.estimate.Pieces[p]
	return b.hours[p][what] * float64(c.to-c.from) / math.Max(1, float64(piece.Sections*piece.Casts))
}

// inBatch names a job of one batch.
func (b *builder) inBatch(name string, p, at int) string {
	name = b.of(name, p)
	n, of := 0, 0
	for i, x := range b.batches {
		if x.share[p].to > x.share[p].from {
			if of++; i <= at {
				n++
			}
		}
	}
	if of == 1 {
		return name
	}
	return fmt.Sprintf("%s, batch %d of %d", name, n, of)
}

// forCasts names a job of some of a piece's casts, by their sections.
func (b *builder) forCasts(name string, p int, c castings) string {
	piece := b.estimate.Pieces[p]
	each := int32(piece.Sections)
	first, last := c.from/each+1, c.to/each
	switch name = b.of(name, p); {
	case last-first+1 == int32(piece.Casts):
		return name
	case first == last:
		return fmt.Sprintf("%s, cast %d", name, first)
	}
	return fmt.Sprintf("%s, casts %d–%d", name, first, last)
}
