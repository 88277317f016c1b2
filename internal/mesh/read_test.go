package mesh

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"io"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/fault"
)

// readBytes reads a file that is only in memory.
func readBytes(t testing.TB, data []byte) (*Mesh, Report, error) {
	t.Helper()
	return Read(t.Context(), bytes.NewReader(data), int64(len(data)), "form", nil)
}

// mustRead reads a file that has to give a mesh, and holds it to be sound.
func mustRead(t testing.TB, data []byte) (*Mesh, Report) {
	t.Helper()
	m, report, err := readBytes(t, data)
	require.NoError(t, err)
	assertSound(t, m)
	return m, report
}

// assertSound holds a mesh to what Read promises of it.
func assertSound(t testing.TB, m *Mesh) {
	t.Helper()
	used := make([]bool, len(m.Points))
	for _, f := range m.Triangles {
		if f[0] == f[1] || f[1] == f[2] || f[2] == f[0] {
			t.Fatalf("triangle %v names a point twice", f)
		}
		used[f[0]], used[f[1]], used[f[2]] = true, true, true
	}
	known := map[Vec32]bool{}
	for i, p := range m.Points {
		sum := float64(p[0]) + float64(p[1]) + float64(p[2])
		if !used[i] || known[p] || math.IsNaN(sum) || math.IsInf(sum, 0) {
			t.Fatalf("point %d, %v, is unused, doubled or not finite", i, p)
		}
		known[p] = true
	}
}

// cornersIn are the corners of all triangles, in the order of the file.
func cornersIn(m *Mesh) []Vec {
	out := make([]Vec, 0, 3*len(m.Triangles))
	for i := range m.Triangles {
		a, b, c := m.Corners(i)
		out = append(out, a, b, c)
	}
	return out
}

// formats are all the ways to write a mesh.
func formats(t testing.TB) map[Format]func(m *Mesh) []byte {
	return map[Format]func(m *Mesh) []byte{
		BinarySTL:                func(m *Mesh) []byte { return binarySTL("a form", m) },
		TextSTL:                  func(m *Mesh) []byte { return textSTL("a form", m) },
		OBJ:                      textOBJ,
		TextPLY:                  func(m *Mesh) []byte { return plyOf(m, nil) },
		BinaryPLY:                func(m *Mesh) []byte { return plyOf(m, binary.LittleEndian) },
		BinaryPLY + " (big end)": func(m *Mesh) []byte { return plyOf(m, binary.BigEndian) },
		ThreeMF:                  func(m *Mesh) []byte { return simple3MF(t, m) },
		GLTF:                     embeddedGLTF,
		GLB:                      simpleGLB,
	}
}

func TestEveryFormatGivesBackTheSolidThatWasWritten(t *testing.T) {
	solids := map[string]*Mesh{
		"cube": brick(Vec{2, 2, 2}, 3), "torus": torus(3, 1, 40), "sphere": sphere(0.25, 32), "cylinder": cylinder(10, 1800, 24, 5),
	}
	for name, solid := range solids {
		for format, write := range formats(t) {
			t.Run(name+" as "+string(format), func(t *testing.T) {
				m, report := mustRead(t, write(solid))
				assert.Equal(t, cornersIn(solid), cornersIn(m), "the same triangles in the same order")
				assert.Equal(t, len(solid.Points), len(m.Points))
				assert.Contains(t, string(format), string(report.Format))
				assert.Equal(t, len(solid.Triangles), report.Found)
				assert.Equal(t, 1, report.Bodies)
				assert.False(t, report.Damaged)
				assert.Empty(t, report.Notes)
			})
		}
	}
}

func TestTheEndingOfTheNameDoesNotMatter(t *testing.T) {
	folder := t.TempDir()
	for format, write := range formats(t) {
		path := filepath.Join(folder, "form.xyz")
		require.NoError(t, os.WriteFile(path, write(brick(Vec{1, 1, 1}, 1)), 0o600))
		m, report, err := ReadFile(t.Context(), path, nil)
		require.NoError(t, err, format)
		assert.Equal(t, 12, len(m.Triangles), format)
		assert.Equal(t, "form.xyz", report.Name)
	}
}

// Whatever is cut off, what is left is read, and is part of the form.
func TestAFileCutShortGivesTheTrianglesThatAreLeft(t *testing.T) {
	solid := torus(3, 1, 12)
	known := map[[3]Vec]bool{}
	for i := range solid.Triangles {
		a, b, c := solid.Corners(i)
		known[[3]Vec{a, b, c}] = true
	}
	for format, write := range formats(t) {
		whole := write(solid)
		t.Run(string(format), rapid.MakeCheck(func(t *rapid.T) {
			kept := rapid.IntRange(0, len(whole)-1).Draw(t, "bytes kept")
			m, report, err := Read(context.Background(), bytes.NewReader(whole[:kept]), int64(kept), "form", nil)
			if err != nil {
				assert.NotEmpty(t, fault.All(err)[0].Remedy)
				return
			}
			strangers := 0
			for i := range m.Triangles {
				a, b, c := m.Corners(i)
				if !known[[3]Vec{a, b, c}] {
					strangers++
				}
			}
			// A number of a text may be cut so that it is still a number.
			assert.LessOrEqual(t, strangers, 1)
			if len(m.Triangles) < len(solid.Triangles) && format != TextSTL && format != OBJ {
				assert.True(t, report.Damaged, "%v", report)
			}
		}))
	}
}

func TestAnEmptyFileAndAForeignOneAreRefusedInASentence(t *testing.T) {
	for content, sentence := range map[string]string{
		"":                      "Scan file form is empty; export the scan again",
		"%PDF-1.7\n…":           "Scan file form is a PDF document; export the scan as STL, OBJ, PLY, 3MF or glTF",
		"ISO-10303-21;\nHEADER": "Scan file form is a STEP drawing; export the scan as STL, OBJ, PLY, 3MF or glTF",
		"Dear Sir,\nthe lion":   "Scan file form is of no kind that can be read; give a scan as STL, OBJ, PLY, 3MF, glTF or GLB",
		"\x00\x01\x02\x03":      "Scan file form is of no kind that can be read; give a scan as STL, OBJ, PLY, 3MF, glTF or GLB",
		"v 0 0 0\nv 1 0 0\n":    "Scan file form holds no triangles; export the scan as a surface of triangles, not as points, lines or curves",
	} {
		m, _, err := readBytes(t, []byte(content))
		assert.Nil(t, m)
		require.Error(t, err, content)
		assert.Equal(t, sentence, err.Error())
		assert.Equal(t, "Scan file form", fault.All(err)[0].Field)
	}
}

func TestAFileThatShrinksWhileItIsReadIsNoPanic(t *testing.T) {
	for format, write := range formats(t) {
		data := write(torus(3, 1, 60))
		for _, left := range []int{0, 1, 90, len(data) / 2, len(data) - 1} {
			m, _, err := Read(t.Context(), bytes.NewReader(data[:left]), int64(len(data)), "form", nil)
			if err == nil {
				assertSound(t, m)
			}
			assert.NotEqual(t, err == nil, m == nil, format)
		}
	}
}

func TestAPathThatIsNoScanIsToldApart(t *testing.T) {
	folder := t.TempDir()
	_, _, err := ReadFile(t.Context(), filepath.Join(folder, "lion.stl"), nil)
	assert.EqualError(t, err, "Scan file lion.stl does not exist; give the path of a scan that can be opened")
	_, _, err = ReadFile(t.Context(), folder, nil)
	assert.ErrorContains(t, err, "is not a file")
}

func TestProgressRisesToOneAndCancellingStops(t *testing.T) {
	solid := torus(3, 1, 300)
	for format, write := range formats(t) {
		data := write(solid)
		told := []float64{0}
		_, _, err := Read(t.Context(), bytes.NewReader(data), int64(len(data)), "form", func(done float64) {
			assert.GreaterOrEqual(t, done, told[len(told)-1], format)
			told = append(told, done)
		})
		require.NoError(t, err)
		assert.Equal(t, 1.0, told[len(told)-1], format)
		assert.Greater(t, len(told), 3, format)

		ctx, cancel := context.WithCancel(t.Context())
		m, _, err := Read(ctx, bytes.NewReader(data), int64(len(data)), "form", func(done float64) { cancel() })
		assert.Nil(t, m, format)
		assert.ErrorIs(t, err, context.Canceled, format)
	}
}

// failing is a disk that gives up half way.
type failing struct {
	data []byte
	good int
}

func (f failing) ReadAt(p []byte, at int64) (int, error) {
	n, err := bytes.NewReader(f.data[:f.good]).ReadAt(p, at)
	if errors.Is(err, io.EOF) {
		err = errors.New("the disk gave up")
	}
	return n, err
}

func TestADiskThatGivesUpIsToldAndWhatWasReadIsKept(t *testing.T) {
	data := textSTL("form", torus(3, 1, 60))
	m, report, err := Read(t.Context(), failing{data, len(data) / 2}, int64(len(data)), "form", nil)
	require.NoError(t, err)
	assert.InDelta(t, 1800, len(m.Triangles), 100)
	assert.True(t, report.Damaged)
	assert.Contains(t, report.Notes, "The file could not be read to its end (the disk gave up).")

	_, _, err = Read(t.Context(), failing{data, 0}, int64(len(data)), "form", nil)
	assert.ErrorContains(t, err, "could not be read to its end (the disk gave up); copy it to this computer")
}

// No number in a file may make the reader ask for memory.
func TestCountsInAFileAreNotBelieved(t *testing.T) {
	stl := binarySTL("", brick(Vec{1, 1, 1}, 1))
	binary.LittleEndian.PutUint32(stl[80:], math.MaxUint32)
	for name, data := range map[string][]byte{
		"STL":            stl,
		"PLY":            []byte("ply\nformat binary_little_endian 1.0\nelement vertex 4000000000\nproperty float x\nproperty float y\nproperty float z\nelement face 4000000000\nproperty list uint uint vertex_indices\nend_header\n\x00\x00\x00\x00"),
		"PLY list":       []byte("ply\nformat binary_little_endian 1.0\nelement vertex 0\nproperty float x\nproperty float y\nproperty float z\nelement face 1\nproperty list uint double vertex_indices\nend_header\n\xff\xff\xff\xff"),
		"PLY of nothing": []byte("ply\nformat ascii 1.0\nelement vertex 999999999999999\nelement face 999999999999999\nend_header\n"),
		"glTF":           []byte(`{"asset":{"version":"2.0"},"meshes":[{"primitives":[{"attributes":{"POSITION":0},"indices":1}]}],"accessors":[{"componentType":5126,"count":4000000000,"type":"VEC3"},{"bufferView":0,"componentType":5125,"count":4000000000,"type":"SCALAR"}],"bufferViews":[{"buffer":0,"byteLength":4000000000}],"buffers":[{"byteLength":4000000000,"uri":"data:;base64,AAAA"}]}`),
		"OBJ":            []byte("v 0 0 0\nf 4000000000 -4000000000 99999999999999999999\n"),
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, _, err := readBytes(t, data)
		runtime.ReadMemStats(&after)
		if name != "STL" {
			assert.Error(t, err, name)
		}
		assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(4<<20), name)
	}
}

func TestAFormFarFromZeroKeepsItsDigits(t *testing.T) {
	// A survey in metres of a national grid: 4,000 km north, to the tenth of a
	// millimetre.
	var text bytes.Buffer
	text.WriteString("v 391000.5001 4000000.25 77.1\nv 391000.5002 4000000.25 77.1\nv 391000.5001 4000000.2503 77.1\nf 1 2 3\n")
	m, report := mustRead(t, text.Bytes())
	a, b, c := m.Corners(0)
	assert.InDelta(t, 0.0001, b.Sub(a).Norm(), 1e-9)
	assert.InDelta(t, 0.0003, c.Sub(a).Norm(), 1e-9)
	assert.Equal(t, []string{"The form lies far from the file's zero point; it was moved there by (-391000.5, -4000000.2, -77.1), so that no digit is lost."}, report.Notes)
	assert.False(t, report.Damaged)
}

func TestAStrayPointDoesNotMoveTheForm(t *testing.T) {
	solid := sphere(0.25, 16)
	m, report := mustRead(t, append([]byte("v 1e12 0 0\nv 0 1e12 0\n"), bytes.ReplaceAll(textOBJ(solid), []byte("//1"), nil)...))
	assert.Empty(t, report.Notes)
	assert.NotEmpty(t, m.Points)
	assert.Equal(t, solid.Points[0], m.Points[len(m.Points)-len(solid.Points)+2])
}

func TestNotesAreSaidOnceAndNotTooMany(t *testing.T) {
	var r Report
	for i := range 100 {
		r.note("The same.")
		r.note("Number %d.", i)
	}
	assert.Len(t, r.Notes, mostNotes)
	assert.Equal(t, "12,345,678 triangles were", were(12345678, "triangle"))
	assert.Equal(t, "1 face is", are(1, "face"))
	assert.Equal(t, "-1,000", grouped(-1000))
}
