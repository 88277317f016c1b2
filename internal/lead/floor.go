package lead

import (
	"math"

	"meltwright/internal/shop"
)

// skill is what people of the shop can do, and, last, the kilns: each is a pool
// that tasks draw from. Somebody with two skills is counted where most needed.
type skill int8

const (
	sculptor skill = iota
	moulder
	waxer
	sheller
	pourer
	welder
	patineur
	baser
	installer
	kiln
	pools
	nobody skill = -1
)

// pool is some people, or the kilns: a name, and where the shop book counts them.
type pool struct {
	name  string
	heads *shop.Key
}

var skills = [pools]pool{
	{"Sculptor", &shop.PeopleSculptor},
	{"Mould maker", &shop.PeopleMould},
	{"Wax worker", &shop.PeopleWax},
	{"Shell room", &shop.PeopleShell},
	{"Pour crew", &shop.PourPeople},
	{"Welder and chaser", &shop.PeopleMetal},
	{"Patineur", &shop.PeoplePatina},
	{"Base and frame", &shop.PeopleBase},
	{"Installation crew", &shop.CrewPeople},
	{Kiln, &shop.Kilns},
}

func (k skill) String() string {
	if k == nobody {
		return ""
	}
	return skills[k].name
}

// floor is the shop with what is booked of it: the minutes each pool has left
// in each slot, what the tanks dip and what is poured on each day.
type floor struct {
	*axis
	room  [pools]int32   // minutes that a pool has in a slot
	free  [pools][]int16 // minutes left; past the end all is free
	metal []float64      // kilograms poured, by working day; past the end none
	heats []int16        // heats poured, by working day
	dips  []int32        // sections dipped, by working day; past the end none
	stood int32          // slots that the job being placed waited for the tanks
	draft *floor         // to try things on
}

// mostHeads keeps a pool's minutes within 16 bits.
const mostHeads = 1000

func newFloor(a *axis, s *shop.Shop) *floor {
	f := &floor{axis: a}
	for k := range pools {
		heads := int32(math.Min(mostHeads, math.Max(1, s.Num(*skills[k].heads))))
		f.room[k] = heads * slotMinutes
	}
	return f
}

// heads is how many people, or kilns, a pool has.
func (f *floor) heads(k skill) int32 { return f.room[k] / slotMinutes }

// copyFrom makes f the same as g, in the memory it has.
func (f *floor) copyFrom(g *floor) {
	f.axis, f.room = g.axis, g.room
	for k := range pools {
		f.free[k] = append(f.free[k][:0], g.free[k]...)
	}
	f.metal, f.heats = append(f.metal[:0], g.metal...), append(f.heats[:0], g.heats...)
	f.dips = append(f.dips[:0], g.dips...)
}

// copy gives a copy of f to try things on: the same each time, in the same
// memory, until the next.
func (f *floor) copy() *floor {
	if f.draft == nil {
		f.draft = &floor{}
	}
	f.draft.copyFrom(f)
	return f.draft
}

// left is what a pool has in a slot.
func (f *floor) left(k skill, slot int32) int32 {
	if int(slot) < len(f.free[k]) {
		return int32(f.free[k][slot])
	}
	return f.room[k]
}

// reach makes room in the books of a pool for a slot.
func (f *floor) reach(k skill, slot int32) {
	free, all := f.free[k], int16(f.room[k])
	for int32(len(free)) <= slot {
		free = append(free, all)
	}
	f.free[k] = free
}

// use takes minutes of a pool in a slot.
func (f *floor) use(k skill, slot, minutes int32) {
	f.reach(k, slot)
	f.free[k][slot] -= int16(minutes)
}

// work takes minutes of a pool from slot on, at most so many in each, wherever
// somebody is free for the whole of one. It gives the first slot used and the one after the last; ok is
// false where the axis ends before the work does.
func (f *floor) work(k skill, slot, minutes, atOnce int32) (start, end int32, ok bool) {
	start, last := int32(-1), f.axis.end()
	atOnce = min(atOnce, f.room[k])
	for ; minutes > 0; slot++ {
		if slot >= last {
			return 0, 0, false
		}
		m := min(f.left(k, slot), atOnce, minutes)
		if m < min(minutes, slotMinutes) {
			continue
		}
		f.use(k, slot, m)
		minutes -= m
		if start < 0 {
			start = slot
		}
	}
	return start, slot, true
}

// together takes minutes of a pool from the first slot on from which all of a
// crew is free until they are done, without a break.
func (f *floor) together(k skill, slot, minutes, atOnce int32) (start, end int32, ok bool) {
	last := f.axis.end()
	atOnce = min(atOnce, f.room[k])
	n := (minutes + atOnce - 1) / atOnce
	for start = slot; start+n <= last; start++ {
		run := int32(0)
		for run < n && f.left(k, start+run) >= atOnce {
			run++
		}
		if run == n {
			for at := start; minutes > 0; at++ {
				m := min(atOnce, minutes)
				f.use(k, at, m)
				minutes -= m
			}
			return start, start + n, true
		}
		start += run
	}
	return 0, 0, false
}
