package mesh

// readPLY reads the points and faces of a PLY, text or binary, whatever else
// is in it.
func readPLY(in *input, b *builder) error {
	s := newStream(in.all())
	head, err := readPLYHead(in, s)
	if err != nil {
		return err
	}
	if b.report.Format = BinaryPLY; head.order == nil {
		b.report.Format = TextPLY
	}
	b.report.Unit = head.unit
	b.report.Bodies = 1
	p := plyFile{in: in, s: s, head: head, build: b, report: b.report, part: part{once: true}}
	if err := p.tables(); err != nil {
		return err
	}
	if err := b.add(&p.part, &still); err != nil {
		return err
	}
	return s.err
}

type plyFile struct {
	in     *input
	s      *stream
	head   *plyHead
	build  *builder
	report *Report
	part   part
	list   []uint32 // the list read last, as numbers of points
	row    []float64
}

// tables reads the elements in their order, until the file ends.
func (p *plyFile) tables() error {
	for i := range p.head.elements {
		e := &p.head.elements[i]
		var take func() // what to do with a row that has been read
		list := -1
		x, y, z := e.find("x"), e.find("y"), e.find("z")
		switch e.name {
		case "vertex":
			if x < 0 || y < 0 || z < 0 {
				return p.in.fault("has points without x, y and z", "export it again")
			}
			take = func() { p.part.points = append(p.part.points, Vec{p.row[x], p.row[y], p.row[z]}) }
		case "face":
			list = e.listOf("vertex_indices", "vertex_index")
			p.report.Declared = int(e.rows)
			take = func() { p.part.face(p.list) }
		case "tristrips":
			list = e.listOf("vertex_indices", "vertex_index")
			take = func() { p.part.strip(p.list) }
		}
		if len(e.properties) == 0 {
			continue // rows of nothing take no room
		}
		found, err := p.rows(e, list, take)
		if err != nil {
			return err
		}
		if found < e.rows {
			p.report.harm("The header says %s of kind “%.40s”, %s found.", many(int(e.rows), "row"), e.name, grouped(int(found)))
			return nil // what comes after is not where it should be
		}
	}
	return nil
}

// listOf is the place of the list of that name, or of the first list.
func (e *plyElement) listOf(names ...string) int {
	if i := e.find(names...); i >= 0 && e.properties[i].count != 0 {
		return i
	}
	for i, q := range e.properties {
		if q.count != 0 {
			return i
		}
	}
	return -1
}

// rows reads the rows of an element, and says how many it could read. Of lists
// it keeps the one at the place list.
func (p *plyFile) rows(e *plyElement, list int, take func()) (found int64, err error) {
	p.row = make([]float64, len(e.properties))
	for ; found < e.rows; found++ {
		p.list = p.list[:0]
		for i := range e.properties {
			if !p.property(&e.properties[i], i, i == list) {
				return found, nil
			}
		}
		if take != nil {
			take()
		}
		if err := p.build.fits(&p.part); err != nil {
			return found, err
		}
	}
	return found, nil
}

// property reads one number or list; false if it is not there.
func (p *plyFile) property(q *plyProperty, place int, keep bool) (ok bool) {
	if q.count == 0 {
		p.row[place], ok = p.value(q.kind)
		return ok
	}
	n, ok := p.value(q.count)
	if !ok || !(n >= 0) {
		return false
	}
	if !keep && p.head.order != nil {
		return p.s.discard(int64(min(n, 1<<40)) * int64(q.kind.size()))
	}
	for ; n >= 1; n-- {
		v, ok := p.value(q.kind)
		if !ok {
			return false
		}
		if keep {
			p.list = append(p.list, pointNumber(v))
		}
	}
	return true
}

// pointNumber is v as the number of a point, or none.
func pointNumber(v float64) uint32 {
	if v >= 0 && v < lost {
		return uint32(v)
	}
	return none
}

// value reads the next number.
func (p *plyFile) value(kind plyType) (float64, bool) {
	if p.head.order == nil {
		return p.s.number()
	}
	b := p.s.take(kind.size())
	if b == nil {
		return 0, false
	}
	return kind.value(b, p.head.order), true
}

// strip adds a strip of triangles: each point after the second makes one with
// the two before it, turned every other time; none begins a new strip. Where a
// point is repeated the strip only bends.
func (p *part) strip(points []uint32) {
	run := 0
	for i, c := range points {
		if run++; c == none {
			run = 0
		}
		if run < 3 {
			continue
		}
		a, b := points[i-2], points[i-1]
		if a == b || b == c || c == a {
			continue
		}
		if run%2 == 0 {
			a, b = b, a
		}
		p.triangles = append(p.triangles, [3]uint32{a, b, c})
	}
}
