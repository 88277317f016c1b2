package mesh

import "math"

// Plane is where a form is cut: through At, at right angles to Normal, which
// points to its upper side and may have any length but none.
type Plane struct {
	At     Vec `json:"at"`
	Normal Vec `json:"normal"`
}

// unit is the plane with a normal of length one; false if it has none.
func (p Plane) unit() (Plane, bool) {
	l := p.Normal.Norm()
	if !(l > 0) || math.IsInf(l, 0) {
		return p, false
	}
	p.Normal = p.Normal.Mul(1 / l)
	return p, true
}

// height of q above the plane, if its normal has length one.
func (p Plane) height(q Vec) float64 { return q.Sub(p.At).Dot(p.Normal) }

// Loop is one outline of a cut.
type Loop struct {
	Points []Vec   // in order; the last is joined to the first if the loop is closed
	Closed bool    // an open one ends at a hole of the mesh
	Length float64 // of the weld that would join it again
	Area   float64 // enclosed; below zero round a hollow
}

// CutLoops is where a plane cuts the surface of m. The area of the cut is the sum
// of the loops' areas.
func CutLoops(m *Mesh, p Plane) []Loop {
	p, ok := p.unit()
	if !ok {
		return nil
	}
	points := make([]Vec, len(m.Points))
	for i := range points {
		points[i] = m.Points[i].Vec()
	}
	found := crossings(points, m.Triangles, p)
	var loops []Loop
	for _, chain := range chains(found) {
		loops = append(loops, loopOf(found, chain, p))
	}
	return loops
}

// crossing is where a triangle is cut: from the side that runs down through the
// plane to the one that runs up, so that all crossings of an outline follow
// each other with the form on their left, seen from the normal's tip.
type crossing struct {
	triangle int
	down, up edge
	from, to Vec
}

// edge is the smaller and the larger point of a triangle's side.
type edge [2]uint32

func edgeOf(a, b uint32) edge { return edge{min(a, b), max(a, b)} }

// crossings finds every triangle with points on both sides.
func crossings(points []Vec, triangles [][3]uint32, p Plane) []crossing {
	var found []crossing
	for i := range triangles {
		if x, ok := cross(points, &triangles[i], p); ok {
			x.triangle = i
			found = append(found, x)
		}
	}
	return found
}

// cross cuts one triangle. A point on the plane counts as above it.
func cross(points []Vec, t *[3]uint32, p Plane) (x crossing, ok bool) {
	h := [3]float64{p.height(points[t[0]]), p.height(points[t[1]]), p.height(points[t[2]])}
	if h[0] >= 0 == (h[1] >= 0) && h[1] >= 0 == (h[2] >= 0) {
		return x, false
	}
	for k := range 3 {
		next := (k + 1) % 3
		u, v := t[k], t[next]
		switch above := h[k] >= 0; {
		case above == (h[next] >= 0):
		case above:
			x.down, x.from = edgeOf(u, v), passing(points, u, v, h[k], h[next])
		default:
			x.up, x.to = edgeOf(u, v), passing(points, u, v, h[k], h[next])
		}
	}
	return x, true
}

// passing is the point of a side that lies on the plane, given the heights of its
// ends; the same to the last digit from both triangles.
func passing(points []Vec, u, v uint32, hu, hv float64) Vec {
	if u > v {
		u, v, hu, hv = v, u, hv, hu
	}
	return points[u].Add(points[v].Sub(points[u]).Mul(hu / (hu - hv)))
}

// chains puts crossings into the order of their outlines.
func chains(found []crossing) [][]int {
	after := make(map[edge]int, len(found)) // crossing that begins at a side
	begins := make(map[edge]bool, len(found))
	for i := range found {
		after[found[i].down] = i
		begins[found[i].up] = true
	}
	var all [][]int
	used := make([]bool, len(found))
	follow := func(i int) {
		var chain []int
		for !used[i] {
			used[i] = true
			chain = append(chain, i)
			next, ok := after[found[i].up]
			if !ok {
				break
			}
			i = next
		}
		if len(chain) > 0 {
			all = append(all, chain)
		}
	}
	for i := range found { // first those that begin at a hole, from their beginning
		if !begins[found[i].down] {
			follow(i)
		}
	}
	for i := range found {
		follow(i)
	}
	return all
}

func loopOf(found []crossing, chain []int, p Plane) Loop {
	first, last := &found[chain[0]], &found[chain[len(chain)-1]]
	l := Loop{Closed: last.up == first.down && len(chain) > 2}
	origin := first.from
	area := Vec{}
	for _, i := range chain {
		x := &found[i]
		l.Points = append(l.Points, x.from)
		l.Length += x.to.Sub(x.from).Norm()
		area = area.Add(x.from.Sub(origin).Cross(x.to.Sub(origin)))
	}
	if !l.Closed {
		l.Points = append(l.Points, last.to)
	}
	l.Area = area.Dot(p.Normal) / 2
	return l
}
