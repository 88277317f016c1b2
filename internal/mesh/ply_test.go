package mesh

import (
	"encoding/binary"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// plyText is a text PLY with the given lines after "format".
func plyText(lines ...string) []byte {
	return []byte("ply\nformat ascii 1.0\n" + strings.Join(lines, "\n") + "\n")
}

func TestNumbersOfAPLYMayBeOfAnyType(t *testing.T) {
	for name, kind := range plyTypes {
		for _, order := range []binary.AppendByteOrder{binary.LittleEndian, binary.BigEndian} {
			format := map[bool]string{true: "binary_little_endian", false: "binary_big_endian"}[order == binary.LittleEndian]
			data := fmt.Appendf(nil, "ply\nformat %s 1.0\nelement vertex 3\nproperty %s x\nproperty %s y\nproperty %s z\nelement face 1\nproperty list %s %s vertex_index\nend_header\n", format, name, name, name, name, name)
			put := func(v float64) { data = appendKind(data, order, kind, v) }
			for _, v := range []float64{0, 0, 0, 100, 0, 0, 0, 100, 0 /* the face: */, 3, 0, 1, 2} {
				put(v)
			}
			m, report := mustRead(t, data)
			assert.Equal(t, BinaryPLY, report.Format)
			assert.Equal(t, []Vec{{}, {100}, {0, 100}}, cornersIn(m), "%s %s", format, name)
		}
	}
}

func appendKind(b []byte, order binary.AppendByteOrder, kind plyType, v float64) []byte {
	switch kind {
	case plyFloat32:
		return order.AppendUint32(b, math.Float32bits(float32(v)))
	case plyFloat64:
		return order.AppendUint64(b, math.Float64bits(v))
	}
	switch kind.size() {
	case 1:
		return append(b, byte(v))
	case 2:
		return order.AppendUint16(b, uint16(v))
	case 4:
		return order.AppendUint32(b, uint32(v))
	}
	return order.AppendUint64(b, uint64(v))
}

func TestFacesOfAPLYMayComeBeforeItsPoints(t *testing.T) {
	m, _ := mustRead(t, plyText("element face 1", "property list uchar int vertex_indices", "element vertex 4",
		"property float z", "property float y", "property float x", "property list uchar int seen_by", "end_header",
		"4 0 1 2 3", "0 0 0 0", "0 0 2 1 7", "0 1 2 2 7 8", "0 1 0 0"))
	assert.Equal(t, 2.0, areaOf(m))
}

func TestStripsOfAPLYTurnEveryOtherTriangle(t *testing.T) {
	m, report := mustRead(t, plyText("element vertex 6", "property float x", "property float y", "property float z",
		"element tristrips 1", "property list int int vertex_indices", "end_header",
		"0 0 0", "1 0 0", "0 1 0", "1 1 0", "0 2 0", "9 9 9", "9 0 1 2 3 4 -1 0 1 5"))
	assert.Equal(t, [][3]uint32{{0, 1, 2}, {2, 1, 3}, {2, 3, 4}, {0, 1, 5}}, m.Triangles)
	assert.Equal(t, 4, report.Found)
}

func TestAPLYThatEndsTooEarlySaysWhere(t *testing.T) {
	cube := brick(Vec{1, 1, 1}, 1)
	data := plyOf(cube, binary.LittleEndian)
	m, report := mustRead(t, data[:len(data)-14*3])
	assert.Equal(t, 9, len(m.Triangles))
	assert.Equal(t, 12, report.Declared)
	assert.Equal(t, []string{"The header says 12 rows of kind “face”, 9 found."}, report.Notes)
}

func TestAPLYWhoseHeaderIsNotUnderstoodIsRefused(t *testing.T) {
	for header, problem := range map[string]string{
		"ply\nformat ascii 1.0\nelement vertex 3\n":                                  "ends within its header",
		"ply\nformat packed 1.0\nend_header\n":                                       "is a PLY of the unknown kind “packed”",
		"ply\nelement vertex 3\nend_header\n":                                        "does not say whether it is text or binary",
		"ply\nformat ascii 1.0\nelement vertex many\nend_header\n":                   "does not say how many rows its element “vertex” has",
		"ply\nformat ascii 1.0\nproperty float x\nend_header\n":                      "has a property in line 3 of its header that cannot be understood",
		"ply\nformat ascii 1.0\nelement vertex 1\nproperty quad x\nend_header\n":     "has a property in line 4",
		"ply\nformat ascii 1.0\nelement vertex 1\nproperty list x\nend_header\n":     "has a property in line 4",
		"ply\nformat ascii 1.0\nelement vertex 1\nproperty float x\nend_header\n1\n": "has points without x, y and z",
		"ply\nformat ascii 1.0\n" + strings.Repeat("comment\n", 5000):                "has a header without an end",
	} {
		_, _, err := readBytes(t, []byte(header))
		assert.ErrorContains(t, err, problem)
	}
}

// A header may end its lines in three ways, and the first byte of the data may
// look like the end of a line.
func TestTheDataOfABinaryPLYBeginRightAfterItsHeader(t *testing.T) {
	header := "ply\nformat binary_little_endian 1.0\nelement vertex 3\nproperty uchar x\nproperty uchar y\nproperty uchar z\nelement face 1\nproperty list uchar uchar vertex_indices\nend_header\n"
	data := "\n\r\n" + "\r\n\n" + " \n\r" + "\x03\x00\x01\x02"
	for _, end := range []string{"\n", "\r\n"} {
		m, _ := mustRead(t, []byte(strings.ReplaceAll(header, "\n", end)+data))
		assert.Equal(t, []Vec{{10, 13, 10}, {13, 10, 10}, {32, 10, 13}}, cornersIn(m))
	}
}

func TestPointsThatAPLYDoesNotHaveAreNotNamed(t *testing.T) {
	m, report := mustRead(t, plyText("element vertex 3", "property float x", "property float y", "property float z",
		"element face 5", "property list uchar int vertex_indices", "end_header",
		"0 0 0", "1 0 0", "0 1 0", "3 0 1 2", "3 0 1 3", "3 -1 1 2", "2 0 1", "4 0 1 2 9"))
	assert.Equal(t, 1, len(m.Triangles))
	assert.Equal(t, 4, report.Broken)
}
