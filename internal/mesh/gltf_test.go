package mesh

import (
	"encoding/base64"
	"encoding/binary"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// nodesOf is a GLB of the mesh with nodes of the test's own.
func nodesOf(m *Mesh, nodes string) []byte { return glb(gltfText(m, nodes, ""), gltfData(m)) }

func TestGLTFIsInMetresWithYUp(t *testing.T) {
	_, report := mustRead(t, simpleGLB(brick(Vec{1, 1, 1}, 1)))
	assert.Equal(t, Metre, report.Unit)
	assert.Equal(t, YUp, report.Up)
}

// A quarter turn about z as a quaternion is (0, 0, √½, √½): it takes x to y
// (glTF 2.0 specification, section 3.5.3).
func TestNodesOfAGLTFArePlaced(t *testing.T) {
	half := math.Sqrt(0.5)
	for name, nodes := range map[string]string{
		"in parts":  fmt.Sprintf(`{"mesh":0,"translation":[10,20,30],"rotation":[0,0,%v,%v],"scale":[1,1,2]}`, half, half),
		"a matrix":  `{"mesh":0,"matrix":[0,1,0,0, -1,0,0,0, 0,0,2,0, 10,20,30,1]}`,
		"in a tree": fmt.Sprintf(`{"children":[1],"translation":[10,20,30]},{"children":[2],"rotation":[0,0,%v,%v]},{"mesh":0,"scale":[1,1,2]}`, half, half),
	} {
		m, report := mustRead(t, nodesOf(brick(Vec{1, 2, 3}, 1), nodes))
		low, high := boxOf(m)
		for k := range low {
			assert.InDelta(t, Vec{8, 20, 30}[k], low[k], 1e-5, name)
			assert.InDelta(t, Vec{10, 21, 36}[k], high[k], 1e-5, name)
		}
		assert.InDelta(t, 12, volumeOf(m), 1e-4, name)
		assert.Empty(t, report.Notes)
	}
}

func TestAMirroredNodeIsNotInsideOut(t *testing.T) {
	m, _ := mustRead(t, nodesOf(brick(Vec{1, 1, 1}, 1), `{"mesh":0,"scale":[1,1,-1]}`))
	assert.InDelta(t, 1, volumeOf(m), 1e-12)
}

func TestAMeshMayBeUsedTwiceAndANodeOnlyOnce(t *testing.T) {
	cube := brick(Vec{1, 1, 1}, 1)
	m, report := mustRead(t, nodesOf(cube, `{"mesh":0,"children":[1,2,0,7]},{"mesh":0,"translation":[5,0,0],"children":[2]},{"scale":[2,2,2]}`))
	assert.Equal(t, 24, len(m.Triangles))
	assert.Equal(t, 2, report.Bodies)
	assert.ElementsMatch(t, []string{"A node within itself, or within two others, was left out.", "A node that does not exist was left out."}, report.Notes)
}

func TestStripsAndFansOfAGLTF(t *testing.T) {
	// Five points around a square with its middle; a strip, a fan, points.
	points := &Mesh{Points: []Vec32{{0, 0, 0}, {1, 0, 0}, {1, 1, 0}, {0, 1, 0}, {0.5, 0.5, 0}}, Triangles: [][3]uint32{{3, 0, 2}, {1, 4, 0}, {1, 2, 3}}}
	for name, c := range map[string]struct {
		mode, from, count int
		want              [][3]uint32
	}{
		"strip":  {5, 0, 4, [][3]uint32{{3, 0, 2}, {2, 0, 1}}},
		"fan":    {6, 4, 5, [][3]uint32{{4, 0, 1}, {4, 1, 2}, {4, 2, 3}}},
		"single": {4, 0, 3, [][3]uint32{{3, 0, 2}}},
	} {
		text := gltfText(points, `{"mesh":0}`, "")
		text = strings.Replace(text, `"indices":1`, fmt.Sprintf(`"indices":1,"mode":%d`, c.mode), 1)
		text = strings.Replace(text, `"count":9`, fmt.Sprintf(`"count":%d,"byteOffset":%d`, c.count, 4*c.from), 1)
		m, report := mustRead(t, glb(text, gltfData(points)))
		want := make([]Vec, 0)
		for _, f := range c.want {
			for _, i := range f {
				want = append(want, points.Points[i].Vec())
			}
		}
		assert.Equal(t, want, cornersIn(m), name)
		assert.Equal(t, 0, report.Degenerate)
	}
	for _, mode := range []string{"0", "1", "2", "3", `"four"`} {
		text := strings.Replace(gltfText(points, `{"mesh":0}`, ""), `"indices":1`, `"indices":1,"mode":`+mode, 1)
		_, _, err := readBytes(t, glb(text, gltfData(points)))
		assert.ErrorContains(t, err, "holds no triangles; loose points and lines were passed over")
	}
}

// sparse is a document whose second point is moved, and whose others are zero
// or those of the buffer.
func sparse(base string) []byte {
	var data []byte
	for _, x := range []float32{0, 0, 0, 1, 0, 0, 0, 1, 0 /* moved: */, 7, 0, 0, 0, 8, 0} {
		data = binary.LittleEndian.AppendUint32(data, math.Float32bits(x))
	}
	data = append(data, 1, 2)
	return glb(fmt.Sprintf(`{"asset":{"version":"2.0"},"meshes":[{"primitives":[{"attributes":{"POSITION":0}}]}],
"accessors":[{%s"componentType":5126,"count":3,"type":"VEC3","sparse":{"count":2,"indices":{"bufferView":2,"componentType":5121},"values":{"bufferView":1}}}],
"bufferViews":[{"buffer":0,"byteLength":36},{"buffer":0,"byteOffset":36,"byteLength":24},{"buffer":0,"byteOffset":60,"byteLength":2}],
"buffers":[{"byteLength":62}]}`, base), data)
}

func TestSparsePointsOfAGLTFReplaceThoseBeneath(t *testing.T) {
	for _, base := range []string{`"bufferView":0,`, ""} {
		m, _ := mustRead(t, sparse(base))
		assert.Equal(t, []Vec{{}, {7, 0, 0}, {0, 8, 0}}, cornersIn(m), base)
	}
}

// KHR_mesh_quantization: points as whole numbers, normalised or not, with room
// between them.
func TestQuantisedPointsOfAGLTF(t *testing.T) {
	for kind, c := range map[int]struct {
		data       []byte
		plain, one float64
	}{
		5120: {[]byte{0, 0, 0, 9, 127, 0, 0, 9, 0, 129, 0, 9}, 127, 1},
		5121: {[]byte{0, 0, 0, 9, 255, 0, 0, 9, 0, 0, 0, 9}, 255, 1},
	} {
		for _, normalised := range []bool{false, true} {
			text := fmt.Sprintf(`{"asset":{"version":"2.0"},"extensionsRequired":["KHR_mesh_quantization"],"nodes":[{"mesh":0}],"meshes":[{"primitives":[{"attributes":{"POSITION":0},"indices":1}]}],
"accessors":[{"bufferView":0,"componentType":%d,"normalized":%v,"count":3,"type":"VEC3"},{"bufferView":1,"componentType":5121,"count":3,"type":"SCALAR"}],
"bufferViews":[{"buffer":0,"byteLength":12,"byteStride":4},{"buffer":0,"byteOffset":12,"byteLength":3}],"buffers":[{"byteLength":15}]}`, kind, normalised)
			data := append(append([]byte{}, c.data...), 0, 1, 2)
			if kind == 5121 {
				data[9] = 255
			}
			m, report := mustRead(t, glb(text, data))
			_, high := boxOf(m)
			want := c.plain
			if normalised {
				want = c.one
			}
			assert.Equal(t, want, high[0], "%d %v", kind, normalised)
			assert.Empty(t, report.Notes)
		}
	}
}

func TestCompressedGLTFIsRefusedByTheNameOfWhatCompressesIt(t *testing.T) {
	cube := brick(Vec{1, 1, 1}, 1)
	plain := gltfText(cube, `{"mesh":0}`, "")
	for _, name := range []string{draco, meshopt, meshoptKHR} {
		text := strings.Replace(plain, `"scene":0`, `"scene":0,"extensionsRequired":["`+name+`"]`, 1)
		_, _, err := readBytes(t, glb(text, gltfData(cube)))
		assert.EqualError(t, err, "Scan file form is compressed by "+name+", which cannot be read; export it without compression")
	}
	inside := strings.Replace(plain, `"indices":1`, `"indices":1,"extensions":{"KHR_draco_mesh_compression":{}}`, 1)
	m, _ := mustRead(t, glb(inside, gltfData(cube)))
	assert.Equal(t, 12, len(m.Triangles), "the plain points are there too")
	_, _, err := readBytes(t, glb(strings.Replace(inside, `"bufferView":0,`, "", 1), gltfData(cube)))
	assert.ErrorContains(t, err, draco)
	packed := strings.Replace(plain, `"byteLength":96}`, `"byteLength":96,"extensions":{"EXT_meshopt_compression":{}}}`, 1)
	_, _, err = readBytes(t, []byte(packed))
	assert.ErrorContains(t, err, meshopt)
}

func TestAnUnknownNeedIsToldButOneOfLooksIsNot(t *testing.T) {
	cube := brick(Vec{1, 1, 1}, 1)
	text := strings.Replace(gltfText(cube, `{"mesh":0}`, ""), `"scene":0`, `"scene":0,"extensionsRequired":["KHR_materials_unlit","ACME_bent_space"]`, 1)
	m, report := mustRead(t, glb(text, gltfData(cube)))
	assert.Equal(t, 12, len(m.Triangles))
	assert.Equal(t, []string{"The file needs “ACME_bent_space”, which is not known here; the form may be incomplete."}, report.Notes)
}

func TestTheDataOfAGLTFMayLieBesideItAndNowhereElse(t *testing.T) {
	cube := brick(Vec{1, 1, 1}, 1)
	outside := t.TempDir()
	folder := filepath.Join(outside, "scan")
	require.NoError(t, os.MkdirAll(filepath.Join(folder, "data"), 0o700))
	for _, at := range []string{filepath.Join(folder, "a form.bin"), filepath.Join(folder, "data", "b.bin"), filepath.Join(outside, "secret.bin")} {
		require.NoError(t, os.WriteFile(at, gltfData(cube), 0o600))
	}
	require.NoError(t, os.Symlink(filepath.Join(outside, "secret.bin"), filepath.Join(folder, "link.bin")))
	path := filepath.Join(folder, "form.gltf")
	read := func(uri string) (*Mesh, error) {
		require.NoError(t, os.WriteFile(path, []byte(gltfText(cube, `{"mesh":0}`, `,"uri":"`+uri+`"`)), 0o600))
		m, _, err := ReadFile(t.Context(), path, nil)
		return m, err
	}
	for _, uri := range []string{"a%20form.bin", "data/b.bin", "./data/../a form.bin"} {
		m, err := read(uri)
		require.NoError(t, err, uri)
		assert.Equal(t, 12, len(m.Triangles))
	}
	for _, uri := range []string{"../secret.bin", filepath.Join(outside, "secret.bin"), "link.bin", "data", "gone.bin", "https://example.org/a.bin", ""} {
		_, err := read(uri)
		assert.ErrorContains(t, err, "which cannot be opened in the same folder", uri)
	}
	_, _, err := readBytes(t, []byte(gltfText(cube, `{"mesh":0}`, `,"uri":"a.bin"`)))
	assert.EqualError(t, err, "Scan file form has its points in another file, “a.bin”; export it as GLB, which is one file")
}

func TestADamagedGLTFGivesWhatIsSound(t *testing.T) {
	cube := brick(Vec{1, 1, 1}, 1)
	data := gltfData(cube)
	whole := glb(gltfText(cube, `{"mesh":0}`, ""), data)
	m, report := mustRead(t, whole[:len(whole)-30])
	assert.Equal(t, 9, len(m.Triangles))
	assert.Equal(t, fmt.Sprintf("The header says %s bytes, %s found.", grouped(len(whole)), grouped(len(whole)-30)), report.Notes[0])
	assert.Equal(t, "A table should have 36 rows, 28 found.", report.Notes[1])
	assert.Equal(t, "A list of triangles ends in the middle of one.", report.Notes[2])

	text := gltfText(cube, `{"mesh":0}`, `,"uri":"data:;base64,`+base64.StdEncoding.EncodeToString(data)[:300]+`!!"`)
	m, report = mustRead(t, []byte(text))
	assert.Equal(t, 10, len(m.Triangles))
	assert.Contains(t, report.Notes, "The data within the file are damaged.")
}

func TestAGLTFThatIsNoneIsRefusedInASentence(t *testing.T) {
	cube := brick(Vec{1, 1, 1}, 1)
	plain := gltfText(cube, `{"mesh":0}`, `,"uri":"data:;base64,`+base64.StdEncoding.EncodeToString(gltfData(cube))+`"`)
	for text, problem := range map[string]string{
		`{"asset":{"version":"1.0"}}`:          "is glTF of version 1.0; export it as glTF 2.0",
		`{"asset":{"version":"2.0"}`:           "begins like glTF, but cannot be understood",
		`{"asset":{"version":"2.0"}}`:          "holds no triangles",
		`{}`:                                   "holds no triangles",
		"glTF\x01\x00\x00\x00\x0c\x00\x00\x00": "is a GLB of version 1",
		"glTF":                                 "ends within its header",
		strings.Replace(plain, "data:;base64,", "data:,", 1):                         "has data within it that are not in base 64",
		strings.Replace(plain, `"VEC3"`, `"VEC2"`, 1):                                "points that are not three numbers each were left out",
		strings.Replace(plain, `"componentType":5125`, `"componentType":5126`, 1):    "numbers of points that are not whole numbers were left out",
		strings.Replace(plain, `"POSITION":0`, `"POSITION":-1`, 1):                   "data that the file does not have was asked for",
		strings.Replace(plain, `"bufferView":1`, `"bufferView":9`, 1):                "data that the file does not have was asked for",
		strings.Replace(plain, `"nodes":[{"mesh":0}]`, `"nodes":[{"mesh":3}]`, 1):    "a mesh that does not exist was left out",
		strings.Replace(plain, `"meshes":[{`, `"meshes":{"a":{`, 1):                  "cannot be understood",
		strings.Replace(gltfText(cube, `{"mesh":0}`, ""), "byteLength", "length", 9): "lacks the data of its points",
	} {
		_, _, err := readBytes(t, []byte(text))
		assert.ErrorContains(t, err, problem)
	}
	m, report := mustRead(t, []byte(strings.Replace(plain, `"scene":0`, `"scene":"first","extras":3`, 1)))
	assert.Equal(t, 12, len(m.Triangles), "what is not what it should be is passed over")
	assert.Empty(t, report.Notes)
	m, report = mustRead(t, []byte(strings.Replace(plain, `"nodes":[{"mesh":0}]`, `"nodes":[{"mesh":0,"scale":"big"}]`, 1)))
	assert.Equal(t, 12, len(m.Triangles))
	assert.True(t, report.Damaged)
}

func TestMeshesThatNoSceneHasAreTaken(t *testing.T) {
	cube := brick(Vec{1, 1, 1}, 1)
	m, report := mustRead(t, nodesOf(cube, `{"name":"nothing"}`))
	assert.Equal(t, 12, len(m.Triangles))
	assert.Equal(t, []string{"No scene has the meshes in it; all were taken as they are modelled."}, report.Notes)
}

func TestPosesAndShapesAreToldNotRead(t *testing.T) {
	cube := brick(Vec{1, 1, 1}, 1)
	text := strings.Replace(gltfText(cube, `{"mesh":0,"skin":0,"extensions":{"EXT_mesh_gpu_instancing":{}}}`, ""), `"indices":1`, `"indices":1,"targets":[{}]`, 1)
	_, report := mustRead(t, glb(text, gltfData(cube)))
	assert.Len(t, report.Notes, 3)
}
