package mesh

import (
	"math"
)

// The solids whose measures are known exactly. Each is a closed mesh of
// triangles, counter-clockwise seen from outside, about n around.

// grid joins rows × columns of points into quads, each cut in two; the columns
// close on themselves, and the rows too if ring.
func grid(points []Vec, rows, columns int, ring bool) *Mesh {
	m := &Mesh{}
	for _, p := range points {
		m.Points = append(m.Points, p.Vec32())
	}
	last := rows - 1
	if ring {
		last = rows
	}
	for r := range last {
		for c := range columns {
			at := func(r, c int) uint32 { return uint32(r%rows*columns + c%columns) }
			a, b, d, e := at(r, c), at(r, c+1), at(r+1, c), at(r+1, c+1)
			m.Triangles = append(m.Triangles, [3]uint32{a, b, e}, [3]uint32{a, e, d})
		}
	}
	return m
}

// close joins the first and the last row of a grid to two poles.
func poles(m *Mesh, rows, columns int, south, north Vec) *Mesh {
	s := uint32(len(m.Points))
	m.Points = append(m.Points, south.Vec32(), north.Vec32())
	for c := range columns {
		a, b := uint32(c), uint32((c+1)%columns)
		top := uint32((rows - 1) * columns)
		m.Triangles = append(m.Triangles, [3]uint32{s, b, a}, [3]uint32{s + 1, top + a, top + b})
	}
	return m
}

// ellipsoid with half axes a, b, c about the origin.
func ellipsoid(a, b, c float64, n int) *Mesh {
	rows := n/2 - 1
	var points []Vec
	for r := range rows {
		lat := math.Pi * (float64(r+1)/float64(rows+1) - 0.5)
		for k := range n {
			lon := 2 * math.Pi * float64(k) / float64(n)
			points = append(points, Vec{a * math.Cos(lat) * math.Cos(lon), b * math.Cos(lat) * math.Sin(lon), c * math.Sin(lat)})
		}
	}
	return poles(grid(points, rows, n, false), rows, n, Vec{0, 0, -c}, Vec{0, 0, c})
}

func sphere(r float64, n int) *Mesh { return ellipsoid(r, r, r, n) }

// hollowSphere has a second skin inside, which faces the hollow.
func hollowSphere(outer, inner float64, n int) *Mesh {
	return join(sphere(outer, n), turnFaces(sphere(inner, n)))
}

// cylinder of radius r stands on z = 0 and is h high.
func cylinder(r, h float64, n, rows int) *Mesh {
	var points []Vec
	for k := range rows {
		for i := range n {
			a := 2 * math.Pi * float64(i) / float64(n)
			points = append(points, Vec{r * math.Cos(a), r * math.Sin(a), h * float64(k) / float64(rows-1)})
		}
	}
	return poles(grid(points, rows, n, false), rows, n, Vec{}, Vec{0, 0, h})
}

// torus about the z axis: R to the middle of the tube of radius r.
func torus(R, r float64, n int) *Mesh {
	var points []Vec
	rows := n / 2
	for k := range rows {
		b := 2 * math.Pi * float64(k) / float64(rows)
		for i := range n {
			a := 2 * math.Pi * float64(i) / float64(n)
			d := R + r*math.Cos(b)
			points = append(points, Vec{d * math.Cos(a), d * math.Sin(a), r * math.Sin(b)})
		}
	}
	return grid(points, rows, n, true)
}

// brick is a box from the origin to size, each face cut n × n.
func brick(size Vec, n int) *Mesh {
	m := &Mesh{}
	known := map[Vec32]uint32{}
	at := func(p Vec) uint32 {
		q := p.Vec32()
		i, ok := known[q]
		if !ok {
			i = uint32(len(m.Points))
			known[q] = i
			m.Points = append(m.Points, q)
		}
		return i
	}
	for axis := range 3 {
		u, v := (axis+1)%3, (axis+2)%3
		for side := range 2 {
			for i := range n {
				for j := range n {
					corner := func(di, dj int) uint32 {
						var p Vec
						p[axis] = float64(side) * size[axis]
						p[u] = size[u] * float64(i+di) / float64(n)
						p[v] = size[v] * float64(j+dj) / float64(n)
						return at(p)
					}
					a, b, c, d := corner(0, 0), corner(1, 0), corner(1, 1), corner(0, 1)
					if side == 1 {
						m.Triangles = append(m.Triangles, [3]uint32{a, b, c}, [3]uint32{a, c, d})
					} else {
						m.Triangles = append(m.Triangles, [3]uint32{a, c, b}, [3]uint32{a, d, c})
					}
				}
			}
		}
	}
	return m
}

func cube(a float64, n int) *Mesh { return brick(Vec{a, a, a}, n) }

// join puts several meshes into one, each keeping its own points.
func join(parts ...*Mesh) *Mesh {
	m := &Mesh{}
	for _, p := range parts {
		base := uint32(len(m.Points))
		m.Points = append(m.Points, p.Points...)
		for _, t := range p.Triangles {
			m.Triangles = append(m.Triangles, [3]uint32{t[0] + base, t[1] + base, t[2] + base})
		}
	}
	return m
}

func turnFaces(m *Mesh) *Mesh {
	out := &Mesh{Points: m.Points}
	for _, t := range m.Triangles {
		out.Triangles = append(out.Triangles, [3]uint32{t[0], t[2], t[1]})
	}
	return out
}

// turned is m turned by the three angles about x, y and z, then moved.
func turned(m *Mesh, angles, by Vec) *Mesh {
	out := &Mesh{Triangles: m.Triangles}
	for _, p := range m.Points {
		v := p.Vec()
		for axis, angle := range angles {
			u, w := (axis+1)%3, (axis+2)%3
			s, c := math.Sincos(angle)
			v[u], v[w] = c*v[u]-s*v[w], s*v[u]+c*v[w]
		}
		out.Points = append(out.Points, v.Add(by).Vec32())
	}
	return out
}

// without leaves out every triangle that drop says.
func without(m *Mesh, drop func(i int) bool) *Mesh {
	out := &Mesh{Points: m.Points}
	for i, t := range m.Triangles {
		if !drop(i) {
			out.Triangles = append(out.Triangles, t)
		}
	}
	return out
}

// lathe turns a profile about the z axis: at(s) gives radius and height for s
// from 0 to 1; the ends are closed flat, onto the axis.
func lathe(n int, at func(s float64) (r, z float64)) *Mesh {
	rows := 2 * n
	var points []Vec
	var bottom, top float64
	count := 0
	for k := range rows {
		r, z := at(float64(k) / float64(rows-1))
		if count == 0 {
			bottom = z
		}
		top = z
		if r < 1e-9 {
			continue
		}
		for i := range n {
			a := 2 * math.Pi * float64(i) / float64(n)
			points = append(points, Vec{r * math.Cos(a), r * math.Sin(a), z})
		}
		count++
	}
	return poles(grid(points, count, n, false), count, n, Vec{0, 0, bottom}, Vec{0, 0, top})
}

// paddle is the outline of a ball with a rod standing on it.
func paddle(s, ball, rod, long float64) (r, z float64) {
	meet := math.Asin(rod / ball)
	if s < 0.6 {
		a := math.Pi - s/0.6*(math.Pi-meet)
		return ball * math.Sin(a), ball * math.Cos(a)
	}
	foot := ball * math.Cos(meet)
	return rod, foot + (s-0.6)/0.4*(ball+long-foot)
}
