package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// bringers are the Debian packages that bring what tests ask for by name; empty
// is what every machine has that can run tests.
var bringers = map[string]string{
	"Xvfb": "xvfb", "xdotool": "xdotool", "convert": "imagemagick",
	"qpdf": "qpdf", "mutool": "mupdf-tools",
	"pdffonts": "poppler-utils", "pdfimages": "poppler-utils", "pdfinfo": "poppler-utils", "pdftoppm": "poppler-utils", "pdftotext": "poppler-utils",
	"units": "units", "openscad": "openscad", "admesh": "admesh", "assimp": "assimp-utils", "soffice": "libreoffice-calc",
	"python3": "python3-scipy", "/usr/bin/python3": "python3-scipy", "python": "python3-scipy", // they need it
	"/usr/lib/python3/dist-packages/vtk.py": "python3-vtk9", "vtkmodules.vtkFiltersCore": "python3-vtk9", "stl": "python3-stl",
	"figures": "libcgal-demo", "testModels": "assimp-testmodels",
	"java": "default-jre-headless", "/usr/share/java/preflight.jar": "libpdfbox2-java",
	"go": "",
}

var (
	asksForTool = regexp.MustCompile(`need(?:Tool|Module)\(\w+, ("[^"]*"|\w+)(?:, "-c", "import (\w+)")?[,)]`)
	asksInStory = regexp.MustCompile(`(?m)^\[exec:(\w+)\]`)
)

func TestEveryToolThatATestAsksForIsInstalled(t *testing.T) {
	h, err := findHouse(os.Stdout)
	require.NoError(t, err)
	installed := aptNames(references)
	asked := 0
	check := func(name, where string) {
		asked++
		brings, known := bringers[name]
		assert.True(t, known, "%s asks for %s: say here which package brings it", where, name)
		assert.True(t, brings == "" || slices.Contains(installed, brings), "%s asks for %s, and %s is not among the references", where, name, brings)
	}
	require.NoError(t, filepath.WalkDir(h.root, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || !strings.HasSuffix(path, "_test.go") && !strings.HasSuffix(path, ".txtar") {
			return err
		}
		text, err := os.ReadFile(path)
		for _, found := range append(asksForTool.FindAllStringSubmatch(string(text), -1), asksInStory.FindAllStringSubmatch(string(text), -1)...) {
			check(strings.Trim(found[1], `"`), path)
			if len(found) > 2 && found[2] != "" {
				assert.Contains(t, installed, "python3-"+found[2], path)
			}
		}
		return err
	}))
	assert.Greater(t, asked, 20, "the tests ask in these words")
}
