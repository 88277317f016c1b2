package estimate

import "math"

// states counts the ways in which sections of each kind can be left over.
func states(loads []Load) int {
	n := 1
	for _, l := range loads {
		if n *= l.Count + 1; n > mostStates {
			return n
		}
	}
	return n
}

// packer finds the fewest heats exactly, by going through what can be left over:
// the heats a state needs are one more than those of the best state that filling
// one heat leads to. The heaviest section left is always in the next heat.
type packer struct {
	loads  []Load // falling weight
	limit  float64
	stride []int   // of a kind, in the number of a state
	need   []int16 // heats of a state; 0 where not worked out yet
	next   []int32 // the state that its first heat leads to
}

// fewestHeats packs sections into the fewest heats there are.
func fewestHeats(loads []Load, limit float64) []Heat {
	p := &packer{loads: loads, limit: limit}
	size := 1
	for _, l := range loads {
		p.stride = append(p.stride, size)
		size *= l.Count + 1
	}
	p.need, p.next = make([]int16, size), make([]int32, size)
	all := 0
	for i, l := range loads {
		all += l.Count * p.stride[i]
	}
	p.solve(all)
	var heats []Heat
	for s := all; s != 0; s = int(p.next[s]) {
		heats = append(heats, p.heat(s, int(p.next[s])))
	}
	return heats
}

// left is how many sections of kind i are left in state s.
func (p *packer) left(s, i int) int { return s / p.stride[i] % (p.loads[i].Count + 1) }

func (p *packer) solve(s int) int16 {
	if s == 0 {
		return 0
	}
	if p.need[s] > 0 {
		return p.need[s]
	}
	first := 0
	for p.left(s, first) == 0 {
		first++
	}
	best, to, least := int16(math.MaxInt16), s, p.byWeight(s)
	p.fill(s, s, first, 0, true, func(after int) (enough bool) {
		if n := p.solve(after) + 1; n < best {
			best, to = n, after
		}
		return best <= least
	})
	p.need[s], p.next[s] = best, int32(to)
	return best
}

// byWeight is how many heats the metal left in a state fills, whatever its
// sections.
func (p *packer) byWeight(s int) int16 {
	kg := 0.0
	for i, l := range p.loads {
		kg += float64(p.left(s, i)) * l.Kg
	}
	return int16(ceilDiv(kg, p.limit))
}

// fill tries every way of filling one heat that leaves no room for another of
// the sections left, and says which state each leads to, until that is enough.
func (p *packer) fill(s, now, i int, kg float64, must bool, to func(after int) (enough bool)) (enough bool) {
	if i == len(p.loads) {
		return p.full(now, kg) && to(now)
	}
	l := p.loads[i]
	fits := min(p.left(s, i), int((p.limit-kg)/l.Kg))
	least := 0
	if must {
		least = 1
	}
	for n := fits; n >= least; n-- {
		if p.fill(s, now-n*p.stride[i], i+1, kg+float64(n)*l.Kg, false, to) {
			return true
		}
	}
	return false
}

// full tells whether nothing that is left would fit besides kg.
func (p *packer) full(s int, kg float64) bool {
	for i, l := range p.loads {
		if p.left(s, i) > 0 && kg+l.Kg <= p.limit {
			return false
		}
	}
	return true
}

// heat is what went out between two states.
func (p *packer) heat(from, to int) Heat {
	var h Heat
	for i, l := range p.loads {
		if n := p.left(from, i) - p.left(to, i); n > 0 {
			h.put(l, n)
		}
	}
	return h
}
