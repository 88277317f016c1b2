package mesh

import (
	"archive/tar"
	"bufio"
	"compress/gzip"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"meltwright/internal/reference"
)

// needTool gives the path of a reference program or file.
var needTool = reference.Tool

// figures is where Debian's libcgal-demo puts its meshes of real forms.
const figures = "/usr/share/doc/libcgal-dev/data.tar.gz"

// unpackFigure copies one mesh of Debian's libcgal-demo, such as "man.off",
// into a folder of the test's own, and gives its path.
func unpackFigure(t testing.TB, name string) string {
	t.Helper()
	archive, err := os.Open(needTool(t, figures))
	require.NoError(t, err)
	defer archive.Close()
	plain, err := gzip.NewReader(archive)
	require.NoError(t, err)
	entries := tar.NewReader(plain)
	for {
		entry, err := entries.Next()
		require.NoError(t, err, "no %s in %s", name, figures)
		if filepath.Base(entry.Name) != name {
			continue
		}
		path := filepath.Join(t.TempDir(), name)
		out, err := os.Create(path)
		require.NoError(t, err)
		_, err = io.Copy(out, entries)
		require.NoError(t, err)
		require.NoError(t, out.Close())
		return path
	}
}

// figure reads a triangle mesh in the OFF format, such as "man.off", from
// Debian's libcgal-demo.
func figure(t testing.TB, name string) *Mesh {
	t.Helper()
	file, err := os.Open(unpackFigure(t, name))
	require.NoError(t, err)
	defer file.Close()
	in := bufio.NewReader(file)
	var points, faces, edges int
	_, err = fmt.Fscanf(in, "OFF\n%d %d %d\n", &points, &faces, &edges)
	require.NoError(t, err)
	m := &Mesh{}
	for range points {
		var p Vec
		_, err = fmt.Fscan(in, &p[0], &p[1], &p[2])
		require.NoError(t, err)
		m.Points = append(m.Points, p.Vec32())
	}
	for range faces {
		var n int
		var f [3]uint32
		_, err = fmt.Fscan(in, &n, &f[0], &f[1], &f[2])
		require.NoError(t, err)
		require.Equal(t, 3, n)
		m.Triangles = append(m.Triangles, f)
	}
	return m
}
