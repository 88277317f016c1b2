package mesh

import (
	"encoding/binary"
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
func benchRead(b *testing.B, write func(m *Mesh) []byte) {
	path := millionFile(b, write)
	read := func() {
		m, _, err := ReadFile(b.Context(), path, nil)
		require.NoError(b, err)
		require.Equal(b, 1_000_000, len(m.Triangles))
		require.Equal(b, 500_000, len(m.Points))
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
	b.Run("binary STL", func(b *testing.B) { benchRead(b, func(m *Mesh) []byte { return binarySTL("", m) }) })
	b.Run("text STL", func(b *testing.B) { benchRead(b, func(m *Mesh) []byte { return textSTL("", m) }) })
	b.Run("OBJ", func(b *testing.B) { benchRead(b, textOBJ) })
	b.Run("binary PLY", func(b *testing.B) {
		benchRead(b, func(m *Mesh) []byte { return plyOf(m, binary.LittleEndian) })
	})
	b.Run("text PLY", func(b *testing.B) { benchRead(b, func(m *Mesh) []byte { return plyOf(m, nil) }) })
	b.Run("3MF", func(b *testing.B) { benchRead(b, func(m *Mesh) []byte { return simple3MF(b, m) }) })
	b.Run("GLB", func(b *testing.B) { benchRead(b, simpleGLB) })
	b.Run("glTF", func(b *testing.B) { benchRead(b, embeddedGLTF) })
}
