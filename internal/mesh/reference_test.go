package mesh

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// python is the system's own, for which Debian packages its modules.
const python = "/usr/bin/python3"

// needModule gives a python that has the module.
func needModule(t testing.TB, module string) string {
	t.Helper()
	path := needTool(t, python)
	if err := exec.Command(path, "-c", "import "+module).Run(); err != nil {
		needTool(t, "the Python module "+module)
	}
	return path
}

// admesh 0.98 (A. D. Martin) and numpy-stl 2.8 (R. van Hattem) read the same
// file to the same count and volume.
func TestAdmeshAndNumpySTLFindTheSame(t *testing.T) {
	admesh := needTool(t, "admesh")
	numpy := needModule(t, "stl")
	for _, name := range []string{"man.off", "bear.off", "elephant.off"} {
		solid := figure(t, name)
		for kind, data := range map[string][]byte{"binary": binarySTL("figure", solid), "text": textSTL("figure", solid)} {
			path := filepath.Join(t.TempDir(), "figure.stl")
			require.NoError(t, os.WriteFile(path, data, 0o600))
			m, _, err := ReadFile(t.Context(), path, nil)
			require.NoError(t, err)

			out, err := exec.Command(admesh, path).Output()
			require.NoError(t, err)
			assert.Equal(t, numberAfter(t, `Number of facets\s*:`, out), float64(len(m.Triangles)), "%s %s", name, kind)
			assert.InDelta(t, numberAfter(t, `Volume\s*:`, out), volumeOf(m), 2e-5*volumeOf(m)+1e-6, "%s %s", name, kind)

			out, err = exec.Command(numpy, "-W", "ignore", "-c", `
import sys, stl, numpy
m = stl.mesh.Mesh.from_file(sys.argv[1], remove_empty_areas=False)
print("triangles", len(m), "points", len(numpy.unique(m.vectors.reshape(-1, 3), axis=0)))`, path).Output()
			require.NoError(t, err)
			assert.Equal(t, fmt.Sprintf("triangles %d points %d\n", len(m.Triangles), len(m.Points)), string(out), "%s %s", name, kind)
		}
	}
}

// numberAfter is the number that follows the words in what a program printed.
func numberAfter(t testing.TB, words string, printed []byte) float64 {
	t.Helper()
	found := regexp.MustCompile(words + `\s*([-+0-9.e]+)`).FindSubmatch(printed)
	require.NotNil(t, found, "%s in\n%s", words, printed)
	x, err := strconv.ParseFloat(string(found[1]), 64)
	require.NoError(t, err)
	return x
}
