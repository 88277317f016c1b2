package mesh

import (
	"math"
	"sort"
)

const (
	rounds   = 12 // of improvement; most plans need three
	farthest = 60 // slices that a cut may be moved at once
)

// improve makes a plan cheaper branch by branch: it joins sections that fit
// together, and moves each cut between two sections up or down its branch to
// where the weld is shortest, as long as both still fit.
func (q *planner) improve(p partition) partition {
	p = q.tidy(p)
	for range rounds {
		before := p.cost
		p = q.merge(p)
		p = q.slide(p)
		if !(p.cost < before-1e-9) {
			break
		}
	}
	return p
}

// seamBetween is the weld between two sections.
type seamBetween struct {
	a, b int
	weld float64
}

// seams lists which sections meet, the longest weld first.
func (q *planner) seams(p partition) []seamBetween {
	sum := map[[2]int]float64{}
	for _, j := range q.table.Joints {
		a, b := p.section[j.Below], p.section[j.Above]
		if a != b {
			sum[[2]int{min(a, b), max(a, b)}] += j.Weld * q.scale
		}
	}
	list := make([]seamBetween, 0, len(sum))
	for k, w := range sum {
		list = append(list, seamBetween{k[0], k[1], w})
	}
	sort.Slice(list, func(i, j int) bool {
		x, y := list[i], list[j]
		if x.weld != y.weld {
			return x.weld > y.weld
		}
		return x.a < y.a || x.a == y.a && x.b < y.b
	})
	return list
}

// merge joins the sections whose seam is worth most, one pair after another.
func (q *planner) merge(p partition) partition {
	for {
		needs := q.sum(p)
		joined := false
		for _, s := range q.seams(p) {
			both := needs[s.a]
			both.add(&needs[s.b])
			axis := q.table.Axis
			apart := min(q.limits.cost(needs[s.a], axis), tooMuch) + min(q.limits.cost(needs[s.b], axis), tooMuch) + s.weld
			if q.limits.cost(both, axis) > apart {
				continue
			}
			for i := range p.section {
				if p.section[i] == s.b {
					p.section[i] = s.a
				}
			}
			p, joined = q.tidy(p), true
			break
		}
		if !joined {
			return p
		}
	}
}

// slide moves every cut to its best place.
func (q *planner) slide(p partition) partition {
	for _, s := range q.seams(p) {
		for _, way := range [2][2]int{{s.a, s.b}, {s.b, s.a}} {
			if better, ok := q.push(p, way[0], way[1]); ok {
				p = better
			}
		}
	}
	return q.tidy(p)
}

// push moves the cut between two sections step by step into the second, the
// first gaining the parts that it touches, and keeps the cheapest place. The
// second must stay in one piece.
func (q *planner) push(p partition, gains, loses int) (best partition, ok bool) {
	axis := q.table.Axis
	needs := q.sum(p)
	section := append([]int(nil), p.section...)
	owned := 0
	for _, s := range section {
		if s == loses {
			owned++
		}
	}
	start := min(q.limits.cost(needs[gains], axis), tooMuch) + min(q.limits.cost(needs[loses], axis), tooMuch)
	change, least := 0.0, -1e-9
	for range farthest {
		moved := q.frontier(section, gains, loses)
		if len(moved) == 0 || len(moved) >= owned {
			break
		}
		for _, i := range moved {
			for _, j := range q.beside[i] {
				joint := &q.table.Joints[j]
				switch other := section[joint.Below+joint.Above-i]; other {
				case gains:
					change -= joint.Weld * q.scale
				case loses:
					change += joint.Weld * q.scale
				}
			}
			section[i] = gains
		}
		owned -= len(moved)
		a, b := q.needOf(section, gains), q.needOf(section, loses)
		cost := q.limits.cost(a, axis)
		if math.IsInf(cost, 1) {
			break
		}
		if total := change + cost + min(q.limits.cost(b, axis), tooMuch) - start; total < least && q.whole(section, loses, owned) {
			least, ok = total, true
			best = partition{section: append([]int(nil), section...), number: p.number, cost: p.cost + total}
		}
	}
	return best, ok
}

// frontier are the parts of one section that touch another.
func (q *planner) frontier(section []int, gains, loses int) []int {
	seen := map[int]bool{}
	var list []int
	for _, j := range q.table.Joints {
		for _, pair := range [2][2]int{{j.Below, j.Above}, {j.Above, j.Below}} {
			if section[pair[0]] == gains && section[pair[1]] == loses && !seen[pair[1]] {
				seen[pair[1]] = true
				list = append(list, pair[1])
			}
		}
	}
	return list
}

func (q *planner) needOf(section []int, which int) need {
	n := noNeed
	for i, s := range section {
		if s == which {
			n.add(&q.needs[i])
		}
	}
	return n
}

// whole says that the parts of a section, of which there are so many, hang together.
func (q *planner) whole(section []int, which, count int) bool {
	seen := make([]bool, len(section))
	var queue []int
	for i, s := range section {
		if s == which {
			queue, seen[i] = append(queue, i), true
			break
		}
	}
	for n := 0; n < len(queue); n++ {
		for _, j := range q.beside[queue[n]] {
			o := q.table.Joints[j].Below + q.table.Joints[j].Above - queue[n]
			if section[o] == which && !seen[o] {
				queue, seen[o] = append(queue, o), true
			}
		}
	}
	return len(queue) == count
}
