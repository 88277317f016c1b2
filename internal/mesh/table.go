package mesh

import "math"

// Table is a form in slices across one axis: what is needed to cut it into
// sections along that axis at any scale and wall, without the form itself. A
// slice that falls into several separate parts, such as two legs, is several
// rows; where two rows meet, the table knows the weld that a cut there takes.
type Table struct {
	Axis   int     // 0, 1 or 2: across x, y or z
	Low    float64 // where the first slice begins, m
	Thick  float64 // of a slice, m
	Slices int
	Parts  []Part
	Joints []Joint
}

// Part is one connected piece of a slice.
type Part struct {
	Slice    int
	Area     float64 // m²
	Volume   float64 // m³
	Low, Top Vec     // of its box, m
	shares   shares
}

// Joint is where two parts of neighbouring slices meet.
type Joint struct {
	Below, Above int     // parts
	Weld         float64 // length of the outlines of a cut there, m
	Near         []Vec   // a point on each outline
}

// slicer cuts a lump into slices.
type slicer struct {
	lump  *lump
	table *Table
	first []uint32 // of each triangle: its number in its lowest slice; in the next, one more
	part  []uint32 // of each number
	span  [][2]int // lowest and highest slice of each triangle
}

// slice makes the table of a lump across an axis.
func (l *lump) slice(axis, slices int, reach float64) *Table {
	s := &slicer{lump: l, table: &Table{Axis: axis, Slices: slices}}
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range l.points {
		low, high = min(low, p[axis]), max(high, p[axis])
	}
	if !(high > low) {
		return s.table
	}
	s.table.Low, s.table.Thick = low, (high-low)/float64(slices)
	s.number()
	s.name(s.connect())
	s.measure()
	s.join()
	s.share(reach)
	return s.table
}

// level is where slice k begins.
func (t *Table) level(k int) float64 { return t.Low + t.Thick*float64(k) }

// sliceOf a height; what lies just on a level is in the slice above it.
func (t *Table) sliceOf(z float64) int {
	k := min(max(int((z-t.Low)/t.Thick), 0), t.Slices-1)
	for k > 0 && z < t.level(k) { // what rounding did
		k--
	}
	for k < t.Slices-1 && z >= t.level(k+1) {
		k++
	}
	return k
}

// number gives every triangle a number for each slice it reaches into.
func (s *slicer) number() {
	s.span = make([][2]int, len(s.lump.triangles))
	s.first = make([]uint32, len(s.lump.triangles)+1)
	for i, t := range s.lump.triangles {
		z := [3]float64{}
		for k, p := range t {
			z[k] = s.lump.points[p][s.table.Axis]
		}
		s.span[i] = [2]int{s.table.sliceOf(min(z[0], z[1], z[2])), s.table.sliceOf(max(z[0], z[1], z[2]))}
		s.first[i+1] = s.first[i] + uint32(s.span[i][1]-s.span[i][0]+1)
	}
}

// connect joins the numbers of triangles that share an edge, slice by slice.
func (s *slicer) connect() forest {
	f := newForest(int(s.first[len(s.first)-1]))
	e := sortEdges(len(s.lump.points), s.lump.triangles, true)
	e.among(0, len(s.lump.points), func(run []uint32, vertex, at int) {
		a, b := s.lump.points[vertex][s.table.Axis], s.lump.points[run[0]>>1][s.table.Axis]
		from, to := s.table.sliceOf(min(a, b)), s.table.sliceOf(max(a, b))
		one := e.side[at] / 3
		for i := 1; i < len(run); i++ {
			for k := from; k <= to; k++ {
				f.join(s.at(one, k), s.at(e.side[at+i]/3, k))
			}
		}
	})
	return f
}

// at is the number of a triangle in a slice.
func (s *slicer) at(triangle uint32, slice int) uint32 {
	span := s.span[triangle]
	return s.first[triangle] + uint32(min(max(slice, span[0]), span[1])-span[0])
}

// name makes parts of what is connected.
func (s *slicer) name(f forest) {
	inf := math.Inf(1)
	s.part = make([]uint32, len(f))
	named := make([]uint32, len(f)) // the part of a set, plus one
	var body []uint32
	for i := range s.lump.triangles {
		for k := s.span[i][0]; k <= s.span[i][1]; k++ {
			n := s.at(uint32(i), k)
			r := f.find(n)
			if named[r] == 0 {
				s.table.Parts = append(s.table.Parts, Part{Slice: k, Low: Vec{inf, inf, inf}, Top: Vec{-inf, -inf, -inf}})
				named[r] = uint32(len(s.table.Parts))
				if s.lump.body != nil {
					body = append(body, s.lump.body[i])
				}
			}
			s.part[n] = named[r] - 1
		}
	}
	s.boxes()
	if s.lump.body != nil {
		s.joinBodies(body)
	}
}

// boxes gives every part its box: of the points in it and of where its sides
// pass from one slice to the next.
func (s *slicer) boxes() {
	axis := s.table.Axis
	for i, t := range s.lump.triangles {
		for k, p := range t {
			a, b := s.lump.points[p], s.lump.points[t[(k+1)%3]]
			s.grow(uint32(i), s.table.sliceOf(a[axis]), a)
			from, to := s.table.sliceOf(min(a[axis], b[axis])), s.table.sliceOf(max(a[axis], b[axis]))
			for j := from + 1; j <= to; j++ {
				q := a.Add(b.Sub(a).Mul((s.table.level(j) - a[axis]) / (b[axis] - a[axis])))
				s.grow(uint32(i), j-1, q)
				s.grow(uint32(i), j, q)
			}
		}
	}
}

func (s *slicer) grow(triangle uint32, slice int, q Vec) {
	p := &s.table.Parts[s.part[s.at(triangle, slice)]]
	for k, x := range q {
		p.Low[k], p.Top[k] = min(p.Low[k], x), max(p.Top[k], x)
	}
}

// joinBodies makes one part of those in a slice that are cast as one: a skin and
// its hollow.
func (s *slicer) joinBodies(body []uint32) {
	parts := s.table.Parts
	bySlice := make([][]int, s.table.Slices)
	for i, p := range parts {
		bySlice[p.Slice] = append(bySlice[p.Slice], i)
	}
	f := newForest(len(parts))
	for _, list := range bySlice {
		for n, i := range list {
			for _, j := range list[:n] {
				if body[i] == body[j] && boxesMeet(Size{Min: parts[i].Low, Max: parts[i].Top}, Size{Min: parts[j].Low, Max: parts[j].Top}) {
					f.join(uint32(i), uint32(j))
				}
			}
		}
	}
	to := make([]uint32, len(parts))
	var kept []Part
	for i, p := range parts {
		r := f.find(uint32(i))
		if int(r) == i {
			to[i] = uint32(len(kept))
			kept = append(kept, p)
			continue
		}
		to[i] = to[r]
		k := &kept[to[r]]
		for axis := range 3 {
			k.Low[axis], k.Top[axis] = min(k.Low[axis], p.Low[axis]), max(k.Top[axis], p.Top[axis])
		}
	}
	s.table.Parts = kept
	for i, n := range s.part {
		s.part[i] = to[n]
	}
}

// measure gives every part its area, and what its skin adds to its volume: the
// flow of the height above the slice's bottom through the skin.
func (s *slicer) measure() {
	axis := s.table.Axis
	for i, t := range s.lump.triangles {
		a, b, c := s.lump.points[t[0]], s.lump.points[t[1]], s.lump.points[t[2]]
		normal := b.Sub(a).Cross(c.Sub(a)).Mul(0.5)
		whole := normal.Norm()
		if whole <= 0 {
			continue
		}
		z := sorted3(a[axis], b[axis], c[axis])
		area, moment := 0.0, 0.0 // below the level reached
		for k := s.span[i][0]; k <= s.span[i][1]; k++ {
			upTo, momentTo := 1.0, (z[0]+z[1]+z[2])/3
			if k < s.span[i][1] {
				upTo, momentTo = below(z, s.table.level(k+1))
			}
			p := &s.table.Parts[s.part[s.at(uint32(i), k)]]
			if !s.lump.bare[i] {
				p.Area += whole * (upTo - area)
			}
			p.Volume += normal[axis] * (momentTo - moment - s.table.level(k)*(upTo-area))
			area, moment = upTo, momentTo
		}
	}
}

// below is the share of a triangle's area that lies under a level between its
// lowest and its highest corner, and that share times its mean height.
func below(z [3]float64, level float64) (area, moment float64) {
	if level < z[1] {
		area = (level - z[0]) * (level - z[0]) / ((z[1] - z[0]) * (z[2] - z[0]))
		return area, area * (z[0] + 2*level) / 3
	}
	if level >= z[2] {
		return 1, (z[0] + z[1] + z[2]) / 3
	}
	above := (z[2] - level) * (z[2] - level) / ((z[2] - z[1]) * (z[2] - z[0]))
	return 1 - above, (z[0]+z[1]+z[2])/3 - above*(z[2]+2*level)/3
}

func sorted3(a, b, c float64) [3]float64 {
	return [3]float64{min(a, b, c), max(min(a, b), min(max(a, b), c)), max(a, b, c)}
}

// join finds the outlines on every level and the parts that meet there, and
// closes the volumes with the faces of the cuts.
func (s *slicer) join() {
	crossed := make([][]uint32, s.table.Slices)
	for i, span := range s.span {
		for k := span[0] + 1; k <= span[1]; k++ {
			crossed[k] = append(crossed[k], uint32(i))
		}
	}
	var normal Vec
	normal[s.table.Axis] = 1
	for k := 1; k < s.table.Slices; k++ {
		plane := Plane{At: normal.Mul(s.table.level(k)), Normal: normal}
		var found []crossing
		for _, i := range crossed[k] {
			if x, ok := cross(s.lump.points, &s.lump.triangles[i], plane); ok {
				x.triangle = int(i)
				found = append(found, x)
			}
		}
		known := map[[2]uint32]int{}
		for _, chain := range chains(found) {
			loop := loopOf(found, chain, plane)
			i := uint32(found[chain[0]].triangle)
			pair := [2]uint32{s.part[s.at(i, k-1)], s.part[s.at(i, k)]}
			n, ok := known[pair]
			if !ok {
				n = len(s.table.Joints)
				known[pair] = n
				s.table.Joints = append(s.table.Joints, Joint{Below: int(pair[0]), Above: int(pair[1])})
			}
			j := &s.table.Joints[n]
			j.Weld += loop.Length
			middle := &found[chain[len(chain)/2]] // where it ends it may touch another section's outline
			j.Near = append(j.Near, middle.from.Add(middle.to).Mul(0.5))
			s.table.Parts[pair[0]].Volume += s.table.Thick * loop.Area // its top; its bottom is at height 0
		}
	}
}

// share gives each part its share of the metal of the lump's cells.
func (s *slicer) share(reach float64) {
	label := make([]uint32, len(s.lump.cells))
	for i := range s.lump.cells {
		foot := s.lump.cells[i].foot()
		label[i] = s.part[s.at(s.lump.under[i], s.table.sliceOf(foot[s.table.Axis]))]
	}
	areas := make([]float64, len(s.table.Parts))
	for i := range areas {
		areas[i] = s.table.Parts[i].Area
	}
	for i, x := range sharesOf(s.lump.cells, label, areas, reach) {
		s.table.Parts[i].shares = x
	}
}
