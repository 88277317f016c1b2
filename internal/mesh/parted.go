package mesh

import (
	"cmp"
	"math"
	"slices"
)

// parted are the parts that one triangle was cut into, in a tree of boxes: a
// large triangle may fall into thousands, and millions of cells ask for theirs. (A
// Tree is of a Mesh, in single precision, which cannot tell slivers apart.)
type parted struct {
	pieces *pieces
	parts  []int // triangles of the carving, in the tree's order
	nodes  []partNode
	room   float64 // for rounding: what is farther than the best by less is looked at too
}

// partNode is a box; its children are at first and first+1, or, if count is above
// zero, it holds the parts first to first+count.
type partNode struct {
	low, high    Vec
	first, count int
}

// leafParts is how many parts are looked at one by one.
const leafParts = 4

// newParted makes the tree of some triangles of a carving.
func newParted(p *pieces, parts []int) *parted {
	t := &parted{pieces: p, parts: parts, nodes: make([]partNode, 1, 1+len(parts))}
	t.build(0, 0, len(parts))
	for k := range 3 {
		t.room = max(t.room, 1e-12*math.Abs(t.nodes[0].low[k]), 1e-12*math.Abs(t.nodes[0].high[k]))
	}
	return t
}

// build makes node n of parts[from:to], halved along the longest side of its box.
func (t *parted) build(n, from, to int) {
	low, high := t.bounds(from, to)
	t.nodes[n] = partNode{low, high, from, to - from}
	if to-from <= leafParts {
		return
	}
	axis, side := 0, high.Sub(low)
	for k := range 3 {
		if side[k] > side[axis] {
			axis = k
		}
	}
	middle := func(i int) float64 {
		c := t.pieces.triangles[i]
		return t.pieces.points[c[0]][axis] + t.pieces.points[c[1]][axis] + t.pieces.points[c[2]][axis]
	}
	slices.SortFunc(t.parts[from:to], func(a, b int) int { return cmp.Compare(middle(a), middle(b)) })
	first, half := len(t.nodes), (from+to)/2
	t.nodes = append(t.nodes, partNode{}, partNode{})
	t.nodes[n].first, t.nodes[n].count = first, 0
	t.build(first, from, half)
	t.build(first+1, half, to)
}

func (t *parted) bounds(from, to int) (low, high Vec) {
	inf := math.Inf(1)
	low, high = Vec{inf, inf, inf}, Vec{-inf, -inf, -inf}
	for _, i := range t.parts[from:to] {
		for _, k := range t.pieces.triangles[i] {
			for axis, x := range t.pieces.points[k] {
				low[axis], high[axis] = min(low[axis], x), max(high[axis], x)
			}
		}
	}
	return low, high
}

// nearest is the part nearest to a point, or best if none is nearer than least;
// the first of those that are equally near.
func (t *parted) nearest(at Vec, best int, least float64) int {
	var stack [64]int // halves of halves: never so deep
	for top := 1; top > 0; {
		top--
		n := &t.nodes[stack[top]]
		if !(n.away(at) <= least+t.room) {
			continue
		}
		if n.count == 0 {
			near, far := n.first, n.first+1
			if t.nodes[far].away(at) < t.nodes[near].away(at) {
				near, far = far, near
			}
			stack[top], stack[top+1] = far, near
			top += 2
			continue
		}
		for _, i := range t.parts[n.first : n.first+n.count] {
			if d := t.pieces.far(i, at); d < least || d == least && i < best {
				best, least = i, d
			}
		}
	}
	return best
}

// away is the distance of a point from the box.
func (n *partNode) away(q Vec) float64 {
	var d Vec
	for k := range 3 {
		d[k] = max(n.low[k]-q[k], q[k]-n.high[k], 0)
	}
	return d.Norm()
}
