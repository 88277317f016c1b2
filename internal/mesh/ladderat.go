package mesh

import "math"

// Sized is a section plan at one scale and wall.
type Sized struct {
	Sections []SectionAt // those that are still too large come as they are; Over says which
	Over     []bool
	Weld     float64 // m of all seams
}

// PlanAt is the section plan at a scale and a wall in metres: the planes of Plan,
// with more where a section would be beyond the limits, and, if they were
// proposed, without those that this size does not need. It is a lookup of some
// microseconds. Plan anew, with the file open, for the least weld at that size.
func (s *Scan) PlanAt(scale, wall float64, limits Limits) Sized {
	l := s.Ladder
	if len(l.rungs) == 0 {
		l = ladderOf(s.Plan)
	}
	return l.at(&s.Profile, scale, wall, limits)
}

// ladderOf is a plan of which no more is known than its sections.
func ladderOf(p Plan) Ladder {
	l := Ladder{weld: p.Weld}
	for i, s := range p.Sections {
		l.rungs, l.tops = append(l.rungs, rung{Section: s}), append(l.tops, i)
	}
	return l
}

func (l *Ladder) at(p *Profile, scale, wall float64, limits Limits) Sized {
	out := Sized{Weld: l.weld * scale}
	metal, share := p.Metal(scale, wall), math.Inf(1)
	if p.Reach > 0 && scale > 0 {
		share = wall / scale / p.Reach
	}
	todo := append([]int(nil), l.tops...)
	for len(todo) > 0 {
		r := &l.rungs[todo[len(todo)-1]]
		todo = todo[:len(todo)-1]
		out.Weld += r.slit * scale
		at := SectionAt{
			Area: r.Area * scale * scale, Volume: r.Volume * scale * scale * scale,
			Metal: metal * r.Shares.at(share), Box: r.Max.Sub(r.Min).Mul(scale), Weld: r.Weld * scale,
		}
		fits := limits.fits(need{metal: at.Metal, area: at.Area, low: r.Min.Mul(scale), top: r.Max.Mul(scale)})
		if !fits && len(r.into) > 0 {
			out.Weld += r.seam * scale
			todo = append(todo, r.into...)
			continue
		}
		out.Sections, out.Over = append(out.Sections, at), append(out.Over, !fits)
	}
	return out
}

// join finds the seams between the sections of a plan, and what may stay together
// where the planes were proposed: the two that make the smallest section, again
// and again.
func (l *Ladder) join(p *pieces, plan Plan) {
	n := len(plan.Sections)
	seam := map[[2]int]float64{}
	at := p.atPoint()
	for _, s := range p.seams {
		a, b := int(at[s.above]), int(at[s.below])
		if a == b {
			l.rungs[a].slit += s.length
			continue
		}
		seam[[2]int{min(a, b), max(a, b)}] += s.length
	}
	for i := range n {
		l.tops = append(l.tops, i)
	}
	for plan.Proposed {
		a, b, ok := l.smallestPair(seam)
		if !ok {
			break
		}
		l.unite(a, b, seam)
	}
	for _, a := range l.tops { // in order, so that sums are always the same
		for _, b := range l.tops {
			l.weld += seam[[2]int{a, b}]
		}
	}
}

func (l *Ladder) smallestPair(seam map[[2]int]float64) (a, b int, ok bool) {
	least := math.Inf(1)
	for i, x := range l.tops {
		for _, y := range l.tops[i+1:] {
			if area := l.rungs[x].Area + l.rungs[y].Area; area < least && seam[[2]int{x, y}] > 0 {
				a, b, least, ok = x, y, area, true
			}
		}
	}
	return a, b, ok
}

// unite makes one rung of two.
func (l *Ladder) unite(a, b int, seam map[[2]int]float64) {
	x, y, to := l.rungs[a].Section, &l.rungs[b].Section, len(l.rungs)
	between := seam[[2]int{a, b}]
	x.Area += y.Area
	x.Volume += y.Volume
	x.Weld += y.Weld - between
	for k := range 3 {
		x.Min[k], x.Max[k] = min(x.Min[k], y.Min[k]), max(x.Max[k], y.Max[k])
	}
	for k := range x.Shares {
		x.Shares[k] += y.Shares[k]
	}
	l.rungs = append(l.rungs, rung{Section: x, seam: between, into: []int{a, b}})
	var tops []int
	for _, o := range l.tops {
		if o == a || o == b {
			continue
		}
		tops = append(tops, o)
		if s := seam[[2]int{min(a, o), max(a, o)}] + seam[[2]int{min(b, o), max(b, o)}]; s > 0 {
			seam[[2]int{o, to}] = s // rungs come in order: o is before to
		}
	}
	l.tops = append(tops, to)
	delete(seam, [2]int{a, b})
}
