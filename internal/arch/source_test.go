package arch

import (
	"errors"
	"go/ast"
	"go/build"
	"go/parser"
	"go/token"
	"io/fs"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const (
	module = "meltwright"
	top    = "../.." // the repository, from here
)

// source is what the arrows of one package on disk are.
type source struct {
	path         string
	files        []*ast.File // without its tests
	imports      []string    // of the package
	testsImports []string    // of its tests, in either test package
}

// readSources reads every package below root that go builds here. Folders
// whose files are all kept out by build tags are no packages; in a package,
// files for other systems count too.
func readSources(t *testing.T, root string) []source {
	t.Helper()
	var all []source
	require.NoError(t, filepath.WalkDir(root, func(dir string, d fs.DirEntry, err error) error {
		if err != nil || !d.IsDir() {
			return err
		}
		if dir != root && (strings.HasPrefix(d.Name(), ".") || slices.Contains([]string{"testdata", "bin", "out"}, d.Name())) {
			return filepath.SkipDir
		}
		var none *build.NoGoError
		if _, err := build.ImportDir(dir, 0); errors.As(err, &none) {
			return nil
		}
		path, err := filepath.Rel(root, dir)
		require.NoError(t, err)
		all = append(all, readSource(t, dir, filepath.ToSlash(path)))
		return nil
	}))
	return all
}

func readSource(t *testing.T, dir, path string) source {
	t.Helper()
	s := source{path: path}
	names, err := filepath.Glob(filepath.Join(dir, "*.go"))
	require.NoError(t, err)
	for _, name := range names {
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution)
		require.NoError(t, err)
		if strings.HasSuffix(name, "_test.go") {
			s.testsImports = append(s.testsImports, importsOf(file)...)
		} else {
			s.imports = append(s.imports, importsOf(file)...)
			s.files = append(s.files, file)
		}
	}
	return s
}

func importsOf(file *ast.File) []string {
	var paths []string
	for _, spec := range file.Imports {
		path, err := strconv.Unquote(spec.Path.Value)
		if err == nil && path != "C" {
			paths = append(paths, path)
		}
	}
	return paths
}

// committed lists the files that git keeps, as paths below the repository.
func committed(t *testing.T) []string {
	t.Helper()
	// A clone made by another user is as good as ours to read.
	names, err := exec.Command("git", "-c", "safe.directory=*", "-C", top, "ls-files", "-z").Output()
	require.NoError(t, err, "these tests read a git checkout")
	return strings.Split(strings.TrimRight(string(names), "\x00"), "\x00")
}
