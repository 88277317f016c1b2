package mesh

import (
	"context"
	"math"
)

// Size is what a pass over the triangles tells of a form. Lengths are in the
// mesh's own unit, areas in its square, volumes in its cube.
type Size struct {
	Area     float64 // of all triangles
	Volume   float64 // enclosed; below zero if the faces are inverted; a guess unless the mesh is closed
	Min, Max Vec     // corners of the box
	Centre   Vec     // of the enclosed volume; of the surface where nothing is enclosed
}

// Box is the size of the box: along x, y and z.
func (s Size) Box() Vec { return s.Max.Sub(s.Min) }

// Long is the longest side of the box.
func (s Size) Long() float64 { return largest(s.Box()) }

// Measure sums the area, the volume (each triangle with the middle of the box
// makes a tetrahedron: divergence theorem) and the centre of mass. The sums are
// compensated; what is left is the rounding of the coordinates, some parts in
// a thousand million.
func Measure(m *Mesh) Size {
	var s Size
	s.Min, s.Max = box(m.Points)
	return s.sum(m.Points, m.Triangles)
}

// measureSome is Measure for some of a mesh's triangles; the box is theirs.
func measureSome(points []Vec32, triangles [][3]uint32) Size {
	var s Size
	if len(triangles) > 0 {
		lo := points[triangles[0][0]]
		hi := lo
		for i := range triangles {
			for _, p := range triangles[i] {
				for k, x := range points[p] {
					lo[k], hi[k] = min(lo[k], x), max(hi[k], x)
				}
			}
		}
		s.Min, s.Max = lo.Vec(), hi.Vec()
	}
	return s.sum(points, triangles)
}

func (s Size) sum(points []Vec32, triangles [][3]uint32) Size {
	if len(triangles) == 0 {
		return s
	}
	origin := s.Min.Add(s.Max).Mul(0.5)
	total := sumTriangles(points, triangles, origin, sumRun)
	s.Area, s.Volume = total[0]/2, total[1]/6
	box := s.Box()
	switch {
	case math.Abs(s.Volume) > 1e-9*box[0]*box[1]*box[2]:
		moment := Vec{total[2], total[3], total[4]}.Mul(1.0 / 24)
		s.Centre = origin.Add(moment.Mul(1 / s.Volume))
	case s.Area > 0:
		skin := sumTriangles(points, triangles, origin, sumSkin)
		s.Centre = origin.Add(Vec{skin[2], skin[3], skin[4]}.Mul(1 / (6 * s.Area)))
	default:
		s.Centre = origin
	}
	return s
}

// sums are: twice the area, six times the volume, and the volume, or the area,
// weighted with the sum of the corners.
type sums [5]float64

// sumTriangles adds up runs of triangles on all cores, then the runs, each run
// with a compensation for what rounding loses.
func sumTriangles(points []Vec32, triangles [][3]uint32, origin Vec, one func([]Vec32, [][3]uint32, Vec) sums) sums {
	const run = 4096
	parts := make([]sums, (len(triangles)+run-1)/run)
	_ = inChunks(context.Background(), len(triangles), run, func(chunk, from, to int) {
		parts[chunk] = one(points, triangles[from:to], origin)
	})
	var total, lost sums
	for _, p := range parts {
		for i, v := range p {
			total[i], lost[i] = addExactly(total[i], lost[i], v)
		}
	}
	for i := range total {
		total[i] += lost[i]
	}
	return total
}

// sumRun weighs the volume.
func sumRun(points []Vec32, triangles [][3]uint32, origin Vec) sums {
	ox, oy, oz := origin[0], origin[1], origin[2]
	var area, volume, vx, vy, vz float64
	for i := range triangles {
		t := &triangles[i]
		a, b, c := &points[t[0]], &points[t[1]], &points[t[2]]
		ax, ay, az := float64(a[0]), float64(a[1]), float64(a[2])
		ux, uy, uz := float64(b[0])-ax, float64(b[1])-ay, float64(b[2])-az
		wx, wy, wz := float64(c[0])-ax, float64(c[1])-ay, float64(c[2])-az
		ax, ay, az = ax-ox, ay-oy, az-oz
		nx, ny, nz := uy*wz-uz*wy, uz*wx-ux*wz, ux*wy-uy*wx
		v := ax*nx + ay*ny + az*nz
		area += math.Sqrt(nx*nx + ny*ny + nz*nz)
		volume += v
		vx += v * (3*ax + ux + wx)
		vy += v * (3*ay + uy + wy)
		vz += v * (3*az + uz + wz)
	}
	return sums{area, volume, vx, vy, vz}
}

// sumSkin weighs the area: for a surface that encloses nothing.
func sumSkin(points []Vec32, triangles [][3]uint32, origin Vec) (total sums) {
	for _, t := range triangles {
		a, b, c := points[t[0]].Vec().Sub(origin), points[t[1]].Vec().Sub(origin), points[t[2]].Vec().Sub(origin)
		twice := b.Sub(a).Cross(c.Sub(a)).Norm()
		middle := a.Add(b).Add(c).Mul(twice)
		total[0] += twice
		for k, x := range middle {
			total[2+k] += x
		}
	}
	return total
}

// addExactly adds v to sum and gathers in lost what the addition rounds away
// (Neumaier, Z. Angew. Math. Mech. 54, 1974).
func addExactly(sum, lost, v float64) (newSum, newLost float64) {
	t := sum + v
	if math.Abs(sum) >= math.Abs(v) {
		return t, lost + (sum - t + v)
	}
	return t, lost + (v - t + sum)
}

// box gives the lowest and highest coordinates; zero for no points.
func box(points []Vec32) (low, high Vec) {
	const run = 1 << 15
	if len(points) == 0 {
		return low, high
	}
	parts := make([][2]Vec32, (len(points)+run-1)/run)
	_ = inChunks(context.Background(), len(points), run, func(chunk, from, to int) {
		parts[chunk][0], parts[chunk][1] = bounds(points[from:to])
	})
	lo, hi := parts[0][0], parts[0][1]
	for _, p := range parts[1:] {
		for k := range 3 {
			lo[k], hi[k] = min(lo[k], p[0][k]), max(hi[k], p[1][k])
		}
	}
	return lo.Vec(), hi.Vec()
}

// bounds is box on one core.
func bounds(points []Vec32) (lo, hi Vec32) {
	if len(points) == 0 {
		return lo, hi
	}
	lo, hi = points[0], points[0]
	for i := range points {
		spread(&lo, &hi, &points[i])
	}
	return lo, hi
}

func largest(v Vec) float64 { return max(v[0], v[1], v[2]) }

// spread widens a box to hold p. Branches that are nearly always guessed right
// beat min and max, which take care of what is no number.
func spread(lo, hi, p *Vec32) {
	for k := range p {
		if p[k] < lo[k] {
			lo[k] = p[k]
		}
		if p[k] > hi[k] {
			hi[k] = p[k]
		}
	}
}
