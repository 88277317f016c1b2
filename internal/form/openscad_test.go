package form

import (
	"bufio"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/quantity"
)

// OpenSCAD draws each wall by its own means: a profile less the same profile
// offset inwards, turned round an axis; boxes by difference. What it turns has
// 360 straight sides, so its volumes are n/2π × sin 2π/n of the round ones. It is
// given millimetres: it snaps flat profiles to 1/65536 of its unit.
const (
	scadSides = 120
	scadRing  = `rotate_extrude($fn=120) intersection() { translate([0,-5e3]) square(1e4); difference() { scale(1000) { P(); } intersection() { offset(delta=-1000*t) scale(1000) { Q(); } scale(1000) { C(); } } } }`
)

// scadWall is a solid with a wall: its profile P, what is offset, Q, and what
// the room is cut off by at open ends, C; or whole.
type scadWall struct {
	name    string
	shape   Shape
	wall    float64
	p, q, c string
	whole   string
}

const all = "translate([-5,-5]) square(10);"

func trapezium(foot, top, from, to float64) string {
	return fmt.Sprintf("polygon([[-%v,%v],[%v,%v],[%v,%v],[-%v,%v]]);", foot/2, from, foot/2, from, top/2, to, top/2, to)
}

// between is a trapezium carried on past its ends by as much as is open.
func between(foot, top, h, below, above float64) string {
	lean := (top - foot) / h
	return trapezium(foot-below*lean, top+above*lean, -below, h+above)
}

func scadWalls() []scadWall {
	cut := func(h float64) string { return fmt.Sprintf("translate([-5,0]) square([10,%v]);", h) }
	foot := func(h float64) string { return fmt.Sprintf("translate([-5,0]) square([10,%v]);", h+5) }
	ring := func(shape Shape, wall float64, p string) scadWall {
		return scadWall{shape: shape, wall: wall, p: p, q: p, c: all}
	}
	list := []scadWall{
		ring(Sphere{0.5}, 0.02, "circle(d=0.5,$fn=720);"),
		ring(Cylinder{0.4, 0.9, Closed}, 0.03, trapezium(0.4, 0.4, 0, 0.9)),
		ring(Frustum{0.6, 0.3, 0.5, Closed}, 0.02, trapezium(0.6, 0.3, 0, 0.5)),
		ring(Frustum{0.2, 0.7, 0.4, Closed}, 0.04, trapezium(0.2, 0.7, 0, 0.4)),
		ring(Frustum{0.6, 0, 0.8, Closed}, 0.05, "polygon([[-0.3,0],[0.3,0],[0,0.8]]);"),
		ring(Frustum{0.9, 0.5, 0.2, Closed}, 0.09, trapezium(0.9, 0.5, 0, 0.2)),
		ring(Torus{0.6, 0.2}, 0.03, "translate([0.3,0]) circle(d=0.2,$fn=720);"),
		ring(Tube{0.6, 0.4, 0.5}, 0.02, "translate([0.2,0]) square([0.1,0.5]);"),
		{shape: Cylinder{0.4, 0.9, Open}, wall: 0.03, p: trapezium(0.4, 0.4, 0, 0.9), q: between(0.4, 0.4, 0.9, 1, 1), c: cut(0.9)},
		{shape: Cylinder{0.4, 0.9, OneOpen}, wall: 0.03, p: trapezium(0.4, 0.4, 0, 0.9), q: between(0.4, 0.4, 0.9, 1, 0), c: foot(0.9)},
		{shape: Frustum{0.6, 0.3, 0.5, Open}, wall: 0.02, p: trapezium(0.6, 0.3, 0, 0.5), q: between(0.6, 0.3, 0.5, 0.2, 0.2), c: cut(0.5)},
		{shape: Frustum{0.6, 0.3, 0.5, OneOpen}, wall: 0.02, p: trapezium(0.6, 0.3, 0, 0.5), q: between(0.6, 0.3, 0.5, 0.2, 0), c: foot(0.5)},
		{shape: Frustum{0.6, 0, 0.8, Open}, wall: 0.05, p: "polygon([[-0.3,0],[0.3,0],[0,0.8]]);", q: "polygon([[-0.375,-0.2],[0.375,-0.2],[0,0.8]]);", c: foot(0.8)},
		{shape: Box{1.6, 0.42, 0.09, Closed}, wall: 0.006, whole: "difference() { cube([1.6,0.42,0.09]); translate([0.006,0.006,0.006]) cube([1.588,0.408,0.078]); }"},
		{shape: Box{0.5, 0.4, 0.3, OneOpen}, wall: 0.01, whole: "difference() { cube([0.5,0.4,0.3]); translate([0.01,0.01,-1]) cube([0.48,0.38,1.29]); }"},
		{shape: Box{0.5, 0.4, 0.3, Open}, wall: 0.01, whole: "difference() { cube([0.5,0.4,0.3]); translate([0.01,0.01,-1]) cube([0.48,0.38,3]); }"},
		{shape: Plate{0.5, 0.4, 0.03}, wall: 0.01, whole: "difference() { cube([0.5,0.4,0.03]); translate([0.01,0.01,0.01]) cube([0.48,0.38,0.01]); }"},
	}
	for i := range list {
		list[i].name = fmt.Sprintf("%T%v wall %v", list[i].shape, list[i].shape, list[i].wall)
	}
	return list
}

func TestWallsHoldTheMetalThatOpenSCADCutsOut(t *testing.T) {
	scad := needTool(t, "openscad")
	walls, dir := scadWalls(), t.TempDir()
	volumes, errs := make([]float64, len(walls)), make([]error, len(walls))
	var wait sync.WaitGroup
	gate := make(chan bool, 2)
	for i, w := range walls {
		wait.Go(func() {
			gate <- true
			volumes[i], errs[i] = w.cut(scad, filepath.Join(dir, fmt.Sprint(i)))
			<-gate
		})
	}
	wait.Wait()
	n := float64(scadSides)
	round := n / (2 * math.Pi) * math.Sin(2*math.Pi/n)
	for i, w := range walls {
		require.NoError(t, errs[i], w.name)
		want := volumes[i]
		if w.whole == "" {
			want /= round * 1e9
		}
		got, _ := Solids{{w.shape, 1}}.Metal(quantity.Length(w.wall))
		assert.InEpsilon(t, want, float64(got), 3e-4, w.name)
	}
}

// cut has OpenSCAD make the wall, and gives its volume.
func (w scadWall) cut(scad, name string) (float64, error) {
	text := w.whole
	if text == "" {
		text = fmt.Sprintf("t=%v;\nmodule P() { %s }\nmodule Q() { %s }\nmodule C() { %s }\n%s", w.wall, w.p, w.q, w.c, scadRing)
	}
	if err := os.WriteFile(name+".scad", []byte(text), 0o600); err != nil {
		return 0, err
	}
	run := exec.Command(scad, "-o", name+".off", name+".scad")
	run.Env = append(os.Environ(), "QT_QPA_PLATFORM=offscreen")
	if out, err := run.CombinedOutput(); err != nil {
		return 0, fmt.Errorf("%w: %s", err, out)
	}
	return offVolume(name + ".off")
}

// offVolume is the volume inside the faces of an OFF file.
func offVolume(path string) (float64, error) {
	file, err := os.Open(path)
	if err != nil {
		return 0, err
	}
	defer file.Close()
	in := bufio.NewReader(file)
	var points, faces, edges int
	if _, err := fmt.Fscanf(in, "OFF %d %d %d\n", &points, &faces, &edges); err != nil {
		return 0, err
	}
	at := make([][3]float64, points)
	for i := range at {
		if _, err := fmt.Fscan(in, &at[i][0], &at[i][1], &at[i][2]); err != nil {
			return 0, err
		}
	}
	six := 0.0
	for range faces {
		line, n := "", 0
		for strings.TrimSpace(line) == "" {
			if line, err = in.ReadString('\n'); err != nil {
				return 0, err
			}
		}
		row := strings.NewReader(line)
		fmt.Fscan(row, &n)
		corner := make([]int, n)
		for i := range corner {
			fmt.Fscan(row, &corner[i])
		}
		for i := 2; i < n; i++ {
			a, b, c := at[corner[0]], at[corner[i-1]], at[corner[i]]
			six += a[0]*(b[1]*c[2]-b[2]*c[1]) + a[1]*(b[2]*c[0]-b[0]*c[2]) + a[2]*(b[0]*c[1]-b[1]*c[0])
		}
	}
	return six / 6, nil
}
