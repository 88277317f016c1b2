package arch

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestEveryArrowIsInThePlan(t *testing.T) {
	sources := readSources(t, top)
	require.NotEmpty(t, sources)
	for _, s := range sources {
		for _, wrong := range strayArrows(s) {
			t.Error(wrong)
		}
	}
}

func TestPureRoomsTouchNoClockDiskOrChance(t *testing.T) {
	for _, s := range readSources(t, top) {
		for _, wrong := range impurities(s) {
			t.Error(wrong)
		}
	}
}

func TestThePlanNamesOnlyItsOwnRoomsAndHasNoRing(t *testing.T) {
	known := list()
	for _, r := range rooms {
		assert.NotContains(t, known, r.path, "listed twice")
		assert.NotEmpty(t, r.holds, r.path)
		for _, path := range r.may {
			assert.Contains(t, known, path, "%s may import it, so it has to come before it in the plan", r.path)
		}
		known = append(known, r.path)
	}
}

func TestThePlanNamesOnlyRoomsForLibrariesAndTests(t *testing.T) {
	for _, r := range rooms {
		for _, path := range r.tests {
			assert.NotNil(t, findRoom(path), path)
		}
	}
	for _, l := range libraries {
		for _, path := range l.used {
			assert.NotNil(t, findRoom(path), path)
		}
	}
}

func TestAnArrowThatThePlanDoesNotHaveIsNamed(t *testing.T) {
	assert.Equal(t, []string{
		"internal/quantity imports meltwright/internal/mesh, and its row in internal/arch/rooms.go does not let it",
		"internal/quantity imports fyne.io/fyne/v2, and its row in internal/arch/rooms.go does not let it",
		"the tests of internal/quantity import meltwright/internal/estimate, and its row in internal/arch/rooms.go does not let them",
	}, strayArrows(source{
		path:         "internal/quantity",
		imports:      []string{"strings", "meltwright/internal/fault", "meltwright/internal/mesh", "fyne.io/fyne/v2"},
		testsImports: []string{"testing", "meltwright/internal/quantity", "pgregory.net/rapid", "meltwright/internal/estimate"},
	}))
	assert.Equal(t, []string{"internal/utils is not in the plan; give it a row in internal/arch/rooms.go, or put its code into a room that is there"},
		strayArrows(source{path: "internal/utils"}))
}

func TestEveryLibraryStaysInItsRooms(t *testing.T) {
	for _, c := range []struct {
		library string
		in      string // the rooms that may use it
	}{
		{"fyne.io/fyne/v2/widget", "internal/ui/look internal/ui/kit internal/ui cmd/meltwright"},
		{"fyne.io/fyne/v2/app", "cmd/meltwright"},
		{"github.com/jung-kurt/gofpdf", "internal/proposal"},
		{"modernc.org/sqlite", "internal/sqlite"},
		{"modernc.org/sqlite/lib", "internal/sqlite"},
		{"modernc.org/sqlite2", ""},
		{"github.com/bojanz/currency", "internal/money"},
		{"github.com/stretchr/testify/assert", ""},
		{"example.com/unknown", ""},
	} {
		var users []string
		for _, r := range rooms {
			if mayImport(r, c.library) {
				users = append(users, r.path)
			}
		}
		assert.Equal(t, strings.Fields(c.in), append([]string{}, users...), c.library)
	}
}

func TestAClockOrADiskInAPureRoomIsNamed(t *testing.T) {
	root := t.TempDir()
	write(t, root, "internal/lead/lead.go", `package lead

import (
	"math/rand/v2"
	"os"
	"time"
)

var begun = time.Now()
var day = time.Date
var _, _ = os.Args, rand.New
`)
	assert.Equal(t, []string{
		"internal/lead is pure in the plan, and imports os",
		"internal/lead is pure in the plan, and calls time.Now; let it be given the time",
	}, impurities(readSources(t, root)[0]))
}

func TestAFolderWhoseFilesAreAllKeptOutIsNoPackage(t *testing.T) {
	root := t.TempDir()
	write(t, root, "internal/kept/kept.go", "//go:build kept\n\npackage kept\n")
	write(t, root, "internal/mesh/mesh.go", "package mesh\n")
	write(t, root, "internal/mesh/mesh_windows.go", "package mesh\n\nimport \"os\"\n")
	write(t, root, "internal/mesh/mesh_test.go", "package mesh_test\n\nimport \"testing\"\n")
	write(t, root, "internal/mesh/testdata/x.go", "package x\n")
	sources := readSources(t, root)
	require.Len(t, sources, 1)
	assert.Equal(t, "internal/mesh", sources[0].path)
	assert.Equal(t, []string{"os"}, sources[0].imports)
	assert.Equal(t, []string{"testing"}, sources[0].testsImports)
}

func write(t *testing.T, root, path, text string) {
	t.Helper()
	path = filepath.Join(root, path)
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
}
