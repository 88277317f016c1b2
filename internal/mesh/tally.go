package mesh

import (
	"context"
	"math"
)

// tally adds up how deep the inside of many cells lies. Between two depths a
// slice of a cell adds evenly, so V(t) is a sum of ramps; each ramp is kept as a
// slope and an offset from the first knot it reaches, and the knots are summed
// once at the end.
type tally struct {
	reach float64
	root  float64 // knots per square root of depth
	ramps [knots + 1]ramp
	whole [4]float64
}

// ramp holds slope and offset, alone and times x, y and z.
type ramp struct{ slope, offset [4]float64 }

func newTally(reach float64) *tally {
	return &tally{reach: reach, root: (knots - 1) / math.Sqrt(reach)}
}

// strips is how many strips a cell is cut into along each of the two axes that
// the depth changes least along; along the third it is reckoned exactly.
const strips = 4

// add puts in one cell. A form without any inside has no depth to put it at.
func (y *tally) add(c *cell) {
	if !(y.reach > 0) {
		return
	}
	h, depth := float64(c.half), float64(c.depth)
	a, b, d := math.Abs(float64(c.inwards[0])), math.Abs(float64(c.inwards[1])), math.Abs(float64(c.inwards[2]))
	if a < b {
		a, b = b, a
	}
	if a < d {
		a, d = d, a
	}
	if depth+h*(a+b+d) <= 0 {
		return
	}
	weight := 8 * h * h * h / (strips * strips)
	x := [4]float64{1, float64(c.middle[0]), float64(c.middle[1]), float64(c.middle[2])}
	for i := range strips {
		for k := range strips {
			at := depth + h*(b*((2*float64(i)+1)/strips-1)+d*((2*float64(k)+1)/strips-1))
			y.slice(at-h*a, at+h*a, weight, &x)
		}
	}
}

// slice adds a volume spread evenly between two depths, of which only what is
// below the skin counts.
func (y *tally) slice(from, to, volume float64, x *[4]float64) {
	if to <= 0 {
		return
	}
	slope := volume / (to - from)
	from = max(from, 0)
	if to > y.reach { // the cell lies astride the middle, and beyond it the depth falls again
		y.ramp(max(2*y.reach-to, 0), y.reach, slope*(to-max(from, y.reach))/min(to-y.reach, y.reach), x)
		to = y.reach
	}
	if from < to {
		y.ramp(from, to, slope, x)
	}
}

// ramp adds slope × (depth − from) from one depth to another.
func (y *tally) ramp(from, to, slope float64, x *[4]float64) {
	start, end := &y.ramps[y.knot(from)], &y.ramps[y.knot(to)]
	for k, w := range x {
		s := slope * w
		start.slope[k] += s
		start.offset[k] += s * from
		end.slope[k] -= s
		end.offset[k] -= s * to
		y.whole[k] += s * (to - from)
	}
}

// knot is the first at or beyond a depth.
func (y *tally) knot(depth float64) int {
	return min(int(math.Ceil(math.Sqrt(depth)*y.root)), knots)
}

// profile sums the ramps.
func (y *tally) profile() Profile {
	p := Profile{Volume: y.whole[0], Reach: y.reach}
	var sum ramp
	for i := range knots {
		for k := range 4 {
			sum.slope[k] += y.ramps[i].slope[k]
			sum.offset[k] += y.ramps[i].offset[k]
		}
		t := y.reach * float64(i*i) / ((knots - 1) * (knots - 1))
		v := t*sum.slope[0] - sum.offset[0]
		p.within[i] = float32(max(v, 0))
		for k := range 3 {
			if v > 1e-12*p.Volume {
				p.moment[k][i] = float32((t*sum.slope[k+1] - sum.offset[k+1]) / v)
			}
		}
	}
	p.smooth()
	return p
}

// smooth takes out what rounding could leave: a wall never holds less than a
// thinner one, nor more than the whole.
func (p *Profile) smooth() {
	for i := 1; i < knots; i++ {
		p.within[i] = min(max(p.within[i], p.within[i-1]), float32(p.Volume))
	}
	p.within[knots-1] = float32(p.Volume)
	for k := range p.moment {
		for i := knots - 2; i >= 0; i-- {
			if p.within[i] <= 0 || p.moment[k][i] == 0 {
				p.moment[k][i] = p.moment[k][i+1] // the thinnest wall balances like the next
			}
		}
	}
}

// profileOf adds up all cells on all cores; reach is the depth of the deepest point.
func profileOf(reach float64, groups ...[]cell) Profile {
	const size = 8192
	if !(reach > 0) {
		return Profile{}
	}
	total := newTally(reach)
	for _, cells := range groups {
		parts := make([]*tally, (len(cells)+size-1)/size)
		_ = inChunks(context.Background(), len(cells), size, func(chunk, from, to int) {
			parts[chunk] = newTally(reach)
			for i := from; i < to; i++ {
				parts[chunk].add(&cells[i])
			}
		})
		for _, p := range parts {
			total.join(p)
		}
	}
	return total.profile()
}

func (y *tally) join(o *tally) {
	for i := range y.ramps {
		for k := range 4 {
			y.ramps[i].slope[k] += o.ramps[i].slope[k]
			y.ramps[i].offset[k] += o.ramps[i].offset[k]
		}
	}
	for k := range y.whole {
		y.whole[k] += o.whole[k]
	}
}
