package mesh

import "math"

// planner cuts the parts of a table into sections, at one scale and wall.
type planner struct {
	table  *Table
	limits Limits
	needs  []need  // of each part, at that scale
	scale  float64 // of lengths
	beside [][]int // the joints of each part
}

// partition says which section each part is in, and what that costs: the weld,
// and what Limits.cost adds.
type partition struct {
	section []int
	number  int
	cost    float64
}

// newPlanner plans a lump that holds so much metal in a wall which is the given
// share of the deepest point's depth.
func newPlanner(t *Table, metal, wallShare, scale float64, limits Limits) *planner {
	q := &planner{table: t, limits: limits, scale: scale, needs: make([]need, len(t.Parts)), beside: make([][]int, len(t.Parts))}
	for i := range t.Parts {
		part := &t.Parts[i]
		q.needs[i] = need{
			metal: metal * part.shares.at(wallShare), area: part.Area * scale * scale,
			low: part.Low.Mul(scale), top: part.Top.Mul(scale),
		}
	}
	for j, joint := range t.Joints {
		q.beside[joint.Below] = append(q.beside[joint.Below], j)
		q.beside[joint.Above] = append(q.beside[joint.Above], j)
	}
	return q
}

// plan finds the sections: the best heights for planes through the whole form,
// by dynamic programming, and then every branch for itself.
func (q *planner) plan() partition {
	best := partition{cost: math.Inf(1)}
	limits := q.limits
	for _, share := range []float64{1, 0.9, 0.75} { // room to spare leaves more ways to improve
		q.limits = limits
		q.limits.Metal *= share
		q.limits.Area *= share
		start := q.slabs()
		q.limits = limits
		p := q.improve(start)
		if p.cost < best.cost || best.section == nil {
			best = p
		}
	}
	return best
}

// slabs chooses the levels at which planes cut everything: for each level the
// cheapest way up to it, over all levels that the last slab may have begun at.
func (q *planner) slabs() partition {
	n := q.table.Slices
	parts, weld := make([][]int, n), make([]float64, n+1)
	for i, p := range q.table.Parts {
		parts[p.Slice] = append(parts[p.Slice], i)
	}
	upward := make([][]Joint, n) // joints by the slice that they lead up to
	for _, j := range q.table.Joints {
		k := q.table.Parts[j.Above].Slice
		upward[k] = append(upward[k], j)
		weld[k] += j.Weld * q.scale
	}
	least, from := make([]float64, n+1), make([]int, n+1)
	for k := 1; k <= n; k++ {
		least[k] = math.Inf(1)
	}
	for i := range n {
		g := newGrowing(q)
		for k := i; k < n; k++ {
			g.addSlice(parts[k], upward[k], k > i)
			if k > i && math.IsInf(g.cost, 1) {
				break
			}
			cost := least[i] + weld[i] + min(g.cost, tooMuch)
			if cost < least[k+1] {
				least[k+1], from[k+1] = cost, i
			}
		}
	}
	p := partition{section: make([]int, len(q.table.Parts))}
	slab := make([]int, n)
	for k := n; k > 0; k = from[k] {
		for s := from[k]; s < k; s++ {
			slab[s] = k
		}
	}
	f := newForest(len(q.table.Parts))
	for _, j := range q.table.Joints {
		if slab[q.table.Parts[j.Below].Slice] == slab[q.table.Parts[j.Above].Slice] {
			f.join(uint32(j.Below), uint32(j.Above))
		}
	}
	for i := range p.section {
		p.section[i] = int(f.find(uint32(i)))
	}
	return q.tidy(p)
}

// tooMuch is the cost of a slice that fits nowhere: it must be taken, but never
// by choice.
const tooMuch = 1e6

// growing is a slab that grows slice by slice, and the cost of the sections it
// falls into.
type growing struct {
	planner *planner
	sets    forest
	needs   []need
	price   []float64
	cost    float64
	dear    int // sections of infinite cost
	finite  float64
}

func newGrowing(q *planner) *growing {
	return &growing{planner: q, sets: newForest(len(q.needs)), needs: append([]need(nil), q.needs...), price: make([]float64, len(q.needs))}
}

func (g *growing) addSlice(parts []int, joints []Joint, join bool) {
	for _, i := range parts {
		g.set(uint32(i), g.planner.limits.cost(g.needs[i], g.planner.table.Axis))
	}
	if join {
		for _, j := range joints {
			a, b := g.sets.find(uint32(j.Below)), g.sets.find(uint32(j.Above))
			if a == b {
				continue
			}
			g.set(a, 0)
			g.set(b, 0)
			g.sets.join(a, b)
			r := g.sets.find(a)
			other := a + b - r
			g.needs[r].add(&g.needs[other])
			g.set(r, g.planner.limits.cost(g.needs[r], g.planner.table.Axis))
		}
	}
	g.cost = g.finite
	if g.dear > 0 {
		g.cost = math.Inf(1)
	}
}

// set gives a section another price.
func (g *growing) set(i uint32, price float64) {
	if math.IsInf(g.price[i], 1) {
		g.dear--
	} else {
		g.finite -= g.price[i]
	}
	g.price[i] = price
	if math.IsInf(price, 1) {
		g.dear++
	} else {
		g.finite += price
	}
}

// tidy numbers the sections from 0 in the order of the parts, and sums the cost.
func (q *planner) tidy(p partition) partition {
	to := map[int]int{}
	for i, s := range p.section {
		n, ok := to[s]
		if !ok {
			n = len(to)
			to[s] = n
		}
		p.section[i] = n
	}
	p.number = len(to)
	p.cost = 0
	for _, n := range q.sum(p) {
		p.cost += min(q.limits.cost(n, q.table.Axis), tooMuch)
	}
	for _, j := range q.table.Joints {
		if p.section[j.Below] != p.section[j.Above] {
			p.cost += j.Weld * q.scale
		}
	}
	return p
}

// sum gives what each section needs.
func (q *planner) sum(p partition) []need {
	list := make([]need, p.number)
	for i := range list {
		list[i] = noNeed
	}
	for i, s := range p.section {
		list[s].add(&q.needs[i])
	}
	return list
}
