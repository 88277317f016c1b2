package mesh

import (
	"bytes"
	"encoding/binary"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/fault"
)

// Whatever bytes a reader is given, it does not panic; it gives a mesh that is
// sound in itself, or says in a sentence why there is none.

// fuzzRead reads data by content and, whatever it looks like, by one reader.
func fuzzRead(t *testing.T, data []byte, read reader) {
	m, report, err := Read(t.Context(), bytes.NewReader(data), int64(len(data)), "form", nil)
	holdFuzzed(t, m, report, err)
	in := &input{src: bytes.NewReader(data), size: int64(len(data)), name: "form", meter: &meter{ctx: t.Context()}}
	report = Report{}
	b := newBuilder(in, &report)
	err = in.excuse(read(in, b))
	holdFuzzed(t, b.mesh(), report, err)
}

func holdFuzzed(t *testing.T, m *Mesh, report Report, err error) {
	if err != nil {
		f := fault.All(err)[0]
		require.Equal(t, "Scan file form", f.Field)
		require.NotEmpty(t, f.Problem)
		require.NotEmpty(t, f.Remedy)
	}
	require.GreaterOrEqual(t, report.Found, report.Left())
	assert.LessOrEqual(t, len(report.Notes), mostNotes)
	if m != nil {
		assertSound(t, m)
		require.Equal(t, report.Found, report.Left()+len(m.Triangles))
	}
}

func FuzzSTL(f *testing.F) {
	cube := brick(Vec{1, 1, 1}, 1)
	f.Add(binarySTL("solid", cube))
	f.Add(textSTL("cube", cube))
	f.Add([]byte("solid x facet normal 0 0 1 outer loop vertex 0 0 0 vertex 1 0 0 vertex 1,5 nan 1e99 vertex 1 1 1 endloop endfacet endsolid"))
	f.Fuzz(func(t *testing.T, data []byte) {
		fuzzRead(t, data, readTextSTL)
		if len(data) >= stlHead {
			fuzzRead(t, data, readBinarySTL)
			data = append([]byte{}, data...) // a sound count, so that it is binary by its size
			data = data[:stlHead+(len(data)-stlHead)/stlRecord*stlRecord]
			binary.LittleEndian.PutUint32(data[80:], uint32((len(data)-stlHead)/stlRecord))
			fuzzRead(t, data, readBinarySTL)
		}
	})
}

func FuzzOBJ(f *testing.F) {
	f.Add(textOBJ(brick(Vec{1, 1, 1}, 1)))
	f.Add([]byte(square + "v 1 1 1\nf 1/2/3 -1//2 \\\n 3 4 5\r\nf -5 -4 -3 1 2 3 4\nl 1 2\n# unit: mm\ncurv 1\nf 1 2 99999999999\nv 1e9 nan x\n"))
	f.Add([]byte("\xfe\xff\x00v\x00 \x001\x00 \x000\x00 \x000"))
	f.Fuzz(func(t *testing.T, data []byte) { fuzzRead(t, data, readOBJ) })
}

func FuzzPLY(f *testing.F) {
	cube := brick(Vec{1, 1, 1}, 1)
	for _, order := range []binary.AppendByteOrder{nil, binary.LittleEndian, binary.BigEndian} {
		f.Add(plyOf(cube, order))
	}
	f.Add(plyText("element vertex 4", "property float x", "property float y", "property float z", "element tristrips 1", "property list int int vertex_indices", "end_header", "0 0 0", "1 0 0", "0 1 0", "1 1 0", "6 0 1 2 3 -1 0"))
	f.Fuzz(func(t *testing.T, data []byte) { fuzzRead(t, data, readPLY) })
}

// The fuzzer cannot guess checksums: it is given the model and what is packed
// beside it, or else the whole archive.
func Fuzz3MF(f *testing.F) {
	cube := string(objectXML(1, brick(Vec{1, 1, 1}, 1)))
	f.Add([]byte(modelXML("inch", cube, `<item objectid="1" transform="-1 0 0 0 1 0 0 0 1 0 0 0"/>`)), []byte{}, false)
	group := `<object id="2"><components><component objectid="1" p:path="/other.model"/><component objectid="2"/></components></object>`
	f.Add([]byte(modelXML("meter", group, `<item objectid="2"/><item objectid="3"/>`)), []byte(modelXML("micron", cube, "")), false)
	f.Add([]byte("<!-- - --><a b='>' c=\"'\"/><![CDATA[ ]]><mesh><vertex x='1"), []byte("<object/>"), false)
	whole := simple3MF(f, brick(Vec{1, 1, 1}, 1))
	f.Add(whole, []byte{}, true)
	f.Add(whole[:len(whole)-40], []byte{}, true)
	f.Fuzz(func(t *testing.T, model, other []byte, whole bool) {
		if !whole {
			model = threeMFOf(t, string(model), "other.model", string(other))
		}
		fuzzRead(t, model, read3MF)
	})
}

func FuzzGLTF(f *testing.F) {
	cube := brick(Vec{1, 1, 1}, 1)
	f.Add([]byte(gltfText(cube, `{"mesh":0,"children":[1,0]},{"mesh":0,"matrix":[1,0,0,0,0,1,0,0,0,0,-1,0,0,0,0,1]}`, "")), gltfData(cube), false)
	f.Add([]byte(gltfText(cube, `{"mesh":0,"rotation":[0,0,0,1],"scale":[1e9,1,1]}`, `,"uri":"a.bin"`)), []byte{}, false)
	f.Add(embeddedGLTF(cube), []byte{}, true)
	f.Add(sparse(""), []byte{}, true)
	f.Fuzz(func(t *testing.T, text, data []byte, whole bool) {
		if whole {
			fuzzRead(t, text, readGLTF)
			fuzzRead(t, text, readGLB)
			return
		}
		fuzzRead(t, glb(string(text), append([]byte{}, data...)), readGLB)
	})
}
