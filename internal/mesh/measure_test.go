package mesh

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestCubeOfOneMetre(t *testing.T) {
	s := Measure(cube(1, 3))
	assert.InDelta(t, 6, s.Area, 1e-6)
	assert.InDelta(t, 1, s.Volume, 1e-6)
	assert.InDeltaSlice(t, []float64{0.5, 0.5, 0.5}, s.Centre[:], 1e-7)
	assert.Equal(t, Vec{1, 1, 1}, s.Box())
	assert.Equal(t, 1.0, s.Long())
}

// Each solid has a fine mesh: what is left is the share that flat triangles cut
// from a curved form, 1/n² or so.
func TestSolidsHaveTheirExactAreaAndVolumeHoweverTheyStand(t *testing.T) {
	for _, solid := range exactSolids(400) {
		t.Run(solid.name, func(t *testing.T) {
			for _, m := range []*Mesh{solid.mesh, turned(solid.mesh, Vec{0.3, -1.1, 2.2}, Vec{4, -5, 6})} {
				s := Measure(m)
				assert.InEpsilon(t, solid.area, s.Area, 2.5e-4)
				assert.InEpsilon(t, solid.volume, s.Volume, 2.5e-4)
			}
		})
	}
}

func TestAreaGrowsWithTheSquareAndVolumeWithTheCube(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := ellipsoid(rapid.Float64Range(0.1, 3).Draw(t, "a"), 1, 2, 16)
		k := rapid.Float64Range(0.001, 1000).Draw(t, "scale")
		one, many := Measure(m), Measure(m.Scale(k))
		assert.InEpsilon(t, one.Area*k*k, many.Area, 1e-6)
		assert.InEpsilon(t, one.Volume*k*k*k, many.Volume, 1e-6)
		assert.InDelta(t, 0, one.Centre.Mul(k).Sub(many.Centre).Norm(), 1e-5*k)
	})
}

func TestMeasuresDoNotDependOnTheOrderOfTriangles(t *testing.T) {
	m := turned(torus(1, 0.3, 120), Vec{1, 2, 3}, Vec{})
	backwards := &Mesh{Points: m.Points}
	for i := range m.Triangles {
		q := m.Triangles[len(m.Triangles)-1-i]
		backwards.Triangles = append(backwards.Triangles, [3]uint32{q[1], q[2], q[0]})
	}
	a, b := Measure(m), Measure(backwards)
	assert.InEpsilon(t, a.Area, b.Area, 1e-13)
	assert.InEpsilon(t, a.Volume, b.Volume, 1e-13)
}

func TestCentreOfMassOfAConeStandsAQuarterUp(t *testing.T) {
	// Centroid of a cone: h/4 above the base. From memory: any statics handbook.
	m := poles(grid([]Vec{{1, 0, 0}, {0, 1, 0}, {-1, 0, 0}, {0, -1, 0}}, 1, 4, false), 1, 4, Vec{}, Vec{0, 0, 2})
	s := Measure(m)
	assert.InDelta(t, 0.5, s.Centre[2], 1e-9)
	assert.InDelta(t, 4.0/3, s.Volume, 1e-9)
}

func TestAFlatSheetEnclosesNothingAndHasItsCentreInItsMiddle(t *testing.T) {
	sheet := &Mesh{Points: []Vec32{{0, 0, 0}, {2, 0, 0}, {2, 2, 0}, {0, 2, 0}}, Triangles: [][3]uint32{{0, 1, 2}, {0, 2, 3}}}
	s := Measure(sheet)
	assert.Equal(t, 4.0, s.Area)
	assert.Zero(t, s.Volume)
	assert.Equal(t, Vec{1, 1, 0}, s.Centre)
	assert.Equal(t, Size{}, Measure(&Mesh{}))
}

// VTK's vtkMassProperties (Alyassin, Med. Phys. 21(6), 1994) reads the same
// points and must agree to nine digits.
func TestAreaAndVolumeAgreeWithVTKToNineDigits(t *testing.T) {
	for _, name := range []string{"man.off", "bear.off", "armadillo.off", "elephant.off"} {
		t.Run(name, func(t *testing.T) {
			m := figure(t, name)
			reference := askVTK(t, m, `
p = vtk.vtkMassProperties(); p.SetInputData(mesh); p.Update()
print(json.dumps([p.GetSurfaceArea(), p.GetVolume()]))`)
			s := Measure(m)
			assert.InEpsilon(t, reference[0], s.Area, 1e-9)
			assert.InEpsilon(t, reference[1], s.Volume, 1e-9)
		})
	}
}

func TestVolumeAgreesWithAdmesh(t *testing.T) {
	admesh := needTool(t, "admesh")
	m := figure(t, "elephant.off")
	path := filepath.Join(t.TempDir(), "elephant.stl")
	require.NoError(t, os.WriteFile(path, asciiSTL(m), 0o600))
	out, err := exec.Command(admesh, path).Output()
	require.NoError(t, err)
	_, rest, ok := strings.Cut(string(out), "Volume   :")
	require.True(t, ok, string(out))
	var volume float64
	_, err = fmt.Sscanf(strings.TrimSpace(rest), "%f", &volume)
	require.NoError(t, err)
	assert.InEpsilon(t, volume, Measure(m).Volume, 1e-4) // it prints six places
}

func BenchmarkMeasureMillion(b *testing.B) {
	m := sphere(1, 1000)
	b.ReportMetric(float64(len(m.Triangles)), "triangles")
	for b.Loop() {
		_ = Measure(m)
		_ = CountSeams(m)
	}
}

// ideal is a solid whose area, volume and wall metal are known in closed form.
type ideal struct {
	name         string
	mesh         *Mesh
	area, volume float64
	wall         func(t float64) float64 // volume within t of the surface
}

func exactSolids(n int) []ideal {
	ball := func(r float64) float64 { return 4.0 / 3 * math.Pi * math.Pow(max(r, 0), 3) }
	return []ideal{
		{"sphere", sphere(0.5, n), math.Pi, ball(0.5), func(t float64) float64 { return ball(0.5) - ball(0.5-t) }},
		{"cube", cube(1, 8), 6, 1, func(t float64) float64 { return 1 - math.Pow(max(1-2*t, 0), 3) }},
		{"cylinder", cylinder(0.3, 1, n, 30), 2 * math.Pi * 0.3 * 1.3, math.Pi * 0.09, func(t float64) float64 {
			return math.Pi * (0.09 - math.Pow(max(0.3-t, 0), 2)*max(1-2*t, 0))
		}},
		{"torus", torus(0.4, 0.1, n), 4 * math.Pi * math.Pi * 0.04, 2 * math.Pi * math.Pi * 0.4 * 0.01, func(t float64) float64 {
			return 2 * math.Pi * math.Pi * 0.4 * (0.01 - math.Pow(max(0.1-t, 0), 2))
		}},
		{"hollow sphere", hollowSphere(0.5, 0.4, n), math.Pi * (1 + 0.64), ball(0.5) - ball(0.4), func(t float64) float64 {
			t = min(t, 0.05)
			return ball(0.5) - ball(0.5-t) + ball(0.4+t) - ball(0.4)
		}},
		{"ellipsoid", ellipsoid(0.5, 0.25, 0.25, n), prolateArea(0.5, 0.25), math.Pi / 6 * 0.25, nil},
	}
}

// prolateArea of half axes a > b = b (Zwillinger, CRC Standard Mathematical
// Tables, from memory).
func prolateArea(a, b float64) float64 {
	e := math.Sqrt(1 - b*b/(a*a))
	return 2 * math.Pi * b * b * (1 + a/(b*e)*math.Asin(e))
}

// askVTK runs a few lines of Python over the mesh, closed and with the very
// same coordinates, and gives the numbers they print.
func askVTK(t testing.TB, m *Mesh, lines string) []float64 {
	t.Helper()
	python := needTool(t, "/usr/bin/python3")
	if exec.Command(python, "-c", "import vtk").Run() != nil {
		needTool(t, "/usr/lib/python3/dist-packages/vtk.py")
	}
	path := filepath.Join(t.TempDir(), "mesh.json")
	points := make([]Vec, len(m.Points)) // in double precision, or JSON rounds them otherwise
	for i, p := range m.Points {
		points[i] = p.Vec()
	}
	data, err := json.Marshal(map[string]any{"points": points, "triangles": m.Triangles})
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path, data, 0o600))
	cmd := exec.Command(python, "-c", `
import json, sys, vtk
data = json.load(open(sys.argv[1]))
points = vtk.vtkPoints(); points.SetDataTypeToDouble()
for p in data["points"]: points.InsertNextPoint(p)
cells = vtk.vtkCellArray()
for f in data["triangles"]:
    cells.InsertNextCell(3)
    for i in f: cells.InsertCellPoint(i)
mesh = vtk.vtkPolyData(); mesh.SetPoints(points); mesh.SetPolys(cells)
`+lines, path)
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	require.NoError(t, err)
	var numbers []float64
	require.NoError(t, json.Unmarshal(out, &numbers))
	return numbers
}

func asciiSTL(m *Mesh) []byte {
	var b strings.Builder
	b.WriteString("solid form\n")
	for i := range m.Triangles {
		b.WriteString("facet normal 0 0 0\nouter loop\n")
		for _, k := range m.Triangles[i] {
			p := m.Points[k]
			fmt.Fprintf(&b, "vertex %v %v %v\n", p[0], p[1], p[2])
		}
		b.WriteString("endloop\nendfacet\n")
	}
	b.WriteString("endsolid form\n")
	return []byte(b.String())
}
