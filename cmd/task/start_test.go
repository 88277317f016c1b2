package main

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// echoProgram is a stand-in that says what it was asked, and writes a file
// for its last word if that names a PDF.
const echoProgram = `package main

import ("fmt"; "os"; "strings")

func main() {
	fmt.Println("asked:", os.Args[1:])
	if last := os.Args[len(os.Args)-1]; strings.HasSuffix(last, ".pdf") {
		if os.WriteFile(last, []byte("%PDF"), 0o644) != nil { os.Exit(1) }
	}
}
`

func TestWithoutADisplayTheDemoBecomesAPriceAndAPDF(t *testing.T) {
	h := smallHouse(t, map[string]string{"cmd/meltwright-cli/main.go": echoProgram})
	require.NoError(t, h.startOnPaper(), h.out)
	said := fmt.Sprint(h.out)
	assert.Contains(t, said, "asked: [estimate "+filepath.Join("out", "demo.json")+"]")
	assert.Contains(t, said, filepath.Join(h.root, "out", "demo-proposal.pdf"))
	assert.Contains(t, said, "To see the window")
	assert.FileExists(t, filepath.Join(h.root, "out", "demo-proposal.pdf"))
	demo, err := os.ReadFile(filepath.Join(h.root, "out", "demo.json"))
	require.NoError(t, err)
	assert.Equal(t, "asked: [example]\n", string(demo))
}

func TestTheWindowOpensOnTheDemo(t *testing.T) {
	h := smallHouse(t, map[string]string{"cmd/meltwright/main.go": echoProgram})
	require.NoError(t, h.openWindow(), h.out)
	assert.Contains(t, fmt.Sprint(h.out), "asked: [--demo]")
}

func TestAProgramThatIsNotThereIsSaidSo(t *testing.T) {
	h := smallHouse(t, nil)
	assert.EqualError(t, h.buildWindow(), "cannot build meltwright: its source, cmd/meltwright, is not there")
	assert.EqualError(t, h.buildCLI(), "cannot build meltwright-cli: its source, cmd/meltwright-cli, is not there")
}

func TestAProgramThatDoesNotBuildShowsWhy(t *testing.T) {
	h := smallHouse(t, map[string]string{"cmd/meltwright-cli/main.go": "package main\n\nfunc main() { lost() }\n"})
	assert.ErrorContains(t, h.startOnPaper(), "meltwright-cli does not build; the lines above say why")
	assert.Contains(t, fmt.Sprint(h.out), "undefined: lost")
}

func TestAWindowThatBreaksIsSaidSo(t *testing.T) {
	h := smallHouse(t, map[string]string{"cmd/meltwright/main.go": `package main

func main() { println("no OpenGL here"); panic("stop") }
`})
	assert.ErrorContains(t, h.openWindow(), "the window ended with an error")
	assert.Contains(t, fmt.Sprint(h.out), "no OpenGL here")
}

func TestTheCheckoutIsFoundFromAFolderBelow(t *testing.T) {
	h := smallHouse(t, map[string]string{"internal/deep/x.go": "package deep\n"})
	t.Chdir(filepath.Join(h.root, "internal", "deep"))
	found, err := findHouse(h.out)
	require.NoError(t, err)
	assert.Equal(t, realPath(t, h.root), realPath(t, found.root))
}

func realPath(t *testing.T, path string) string {
	t.Helper()
	real, err := filepath.EvalSymlinks(path)
	require.NoError(t, err)
	return real
}
