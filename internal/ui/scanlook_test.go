package ui

import (
	"fmt"
	"math"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"

	"meltwright/internal/mesh"
	"meltwright/internal/ui/look"
)

// cutBottle is the bottle at 1.2 m, measured and cut by a level plane and a
// tilted one.
func cutBottle(t testing.TB) (*bench, *scanScreen) {
	b, s := openBottle(t)
	b.fill("form.height", "1.2 m")
	b.clock.pass(time.Second)
	b.tap("Drop all planes")
	b.tap("Add a plane")
	b.tap("Add a plane")
	b.fill("plane.tilt", "20")
	b.fill("plane.towards", "90")
	b.clock.pass(time.Second)
	s.panel.scroll.ScrollToTop()
	return b, s
}

func TestTheScanLooksAsItDid(t *testing.T) {
	for variant, mode := range bothModes {
		t.Run(variant, func(t *testing.T) {
			b, s := cutBottle(t)
			b.wear(mode, 100)
			b.win.Resize(fyne.NewSize(1280, 820))
			b.win.Canvas().Unfocus()
			s.panel.scroll.ScrollToTop()
			test.AssertRendersToMarkup(t, "scan-"+variant+".xml", b.win.Canvas())
		})
	}
}

func TestNothingOfAScanRunsOutOfTheWindow(t *testing.T) {
	views := []struct {
		size    fyne.Size
		percent int
	}{{fyne.NewSize(1280, 820), 100}, {fyne.NewSize(1024, 700), 100}, {fyne.NewSize(1024, 700), 200}, {fyne.NewSize(1600, 1000), 150}}
	b, s := cutBottle(t)
	for variant, mode := range map[string]look.Mode{"light": look.Light, "dark": look.Dark} {
		for _, v := range views {
			b.wear(mode, v.percent)
			b.win.Resize(v.size)
			name := fmt.Sprintf("scan-%s-%.0f-%d", variant, v.size.Width, v.percent)
			s.panel.scroll.ScrollToTop()
			b.holdsItsWords(v.size.Width)
			b.picture(name)
			b.win.Canvas().Unfocus()
			b.win.Canvas().Focus(s.planes.shown.table.Held()[0].(fyne.Focusable))
			b.holdsItsWords(v.size.Width)
			b.picture(name + "-below")
		}
	}
}

func TestTheFormPageShowsItsScanAtEverySize(t *testing.T) {
	b, _ := cutBottle(t)
	b.tap("Use this scan")
	for _, v := range []struct {
		size    fyne.Size
		percent int
	}{{fyne.NewSize(1280, 820), 100}, {fyne.NewSize(1024, 700), 200}} {
		b.wear(look.Light, v.percent)
		b.win.Resize(v.size)
		b.holdsItsWords(v.size.Width)
		b.picture(fmt.Sprintf("scanned-%.0f-%d", v.size.Width, v.percent))
	}
	assert.Contains(t, b.said(), "Its plan cuts it into 3 sections with 2 planes.")
}

func TestTabGoesThroughTheScan(t *testing.T) {
	b, _ := cutBottle(t)
	assert.Equal(t, []string{
		"[]", "[Another file …]", "[Use this scan]",
		"scan.unit", "scan.up", "scan.front", "scan.foot", "scan.keep", "form.height", "form.wall", "rows",
		"[Propose planes]", "[Drop all planes]", "rows", "plane.height", "plane.tilt", "plane.towards", "plane.shift",
		"[Add a plane]", "[Drop this plane]", "rows",
		"the picture", "scan.marks", "[Front]", "[Left]", "[Back]", "[Right]", "[Above]", "[Below]", "[Nearer]", "[Farther]",
	}, b.around())
	b.menu("Stages, or back to the fields")
	assert.Equal(t, fyne.Focusable(b.scan().picture), b.focused())
	b.menu("Stages, or back to the fields")
	assert.NotEqual(t, fyne.Focusable(b.scan().picture), b.focused())
}

func BenchmarkTurningAFigureByHand(b *testing.B) {
	_, s := openBottle(b)
	s.standing.Viewer = mesh.NewViewer(manyTriangles(94))
	b.ReportMetric(94*188*2, "triangles")
	for b.Loop() {
		s.picture.view.Yaw++
		s.picture.coarse = true
		s.picture.picture(640, 740)
	}
}

// manyTriangles is a ball-shaped net of n by 2n fields.
func manyTriangles(n int) *mesh.Mesh {
	m := &mesh.Mesh{}
	for i := range n + 1 {
		for k := range 2 * n {
			m.Points = append(m.Points, onBall(float64(i)/float64(n), float64(k)/float64(n)))
		}
	}
	at := func(i, k int) uint32 { return uint32(i*2*n + k%(2*n)) }
	for i := range n {
		for k := range 2 * n {
			m.Triangles = append(m.Triangles, [3]uint32{at(i, k), at(i+1, k), at(i+1, k+1)}, [3]uint32{at(i, k), at(i+1, k+1), at(i, k+1)})
		}
	}
	return m
}

// onBall is a point of a ball of a metre, by its shares of half a turn.
func onBall(down, around float64) mesh.Vec32 {
	a, b := down*math.Pi, around*math.Pi
	return mesh.Vec{0.5 * math.Sin(a) * math.Cos(b), 0.5 * math.Sin(a) * math.Sin(b), 0.5 + 0.5*math.Cos(a)}.Vec32()
}
