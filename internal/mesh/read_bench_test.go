package mesh

import (
	"encoding/binary"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime/debug"
	"runtime/metrics"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// million is a torus of a million triangles.
func million() *Mesh { return torus(3, 1, 1000) }

// millionFile writes the million in one of the formats, and gives its path.
func millionFile(tb testing.TB, write func(m *Mesh) []byte) string {
	tb.Helper()
	path := filepath.Join(tb.TempDir(), "million")
	require.NoError(tb, os.WriteFile(path, write(million()), 0o600))
	return path
}

// benchRead reads the million in one format, again and again; and once more to
// see how much memory that takes.
func benchRead(b *testing.B, points int, write func(m *Mesh) []byte) {
	path := millionFile(b, write)
	read := func() {
		m, _, err := ReadFile(b.Context(), path, nil)
		require.NoError(b, err)
		require.Equal(b, 1_000_000, len(m.Triangles))
		require.Equal(b, points, len(m.Points))
	}
	most := peak(read)
	for b.Loop() {
		read()
	}
	b.ReportMetric(float64(most)/1e6, "MB-peak")
}

// peak is how many bytes more the heap holds at most while work goes on.
func peak(work func()) (most uint64) {
	debug.FreeOSMemory()
	base := heap()
	done := make(chan struct{})
	var watch sync.WaitGroup
	watch.Go(func() {
		tick := time.NewTicker(time.Millisecond)
		defer tick.Stop()
		for {
			select {
			case <-tick.C:
				most = max(most, heap())
			case <-done:
				return
			}
		}
	})
	work()
	close(done)
	watch.Wait()
	return max(most, base) - base
}

// heap is what the heap takes, dead objects not yet swept among it.
func heap() uint64 {
	sample := []metrics.Sample{{Name: "/memory/classes/heap/objects:bytes"}}
	metrics.Read(sample)
	return sample[0].Value.Uint64()
}

func BenchmarkReadMillion(b *testing.B) {
	for _, c := range []struct {
		name   string
		points int
		write  func(m *Mesh) []byte
	}{
		{"binary STL", 500_000, func(m *Mesh) []byte { return binarySTL("", m) }},
		{"binary STL in no order", 500_000, func(m *Mesh) []byte { return binarySTL("", shuffled(m)) }},
		{"binary STL of loose triangles", 3_000_000, func(m *Mesh) []byte { return binarySTL("", apart(m)) }},
		{"text STL", 500_000, func(m *Mesh) []byte { return textSTL("", m) }},
		{"OBJ", 500_000, textOBJ},
		{"binary PLY", 500_000, func(m *Mesh) []byte { return plyOf(m, binary.LittleEndian) }},
		{"text PLY", 500_000, func(m *Mesh) []byte { return plyOf(m, nil) }},
		{"3MF", 500_000, func(m *Mesh) []byte { return simple3MF(b, m) }},
		{"GLB", 500_000, simpleGLB},
		{"glTF", 500_000, embeddedGLTF},
	} {
		b.Run(c.name, func(b *testing.B) { benchRead(b, c.points, c.write) })
	}
}

// shuffled has its triangles in no order: no neighbour follows another.
func shuffled(m *Mesh) *Mesh {
	r := rand.New(rand.NewPCG(1, 2))
	r.Shuffle(len(m.Triangles), func(i, j int) { m.Triangles[i], m.Triangles[j] = m.Triangles[j], m.Triangles[i] })
	return m
}

// apart has no two corners in one place, as a scan badly rounded may.
func apart(m *Mesh) *Mesh {
	out := &Mesh{}
	for i := range m.Triangles {
		a, b, c := m.Corners(i)
		n := uint32(3 * i)
		out.Points = append(out.Points, a.Add(Vec{0, 0, 10 + float64(i)/1e4}).Vec32(), b.Add(Vec{0, 20, 0}).Add(Vec{0, 0, float64(i) / 1e4}).Vec32(), c.Add(Vec{20, 0, float64(i) / 1e4}).Vec32())
		out.Triangles = append(out.Triangles, [3]uint32{n, n + 1, n + 2})
	}
	return out
}
