package mesh

import "math"

// Weld is the same form with points that lie within tolerance of one another,
// in the mesh's unit, made one: the first of them stays where it is. Triangles
// that shrink to a line by it are left out. A tolerance that is not above zero
// changes nothing, for Read has made one of points that are the same.
//
// It closes the cracks of a scan whose neighbouring triangles were rounded
// apart; a tolerance near the length of an edge eats the form.
func (m *Mesh) Weld(tolerance float64) *Mesh {
	if !(tolerance > 0) || math.IsInf(tolerance, 1) {
		return m
	}
	n := newNeighbours(m.Points, tolerance)
	at := make([]uint32, len(m.Points))
	for i := range m.Points {
		at[i] = n.first(uint32(i))
	}
	out := &Mesh{Points: append([]Vec32(nil), m.Points...), Triangles: make([][3]uint32, 0, len(m.Triangles))}
	for _, t := range m.Triangles {
		a, b, c := at[t[0]], at[t[1]], at[t[2]]
		if a != b && b != c && c != a {
			out.Triangles = append(out.Triangles, [3]uint32{a, b, c})
		}
	}
	out.compact()
	return out
}

// neighbours finds points near to another. Space is cut into cells twice the
// reach wide, so that whatever is within reach of a point lies in eight cells.
type neighbours struct {
	points []Vec32
	reach  float64
	heads  []uint32 // by the hash of a cell: its last point plus one
	next   []uint32 // by point: the one before it in the same slot, plus one
}

func newNeighbours(points []Vec32, reach float64) *neighbours {
	slots := fewestSlots
	for slots < 2*len(points) {
		slots *= 2
	}
	return &neighbours{points: points, reach: reach, heads: make([]uint32, slots), next: make([]uint32, len(points))}
}

// first is the point asked for before that lies within reach of point i, or i
// itself if there is none.
func (n *neighbours) first(i uint32) uint32 {
	p := n.points[i].Vec()
	var cell, beside [3]float64 // the cell of p, and the one beside it that is nearer
	for k := range cell {
		u := p[k] / (2 * n.reach)
		cell[k] = math.Floor(u)
		beside[k] = cell[k] + 1
		if u-cell[k] < 0.5 {
			beside[k] = cell[k] - 1
		}
	}
	for corner := range 8 {
		c := cell
		for k := range c {
			if corner>>k&1 == 1 {
				c[k] = beside[k]
			}
		}
		for j := n.heads[n.slot(c)]; j > 0; j = n.next[j-1] {
			if n.points[j-1].Vec().Sub(p).Norm() <= n.reach {
				return j - 1
			}
		}
	}
	s := n.slot(cell)
	n.next[i], n.heads[s] = n.heads[s], i+1
	return i
}

func (n *neighbours) slot(cell [3]float64) uint64 {
	h := uint64(0)
	for _, x := range cell {
		h = (h ^ math.Float64bits(x+0)) * 0x9e3779b97f4a7c15
		h ^= h >> 29
	}
	return h & uint64(len(n.heads)-1)
}
