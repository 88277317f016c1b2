package mesh

import "math"

const (
	footShare = 0.01 // of the height: what lies lower and faces down is the foot
	rimShare  = 0.03 // of the height: a hole whose rim lies lower is an open foot
	gapShare  = 0.02 // of the longest side: a hole less wide is a gap in the scan
)

// footFaces says which triangles of a standing mesh are its foot.
func footFaces(m *Mesh, height float64) []bool {
	out := make([]bool, len(m.Triangles))
	limit := footShare * height
	for i := range m.Triangles {
		a, b, c := m.Corners(i)
		n := b.Sub(a).Cross(c.Sub(a))
		out[i] = a[2] <= limit && b[2] <= limit && c[2] <= limit && n[2] < -0.5*n.Norm()
	}
	return out
}

// HasOpenFoot says that a standing mesh has no foot: a hole whose whole rim lies
// in the lowest part, and which is no mere gap between triangles.
func HasOpenFoot(m *Mesh) bool { return len(openFeet(m)) > 0 }

// openFeet are the rims that a standing mesh may stand on.
func openFeet(m *Mesh) (feet [][]uint32) {
	low, high := box(m.Points)
	least := gapShare * largest(high.Sub(low))
	for _, loop := range rims(m) {
		if highest(m, loop) <= rimShare*high[2] && acrossRim(m, loop) >= least {
			feet = append(feet, loop)
		}
	}
	return feet
}

// acrossRim is how wide a rim is, along x or y.
func acrossRim(m *Mesh, loop []uint32) float64 {
	low, high := noNeed.low, noNeed.top
	for _, i := range loop {
		p := m.Points[i].Vec()
		for k := range 3 {
			low[k], high[k] = min(low[k], p[k]), max(high[k], p[k])
		}
	}
	return max(high[0]-low[0], high[1]-low[1])
}

// closeFoot adds a flat foot where a standing mesh has none: a face in every rim
// that it stands on.
func closeFoot(m *Mesh) *Mesh {
	out := &Mesh{Points: m.Points, Triangles: m.Triangles[:len(m.Triangles):len(m.Triangles)]}
	for _, loop := range openFeet(m) {
		out.Triangles = append(out.Triangles, fill(m, loop)...)
	}
	return out
}

func highest(m *Mesh, loop []uint32) float64 {
	z := math.Inf(-1)
	for _, p := range loop {
		z = max(z, float64(m.Points[p][2]))
	}
	return z
}

// rims follows the open edges round each hole. A rim runs against the triangles
// beside it, as the triangles that would close the hole do.
func rims(m *Mesh) [][]uint32 {
	after := map[uint32]uint32{}
	open := OpenEdges(m)
	for _, e := range open {
		after[e[1]] = e[0] // where holes touch, one of them is lost: it stays a hole
	}
	var loops [][]uint32
	for _, e := range open {
		var loop []uint32
		at, ok := e[1], true
		for ok {
			var next uint32
			if next, ok = after[at]; ok {
				loop = append(loop, at)
				delete(after, at)
				at = next
			}
		}
		if len(loop) >= 3 && at == loop[0] {
			loops = append(loops, loop)
		}
	}
	return loops
}

// fill closes a loop that is nearly level with triangles between its points, by
// cutting off one ear after another (Meisters, Amer. Math. Monthly 82(6), 1975).
func fill(m *Mesh, loop []uint32) [][3]uint32 {
	left := append([]uint32(nil), loop...)
	at := func(i int) Vec { return m.Points[left[(i+len(left))%len(left)]].Vec() }
	sign := 0.0
	for i := range left {
		a, b := at(i), at(i+1)
		sign += a[0]*b[1] - a[1]*b[0]
	}
	var out [][3]uint32
	for i, misses := 0, 0; len(left) > 3; i++ {
		i %= len(left)
		a, b, c := at(i-1), at(i), at(i+1)
		if misses <= len(left) && (turnOf(a, b, c)*sign <= 0 || anyWithin(m, left, a, b, c)) {
			misses++ // after a whole round without an ear the loop crosses itself: cut on
			continue
		}
		n := len(left)
		out = append(out, [3]uint32{left[(i-1+n)%n], left[i], left[(i+1)%n]})
		left = append(left[:i], left[i+1:]...)
		misses = 0
	}
	return append(out, [3]uint32{left[0], left[1], left[2]})
}

// turnOf is twice the area of the triangle seen from above; below zero to the right.
func turnOf(a, b, c Vec) float64 {
	return (b[0]-a[0])*(c[1]-a[1]) - (b[1]-a[1])*(c[0]-a[0])
}

func anyWithin(m *Mesh, loop []uint32, a, b, c Vec) bool {
	side := turnOf(a, b, c)
	for _, i := range loop {
		p := m.Points[i].Vec()
		if p == a || p == b || p == c {
			continue
		}
		if turnOf(a, b, p)*side >= 0 && turnOf(b, c, p)*side >= 0 && turnOf(c, a, p)*side >= 0 {
			return true
		}
	}
	return false
}
