package mesh

import (
	"archive/zip"
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"fmt"
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// The formats as their specifications have them, written as plainly as can be,
// to be read back.

func appendFloats(b []byte, order binary.AppendByteOrder, p Vec32) []byte {
	for _, x := range p {
		b = order.AppendUint32(b, math.Float32bits(x))
	}
	return b
}

// appendText writes three numbers so that reading gives back every bit.
func appendText(b []byte, p Vec32) []byte {
	for i, x := range p {
		if i > 0 {
			b = append(b, ' ')
		}
		b = strconv.AppendFloat(b, float64(x), 'g', -1, 32)
	}
	return b
}

func normalOf(m *Mesh, i int) Vec32 {
	a, b, c := m.Corners(i)
	n := b.Sub(a).Cross(c.Sub(a))
	return n.Mul(1 / n.Norm()).Vec32()
}

func binarySTL(title string, m *Mesh) []byte {
	out := make([]byte, 80, 84+50*len(m.Triangles))
	copy(out, title)
	out = binary.LittleEndian.AppendUint32(out, uint32(len(m.Triangles)))
	for i, t := range m.Triangles {
		out = appendFloats(out, binary.LittleEndian, normalOf(m, i))
		for _, p := range t {
			out = appendFloats(out, binary.LittleEndian, m.Points[p])
		}
		out = append(out, 0, 0)
	}
	return out
}

func textSTL(title string, m *Mesh) []byte {
	out := []byte("solid " + title + "\n")
	for i, t := range m.Triangles {
		out = append(appendText(append(out, "  facet normal "...), normalOf(m, i)), "\n    outer loop\n"...)
		for _, p := range t {
			out = append(appendText(append(out, "      vertex "...), m.Points[p]), '\n')
		}
		out = append(out, "    endloop\n  endfacet\n"...)
	}
	return append(out, "endsolid "+title+"\n"...)
}

func textOBJ(m *Mesh) []byte {
	out := []byte("# a solid\no solid\n")
	for _, p := range m.Points {
		out = append(appendText(append(out, "v "...), p), '\n')
	}
	for _, t := range m.Triangles {
		out = fmt.Appendf(out, "f %d//%d %d//%d %d//%d\n", t[0]+1, 1, t[1]+1, 1, t[2]+1, 1)
	}
	return out
}

// plyOf writes a PLY with numbers of all kinds around those that matter; a nil
// order writes text.
func plyOf(m *Mesh, order binary.AppendByteOrder) []byte {
	kind := "ascii"
	switch order {
	case binary.LittleEndian:
		kind = "binary_little_endian"
	case binary.BigEndian:
		kind = "binary_big_endian"
	}
	out := fmt.Appendf(nil, "ply\nformat %s 1.0\ncomment a solid\nelement camera 2\nproperty list uchar double pose\nelement vertex %d\nproperty uchar red\nproperty float x\nproperty float y\nproperty float z\nproperty short grain\nelement face %d\nproperty uchar flags\nproperty list uchar int vertex_indices\nend_header\n", kind, len(m.Points), len(m.Triangles))
	if order == nil {
		out = append(out, "2 0.5 1e3\n0\n"...)
		for _, p := range m.Points {
			out = append(appendText(append(out, "255 "...), p), " -3\n"...)
		}
		for _, t := range m.Triangles {
			out = fmt.Appendf(out, "7 3 %d %d %d\n", t[0], t[1], t[2])
		}
		return out
	}
	out = append(out, 2)
	out = order.AppendUint64(out, math.Float64bits(0.5))
	out = order.AppendUint64(out, math.Float64bits(1e3))
	out = append(out, 0)
	for _, p := range m.Points {
		out = order.AppendUint16(appendFloats(append(out, 255), order, p), 0xfffd)
	}
	for _, t := range m.Triangles {
		out = append(out, 7, 3)
		for _, i := range t {
			out = order.AppendUint32(out, i)
		}
	}
	return out
}

// modelXML is the mesh as an object of a 3MF model.
func objectXML(id int, m *Mesh) []byte {
	out := fmt.Appendf(nil, "<object id=\"%d\" type=\"model\"><mesh>\n<vertices>\n", id)
	for _, p := range m.Points {
		out = append(out, "<vertex"...)
		for i, x := range p {
			out = append(out, ' ', byte('x'+i), '=', '"')
			out = append(strconv.AppendFloat(out, float64(x), 'g', -1, 32), '"')
		}
		out = append(out, "/>\n"...)
	}
	out = append(out, "</vertices>\n<triangles>\n"...)
	for _, t := range m.Triangles {
		out = fmt.Appendf(out, "<triangle v1=\"%d\" v2=\"%d\" v3=\"%d\"/>\n", t[0], t[1], t[2])
	}
	return append(out, "</triangles>\n</mesh></object>\n"...)
}

func modelXML(unit string, resources, build string) string {
	return `<?xml version="1.0" encoding="UTF-8"?>
<model unit="` + unit + `" xml:lang="en-GB" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02" xmlns:p="http://schemas.microsoft.com/3dmanufacturing/production/2015/06">
<resources>` + resources + `</resources><build>` + build + `</build></model>`
}

// archive packs files, given as name and content by turns.
func archive(t testing.TB, files ...string) []byte {
	t.Helper()
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for ; len(files) > 0; files = files[2:] {
		f, err := w.Create(files[0])
		require.NoError(t, err)
		_, err = f.Write([]byte(files[1]))
		require.NoError(t, err)
	}
	require.NoError(t, w.Close())
	return out.Bytes()
}

const relationships = `<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Target="/3D/form.model" Id="r0" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>`

func threeMFOf(t testing.TB, model string, more ...string) []byte {
	return archive(t, append([]string{"_rels/.rels", relationships, "3D/form.model", model}, more...)...)
}

func simple3MF(t testing.TB, m *Mesh) []byte {
	return threeMFOf(t, modelXML("millimeter", string(objectXML(1, m)), `<item objectid="1"/>`))
}

// gltfData are the points and the corners of a mesh as a buffer has them.
func gltfData(m *Mesh) (data []byte) {
	for _, p := range m.Points {
		data = appendFloats(data, binary.LittleEndian, p)
	}
	for _, t := range m.Triangles {
		for _, i := range t {
			data = binary.LittleEndian.AppendUint32(data, i)
		}
	}
	return data
}

// gltfText is a document of one mesh, its nodes and the buffer as given.
func gltfText(m *Mesh, nodes, buffer string) string {
	points, corners := 12*len(m.Points), 12*len(m.Triangles)
	return fmt.Sprintf(`{"asset":{"version":"2.0"},"scene":0,"scenes":[{"nodes":[0]}],"nodes":[%s],
"meshes":[{"primitives":[{"attributes":{"POSITION":0},"indices":1}]}],
"accessors":[{"bufferView":0,"componentType":5126,"count":%d,"type":"VEC3"},{"bufferView":1,"componentType":5125,"count":%d,"type":"SCALAR"}],
"bufferViews":[{"buffer":0,"byteLength":%d},{"buffer":0,"byteOffset":%d,"byteLength":%d}],
"buffers":[{"byteLength":%d%s}]}`, nodes, len(m.Points), 3*len(m.Triangles), points, points, corners, points+corners, buffer)
}

func embeddedGLTF(m *Mesh) []byte {
	return []byte(gltfText(m, `{"mesh":0}`, `,"uri":"data:application/octet-stream;base64,`+base64.StdEncoding.EncodeToString(gltfData(m))+`"`))
}

// glb packs a document and its data.
func glb(text string, data []byte) []byte {
	for len(text)%4 != 0 {
		text += " "
	}
	for len(data)%4 != 0 {
		data = append(data, 0)
	}
	out := append([]byte("glTF"), 2, 0, 0, 0)
	out = binary.LittleEndian.AppendUint32(out, uint32(28+len(text)+len(data)))
	out = append(binary.LittleEndian.AppendUint32(out, uint32(len(text))), "JSON"+text...)
	return append(append(binary.LittleEndian.AppendUint32(out, uint32(len(data))), "BIN\x00"...), data...)
}

func simpleGLB(m *Mesh) []byte { return glb(gltfText(m, `{"mesh":0}`, ""), gltfData(m)) }
