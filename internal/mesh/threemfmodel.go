package mesh

import "html"

// units3MF are the units a model can name (3MF Core Specification, 3.4).
var units3MF = map[string]Unit{
	"micron": Micrometre, "millimeter": Millimetre, "centimeter": Centimetre,
	"inch": Inch, "foot": Foot, "meter": Metre,
}

// model3MF is one model file of a 3MF package.
type model3MF struct {
	report  *Report
	unit    Unit
	objects map[string]*object3MF
	order   []string
	items   []component3MF

	now    *object3MF // the object being read
	things int        // objects, components and items so far
	inMesh bool       // slices and other extensions have vertices too
}

type object3MF struct {
	part       part
	components []component3MF
}

// component3MF places an object, in a build or in another object.
type component3MF struct {
	object string
	path   string // of the model that has the object; "" for the same
	at     transform
}

// read takes a model's tags one after another, as far as they go.
func (m *model3MF) read(s *stream, b *builder) error {
	for t, ok := s.tag(); ok; t, ok = s.tag() {
		if !m.inMesh {
			if m.outside(&t); m.things > mostPlaced {
				return b.tooMuch()
			}
			continue
		}
		switch {
		case string(t.name) == "mesh":
			m.inMesh = false
			continue
		case string(t.name) == "object": // the mesh was never ended
			m.inMesh = false
			m.outside(&t)
			continue
		case t.closing:
		case string(t.name) == "vertex":
			m.vertex(&t)
		case string(t.name) == "triangle":
			m.triangle(&t)
		}
		if err := b.fits(&m.now.part); err != nil {
			return err
		}
	}
	return nil
}

// outside reads a tag that is not in a mesh.
func (m *model3MF) outside(t *tag) {
	switch string(t.name) {
	case "object":
		m.now = nil
		if !t.closing {
			m.things++
			m.object(t)
		}
	case "mesh":
		m.inMesh = !t.closing && !t.empty && m.now != nil
	case "component":
		if m.now != nil && !t.closing {
			m.things++
			m.now.components = append(m.now.components, m.component(t))
		}
	case "item":
		if !t.closing {
			m.things++
			m.items = append(m.items, m.component(t))
		}
	case "model":
		if !t.closing {
			m.model(t)
		}
	}
}

func (m *model3MF) model(t *tag) {
	for name, value, ok := t.attribute(); ok; name, value, ok = t.attribute() {
		if string(name) != "unit" {
			continue
		}
		if u, known := units3MF[string(value)]; known {
			m.unit = u
		} else {
			m.report.harm("The file counts in “%.20s”, which is no unit of a 3MF; millimetres were taken.", value)
		}
	}
}

func (m *model3MF) object(t *tag) {
	var id, kind string
	for name, value, ok := t.attribute(); ok; name, value, ok = t.attribute() {
		switch string(name) {
		case "id":
			id = string(value)
		case "type":
			kind = string(value)
		}
	}
	m.now = &object3MF{}
	if kind == "support" || kind == "solidsupport" {
		m.report.note("Supports for printing were passed over.")
		m.objects[id] = &object3MF{} // read, but of no account
		return
	}
	m.objects[id] = m.now
	m.order = append(m.order, id)
}

func (m *model3MF) vertex(t *tag) {
	p, seen := nowhere, 0
	for name, value, ok := t.attribute(); ok && seen < 3; name, value, ok = t.attribute() {
		if len(name) != 1 || name[0] < 'x' || name[0] > 'z' {
			continue
		}
		if v, n, ok := number(value); ok && n == len(value) {
			p[name[0]-'x'] = v
		}
		seen++
	}
	m.now.part.points = append(m.now.part.points, p)
}

func (m *model3MF) triangle(t *tag) {
	f, seen := [3]uint32{none, none, none}, 0
	// What may follow the three is colour, and long.
	for name, value, ok := t.attribute(); ok && seen < 3; name, value, ok = t.attribute() {
		if len(name) != 2 || name[0] != 'v' || name[1] < '1' || name[1] > '3' {
			continue
		}
		if v, n := whole(value); n == len(value) && v >= 0 && v < lost {
			f[name[1]-'1'] = uint32(v)
		}
		seen++
	}
	m.now.part.triangles = append(m.now.part.triangles, f)
}

// component reads what an item or a component has in common.
func (m *model3MF) component(t *tag) component3MF {
	c := component3MF{at: still}
	for name, value, ok := t.attribute(); ok; name, value, ok = t.attribute() {
		switch string(name) {
		case "objectid":
			c.object = string(value)
		case "path":
			c.path = html.UnescapeString(string(value))
		case "transform":
			if at, ok := transform3MF(value); ok {
				c.at = at
			} else {
				m.report.harm("An object's place cannot be read; it was put where it is modelled.")
			}
		}
	}
	return c
}

// transform3MF reads twelve numbers: the images of the axes, then of the
// origin.
func transform3MF(text []byte) (t transform, ok bool) {
	for k := range 12 {
		for len(text) > 0 && text[0] <= ' ' {
			text = text[1:]
		}
		v, n, ok := number(text)
		if !ok {
			return t, false
		}
		t[k%3][k/3] = v
		text = text[n:]
	}
	return t, true
}

// loose are the objects that no other is made of, each where it is modelled.
func (m *model3MF) loose() []component3MF {
	inner := map[string]bool{}
	for _, o := range m.objects {
		for _, c := range o.components {
			inner[c.object] = true
		}
	}
	var out []component3MF
	for _, id := range m.order {
		if !inner[id] {
			out = append(out, component3MF{object: id, at: still})
		}
	}
	return out
}
