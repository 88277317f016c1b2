package mesh

import (
	"math"
	"runtime"
	"sync"
	"sync/atomic"
)

// Tree is a tree of boxes around the triangles of a mesh. It finds the closest
// point of the surface and tells inside from outside, in the time of a few
// dozen boxes however many triangles there are. It may be asked by several
// goroutines at once.
type Tree struct {
	nodes   []node
	corners [][9]float32 // of each triangle, in the tree's order
	order   []uint32     // triangle of the mesh at each place of the tree
	fields  []field      // one a node, for the winding number
}

// node is a box; its children are at first and first+1, or, if count is above
// zero, it holds the triangles first to first+count.
type node struct {
	low, high    [3]float32
	first, count uint32
}

const (
	leafTriangles = 4
	bins          = 12
	forkTriangles = 1 << 13 // smaller parts are not worth a goroutine
	deepest       = 32      // below, parts are halved, so no way down is longer than 64
)

// NewTree builds the tree of all triangles of m for which use is true; nil
// means all. It keeps its own copy of the corners.
func NewTree(m *Mesh, use func(triangle int) bool) *Tree {
	t := &Tree{}
	for i := range m.Triangles {
		if use == nil || use(i) {
			t.order = append(t.order, uint32(i))
		}
	}
	if len(t.order) == 0 {
		return t
	}
	b := &planter{tree: t, mesh: m, middle: make([][3]float32, len(m.Triangles)), spare: make(chan struct{}, runtime.GOMAXPROCS(0)-1)}
	for _, i := range t.order {
		p, q, r := m.corners32(i)
		for k := range 3 {
			b.middle[i][k] = (p[k] + q[k] + r[k]) / 3
		}
	}
	t.nodes = make([]node, 2*len(t.order)+1)
	b.used.Store(1)
	b.build(0, 0, len(t.order), 0)
	b.group.Wait()
	t.nodes = append([]node(nil), t.nodes[:b.used.Load()]...)
	t.corners = make([][9]float32, len(t.order))
	for k, i := range t.order {
		p, q, r := m.corners32(i)
		t.corners[k] = [9]float32{p[0], p[1], p[2], q[0], q[1], q[2], r[0], r[1], r[2]}
	}
	t.gatherFields()
	return t
}

func (m *Mesh) corners32(i uint32) (a, b, c *Vec32) {
	t := &m.Triangles[i]
	return &m.Points[t[0]], &m.Points[t[1]], &m.Points[t[2]]
}

type planter struct {
	tree   *Tree
	mesh   *Mesh
	middle [][3]float32
	used   atomic.Int64
	group  sync.WaitGroup
	spare  chan struct{} // a place for each core that could help
}

// build makes node n of the triangles order[from:to].
func (b *planter) build(n, from, to, depth int) {
	low, high, lowMiddle, highMiddle := b.bounds(from, to)
	b.tree.nodes[n] = node{low: low, high: high, first: uint32(from), count: uint32(to - from)}
	if to-from <= leafTriangles {
		return
	}
	split := (from + to) / 2
	if depth < deepest {
		split = b.split(from, to, lowMiddle, highMiddle)
	}
	left := int(b.used.Add(2)) - 2
	b.tree.nodes[n].first, b.tree.nodes[n].count = uint32(left), 0
	if to-from > forkTriangles {
		select {
		case b.spare <- struct{}{}:
			b.group.Go(func() {
				b.build(left, from, split, depth+1)
				<-b.spare
			})
			b.build(left+1, split, to, depth+1)
			return
		default:
		}
	}
	b.build(left, from, split, depth+1)
	b.build(left+1, split, to, depth+1)
}

// bounds gives the box of the triangles and the box of their middles.
func (b *planter) bounds(from, to int) (low, high, lowMiddle, highMiddle [3]float32) {
	inf := float32(math.Inf(1))
	low, high = [3]float32{inf, inf, inf}, [3]float32{-inf, -inf, -inf}
	lowMiddle, highMiddle = low, high
	for _, i := range b.tree.order[from:to] {
		p, q, r := b.mesh.corners32(i)
		c := &b.middle[i]
		for k := range 3 {
			low[k] = min(low[k], p[k], q[k], r[k])
			high[k] = max(high[k], p[k], q[k], r[k])
			lowMiddle[k] = min(lowMiddle[k], c[k])
			highMiddle[k] = max(highMiddle[k], c[k])
		}
	}
	return low, high, lowMiddle, highMiddle
}

// split parts the triangles where the boxes of both sides, weighted with what
// they hold, have the least surface (the surface-area heuristic, in bins).
func (b *planter) split(from, to int, low, high [3]float32) int {
	axis := 0
	for k := range 3 {
		if high[k]-low[k] > high[axis]-low[axis] {
			axis = k
		}
	}
	order := b.tree.order[from:to]
	width := high[axis] - low[axis]
	if width <= 0 {
		return (from + to) / 2 // all middles are one point: any half will do
	}
	scale := bins * (1 - 1e-6) / width
	bin := func(i uint32) int { return min(int((b.middle[i][axis]-low[axis])*scale), bins-1) }
	cut := b.bestCut(order, bin)
	i, j := 0, len(order)
	for i < j {
		if bin(order[i]) < cut {
			i++
		} else {
			j--
			order[i], order[j] = order[j], order[i]
		}
	}
	if i == 0 || i == len(order) {
		return (from + to) / 2
	}
	return from + i
}

func (b *planter) bestCut(order []uint32, bin func(uint32) int) int {
	var boxes [bins]bounded
	for i := range boxes {
		boxes[i] = nothing
	}
	for _, i := range order {
		boxes[bin(i)].add(b.mesh.corners32(i))
	}
	var right [bins]float32
	sum := nothing
	for i := bins - 1; i > 0; i-- {
		sum.join(&boxes[i])
		right[i] = sum.cost()
	}
	best, cut := float32(math.Inf(1)), bins/2
	sum = nothing
	for i := 1; i < bins; i++ {
		sum.join(&boxes[i-1])
		if c := sum.cost() + right[i]; c < best {
			best, cut = c, i
		}
	}
	return cut
}

// bounded is a box that grows, and how many triangles are in it.
type bounded struct {
	low, high [3]float32
	n         int
}

var nothing = bounded{
	low:  [3]float32{math.MaxFloat32, math.MaxFloat32, math.MaxFloat32},
	high: [3]float32{-math.MaxFloat32, -math.MaxFloat32, -math.MaxFloat32},
}

func (b *bounded) add(p, q, r *Vec32) {
	for k := range 3 {
		b.low[k] = min(b.low[k], p[k], q[k], r[k])
		b.high[k] = max(b.high[k], p[k], q[k], r[k])
	}
	b.n++
}

func (b *bounded) join(o *bounded) {
	for k := range 3 {
		b.low[k] = min(b.low[k], o.low[k])
		b.high[k] = max(b.high[k], o.high[k])
	}
	b.n += o.n
}

func (b *bounded) cost() float32 {
	if b.n == 0 {
		return 0
	}
	x, y, z := b.high[0]-b.low[0], b.high[1]-b.low[1], b.high[2]-b.low[2]
	return (x*y + y*z + z*x) * float32(b.n)
}
