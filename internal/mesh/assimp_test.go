package mesh

import (
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/fault"
)

// Checked against assimp 5.2 (Debian assimp-utils), which writes one figure in
// every format, and its test models (Debian assimp-testmodels), many of them
// broken on purpose.

const testModels = "/usr/share/assimp/models"

func TestOneFigureIsTheSameInEveryFormatThatAssimpWrites(t *testing.T) {
	assimp := needTool(t, "assimp")
	for _, name := range []string{"man.off", "elephant.off"} {
		solid := figure(t, name)
		folder := t.TempDir()
		from := filepath.Join(folder, "from.obj")
		require.NoError(t, os.WriteFile(from, textOBJ(solid), 0o600))
		for _, to := range []struct {
			id     string
			format Format
		}{
			{"stl", TextSTL}, {"stlb", BinarySTL}, {"obj", OBJ}, {"objnomtl", OBJ}, {"ply", TextPLY}, {"plyb", BinaryPLY}, {"3mf", ThreeMF}, {"gltf2", GLTF}, {"glb2", GLB},
		} {
			path := filepath.Join(folder, "to."+to.id) // assimp goes by the id
			out, err := exec.Command(assimp, "export", from, path, "-f"+to.id).CombinedOutput()
			require.NoError(t, err, "%s", out)
			m, report, err := ReadFile(t.Context(), path, nil)
			require.NoError(t, err, to.id)
			assertSound(t, m)
			assert.Equal(t, to.format, report.Format)
			assert.Equal(t, len(solid.Triangles), len(m.Triangles), "%s as %s", name, to.id)
			assert.Equal(t, len(solid.Points), len(m.Points), "%s as %s", name, to.id)
			assert.InEpsilon(t, volumeOf(solid), volumeOf(m), 1e-5, "%s as %s", name, to.id)
			assert.InEpsilon(t, areaOf(solid), areaOf(m), 1e-5, "%s as %s", name, to.id)
			assert.Empty(t, report.Notes)
		}
	}
}

// What assimp's test models are to be read as: triangles, welded points, and
// what their own sources say of them.
func TestAssimpsTestModels(t *testing.T) {
	models := needTool(t, testModels)
	for name, want := range map[string]struct{ triangles, points int }{
		"3MF/box.3mf": {12, 8}, "OBJ/box.obj": {12, 8}, "OBJ/box_UTF16BE.obj": {12, 8}, "OBJ/box_without_lineending.obj": {12, 8},
		"OBJ/concave_polygon.obj": {64, 64}, "OBJ/spider.obj": {1312, 722}, "STL/Spider_ascii.stl": {1312, 722}, "STL/Spider_binary.stl": {1312, 722},
		"OBJ/WusonOBJ.obj": {3732, 2117}, "PLY/Wuson.ply": {3732, 2117}, "STL/Wuson.stl": {3732, 2117},
		"PLY/cube.ply": {12, 8}, "PLY/cube_binary.ply": {12, 8}, "PLY/cube_uv.ply": {12, 8}, "STL/triangle_with_two_solids.stl": {2, 6},
		"STL/triangle_with_empty_solid.stl": {1, 3}, "STL/sphereWithHole.stl": {285, 146},
		"glTF2/BoxTextured-glTF/BoxTextured.gltf": {12, 8}, "glTF2/BoxTextured-glTF-Binary/BoxTextured.glb": {12, 8}, "glTF2/BoxTextured-glTF-Embedded/BoxTextured.gltf": {12, 8},
		"glTF2/glTF-Asset-Generator/Mesh_PrimitiveMode/Mesh_PrimitiveMode_04.gltf": {2, 4}, "glTF2/glTF-Asset-Generator/Mesh_PrimitiveMode/Mesh_PrimitiveMode_05.gltf": {2, 4},
		"glTF2/IndexOutOfRange/IndexOutOfRange.gltf": {11, 8},
		"invalid/malformed.obj":                      {7, 8}, "invalid/malformed2.obj": {10, 8},
	} {
		m, _, err := ReadFile(t.Context(), filepath.Join(models, name), nil)
		require.NoError(t, err, name)
		assert.Equal(t, want.triangles, len(m.Triangles), name)
		assert.Equal(t, want.points, len(m.Points), name)
	}
	for name, problem := range map[string]string{
		"glTF2/MissingBin/BoxTextured.gltf":                       "has its points in “BoxTextured0.bin”, which cannot be opened in the same folder (no such file or directory)",
		"glTF2/draco/2CylinderEngine.gltf":                        "is compressed by KHR_draco_mesh_compression",
		"glTF2/IndexOutOfRange/AllIndicesOutOfRange.gltf":         "holds 12 triangles, and none can be used",
		"glTF2/BoxWithInfinites-glTF-Binary/BoxWithInfinites.glb": "12 triangles were left out: a corner is no number",
		"glTF2/RecursiveNodes/RecursiveNodes.gltf":                "a node within itself",
		"glTF2/TestNoRootNode/NoScene.gltf":                       "holds no triangles",
		"glTF/BoxTextured-glTF-Binary/BoxTextured.glb":            "is a GLB of version 1; export it as glTF 2.0",
		"glTF/BoxTextured-glTF-Embedded/BoxTextured.gltf":         "is glTF of version 1.0; export it as glTF 2.0",
		"OBJ/point_cloud.obj":                                     "holds no triangles",
		"PLY/points.ply":                                          "holds no triangles",
		"PLY/issue623.ply":                                        "the header says 24 rows of kind “vertex”, 1 found",
		"invalid/empty.obj":                                       "is empty",
		"STEP/../IFC/AC14-FZK-Haus.ifc":                           "is a STEP drawing",
	} {
		_, _, err := ReadFile(t.Context(), filepath.Join(models, name), nil)
		assert.ErrorContains(t, err, problem, name)
	}
}

// Every file of the test models, of whatever kind, gives a sound mesh or a
// sentence.
func TestEveryTestModelGivesASoundMeshOrASentence(t *testing.T) {
	require.NoError(t, filepath.WalkDir(needTool(t, testModels), func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		m, report, err := ReadFile(t.Context(), path, nil)
		if err != nil {
			f := fault.All(err)[0]
			assert.True(t, strings.HasPrefix(f.Field, "Scan file "), path)
			assert.NotEmpty(t, f.Problem, path)
			assert.NotEmpty(t, f.Remedy, path)
			return nil
		}
		assertSound(t, m)
		assert.Equal(t, report.Found, len(m.Triangles)+report.Left(), path)
		return nil
	}))
}
