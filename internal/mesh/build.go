package mesh

import (
	"fmt"
	"math"
	"sort"
)

const (
	// mostTriangles is the end of what is read: 2 GB of mesh.
	mostTriangles = 1 << 26
	// A file may repeat its parts; what it makes of them is held to this many
	// triangles more than it has bytes.
	spareTriangles = 1 << 22
	// far is how many units from zero single precision becomes too coarse for
	// a form of a few units: there it steps by 1/2000 of one.
	far = 4096
	// absurd is where numbers are no place any more, but damage.
	absurd = 1e15
	// none stands for a point that is missing or no number.
	none = math.MaxUint32
	// lost stands for a point that is there, but not finite.
	lost = none - 1
)

// A builder makes a mesh of what a file holds.
type builder struct {
	in        *input
	report    *Report
	weld      *welder
	triangles [][3]uint32
	limit     int

	origin Vec  // what is taken off every point of the file
	placed bool // origin is settled
	points int  // points looked at, used or not
	spare  bool // there may be points that no triangle names
	rough  int  // polygons that could not be cut up properly

	kept  [batch]Vec32 // points being welded
	loose []Vec        // corners of triangles that wait to be welded
}

func newBuilder(in *input, report *Report) *builder {
	return &builder{
		in: in, report: report,
		limit: int(min(in.size+spareTriangles, mostTriangles)),
	}
}

// settle decides, at the first points of the file, what to take off all of
// them: nothing, unless the form lies far out. The middle of a sample is asked,
// so that a stray point does not decide.
func (b *builder) settle(points []Vec, t *transform) {
	const sample = 99
	if b.placed || len(points) == 0 {
		return
	}
	b.placed = true
	var middle Vec
	for k := range middle {
		var some []float64
		for i := range min(sample, len(points)) {
			if x := t.apply(points[i*len(points)/min(sample, len(points))])[k]; math.Abs(x) < absurd {
				some = append(some, x)
			}
		}
		if sort.Float64s(some); len(some) > 0 {
			middle[k] = some[len(some)/2]
		}
	}
	if max(math.Abs(middle[0]), math.Abs(middle[1]), math.Abs(middle[2])) >= far {
		b.origin = middle
		b.report.note("The form lies far from the file's zero point; it was moved there by (%.1f, %.1f, %.1f), so that no digit is lost.", -middle[0], -middle[1], -middle[2])
	}
}

// full is an error once there is more than is read: triangles, whether they
// are kept or not, or points, whether they are used or not.
func (b *builder) full() error {
	if b.report.Found <= b.limit && b.points <= 3*b.limit {
		return nil
	}
	return b.tooMany()
}

func (b *builder) tooMany() error {
	return b.in.fault(fmt.Sprintf("holds more than %s triangles", grouped(b.limit)), "thin the scan out to a few million; the weight will hardly change")
}

// triangle adds one triangle by its corners.
func (b *builder) triangle(p *[3]Vec) error {
	b.report.Found++
	b.loose = append(b.loose, p[0], p[1], p[2])
	if len(b.loose) < batch {
		return nil
	}
	return b.flush()
}

// flush welds the triangles that wait.
func (b *builder) flush() error {
	if b.weld == nil {
		b.weld = newWelder(0, 0)
	}
	b.spare = true
	b.settle(b.loose, &still)
	var at [batch]uint32
	b.placeBatch(b.loose, &still, at[:len(b.loose)])
	for i := 0; i < len(b.loose); i += 3 {
		b.join([3]uint32(at[i:]))
	}
	b.loose = b.loose[:0]
	return b.full()
}

// join adds a triangle of welded points, unless two of them are one.
func (b *builder) join(t [3]uint32) {
	switch {
	case t[0] >= lost || t[1] >= lost || t[2] >= lost:
		if t[0] == none || t[1] == none || t[2] == none {
			b.report.Broken++
		} else {
			b.report.NonFinite++
		}
	case t[0] == t[1] || t[1] == t[2] || t[2] == t[0]:
		b.report.Degenerate++
	default:
		b.triangles = append(b.triangles, t)
	}
}

// pause is the error to stop with, if there is a reason to.
func (b *builder) pause() error {
	if err := b.in.meter.ctx.Err(); err != nil {
		return err
	}
	return b.full()
}

// mesh is what has been built, without points that no triangle names.
func (b *builder) mesh() *Mesh {
	if b.rough > 0 {
		b.report.harm("%s could not be cut into triangles properly: edges cross, or there are too many corners. Area may be a little off.", many(b.rough, "face"))
	}
	m := &Mesh{Triangles: b.triangles}
	if b.weld != nil {
		m.Points = b.weld.points
	}
	b.weld, b.triangles = nil, nil
	if b.spare {
		m.compact()
	}
	return m
}

// compact takes points that no triangle names out of m, and out of memory.
func (m *Mesh) compact() {
	at := make([]uint32, len(m.Points))
	for _, t := range m.Triangles {
		at[t[0]], at[t[1]], at[t[2]] = 1, 1, 1
	}
	kept := uint32(0)
	for i, used := range at {
		if used == 1 {
			m.Points[kept] = m.Points[i]
			at[i] = kept
			kept++
		}
	}
	if int(kept) == len(m.Points) {
		return
	}
	m.Points = m.Points[:kept]
	for i, t := range m.Triangles {
		m.Triangles[i] = [3]uint32{at[t[0]], at[t[1]], at[t[2]]}
	}
}
