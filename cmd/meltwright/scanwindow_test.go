package main

import (
	"bytes"
	"encoding/binary"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
	"meltwright/internal/mesh"
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

	p.until("the store is there", func() bool { _, err := os.Stat(db); return err == nil })
	p.until("a new quote is begun", func() bool {
		p.press("ctrl+n")
		_, _, ok := w.quote()
		return ok
	})
	p.write("The Column")
	p.press("alt+Down", "Down", "End", "Return") // to the form; known by: the last choice
	w.keeps("form.known_by", "scan")

	p.press("shift+Tab", "Return", "ctrl+a") // “Open a scan …” stands before it
	p.write(file)
	p.press("Return")
	p.until("the scan is open", func() bool { return p.remembers(file) })

	p.press("Down", "Home", "Down", "Down", "Return") // its unit: not the first that is proposed
	p.press("Tab", "Tab", "Tab", "Tab")               // past up, front and foot
	p.write("1.8 m")
	w.keeps("form.height", "1.8 m")
	p.press(times(5, "shift+Tab")...)
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
	assert.Equal(t, mesh.XUp, k.Stance.Up, "it stands on one of its ends")
	assert.NotEqual(t, mesh.Millimetre, k.Stance.Unit)
	assert.InEpsilon(t, 180*k.Stance.Unit.Metres, k.Height(), 1e-6)
	first := priceOfScan(t, w)

	dress := estimate.Commission{Pieces: []estimate.Piece{{Name: "Figure", Scan: k, Inputs: map[string]string{"form.known_by": "scan"}}}}
	p.press(times(steps(t, dress, "form", "form.height"), "Tab")...)
	p.press("ctrl+a")
	p.write("2.4 m")
	w.keeps("form.height", "2.4 m")
	assert.NotEqual(t, first, priceOfScan(t, w), "the price follows the height")

	p.press("ctrl+q")
	p.leaves()
	assert.NotContains(t, p.said.String(), "Error in Fyne call thread")
	assert.NotContains(t, p.said.String(), "panic")
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
