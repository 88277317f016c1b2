package mesh

import (
	"context"
	"math"
	"sort"
)

// Where a form casts solid.
//
// A wall of thickness t leaves a hollow: all that lies deeper than t. The metal
// under a patch of skin counts as solid when the nearest hollow is farther than
// two walls, 2t, from that skin: a limb thinner than two walls, but neither the
// corner of a box (√3 t from its hollow) nor a ridge blunter than 60°. Once
// solid at some wall it counts as solid at every thicker one, so a patch has one
// number: the wall from which on it is solid.
//
// The hollow is the union of balls: every largest ball inside the form that
// touches the skin, made smaller by t. Those balls are found by shrinking (Ma,
// Bae and Choi, 3D medial axis point approximation, The Visual Computer 28(1),
// 2012).

// ball is a largest ball inside the form, touching the skin.
type ball struct {
	middle Vec
	radius float64
}

// patches are runs of neighbouring triangles in a tree's order; one point
// stands for each.
type patches struct {
	size int       // triangles in a patch
	wall []float32 // from which on each patch is solid
}

// of gives the patch of the triangle at a place of the tree.
func (p *patches) of(place int) int { return place / p.size }

// solidWalls finds from which wall on each patch of the skin is solid. There
// are about n patches; no ball is larger than reach.
func solidWalls(ctx context.Context, skin *Tree, n int, reach float64, tell func(share float64)) (*patches, error) {
	total := len(skin.corners)
	p := &patches{size: max(1, (total+n-1)/max(n, 1))}
	count := (total + p.size - 1) / p.size
	touching, risen, touch := make([]ball, count), make([]ball, count), make([]Vec, count)
	counted := newCounter(2*count, tell)
	const size = 64
	err := inChunks(ctx, count, size, func(_, from, to int) {
		for i := from; i < to; i++ {
			touching[i], risen[i], touch[i] = skin.largestBall(i*p.size, min((i+1)*p.size, total), reach)
		}
		counted.add(to - from)
	})
	if err != nil {
		return nil, err
	}
	pit := newBallPit(append(risen, touching...))
	p.wall = make([]float32, count)
	err = inChunks(ctx, count, size, func(_, from, to int) {
		for i := from; i < to; i++ {
			p.wall[i] = float32(pit.climb(touch[i], touching[i].radius))
		}
		counted.add(to - from)
	})
	return p, err
}

const (
	// ballError is the share to which a ball's radius is found.
	ballError  = 0.01
	ballEffort = 500 // boxes to look at
	shrinks    = 30
	rises      = 8
)

// largestBall touches the skin at x, the middle of the largest of the triangles
// at the places from to to, from within. risen is a larger one close by: between
// flat triangles the ball at x ends at their edges, and the form has more room.
func (t *Tree) largestBall(from, to int, reach float64) (touching, risen ball, x Vec) {
	best, place := -1.0, from
	for k := from; k < to; k++ {
		if a := t.doubleArea(k); a > best {
			best, place = a, k
		}
	}
	x, inwards := t.middle(place), t.normal(place).Mul(-1)
	radius, guess := reach, place
	for range shrinks {
		near := t.closestWithin(x.Add(inwards.Mul(radius)), radius*(1-ballError), ballEffort, guess)
		way := near.Point.Sub(x)
		if near.place < 0 || way.Dot(inwards) <= 0 {
			break
		}
		guess = near.place
		radius = min(way.Dot(way)/(2*way.Dot(inwards)), radius*(1-ballError))
	}
	touching = ball{x.Add(inwards.Mul(radius)), radius}
	return touching, t.rise(touching, guess), x
}

// rise moves a ball away from the skin that holds it, as long as it grows: at
// first from the nearest point, and between two faces from both.
func (t *Tree) rise(b ball, guess int) ball {
	near := t.closestWithin(b.middle, math.Inf(1), ballEffort, guess)
	b.radius = near.Distance
	if !(b.radius > 0) {
		return b
	}
	step := b.radius / 3
	way := b.middle.Sub(near.Point).Mul(1 / near.Distance)
	for range rises {
		to := b.middle.Add(way.Mul(step))
		next := t.closestWithin(to, math.Inf(1), ballEffort, near.place)
		if next.Distance > b.radius*(1+ballError/4) {
			b, near = ball{to, next.Distance}, next
			continue
		}
		step *= 0.6
		if !(next.Distance > 0) {
			continue
		}
		both := way.Add(to.Sub(next.Point).Mul(1 / next.Distance))
		if l := both.Norm(); l > 0.3 { // else it overshot: the same way, but not so far
			way = both.Mul(1 / l)
		}
	}
	return b
}

func (t *Tree) doubleArea(k int) float64 {
	c := &t.corners[k]
	u := [3]float64{float64(c[3] - c[0]), float64(c[4] - c[1]), float64(c[5] - c[2])}
	v := [3]float64{float64(c[6] - c[0]), float64(c[7] - c[1]), float64(c[8] - c[2])}
	return Vec(u).Cross(Vec(v)).Norm()
}

func (t *Tree) middle(k int) Vec {
	c := &t.corners[k]
	var m Vec
	for i := range 3 {
		m[i] = (float64(c[i]) + float64(c[i+3]) + float64(c[i+6])) / 3
	}
	return m
}

// ballPit is a tree over balls that knows the largest in each box.
type ballPit struct {
	balls []ball
	nodes []pitNode
}

type pitNode struct {
	low, high Vec
	largest   float64
	from, to  int
	left      int // children left and left+1; 0 for none
}

const pitLeaf = 8

func newBallPit(balls []ball) *ballPit {
	p := &ballPit{balls: append([]ball(nil), balls...)}
	if len(balls) > 0 {
		p.nodes = append(p.nodes, pitNode{})
		p.build(0, 0, len(balls))
	}
	return p
}

func (p *ballPit) build(n, from, to int) {
	node := pitNode{low: p.balls[from].middle, high: p.balls[from].middle, from: from, to: to}
	for i := from; i < to; i++ {
		b := &p.balls[i]
		node.largest = max(node.largest, b.radius)
		for k := range 3 {
			node.low[k], node.high[k] = min(node.low[k], b.middle[k]), max(node.high[k], b.middle[k])
		}
	}
	if to-from > pitLeaf {
		axis := 0
		for k := range 3 {
			if node.high[k]-node.low[k] > node.high[axis]-node.low[axis] {
				axis = k
			}
		}
		some := p.balls[from:to]
		sort.Slice(some, func(i, j int) bool { return some[i].middle[axis] < some[j].middle[axis] })
		node.left = len(p.nodes)
		p.nodes = append(p.nodes, pitNode{}, pitNode{})
		middle := (from + to) / 2
		p.build(node.left, from, middle)
		p.build(node.left+1, middle, to)
	}
	p.nodes[n] = node
}

// climb gives the wall from which on the skin at x is solid, knowing that it is
// not below the first. A ball of radius r, its hollow shrunk by t, is within 2t
// of x if |x − middle| ≤ r + t; a ball that is at t stays so up to t = r.
func (p *ballPit) climb(x Vec, first float64) float64 {
	t := first
	for {
		next := p.largestWithin(x, t)
		if next <= t {
			return t
		}
		t = next
	}
}

// largestWithin is the radius of the largest ball whose surface is within t of x.
func (p *ballPit) largestWithin(x Vec, t float64) float64 {
	if len(p.nodes) == 0 {
		return 0
	}
	best := t * (1 + ballError) // less is no gain, and a sphere has thousands alike
	stack := make([]int, 1, 64)
	for len(stack) > 0 {
		n := &p.nodes[stack[len(stack)-1]]
		stack = stack[:len(stack)-1]
		if n.largest <= best || n.away(x) > n.largest+t {
			continue
		}
		if n.left == 0 {
			for i := n.from; i < n.to; i++ {
				if b := &p.balls[i]; b.radius > best && x.Sub(b.middle).Norm() <= b.radius+t {
					best = b.radius
				}
			}
			continue
		}
		a, b := n.left, n.left+1
		if p.nodes[a].largest > p.nodes[b].largest {
			a, b = b, a
		}
		stack = append(stack, a, b) // the one with the larger ball first
	}
	if best > t*(1+ballError) {
		return best
	}
	return t
}

func (n *pitNode) away(x Vec) float64 {
	sum := 0.0
	for k := range 3 {
		d := max(n.low[k]-x[k], x[k]-n.high[k], 0)
		sum += d * d
	}
	return math.Sqrt(sum)
}

// fillSolid writes the solid curve of a profile: the share of the inside that
// lies under patches which are solid at each knot's wall.
func (p *Profile) fillSolid(s *patches, groups ...[]cell) {
	var sum [knots + 1]float64
	whole := 0.0
	for _, cells := range groups {
		for i := range cells {
			c := &cells[i]
			volume := c.inside()
			whole += volume
			wall := float64(s.wall[s.of(int(c.place))])
			k := min(int(math.Ceil(math.Sqrt(wall/p.Reach)*(knots-1))), knots)
			sum[max(k, 0)] += volume
		}
	}
	if whole <= 0 {
		return
	}
	share := 0.0
	for i := range p.solid {
		share += sum[i]
		p.solid[i] = float32(min(share/whole, 1))
	}
	p.solid[knots-1] = 1 // at the deepest point's wall nothing is hollow
}

// inside is the volume of a cell that lies below the skin, taking a cut cell for
// a slab along its steepest axis.
func (c *cell) inside() float64 {
	h := float64(c.half)
	steep := max(math.Abs(float64(c.inwards[0])), math.Abs(float64(c.inwards[1])), math.Abs(float64(c.inwards[2])))
	share := 1.0
	if steep > 0 {
		share = min(max((float64(c.depth)/(h*steep)+1)/2, 0), 1)
	}
	return 8 * h * h * h * share
}
