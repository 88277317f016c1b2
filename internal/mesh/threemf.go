package mesh

import (
	"fmt"
	"html"
	"io"
	"path"
	"strings"
)

// mostInflated is how many bytes an archive may unpack to: a mesh of fifty
// million triangles.
const mostInflated = 4 << 30

// read3MF reads the build of a 3MF file: an archive with a model in XML, whose
// items name objects, which are meshes or made of other objects (3MF Core
// Specification 1.3; other model files by the Production Extension).
func read3MF(in *input, b *builder) error {
	files, err := listArchive(in)
	if err != nil {
		return err
	}
	if files.cut {
		b.report.harm("The archive has lost its end; what is left was read.")
	}
	p := &package3MF{in: in, build: b, files: files, models: map[string]*model3MF{}, left: mostInflated}
	root := p.root()
	if root == "" {
		return in.fault("is an archive without a 3D model in it", "unpack it and give the scan itself")
	}
	model, err := p.model(root)
	if err != nil {
		return err
	}
	b.report.Unit = model.unit
	b.report.Up = ZUp // section 3.3 of the core specification
	return p.place(root, model)
}

// package3MF is a 3MF file with the models read so far.
type package3MF struct {
	in     *input
	build  *builder
	files  archived
	models map[string]*model3MF
	left   int64 // bytes that may still be unpacked
}

// open unpacks the file of that name; what it gives counts against what may be
// unpacked.
func (p *package3MF) open(name string) (io.ReadCloser, error) {
	f := p.files.find(name)
	if f == nil {
		return nil, p.in.fault(fmt.Sprintf("lacks “%.80s”, which it names", name), "export it again")
	}
	r, err := f.open()
	if err != nil {
		return nil, p.in.fault(fmt.Sprintf("holds “%.80s”, which cannot be unpacked (%v)", name, err), "export it again")
	}
	return &capped{r, p}, nil
}

// A capped reader gives no more than the package may unpack to.
type capped struct {
	io.ReadCloser
	pack *package3MF
}

func (c *capped) Read(b []byte) (int, error) {
	n, err := c.ReadCloser.Read(b)
	if c.pack.left -= int64(n); c.pack.left < 0 {
		return 0, c.pack.in.fault("unpacks to more than 4 GB", "thin the scan out")
	}
	return n, err
}

// root is the name of the model that the package is about: the one that its
// relationships say, else the first there is.
func (p *package3MF) root() string {
	if r, err := p.open("_rels/.rels"); err == nil {
		defer r.Close()
		s := newStream(r)
		for t, ok := s.tag(); ok; t, ok = s.tag() {
			if target := modelTarget(&t); target != "" && p.files.find(target) != nil {
				return target
			}
		}
	}
	for _, f := range p.files.list {
		if strings.EqualFold(path.Ext(f.name), ".model") {
			return f.name
		}
	}
	return ""
}

// modelTarget is the name of the model, if the tag is its relationship.
func modelTarget(t *tag) string {
	var kind, target string
	for name, value, ok := t.attribute(); ok; name, value, ok = t.attribute() {
		switch string(name) {
		case "Type":
			kind = string(value)
		case "Target":
			target = html.UnescapeString(string(value))
		}
	}
	if !strings.HasSuffix(kind, "/3dmodel") {
		return ""
	}
	return target
}

// model reads the model of that name, once.
func (p *package3MF) model(name string) (*model3MF, error) {
	key := strings.ToLower(strings.TrimPrefix(name, "/"))
	if m, ok := p.models[key]; ok {
		return m, nil
	}
	r, err := p.open(name)
	if err != nil {
		return nil, err
	}
	defer r.Close()
	s := newStream(r)
	m := &model3MF{report: p.build.report, unit: Millimetre, objects: map[string]*object3MF{}}
	if err := m.read(s, p.build); err != nil {
		return nil, err
	}
	p.models[key] = m
	switch {
	case s.err == nil:
	case p.in.meter.ctx.Err() != nil || p.left < 0:
		return nil, s.err
	default:
		p.build.report.harm("The model in the archive ends too early or is damaged (%v).", s.err)
	}
	return m, nil
}

const (
	deepest3MF = 64
	mostPlaced = 1 << 20 // objects, wherever they are named
)

// placing follows the objects that an item is made of.
type placing struct {
	pack *package3MF
	open map[*object3MF]bool // those we are within
	left int                 // objects that may still be placed
	root *model3MF
}

// place puts every item of the build where it belongs.
func (p *package3MF) place(name string, m *model3MF) error {
	items := m.items
	if len(items) == 0 {
		p.build.report.harm("The file does not say which of its objects are to be built; all were taken.")
		items = m.loose()
	}
	if len(items) == 1 && m.things <= 2 { // one object, placed once: what most files are
		if o := m.objects[items[0].object]; o != nil {
			o.part.once = true
		}
	}
	run := &placing{pack: p, open: map[*object3MF]bool{}, left: mostPlaced, root: m}
	for _, item := range items {
		if err := run.component(name, m, item, &still); err != nil {
			return err
		}
	}
	p.build.report.Bodies = len(items)
	return nil
}

// component puts the object that c names where t takes it.
func (run *placing) component(name string, m *model3MF, c component3MF, t *transform) error {
	report := run.pack.build.report
	t = t.after(&c.at)
	if c.path != "" {
		name = c.path
		other, err := run.pack.model(name)
		if err != nil {
			return err
		}
		if m = other; m.unit != run.root.unit && m.unit.Metres > 0 {
			t = t.after(enlarge(m.unit.Metres / run.root.unit.Metres))
		}
	}
	o := m.objects[c.object]
	if o == nil {
		report.harm("Object %.20s is to be built, but is not there.", c.object)
		return nil
	}
	if run.open[o] || len(run.open) >= deepest3MF {
		report.harm("Object %.20s is made of itself; it was left out.", c.object)
		return nil
	}
	if run.left--; run.left < 0 {
		return run.pack.build.tooMuch()
	}
	run.open[o] = true
	defer delete(run.open, o)
	if err := run.pack.build.add(&o.part, t); err != nil {
		return err
	}
	for _, inner := range o.components {
		if err := run.component(name, m, inner, t); err != nil {
			return err
		}
	}
	return nil
}

// tooMuch is the fault of a file that is made of too many pieces.
func (b *builder) tooMuch() error {
	return b.in.fault("is made of more than a million objects", "export it as one surface")
}
