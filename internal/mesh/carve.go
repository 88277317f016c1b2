package mesh

// Cut is a plane and what of the form it goes through: everything, or only the
// outlines that pass nearest to some points, so that one arm can be cut off and
// the body beside it left whole.
type Cut struct {
	Plane Plane `json:"plane"`
	Near  []Vec `json:"near,omitempty"`
}

// carving is a mesh that has been cut: the triangles that a plane went through
// are parted in two or three, and the two sides share no points.
type carving struct {
	points    []Vec
	triangles [][3]uint32
	origin    []uint32 // the triangle that each is a part of
	seams     []seam
}

// seam is a piece of an outline: a point on either side of the cut there.
type seam struct {
	above, below uint32
	from, to     Vec
	length       float64
	cut          int
}

// carve cuts a surface along all planes, one after another. Planes without a
// direction cut nothing.
func carve(l *lump, cuts []Cut) *carving {
	c := &carving{
		points:    append([]Vec(nil), l.points...),
		triangles: append([][3]uint32(nil), l.triangles...),
		origin:    make([]uint32, len(l.triangles)),
	}
	for i := range c.origin {
		c.origin[i] = uint32(i)
	}
	for i, cut := range cuts {
		if p, ok := cut.Plane.unit(); ok {
			c.cut(p, cut.Near, i)
		}
	}
	return c
}

// cut parts the triangles that one plane goes through.
func (c *carving) cut(p Plane, near []Vec, number int) {
	found := crossings(c.points, c.triangles, p)
	if len(near) > 0 {
		found = nearest(found, near)
	}
	twins := map[edge][2]uint32{} // of the new points on a side: above, below
	split := func(e edge, at Vec) [2]uint32 {
		two, ok := twins[e]
		if !ok {
			two = [2]uint32{uint32(len(c.points)), uint32(len(c.points) + 1)}
			c.points = append(c.points, at, at)
			twins[e] = two
		}
		return two
	}
	height := func(i uint32) float64 { return p.height(c.points[i]) }
	for i := range found {
		x := &found[i]
		from, to := split(x.down, x.from), split(x.up, x.to)
		c.part(x.triangle, from, to, height)
		c.seams = append(c.seams, seam{from[0], from[1], x.from, x.to, x.to.Sub(x.from).Norm(), number})
	}
}

// part replaces a triangle by its parts: from and to are the new points, above
// and below, on the side that runs down and on the one that runs up.
func (c *carving) part(triangle int, from, to [2]uint32, height func(uint32) float64) {
	t := c.triangles[triangle]
	var first int // the corner after which the side that runs down begins
	for k := range 3 {
		if height(t[k]) >= 0 && height(t[(k+1)%3]) < 0 {
			first = k
		}
	}
	a, b, d := t[first], t[(first+1)%3], t[(first+2)%3] // a above, b below
	put := func(p, q, r uint32) {
		c.triangles = append(c.triangles, [3]uint32{p, q, r})
		c.origin = append(c.origin, c.origin[triangle])
	}
	if height(d) >= 0 { // b alone is below
		c.triangles[triangle] = [3]uint32{from[1], b, to[1]}
		put(a, from[0], to[0])
		put(a, to[0], d)
		return
	}
	c.triangles[triangle] = [3]uint32{a, from[0], to[0]}
	put(from[1], b, d)
	put(from[1], d, to[1])
}

// nearest keeps, for each point, the outline that passes nearest to it, and any
// that lies within that one.
func nearest(found []crossing, near []Vec) []crossing {
	all := chains(found)
	take := make([]bool, len(all))
	for _, q := range near {
		best, chosen := 0.0, -1
		for i, chain := range all {
			for _, k := range chain {
				if d := toSegment(q, found[k].from, found[k].to); chosen < 0 || d < best {
					best, chosen = d, i
				}
			}
		}
		if chosen >= 0 {
			take[chosen] = true
		}
	}
	var kept []crossing
	for i, chain := range all {
		if take[i] {
			for _, k := range chain {
				kept = append(kept, found[k])
			}
		}
	}
	return kept
}

// toSegment is the distance of a point from a line between two others.
func toSegment(q, a, b Vec) float64 {
	side, way := b.Sub(a), q.Sub(a)
	if l := side.Dot(side); l > 0 {
		way = way.Sub(side.Mul(min(max(way.Dot(side)/l, 0), 1)))
	}
	return way.Norm()
}
