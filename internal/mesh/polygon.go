package mesh

import "math"

// mostClipped is how many corners a polygon with dents may have to be cut up
// properly: the work grows with the square. A larger one is cut like a fan.
const mostClipped = 1024

// cutUp divides a polygon into triangles, given as places in the polygon, and
// says whether they cover just what the polygon does. Corners lie in a plane,
// or nearly; dents are allowed, crossing edges are not.
func cutUp(corners []Vec, give func(a, b, c int)) (sound bool) {
	n := len(corners)
	if n == 3 {
		give(0, 1, 2)
		return true
	}
	flat := flatten(corners)
	switch {
	case n == 4:
		cutQuad(corners, flat, give)
		return true
	case fans(flat):
		fan(n, give)
		return true
	case n <= mostClipped:
		return clip(flat, give)
	}
	fan(n, give)
	return false
}

// fan cuts a polygon from its first corner.
func fan(n int, give func(a, b, c int)) {
	for i := 2; i < n; i++ {
		give(0, i-1, i)
	}
}

// cutQuad cuts across the dent if there is one, else along the shorter
// diagonal, which on a warped quad is nearer to the surface it stands for.
func cutQuad(p []Vec, flat [][2]float64, give func(a, b, c int)) {
	inside := func(i int) bool { // the diagonal from corner i is inside
		j, k, l := (i+1)%4, (i+2)%4, (i+3)%4
		return turn(flat[i], flat[j], flat[k]) > 0 && turn(flat[i], flat[k], flat[l]) > 0
	}
	first, second := inside(0), inside(1)
	if first == second {
		first = p[2].Sub(p[0]).Norm() <= p[3].Sub(p[1]).Norm()
	}
	if first {
		give(0, 1, 2)
		give(0, 2, 3)
		return
	}
	give(1, 2, 3)
	give(1, 3, 0)
}

// flatten lays a polygon into a plane so that it runs counter-clockwise: it
// leaves out the axis along which the polygon's normal is longest.
func flatten(p []Vec) [][2]float64 {
	var normal Vec // M. E. Newell's: the areas of the three shadows
	for i, a := range p {
		b := p[(i+1)%len(p)]
		normal = normal.Add(a.Sub(p[0]).Cross(b.Sub(p[0])))
	}
	k := 0
	for i := range 3 {
		if math.Abs(normal[i]) > math.Abs(normal[k]) {
			k = i
		}
	}
	u, v := (k+1)%3, (k+2)%3
	if normal[k] < 0 {
		u, v = v, u
	}
	flat := make([][2]float64, len(p))
	for i, q := range p {
		flat[i] = [2]float64{q[u], q[v]}
	}
	return flat
}

// turn is above zero if the way a, b, c bends to the left.
func turn(a, b, c [2]float64) float64 {
	return (b[0]-a[0])*(c[1]-a[1]) - (b[1]-a[1])*(c[0]-a[0])
}

// fans is whether a fan from the first corner covers just the polygon, as it
// does if there is no dent.
func fans(p [][2]float64) bool {
	for i := 2; i < len(p); i++ {
		if turn(p[0], p[i-1], p[i]) < 0 {
			return false
		}
	}
	return true
}

// clip cuts one ear after another off a polygon: a corner that bends outwards
// and whose triangle holds no other corner. Where edges cross there comes a
// time without an ear, or the last triangle faces the other way.
func clip(p [][2]float64, give func(a, b, c int)) (sound bool) {
	ring := make([]int, len(p))
	for i := range ring {
		ring[i] = i
	}
	sound = true
	for at, missed := 0, 0; len(ring) > 3; {
		n := len(ring)
		at %= n
		a, b, c := ring[(at+n-1)%n], ring[at], ring[(at+1)%n]
		if !isEar(p, ring, a, b, c) {
			if missed < n {
				missed++
				at++
				continue
			}
			sound = sound && turn(p[a], p[b], p[c]) == 0
		}
		give(a, b, c)
		ring = append(ring[:at], ring[at+1:]...)
		missed = 0
	}
	give(ring[0], ring[1], ring[2])
	return sound && turn(p[ring[0]], p[ring[1]], p[ring[2]]) >= 0
}

func isEar(p [][2]float64, ring []int, a, b, c int) bool {
	if turn(p[a], p[b], p[c]) <= 0 {
		return false
	}
	for _, i := range ring {
		if i == a || i == b || i == c || p[i] == p[a] || p[i] == p[b] || p[i] == p[c] {
			continue
		}
		if turn(p[a], p[b], p[i]) >= 0 && turn(p[b], p[c], p[i]) >= 0 && turn(p[c], p[a], p[i]) >= 0 {
			return false
		}
	}
	return true
}
