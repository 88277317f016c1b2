package mesh

import "math"

// nowhere stands in for a point that cannot be read.
var nowhere = Vec{math.NaN(), math.NaN(), math.NaN()}

// A part is a piece of a form as a file lists it: points, and the faces that
// name them. A face may name points that are not there.
type part struct {
	points    []Vec
	triangles [][3]uint32
	polygons  []uint32 // how many corners, then their points; and so on
	once      bool     // it is added once, and its memory can be used again
}

// face adds a face of the points named; fewer than three are none.
func (p *part) face(corners []uint32) {
	switch {
	case len(corners) == 3:
		p.triangles = append(p.triangles, [3]uint32(corners))
	case len(corners) > 3:
		p.polygons = append(append(p.polygons, uint32(len(corners))), corners...)
	}
}

// fits is an error once a part that is being read is larger than is read.
func (b *builder) fits(p *part) error {
	if max(len(p.points), len(p.triangles), len(p.polygons)/5) <= b.limit {
		return nil
	}
	return b.tooMany()
}

// add puts a part where t takes it.
func (b *builder) add(p *part, t *transform) error {
	at, err := b.place(p.points, t)
	if err != nil {
		return err
	}
	join := b.join
	if t.mirrors() {
		join = func(f [3]uint32) { b.join([3]uint32{f[0], f[2], f[1]}) }
	}
	triangles := p.triangles
	if p.once && len(p.polygons) == 0 {
		p.points, p.triangles = nil, nil
		if b.triangles == nil {
			b.triangles = triangles[:0] // read ahead of what is written
		}
	}
	if err := b.addTriangles(triangles, at, join); err != nil {
		return err
	}
	return b.addPolygons(p, at, join)
}

func (b *builder) addTriangles(triangles [][3]uint32, at []uint32, join func([3]uint32)) error {
	for i, f := range triangles {
		if i%(1<<16) == 0 {
			if err := b.pause(); err != nil {
				return err
			}
		}
		b.report.Found++
		join([3]uint32{named(at, f[0]), named(at, f[1]), named(at, f[2])})
	}
	return nil
}

func (b *builder) addPolygons(p *part, at []uint32, join func([3]uint32)) error {
	var corners []Vec
	for rest := p.polygons; len(rest) > 0; {
		face := rest[1 : 1+rest[0]]
		rest = rest[1+rest[0]:]
		if err := b.pause(); err != nil {
			return err
		}
		b.report.Found += len(face) - 2
		corners = corners[:0]
		for _, i := range face {
			if named(at, i) < lost {
				corners = append(corners, p.points[i])
			}
		}
		if len(corners) < len(face) {
			b.report.Broken += len(face) - 2
			continue
		}
		if !cutUp(corners, func(x, y, z int) { join([3]uint32{at[face[x]], at[face[y]], at[face[z]]}) }) {
			b.rough++
		}
	}
	return nil
}

// named is the welded number of the file's point i.
func named(at []uint32, i uint32) uint32 {
	if int64(i) < int64(len(at)) {
		return at[i]
	}
	return none
}

// place welds points, taken where t takes them, and gives their numbers.
func (b *builder) place(points []Vec, t *transform) ([]uint32, error) {
	b.points += len(points)
	if b.weld == nil {
		b.weld = newWelder(len(points), len(points))
	}
	b.spare = true
	b.settle(points, t)
	at := make([]uint32, len(points))
	for from := 0; from < len(points); from += batch {
		if from%(batch<<10) == 0 {
			if err := b.pause(); err != nil {
				return nil, err
			}
		}
		to := min(from+batch, len(points))
		b.placeBatch(points[from:to], t, at[from:to])
	}
	return at, nil
}

func (b *builder) placeBatch(points []Vec, t *transform, at []uint32) {
	var bad [batch]bool
	anyBad := false
	o := b.origin
	for i := range points {
		p := points[i]
		if t != &still {
			p = t.apply(p)
		}
		q := plain(Vec32{float32(p[0] - o[0]), float32(p[1] - o[1]), float32(p[2] - o[2])})
		if !finite(&q) {
			bad[i], anyBad = true, true
			q = Vec32{} // welded in its stead; compact takes it out
		}
		b.kept[i] = q
	}
	b.weld.number(b.kept[:len(points)], at)
	for i := range points {
		if anyBad && bad[i] {
			at[i] = lost
		}
	}
}
