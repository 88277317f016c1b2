package main

import (
	"bytes"
	"encoding/binary"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
	"meltwright/internal/mesh"
	"meltwright/internal/shop"
	"meltwright/internal/sqlite"
)

// column writes a binary STL of a round column, 40 across and 180 high, that lies
// along x: in millimetres a maquette, in centimetres a man's height.
func column(t *testing.T) string {
	t.Helper()
	const n, radius, high = 48, 20.0, 180.0
	type point = [3]float32
	at := func(x float64, k int) point {
		a := 2 * math.Pi * float64(k) / n
		return point{float32(x), float32(radius * math.Cos(a)), float32(radius * math.Sin(a))}
	}
	var faces []point
	for k := range n {
		faces = append(faces,
			point{0, 0, 0}, at(0, k+1), at(0, k),
			point{high, 0, 0}, at(high, k), at(high, k+1),
			at(0, k), at(0, k+1), at(high, k+1),
			at(0, k), at(high, k+1), at(high, k))
	}
	var b bytes.Buffer
	b.Write(make([]byte, 80))
	require.NoError(t, binary.Write(&b, binary.LittleEndian, uint32(len(faces)/3)))
	for i := 0; i < len(faces); i += 3 {
		require.NoError(t, binary.Write(&b, binary.LittleEndian, []point{{}, faces[i], faces[i+1], faces[i+2]}))
		b.Write([]byte{0, 0})
	}
	path := filepath.Join(t.TempDir(), "column.stl")
	require.NoError(t, os.WriteFile(path, b.Bytes(), 0o600))
	return path
}

// remembers tells whether the program's preferences name a file.
func (p *person) remembers(path string) bool {
	home := ""
	for _, e := range p.env {
		if rest, ok := strings.CutPrefix(e, "HOME="); ok {
			home = rest // the last one holds
		}
	}
	found, err := filepath.Glob(filepath.Join(home, ".config", "fyne", "*", "preferences.json"))
	require.NoError(p, err)
	for _, name := range found {
		if data, err := os.ReadFile(name); err == nil && strings.Contains(string(data), filepath.Base(path)) {
			return true
		}
	}
	return false
}

func TestAScanIsOpenedAnsweredAndUsedInARealWindow(t *testing.T) {
	needTool(t, "xdotool")
	needTool(t, "Xvfb")
	db, file := filepath.Join(t.TempDir(), "quotes.db"), column(t)
	p := sit(t, built(t), "--db", db)
	w := watcher{p, db}

	w.begun()
	p.write("The Column")
	p.press("alt+Down", "Down", "End", "Return") // to the form; known by: the last choice
	w.keeps("form.known_by", "scan")

	p.press("shift+Tab", "Return", "ctrl+a") // “Open a scan …” stands before it
	p.write(file)
	p.press("Return")
	p.until("the scan is open", func() bool { return p.remembers(file) })

	p.press("Down", "Home", "Down", "Down", "Return") // its unit: not the first that is proposed
	p.press("Tab", "Down", "End", "Return")           // which way is up: x down
	p.press("Down", "End", "Return")                  // again, if the form was just being turned
	p.press("Tab", "Tab", "Tab", "space", "Tab")      // past front and foot; its file is kept
	p.write("1.8 m")
	w.keeps("form.height", "1.8 m")
	p.press(times(6, "shift+Tab")...)
	p.press("Return") // use it, as soon as it is measured
	var k *mesh.Scan
	p.until("the scan is kept with the quote", func() bool {
		q, _, ok := w.quote()
		if ok {
			k = q.Commission.Pieces[0].Scan
		}
		return k != nil
	})
	assert.Equal(t, "column.stl", k.File)
	assert.Equal(t, mesh.XDown, k.Stance.Up, "it stands as it was answered")
	assert.NotEqual(t, mesh.Millimetre, k.Stance.Unit)
	assert.InEpsilon(t, 180*k.Stance.Unit.Metres, k.Height(), 1e-6)
	first := priceOfScan(t, w)
	weighed(t, w, k, 1.8)
	p.until("the file is kept too", func() bool { return slices.Equal(keptFiles(t, w), []string{k.SHA256}) })

	dress := estimate.Commission{Pieces: []estimate.Piece{{Name: "Figure", Scan: k, Inputs: map[string]string{"form.known_by": "scan"}}}}
	p.press(times(steps(t, dress, "form", "form.height"), "Tab")...)
	p.press("ctrl+a")
	p.write("2.4 m")
	w.keeps("form.height", "2.4 m")
	assert.NotEqual(t, first, priceOfScan(t, w), "the price follows the height")
	weighed(t, w, k, 2.4)

	p.press("ctrl+q")
	p.leaves()
	assert.NotContains(t, p.said.String(), "Error in Fyne call thread")
	assert.NotContains(t, p.said.String(), "panic")
}

// weighed holds the sections of the estimate, as the window keeps it, to the
// column: what is welded, and what is poured.
func weighed(t *testing.T, w watcher, k *mesh.Scan, height float64) {
	t.Helper()
	q, _, ok := w.quote()
	require.True(t, ok)
	book, err := shop.Read(shop.Start())
	require.NoError(t, err)
	e, err := estimate.Of(q.Commission, book)
	require.NoError(t, err)
	p, scale := e.Pieces[0], height/k.Height()
	assert.Greater(t, p.Sections, 1)
	girth := 2 * math.Pi * 20 * k.Stance.Unit.Metres * scale
	assert.Greater(t, float64(p.Weld), girth, "at least two rings are welded together")
	kg := 0.0
	for _, h := range e.Heats {
		kg += h.Kg
	}
	assert.InEpsilon(t, float64(p.Poured), kg, 1e-6)
	assert.InEpsilon(t, k.Profile.Metal(scale, float64(p.Wall))*8.359e3*1.05, float64(p.Finished), 1e-3, "its metal is that measured below the skin, thickened")
}

// keptFiles are the sums of the scan files that are kept with the quote.
func keptFiles(t *testing.T, w watcher) (sums []string) {
	t.Helper()
	q, _, ok := w.quote()
	require.True(t, ok)
	s, err := sqlite.OpenReadOnly(t.Context(), w.path)
	require.NoError(t, err)
	defer s.Close()
	list, err := s.KeptScanFiles(t.Context(), q.ID)
	require.NoError(t, err)
	for _, f := range list {
		sums = append(sums, f.SHA256)
	}
	return sums
}

// priceOfScan is the price that is kept, which must be that of the same
// commission estimated without a window.
func priceOfScan(t *testing.T, w watcher) string {
	t.Helper()
	q, row, ok := w.quote()
	require.True(t, ok)
	assert.Equal(t, priceOf(t, q.Commission), row.Price)
	return row.Price
}
