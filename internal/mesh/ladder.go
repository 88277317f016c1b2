package mesh

import (
	"context"
	"math"
)

// Ladder is a section plan for every size: the sections of a plan, how those
// that are too large at some size fall into smaller ones, each by a plane through
// the form itself, and which may stay together where all of them are small. So a
// plan for any scale, wall and limits is a lookup that needs no mesh; and as a
// form grows, sections only part, and never come together again.
type Ladder struct {
	rungs []rung
	tops  []int   // the rungs that nothing holds
	weld  float64 // of the seams between tops, m at scale 1
}

// rung is a section of a ladder, and what it falls into where it does not fit.
type rung struct {
	Section
	slit float64 // weld within it that parts nothing, m at scale 1
	seam float64 // weld between the sections it falls into, m at scale 1
	into []int   // none where it is not cut further
}

// Ladder cuts every section of a plan on, by planes with short welds, until it is
// a small share of the form. Where the plan was Proposed, sections may also stay
// together at sizes where they fit; planes that somebody has placed always cut.
func (w *Wall) Ladder(ctx context.Context, plan Plan) (Ladder, error) {
	g := &growth{ctx: ctx, reach: w.Profile.Reach, least: w.Profile.Area / smallest}
	l := w.whole()
	p := findPieces(l, plan.Cuts)
	if p.number != len(plan.Sections) {
		return Ladder{}, nil
	}
	var out Ladder
	for _, s := range plan.Sections {
		out.rungs = append(out.rungs, rung{Section: s})
	}
	level := make([]sprout, 0, p.number)
	for i, piece := range l.partAs(p) {
		level = append(level, sprout{piece, i})
	}
	for len(level) > 0 {
		var err error
		if level, err = g.grow(&out, level); err != nil {
			return Ladder{}, err
		}
	}
	out.join(p, plan)
	return out, nil
}

const (
	// smallest is into how many equal parts a form falls at most before its
	// sections are cut no further.
	smallest = 160
	// levels is how many places are tried for a plane, along each axis.
	levels = 24
	// lopsided is the least share of a section's skin that a plane cuts off.
	lopsided = 0.25
)

// sprout is a section that may be cut further.
type sprout struct {
	lump *lump
	rung int
}

// growth cuts sections into smaller ones.
type growth struct {
	ctx   context.Context
	reach float64
	least float64 // m² of skin: less is not cut
}

// grow cuts all sections of one level, side by side, and gives those of the next.
func (g *growth) grow(to *Ladder, level []sprout) ([]sprout, error) {
	pieces := make([][]*lump, len(level))
	seams := make([]float64, len(level))
	found := make([][]Section, len(level))
	err := inChunks(g.ctx, len(level), 1, func(i, _, _ int) {
		pieces[i], found[i], seams[i] = g.halve(level[i].lump, &to.rungs[level[i].rung].Section)
	})
	var next []sprout
	for i, s := range level {
		if len(pieces[i]) < 2 {
			continue
		}
		to.rungs[s.rung].seam = seams[i]
		for k, piece := range pieces[i] {
			to.rungs[s.rung].into = append(to.rungs[s.rung].into, len(to.rungs))
			next = append(next, sprout{piece, len(to.rungs)})
			to.rungs = append(to.rungs, rung{Section: found[i][k]})
		}
	}
	return next, err
}

// halve cuts a section by the plane that seems best.
func (g *growth) halve(l *lump, whole *Section) (pieces []*lump, found []Section, seam float64) {
	if whole.Area < g.least {
		return nil, nil, 0
	}
	plane, ok := l.waist()
	if !ok {
		return nil, nil, 0
	}
	cuts := []Cut{{Plane: plane}}
	p := findPieces(l, cuts)
	if p.number < 2 {
		return nil, nil, 0
	}
	pieces, found = l.partAs(p), p.sections(cuts)
	at := p.atPoint()
	for _, s := range p.seams {
		seam += s.length
		found[at[s.above]].Weld += s.length / 2
		found[at[s.below]].Weld += s.length / 2
	}
	g.share(pieces, found, whole)
	inherit(pieces, found, whole)
	return pieces, found, seam
}

// inherit gives each piece its share of the weld that the whole was already
// joined with, by how long its rim is but for the cut just made.
func inherit(pieces []*lump, found []Section, whole *Section) {
	rims, sum := make([]float64, len(pieces)), 0.0
	for k, piece := range pieces {
		rims[k] = max(piece.rim()-2*found[k].Weld, 0)
		sum += rims[k]
	}
	for k := range found {
		if sum > 0 {
			found[k].Weld += whole.Weld * rims[k] / sum
		}
	}
}

// share gives each piece its share of the metal that the whole has.
func (g *growth) share(pieces []*lump, found []Section, whole *Section) {
	metal := make([][sharePoints]float64, len(pieces))
	var sum [sharePoints]float64
	for k, piece := range pieces {
		y := newTally(g.reach)
		for i := range piece.cells {
			y.add(&piece.cells[i])
		}
		curve := y.profile()
		for i := range sharePoints {
			metal[k][i] = curve.at(g.reach * float64(i*i) / ((sharePoints - 1) * (sharePoints - 1)))
			if i == 0 {
				metal[k][0] = found[k].Area
			}
			sum[i] += metal[k][i]
		}
	}
	for k := range found {
		for i := range sharePoints {
			if sum[i] > 0 {
				found[k].Shares[i] = float32(float64(whole.Shares[i]) * metal[k][i] / sum[i])
			}
		}
	}
}

// waist is the plane across x, y or z with the least weld for how evenly it parts
// the skin.
func (l *lump) waist() (Plane, bool) {
	var best Plane
	least := math.Inf(1)
	for axis := range 3 {
		low, high := math.Inf(1), math.Inf(-1)
		for _, p := range l.points {
			low, high = min(low, p[axis]), max(high, p[axis])
		}
		step := (high - low) / levels
		if !(step > 0) {
			continue
		}
		low -= step / 97 // not through the middle, where forms have their points
		weld, under, area := l.across(axis, low, step)
		for k := 1; k < levels; k++ {
			f := under[k] / max(area, 1e-300)
			if f < lopsided || f > 1-lopsided {
				continue
			}
			if cost := weld[k] / (f * (1 - f)); cost < least {
				least = cost
				best = Plane{}
				best.Normal[axis] = 1
				best.At[axis] = low + step*float64(k)
			}
		}
	}
	return best, !math.IsInf(least, 1)
}

// across measures, at each level along an axis, the outline there and the skin
// below it; whole triangles count as lying where their middle does.
func (l *lump) across(axis int, low, step float64) (weld, under [levels + 1]float64, area float64) {
	at := func(x float64) int { return min(max(int((x-low)/step), 0), levels-1) }
	for i, t := range l.triangles {
		a, b, c := l.points[t[0]], l.points[t[1]], l.points[t[2]]
		n := b.Sub(a).Cross(c.Sub(a))
		twice := n.Norm()
		if !l.bare[i] {
			under[at((a[axis]+b[axis]+c[axis])/3)+1] += twice / 2
			area += twice / 2
		}
		from, to := at(min(a[axis], b[axis], c[axis])), at(max(a[axis], b[axis], c[axis]))
		if from == to {
			continue
		}
		z := sorted3(a[axis], b[axis], c[axis])
		// A cut through the middle corner is as long as the triangle's area asks
		// for; from there it shrinks to nothing at the lowest and highest.
		most := math.Sqrt(max(twice*twice-n[axis]*n[axis], 0)) / max(z[2]-z[0], 1e-300)
		for k := from + 1; k <= to; k++ {
			h := low + step*float64(k)
			share := (h - z[0]) / max(z[1]-z[0], 1e-300)
			if h > z[1] {
				share = (z[2] - h) / max(z[2]-z[1], 1e-300)
			}
			weld[k] += most * min(max(share, 0), 1)
		}
	}
	for k := range levels {
		under[k+1] += under[k]
	}
	return weld, under, area
}
