package mesh

import (
	"context"
	"math"
	"slices"
	"sync"
)

const (
	tableSlices = 96 // of a table
	fewSlices   = 48 // of a piece that is cut again
	deepCuts    = 6  // how often a section may be cut across yet another axis
	mostCuts    = 200
	manyParts   = 40
)

// Plan cuts the form into sections that are within the limits at a scale and a
// wall in metres, with as little weld as can be found: along the axis that takes
// the least, and where a slab is too wide for tank or kiln or too much for a
// pour, across the others too. What cannot be made to fit is left too large;
// Over tells.
func (w *Wall) Plan(ctx context.Context, scale, wall float64, limits Limits) (Plan, error) {
	if !(scale > 0) || !(wall >= 0) || !(w.Profile.Reach > 0) {
		return w.Evaluate(ctx, nil)
	}
	l, tables := w.cutUp()
	var best Plan
	bestOver, chosen := 0, false
	// Slabs that fit as they are, or thicker ones to be cut on: which takes less
	// weld in the end is seen only when both are done.
	for _, lenient := range []bool{false, true} {
		d := &draft{ctx: ctx, scale: scale, limits: limits, reach: w.Profile.Reach, wall: wall / scale, deep: w.depth(scale, wall, limits)}
		d.plan(l, tables, w.Profile.Metal(scale, wall), lenient, d.deep)
		p, err := w.throughout(ctx, l, levelled(d.cuts))
		if err != nil {
			return Plan{}, err
		}
		over := len(onlyOver(p.Over(&w.Profile, scale, wall, limits)))
		total := p.Weld*scale + limits.Section*float64(len(p.Sections))
		if !chosen || over < bestOver || over == bestOver && total < best.Weld*scale+limits.Section*float64(len(best.Sections)) {
			best, bestOver, chosen = p, over, true
			best.Proposed = true
		}
		if d.straight {
			break // nothing had to be cut across: the other way would find the same
		}
	}
	return best, nil
}

// depth is how often sections are cut across yet another axis: once where there
// will be so many that a Ladder does as well in far less time.
func (w *Wall) depth(scale, wall float64, limits Limits) int {
	parts := max(atLeast(w.Profile.Metal(scale, wall), limits.Metal), atLeast(w.Profile.Area*scale*scale, limits.Area))
	if parts > manyParts {
		return 1
	}
	return deepCuts
}

// levelled makes one cut of those that lie in the same plane.
func levelled(cuts []Cut) (out []Cut) {
	for _, c := range cuts {
		i := slices.IndexFunc(out, func(o Cut) bool { return o.Plane == c.Plane })
		if i >= 0 {
			c.Near = slices.Concat(out[i].Near, c.Near)
			out = slices.Delete(out, i, i+1)
		}
		out = append(out, c)
	}
	return out
}

// throughout evaluates cuts that may be kept to some outlines, and lets them cut
// everything where that makes no difference.
func (w *Wall) throughout(ctx context.Context, l *lump, cuts []Cut) (Plan, error) {
	p, err := w.evaluate(ctx, l, cuts)
	free, kept := slices.Clone(cuts), false
	for i := range free {
		kept = kept || len(free[i].Near) > 0
		free[i].Near = nil
	}
	if err != nil || !kept {
		return p, err
	}
	q, err := w.evaluate(ctx, l, free)
	if err == nil && len(q.Sections) == len(p.Sections) && math.Abs(q.Weld-p.Weld) < 1e-6*p.Weld {
		return q, nil
	}
	return p, err
}

func onlyOver(over []bool) (list []int) {
	for i, o := range over {
		if o {
			list = append(list, i)
		}
	}
	return list
}

// draft gathers the cuts of a plan.
type draft struct {
	ctx         context.Context
	scale, wall float64 // the wall is that at scale 1
	limits      Limits
	reach       float64
	cuts        []Cut
	straight    bool // one axis was enough
	deep        int  // how deep the cuts of the whole form may go
}

// plan cuts a lump that holds so much metal, and then its pieces, if they need it.
func (d *draft) plan(l *lump, tables []*Table, metal float64, lenient bool, depth int) {
	limits := d.limits
	limits.lenient = lenient
	best := partition{cost: math.Inf(1)}
	var table *Table
	for _, t := range tables {
		if p := newPlanner(t, metal, d.wall/d.reach, d.scale, limits).plan(); p.cost < best.cost {
			best, table = p, t
		}
	}
	if table == nil || best.number < 2 {
		return
	}
	cuts := table.cuts(best, depth < d.deep)
	d.cuts = append(d.cuts, cuts...)
	d.straight = depth == d.deep && best.cost < unfit && !lenient
	if d.straight || depth == 1 {
		return
	}
	whole := metalWithin(l.cells, d.reach, d.wall)
	for _, piece := range l.part(cuts) {
		if d.ctx.Err() != nil || len(d.cuts) >= mostCuts {
			return
		}
		held := metal * metalWithin(piece.cells, d.reach, d.wall) / max(whole, 1e-300)
		if !d.limits.fits(d.needOf(piece, held)) {
			d.plan(piece, piece.tables(fewSlices, d.reach), held, false, depth-1)
		}
	}
}

// needOf is what a lump with so much metal takes of the limits.
func (d *draft) needOf(l *lump, metal float64) need {
	n := noNeed
	n.metal = metal
	for _, p := range l.points {
		q := p.Mul(d.scale)
		for k := range 3 {
			n.low[k], n.top[k] = min(n.low[k], q[k]), max(n.top[k], q[k])
		}
	}
	for i, t := range l.triangles {
		if !l.bare[i] {
			a := l.points[t[0]]
			n.area += l.points[t[1]].Sub(a).Cross(l.points[t[2]].Sub(a)).Norm() / 2 * d.scale * d.scale
		}
	}
	return n
}

// metalWithin is the volume of cells that lies within a depth.
func metalWithin(cells []cell, reach, depth float64) float64 {
	y := newTally(reach)
	for i := range cells {
		y.add(&cells[i])
	}
	p := y.profile()
	return p.at(depth)
}

// cuts turns a partition into planes: one for each level with a cut joint. near
// keeps a plane to the outlines it is meant for, even if those are all there are.
func (t *Table) cuts(p partition, near bool) []Cut {
	var normal Vec
	normal[t.Axis] = 1
	cut, all := make([]Cut, t.Slices), make([]bool, t.Slices)
	for i := range all {
		all[i] = !near
	}
	for _, j := range t.Joints {
		k := t.Parts[j.Above].Slice
		if p.section[j.Below] == p.section[j.Above] {
			all[k] = false
			continue
		}
		cut[k].Plane = Plane{At: normal.Mul(t.level(k)), Normal: normal}
		cut[k].Near = append(cut[k].Near, j.Near...)
	}
	var out []Cut
	for k, c := range cut {
		if len(c.Near) == 0 {
			continue
		}
		if all[k] {
			c.Near = nil
		}
		out = append(out, c)
	}
	return out
}

// Over says which sections of a plan are beyond the limits at a scale and a wall.
func (p *Plan) Over(profile *Profile, scale, wall float64, limits Limits) []bool {
	out := make([]bool, len(p.Sections))
	for i := range p.Sections {
		s := &p.Sections[i]
		at := s.At(profile, scale, wall)
		out[i] = !limits.fits(need{metal: at.Metal, area: at.Area, low: s.Min.Mul(scale), top: s.Max.Mul(scale)})
	}
	return out
}

// sliced are the lump and the tables of a wall, made when they are first needed:
// they are the same for every scale, wall and limit.
type sliced struct {
	whole, across sync.Once
	lump          *lump
	tables        []*Table
}

// whole is the form as one lump.
func (w *Wall) whole() *lump {
	w.sliced.whole.Do(func() { w.sliced.lump = w.lumpOf() })
	return w.sliced.lump
}

// cutUp is the form as one lump, and its tables.
func (w *Wall) cutUp() (*lump, []*Table) {
	l := w.whole()
	w.sliced.across.Do(func() { w.sliced.tables = l.tables(tableSlices, w.Profile.Reach) })
	return l, w.sliced.tables
}

// tables are the slices of a lump across all three axes.
func (l *lump) tables(n int, reach float64) []*Table {
	out := make([]*Table, 3)
	_ = inChunks(context.Background(), len(out), 1, func(axis, _, _ int) {
		out[axis] = l.slice(axis, n, reach)
	})
	return out
}
