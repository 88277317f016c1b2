package mesh

import (
	"context"
	"math"
)

// cell is a cube of space in which the depth below the skin is taken to run
// evenly: depth at the middle, and the way inwards. That is exact below a flat
// skin; where it is not exact enough the cell is cut into eight.
type cell struct {
	middle  [3]float32
	half    float32 // half the cube's side
	depth   float32 // of the middle below the skin; below zero outside
	inwards [3]float32
	place   int32   // of the closest triangle in the tree
	around  float32 // winding number, where there are holes
	doubt   bool    // the cell may lie astride the gap of a hole, where no skin is
}

// octree finds the cells, level by level. What is settled stays; what is open
// is good for a first answer and can be cut finer.
type octree struct {
	skin    *Tree // what metal lies under
	all     *Tree // what encloses: the skin, and an open foot
	holes   bool  // the whole has holes: nothing but the winding number tells inside
	long    float64
	settled []cell
	open    []cell
	half    float64 // of the open cells
	level   int     // how many times they have been halved
}

const (
	coarse = 16 // cells along the longest side to begin with
	// A cell is cut when its eight parts lie this share of their depth off the
	// depth it foretold. The errors of single cells have either sign; what they
	// leave of the sum is a hundredth of it.
	tolerance = 0.1
	// thinnest wall, as a share of the longest side, that the tolerance is for.
	thinnest = 0.005
)

// newOctree covers the box with coarse cells. Their lowest faces lie on the
// bottom of the box, so that no cell is partly below an open foot.
func newOctree(ctx context.Context, skin, all *Tree, holes bool, low, high Vec) (*octree, error) {
	o := &octree{skin: skin, all: all, holes: holes, long: largest(high.Sub(low))}
	if !(o.long > 0) || len(skin.nodes) == 0 {
		return o, nil
	}
	side := o.long / coarse
	o.half = side / 2
	var n [3]int
	var first Vec
	for k := range 3 {
		n[k] = max(1, int(math.Ceil((high[k]-low[k])/side-1e-9)))
		first[k] = (low[k]+high[k])/2 - side*float64(n[k]-1)/2
	}
	first[2] = low[2] + o.half
	total := n[0] * n[1] * n[2]
	found := make([][]cell, (total+63)/64)
	err := inChunks(ctx, total, 64, func(chunk, from, to int) {
		for i := from; i < to; i++ {
			at := Vec{float64(i % n[0]), float64(i / n[0] % n[1]), float64(i / n[0] / n[1])}
			c := o.look(first.Add(at.Mul(side)), o.half, nil)
			if !c.outside() {
				found[chunk] = append(found[chunk], c)
			}
		}
	})
	for _, f := range found {
		o.open = append(o.open, f...)
	}
	return o, err
}

// outside says that no part of the cell is within the form.
func (c *cell) outside() bool { return -c.depth >= c.half*1.7320508 && !c.doubt }

// look measures one cell. What is known of the parent spares most of the work.
func (o *octree) look(middle Vec, half float64, parent *cell) cell {
	guess := -1
	if parent != nil {
		guess = int(parent.place)
	}
	near := o.skin.closest(middle, guess)
	c := cell{middle: middle.Vec32(), half: float32(half), place: int32(near.place)}
	inside := false
	d := near.Distance
	way := half * math.Sqrt(3) * (1 + 1e-6) // from the parent's middle to here
	if parent != nil && !o.holes && math.Abs(float64(parent.depth)) > way {
		inside = parent.depth > 0 // the skin is too far for the way to cross it
	} else {
		w := o.all.Winding(middle)
		inside = w > 0.5
		c.around = float32(w)
		c.doubt = o.holes && w > 0.1 && w < 0.9
	}
	if d > 1e-6*half {
		c.inwards = middle.Sub(near.Point).Mul(1 / d).Vec32()
	} else {
		c.inwards = o.skin.normal(near.place).Mul(-1).Vec32()
	}
	c.depth = float32(d)
	if !inside {
		c.depth = -c.depth
		if d > 1e-6*half {
			c.inwards = Vec32{-c.inwards[0], -c.inwards[1], -c.inwards[2]}
		}
	}
	return c
}

// normal of the triangle at place k, of length one.
func (t *Tree) normal(k int) Vec {
	c := &t.corners[k]
	a := Vec{float64(c[0]), float64(c[1]), float64(c[2])}
	n := Vec{float64(c[3]), float64(c[4]), float64(c[5])}.Sub(a).Cross(Vec{float64(c[6]), float64(c[7]), float64(c[8])}.Sub(a))
	if l := n.Norm(); l > 0 {
		return n.Mul(1 / l)
	}
	return Vec{0, 0, 1}
}

// copy shares the cells found so far; refining one leaves the other as it was.
func (o *octree) copy() *octree {
	c := *o
	c.settled = c.settled[:len(c.settled):len(c.settled)]
	return &c
}

// cells is how many there are.
func (o *octree) cells() int { return len(o.settled) + len(o.open) }

// refine cuts the open cells into eight each; parts that the cell foretold well
// are settled, the others are open for the next time.
func (o *octree) refine(ctx context.Context, tell func(share float64)) error {
	const size = 128
	chunks := (len(o.open) + size - 1) / size
	settled, open := make([][]cell, chunks), make([][]cell, chunks)
	half := o.half / 2
	counted := newCounter(len(o.open), tell)
	err := inChunks(ctx, len(o.open), size, func(chunk, from, to int) {
		for i := from; i < to; i++ {
			var parts [8]cell
			some, good := o.cut(&o.open[i], half, parts[:0])
			if good {
				settled[chunk] = append(settled[chunk], some...)
			} else {
				open[chunk] = append(open[chunk], some...)
			}
		}
		counted.add(to - from)
	})
	if err != nil {
		return err
	}
	for _, s := range settled {
		o.settled = append(o.settled, s...)
	}
	o.open = nil
	for _, p := range open {
		o.open = append(o.open, p...)
	}
	o.half = half
	o.level++
	return nil
}

// cut gives the parts of a cell that are not outside, and whether it had
// foretold their depths.
//
// Settled parts are moved by what bending does to their mean: if the depth bends
// like ½xᵀHx, the eight middles at (±a, ±a, ±a) lie ½a² tr H off on average, and
// the mean over each part is off by a third of that.
func (o *octree) cut(c *cell, half float64, parts []cell) (out []cell, good bool) {
	good = true
	middle := Vec32(c.middle).Vec()
	bend := 0.0
	var eight [8]cell
	for k := range eight {
		var to Vec
		foretold := float64(c.depth)
		for axis := range 3 {
			to[axis] = half
			if k>>axis&1 == 0 {
				to[axis] = -half
			}
			foretold += to[axis] * float64(c.inwards[axis])
		}
		p := &eight[k]
		*p = o.look(middle.Add(to), half, c)
		off := float64(p.depth) - foretold
		bend += off / 8
		if foretold < 0 && p.outside() {
			continue
		}
		if math.Abs(off) > tolerance*max(float64(p.depth), thinnest*o.long) {
			good = false
		}
	}
	if o.holes && resolveDoubt(&eight) {
		good = false
	}
	for k := range eight {
		if p := &eight[k]; !p.outside() {
			if good {
				p.depth += float32(bend / 3)
			}
			parts = append(parts, *p)
		}
	}
	return parts, good
}

// resolveDoubt keeps the doubt of those parts alone in which the winding number
// may pass a half, judging by how much it differs between the eight.
func resolveDoubt(eight *[8]cell) (left bool) {
	low, high := eight[0].around, eight[0].around
	for k := range eight {
		low, high = min(low, eight[k].around), max(high, eight[k].around)
	}
	for k := range eight {
		p := &eight[k]
		away := p.around - 0.5
		p.doubt = p.doubt && max(away, -away) < high-low
		left = left || p.doubt
	}
	return left
}

// reach is the depth of the deepest point, found by rising from the deepest cell.
func (o *octree) reach() float64 {
	var deepest cell
	for _, cells := range [2][]cell{o.settled, o.open} {
		for i := range cells {
			if cells[i].depth > deepest.depth {
				deepest = cells[i]
			}
		}
	}
	if !(deepest.depth > 0) {
		return 0
	}
	b := ball{Vec32(deepest.middle).Vec(), float64(deepest.depth)}
	for range shrinks {
		up := o.skin.rise(b, int(deepest.place))
		if up.radius <= b.radius*(1+ballError/10) || !o.all.Inside(up.middle) {
			break
		}
		b = up
	}
	return b.radius * (1 + ballError/4)
}
