package mesh

import (
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"net/url"
	"strings"
)

// A gltfAccessor is a column of numbers, or of groups of them.
type gltfAccessor struct {
	BufferView    *gltfInt
	ByteOffset    gltfInt
	ComponentType gltfInt
	Normalized    bool
	Count         gltfInt
	Type          string
	Sparse        *struct {
		Count   gltfInt
		Indices struct {
			BufferView, ByteOffset, ComponentType gltfInt
		}
		Values struct {
			BufferView, ByteOffset gltfInt
		}
	}
}

// A gltfView is a stretch of a buffer.
type gltfView struct {
	Buffer, ByteOffset, ByteLength, ByteStride gltfInt

	Extensions map[string]json.RawMessage
}

// gltfTypes are the number types that accessors have, by their code.
var gltfTypes = map[gltfInt]plyType{
	5120: plyInt8, 5121: plyUint8, 5122: plyInt16, 5123: plyUint16, 5125: plyUint32, 5126: plyFloat32,
}

// accessor is the one of that number, or nil.
func (g *gltf) accessor(i gltfInt) *gltfAccessor {
	if i < 0 || int(i) >= len(g.doc.Accessors) {
		g.build.report.harm("Data that the file does not have was asked for.")
		return nil
	}
	return &g.doc.Accessors[i]
}

// points are the points of an accessor, as far as the data go.
func (g *gltf) points(i gltfInt) (points []Vec) {
	a := g.accessor(i)
	kind := plyType(0)
	if a != nil {
		kind = gltfTypes[a.ComponentType]
	}
	if kind == 0 || a.Type != "VEC3" {
		g.build.report.harm("Points that are not three numbers each were left out.")
		return nil
	}
	vec := func(row []byte) (p Vec) {
		for k := range p {
			p[k] = kind.value(row[k*kind.size():], binary.LittleEndian)
			if a.Normalized {
				p[k] = max(p[k]/kind.most(), -1) // section 3.6.2.2
			}
		}
		return p
	}
	if a.BufferView != nil {
		s := g.span(*a.BufferView, a.ByteOffset, a.Count, 3*kind.size())
		points = make([]Vec, 0, s.rows)
		g.each(s, func(row []byte) { points = append(points, vec(row)) })
	} else {
		// All zero, to be filled in below; a form has few such points.
		points = make([]Vec, max(min(a.Count, gltfInt(g.in.size), 1<<16), 0))
	}
	if s := a.Sparse; s != nil {
		at := g.column(s.Indices.BufferView, s.Indices.ByteOffset, s.Count, s.Indices.ComponentType)
		g.each(g.span(s.Values.BufferView, s.Values.ByteOffset, s.Count, 3*kind.size()), func(row []byte) {
			if len(at) > 0 {
				if int64(at[0]) < int64(len(points)) {
					points[at[0]] = vec(row)
				}
				at = at[1:]
			}
		})
	}
	return points
}

// most is the greatest number of a whole type, which normalised data call 1.
func (t plyType) most() float64 {
	switch t {
	case plyInt8:
		return math.MaxInt8
	case plyUint8:
		return math.MaxUint8
	case plyInt16:
		return math.MaxInt16
	case plyUint16:
		return math.MaxUint16
	}
	return 1
}

// indices are the numbers of points of an accessor, as far as the data go.
func (g *gltf) indices(i gltfInt) []uint32 {
	a := g.accessor(i)
	if a == nil || a.BufferView == nil {
		return nil
	}
	return g.column(*a.BufferView, a.ByteOffset, a.Count, a.ComponentType)
}

// column reads whole numbers, one a row.
func (g *gltf) column(view, offset, count, kind gltfInt) (out []uint32) {
	t := gltfTypes[kind]
	if t == 0 || t == plyFloat32 {
		g.build.report.harm("Numbers of points that are not whole numbers were left out.")
		return nil
	}
	s := g.span(view, offset, count, t.size())
	out = make([]uint32, 0, s.rows)
	g.each(s, func(row []byte) {
		out = append(out, pointNumber(t.value(row, binary.LittleEndian)))
	})
	return out
}

// A gltfSpan is rows of a buffer that are there to be read.
type gltfSpan struct {
	data         io.ReaderAt
	from, stride int64
	width        int64 // bytes of a row that are read
	rows         int64
}

// span finds count rows of a view, each of width bytes, or as many as there
// are.
func (g *gltf) span(view, offset, count gltfInt, width int) (s gltfSpan) {
	if view < 0 || int(view) >= len(g.doc.BufferViews) || offset < 0 || count < 0 {
		g.build.report.harm("Data that the file does not have was asked for.")
		return s
	}
	v := &g.doc.BufferViews[view]
	data := g.buffer(v)
	if data == nil || v.ByteOffset < 0 || v.ByteLength < 0 || v.ByteStride < 0 {
		return s
	}
	s = gltfSpan{data: data, from: int64(v.ByteOffset + offset), width: int64(width)}
	s.stride = max(int64(v.ByteStride), s.width)
	if room := min(data.Size(), int64(v.ByteOffset+v.ByteLength)) - s.from; room >= s.width {
		s.rows = min((room-s.width)/s.stride+1, int64(count))
	}
	if s.rows < int64(count) {
		g.build.report.harm("A table should have %s, %s found.", many(int(count), "row"), grouped(int(s.rows)))
	}
	return s
}

// each gives the rows one after another.
func (g *gltf) each(s gltfSpan, take func(row []byte)) {
	if s.rows == 0 {
		return
	}
	some := min(max(block/s.stride, 1), s.rows)
	buf := make([]byte, (some-1)*s.stride+s.width)
	for at, left := s.from, s.rows; left > 0; left -= some {
		some = min(some, left)
		if _, err := s.data.ReadAt(buf[:(some-1)*s.stride+s.width], at); err != nil {
			g.fail(g.in.excuse(err))
			return
		}
		for i := range some {
			take(buf[i*s.stride : i*s.stride+s.width])
		}
		at += some * s.stride
	}
}

// fail remembers the first reason why data could not be had.
func (g *gltf) fail(err error) {
	if g.trouble == nil {
		g.trouble = err
	}
}

// buffer is the data that a view is of; nil if they are not to be had.
func (g *gltf) buffer(v *gltfView) *io.SectionReader {
	data, known := g.buffers[v.Buffer]
	if known {
		return data
	}
	if g.buffers == nil {
		g.buffers = map[gltfInt]*io.SectionReader{}
	}
	switch i := int(v.Buffer); {
	case i < 0 || i >= len(g.doc.Buffers):
		g.build.report.harm("Data that the file does not have was asked for.")
	case g.doc.Buffers[i].URI == nil:
		if data = g.chunk; i != 0 || data == nil {
			g.lacking(v)
		}
	case strings.HasPrefix(*g.doc.Buffers[i].URI, "data:"):
		data = g.embedded(*g.doc.Buffers[i].URI)
	default:
		data = g.external(*g.doc.Buffers[i].URI)
	}
	g.buffers[v.Buffer] = data
	return data
}

// lacking says why a buffer without data has none: the points may be there,
// but compressed.
func (g *gltf) lacking(v *gltfView) {
	for _, name := range []string{meshopt, meshoptKHR} {
		if _, ok := v.Extensions[name]; ok {
			g.fail(g.compressed(name))
		}
	}
	g.fail(g.in.fault("lacks the data of its points", "export it again"))
}

// embedded is the data in a data: URI, as far as they can be decoded.
func (g *gltf) embedded(uri string) *io.SectionReader {
	_, text, _ := strings.Cut(uri, ",")
	if !strings.Contains(uri[:len(uri)-len(text)], ";base64") {
		g.fail(g.in.fault("has data within it that are not in base 64", "export it again"))
		return nil
	}
	text = strings.TrimRight(text, "=")
	data := make([]byte, base64.RawStdEncoding.DecodedLen(len(text)))
	n, err := base64.RawStdEncoding.Decode(data, []byte(text))
	if err != nil {
		g.build.report.harm("The data within the file are damaged.")
	}
	return io.NewSectionReader(bytes.NewReader(data[:n]), 0, int64(n))
}

// external is the data in a file of the same folder.
func (g *gltf) external(uri string) *io.SectionReader {
	name, err := url.PathUnescape(uri)
	if err != nil {
		name = uri
	}
	if g.in.beside == nil {
		g.fail(g.in.fault(fmt.Sprintf("has its points in another file, “%.80s”", name), "export it as GLB, which is one file"))
		return nil
	}
	file, size, shut, err := g.in.beside(name)
	if err != nil {
		g.fail(g.in.fault(fmt.Sprintf("has its points in “%.80s”, which cannot be opened in the same folder (%v)", name, plainCause(err)), "put that file beside it, or export as GLB, which is one file"))
		return nil
	}
	g.open = append(g.open, shut)
	g.in.meter.total += size
	return io.NewSectionReader(&meteredAt{file, g.in.meter}, 0, size)
}

// shut closes the files that were opened.
func (g *gltf) shut() {
	for _, shut := range g.open {
		shut()
	}
}
