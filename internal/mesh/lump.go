package mesh

// lump is a form, or one section of it, as the planner takes it: a surface and
// the cells of metal that lie under each of its triangles.
type lump struct {
	points    []Vec
	triangles [][3]uint32
	bare      []bool   // by triangle
	body      []uint32 // by triangle; nil if each shell is its own
	cells     []cell
	under     []uint32 // the triangle that each cell lies under
}

// lumpOf is the whole form.
func (w *Wall) lumpOf() *lump {
	m := w.Skin.Mesh
	l := &lump{points: make([]Vec, len(m.Points)), triangles: m.Triangles, bare: w.Skin.Bare, body: w.Skin.Body}
	for i, p := range m.Points {
		l.points[i] = p.Vec()
	}
	if l.bare == nil {
		l.bare = make([]bool, len(m.Triangles))
	}
	from := w.octree
	if w.planned != nil {
		from = w.planned
	}
	if from != nil {
		l.cells = append(append(l.cells, from.settled...), from.open...)
	}
	l.under = make([]uint32, len(l.cells))
	for i := range l.cells {
		l.under[i] = w.skin.order[l.cells[i].place]
	}
	return l
}

// part cuts a lump and gives its pieces as lumps.
func (l *lump) part(cuts []Cut) []*lump { return l.partAs(findPieces(l, cuts)) }

// partAs gives the pieces that a lump was cut into as lumps.
func (l *lump) partAs(p *pieces) []*lump {
	out := make([]*lump, p.number)
	for i := range out {
		out[i] = &lump{}
	}
	triangle := make([]uint32, len(p.triangles)) // its number in its piece
	point := make([]uint32, len(p.points))       // its number in its piece, plus one
	for i, t := range p.triangles {
		o := out[p.of[i]]
		triangle[i] = uint32(len(o.triangles))
		for k, q := range t {
			if point[q] == 0 {
				o.points = append(o.points, p.points[q])
				point[q] = uint32(len(o.points))
			}
			t[k] = point[q] - 1
		}
		o.triangles = append(o.triangles, t)
		o.bare = append(o.bare, l.bare[p.origin[i]])
		if l.body != nil {
			o.body = append(o.body, l.body[p.origin[i]])
		}
	}
	for i := range l.cells {
		k := p.triangleAt(l.under[i], l.cells[i].foot())
		o := out[p.of[k]]
		o.cells = append(o.cells, l.cells[i])
		o.under = append(o.under, triangle[k])
	}
	return out
}
