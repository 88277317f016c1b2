package mesh

import "math"

// Limits are what one section may be at most; zero is no limit.
type Limits struct {
	Metal   float64 // m³ of finished wall: what one pour holds, less its gating
	Area    float64 // m² of skin
	Boxes   []Vec   // m: room in the tank, in the kiln; each section must fit each, lying any way round
	Section float64 // m of weld that one section more is worth avoiding
	lenient bool    // what does not fit may be cut on across the slab, at a guess of the weld
}

// need is what a section would take of the limits.
type need struct {
	metal, area float64
	low, top    Vec
}

func (n *need) add(o *need) {
	n.metal += o.metal
	n.area += o.area
	for k := range 3 {
		n.low[k], n.top[k] = min(n.low[k], o.low[k]), max(n.top[k], o.top[k])
	}
}

var noNeed = need{low: Vec{math.Inf(1), math.Inf(1), math.Inf(1)}, top: Vec{math.Inf(-1), math.Inf(-1), math.Inf(-1)}}

// slack lets a section that just fits fit in spite of rounding.
const slack = 1 + 1e-9

// fits says that a section of this need is within the limits.
func (l *Limits) fits(n need) bool {
	if l.Metal > 0 && n.metal > l.Metal*slack || l.Area > 0 && n.area > l.Area*slack {
		return false
	}
	return l.HasRoom(n.top.Sub(n.low))
}

// HasRoom says that a section whose box is so large goes into all of the boxes.
func (l *Limits) HasRoom(size Vec) bool {
	for _, room := range l.Boxes {
		a, b := sorted3(size[0], size[1], size[2]), sorted3(room[0], room[1], room[2])
		if a[0] > b[0]*slack || a[1] > b[1]*slack || a[2] > b[2]*slack {
			return false
		}
	}
	return true
}

// mostParts is into how many sections one slab may have to be cut further.
const mostParts = 12

// cost is what a section adds to the weld, beside its seams: for being one more,
// and, if it does not fit, for the cuts along the axis that it still needs. A
// ring that must be cut into n takes n welds as long as it is thick.
func (l *Limits) cost(n need, axis int) float64 {
	size := n.top.Sub(n.low)
	parts := max(atLeast(n.metal, l.Metal), atLeast(n.area, l.Area))
	for _, room := range l.Boxes {
		r := sorted3(room[0], room[1], room[2])
		if size[axis] > r[2]*slack && l.lenient {
			return math.Inf(1)
		}
		u, v := size[(axis+1)%3], size[(axis+2)%3]
		if u < v {
			u, v = v, u
		}
		a, b := r[2], r[1] // what is left for the other two, the slab standing or lying
		if size[axis] > r[1]*slack {
			a, b = r[1], r[0]
		} else if size[axis] > r[0]*slack {
			b = r[0]
		}
		parts = max(parts, atLeast(size[axis], r[2])*atLeast(u, a)*atLeast(v, b))
	}
	switch {
	case parts <= 1:
		return l.Section
	case !l.lenient:
		return l.Section + unfit*(parts-1)
	case parts > mostParts:
		return math.Inf(1)
	}
	return parts * (l.Section + size[axis] + 1e-3*size.Norm())
}

// unfit is what a section that does not fit costs where no more cuts will follow:
// any weld is better.
const unfit = 1e3

// atLeast is how many of a limit an amount needs; 1 where there is no limit.
func atLeast(amount, limit float64) float64 {
	if !(limit > 0) {
		return 1
	}
	return math.Ceil(amount / (limit * slack))
}
