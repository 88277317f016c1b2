package mesh

import "math"

// pieces are the parts of a carving that hang together, numbered from 0.
type pieces struct {
	*carving
	lump   *lump
	of     []uint32 // the piece of each triangle of the carving
	number int
	parts  map[uint32]*parted // by triangle of the lump, where it was cut
}

// findPieces cuts a lump and tells its pieces apart. Shells that belong together,
// such as a skin and the hollow in it, stay together on each side of a plane.
func findPieces(l *lump, cuts []Cut) *pieces {
	c := carve(l, cuts)
	f := newForest(len(c.points))
	for _, t := range c.triangles {
		f.join(t[0], t[1])
		f.join(t[1], t[2])
	}
	p := &pieces{carving: c, lump: l, of: make([]uint32, len(c.triangles))}
	for i, t := range c.triangles {
		p.of[i] = f.find(t[0])
	}
	p.renumber()
	if l.body != nil {
		p.joinBodies(cuts)
	}
	p.findParts()
	p.rejoinNicks()
	return p
}

// findParts gathers what each triangle of the lump was parted into, but for the
// part that has its number still.
func (p *pieces) findParts() {
	parts := map[uint32][]int{}
	for i := len(p.lump.triangles); i < len(p.triangles); i++ {
		parts[p.origin[i]] = append(parts[p.origin[i]], i)
	}
	p.parts = make(map[uint32]*parted, len(parts))
	for triangle, list := range parts {
		p.parts[triangle] = newParted(p, list)
	}
}

// renumber makes the numbers of the pieces run from 0 without gaps, in the order
// of the triangles.
func (p *pieces) renumber() {
	to := map[uint32]uint32{}
	for i, n := range p.of {
		k, ok := to[n]
		if !ok {
			k = uint32(len(to))
			to[n] = k
		}
		p.of[i] = k
	}
	p.number = len(to)
}

// extent is where a piece is.
type extent struct {
	low, high Vec
	area      float64
	body      uint32
	sides     uint64 // bit k: it lies above cut k
}

func (p *pieces) extents(cuts []Cut) []extent {
	inf := math.Inf(1)
	list := make([]extent, p.number)
	for i := range list {
		list[i].low, list[i].high = Vec{inf, inf, inf}, Vec{-inf, -inf, -inf}
	}
	for i, t := range p.triangles {
		e := &list[p.of[i]]
		for _, k := range t {
			for axis, x := range p.points[k] {
				e.low[axis], e.high[axis] = min(e.low[axis], x), max(e.high[axis], x)
			}
		}
		e.area += p.areaOf(i)
		if p.lump.body != nil {
			e.body = p.lump.body[p.origin[i]]
		}
	}
	for i := range list {
		middle := list[i].low.Add(list[i].high).Mul(0.5)
		for k, cut := range cuts[:min(len(cuts), 64)] {
			if plane, ok := cut.Plane.unit(); ok && len(cut.Near) == 0 && plane.height(middle) >= 0 {
				list[i].sides |= 1 << k
			}
		}
	}
	return list
}

// joinBodies joins pieces of one body that lie on the same side of every plane
// and whose boxes meet.
func (p *pieces) joinBodies(cuts []Cut) {
	list := p.extents(cuts)
	f := newForest(p.number)
	for i := range list {
		for j := range i {
			a, b := &list[i], &list[j]
			if a.body == b.body && a.sides == b.sides && boxesMeet(Size{Min: a.low, Max: a.high}, Size{Min: b.low, Max: b.high}) {
				f.join(uint32(i), uint32(j))
			}
		}
	}
	p.relabel(f)
}

func (p *pieces) relabel(f forest) {
	for i := range p.of {
		p.of[i] = f.find(p.of[i])
	}
	p.renumber()
}

// nickShare of a form's skin is too little for a casting of its own: what a
// plane shaves off a chin stays where it is.
const nickShare = 0.002

// rejoinNicks joins a piece that is too small to the one it shares the longest
// seam with.
func (p *pieces) rejoinNicks() {
	list := p.extents(nil)
	whole := 0.0
	for _, e := range list {
		whole += e.area
	}
	length := map[[2]uint32]float64{}
	at := p.atPoint()
	for _, s := range p.seams {
		a, b := at[s.above], at[s.below]
		length[[2]uint32{a, b}] += s.length
		length[[2]uint32{b, a}] += s.length
	}
	f := newForest(p.number)
	for i := range list {
		if list[i].area >= nickShare*whole {
			continue
		}
		best, to := 0.0, i
		for j := range list {
			if l := length[[2]uint32{uint32(i), uint32(j)}]; j != i && l > best {
				best, to = l, j
			}
		}
		f.join(uint32(i), uint32(to))
	}
	p.relabel(f)
	joined := p.atPoint()
	kept := p.seams[:0]
	for _, s := range p.seams {
		if at[s.above] == at[s.below] || joined[s.above] != joined[s.below] {
			kept = append(kept, s) // a seam, or a slit that parts nothing but is cut all the same
		}
	}
	p.seams = kept
}

// atPoint gives the piece of every point.
func (p *pieces) atPoint() []uint32 {
	at := make([]uint32, len(p.points))
	for i, t := range p.triangles {
		for _, k := range t {
			at[k] = p.of[i]
		}
	}
	return at
}

func (p *pieces) areaOf(i int) float64 {
	t := p.triangles[i]
	a := p.points[t[0]]
	return p.points[t[1]].Sub(a).Cross(p.points[t[2]].Sub(a)).Norm() / 2
}

// triangleAt is the triangle of the carving on which a point of a triangle of the
// lump lies.
func (p *pieces) triangleAt(triangle uint32, at Vec) int {
	whole := int(triangle)
	parts := p.parts[triangle]
	if parts == nil {
		return whole
	}
	return parts.nearest(at, whole, p.far(whole, at))
}

// far is the distance of a point from a triangle of the carving.
func (p *pieces) far(i int, q Vec) float64 {
	t := p.triangles[i]
	a := p.points[t[0]]
	u, v, w := p.points[t[1]].Sub(a), p.points[t[2]].Sub(a), q.Sub(a)
	f, g := inTriangle(u.Dot(u), u.Dot(v), v.Dot(v), w.Dot(u), w.Dot(v))
	return w.Sub(u.Mul(f)).Sub(v.Mul(g)).Norm()
}

// form is what was carved, as a mesh.
func (p *pieces) form() *Mesh {
	m := &Mesh{Points: make([]Vec32, len(p.points)), Triangles: p.triangles}
	for i, q := range p.points {
		m.Points[i] = q.Vec32()
	}
	return m
}

// sections measures every piece but for its metal.
func (p *pieces) sections(cuts []Cut) []Section {
	list := make([]Section, p.number)
	for i, e := range p.extents(nil) {
		list[i].Min, list[i].Max = e.low, e.high
	}
	middle := func(i uint32) Vec { return list[i].Min.Add(list[i].Max).Mul(0.5) }
	for i, t := range p.triangles {
		s := &list[p.of[i]]
		o := middle(p.of[i])
		a, b, c := p.points[t[0]].Sub(o), p.points[t[1]].Sub(o), p.points[t[2]].Sub(o)
		s.Volume += a.Dot(b.Cross(c)) / 6
		if !p.lump.bare[p.origin[i]] {
			s.Area += p.areaOf(i)
		}
	}
	p.addCaps(list, cuts, middle)
	return list
}

// addCaps adds to each volume what the faces of its cuts enclose with the middle
// of the section: a third of area times height.
func (p *pieces) addCaps(list []Section, cuts []Cut, middle func(uint32) Vec) {
	at := p.atPoint()
	type face struct {
		piece uint32
		cut   int
		upper bool
	}
	first := map[face]Vec{}
	for _, s := range p.seams {
		plane, _ := cuts[s.cut].Plane.unit()
		for _, upper := range [2]bool{true, false} {
			f := face{at[s.below], s.cut, upper}
			outwards := 1.0
			if upper {
				f.piece, outwards = at[s.above], -1
			}
			o, ok := first[f]
			if !ok {
				o = s.from
				first[f] = o
			}
			area := s.from.Sub(o).Cross(s.to.Sub(o)).Dot(plane.Normal) / 2
			list[f.piece].Volume -= outwards * area * plane.height(middle(f.piece)) / 3
		}
	}
}
