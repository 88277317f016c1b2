package mesh

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestWeldOfACylinderCutAcrossIsItsCircumference(t *testing.T) {
	m := turned(cylinder(0.3, 2, 400, 11), Vec{0.4, 0.8, -0.3}, Vec{1, 2, 3})
	axis := turned(&Mesh{Points: []Vec32{{0, 0, 0}, {0, 0, 1}, {0, 0, 0.2}}}, Vec{0.4, 0.8, -0.3}, Vec{1, 2, 3}).Points
	for _, at := range []Vec{axis[1].Vec(), axis[2].Vec()} { // also just through a row of points
		loops := CutLoops(m, Plane{At: at, Normal: axis[1].Vec().Sub(axis[0].Vec()).Mul(7)})
		require.Len(t, loops, 1)
		assert.True(t, loops[0].Closed)
		assert.InEpsilon(t, 2*math.Pi*0.3, loops[0].Length, 1e-4)
		assert.InEpsilon(t, math.Pi*0.09, loops[0].Area, 1e-4)
	}
}

func TestCutThroughARowOfPointsIsStillOneLoop(t *testing.T) {
	m := cylinder(0.3, 2, 100, 11)
	for _, z := range []float64{0.2, 1, 1.8} {
		loops := CutLoops(m, Plane{At: Vec{0, 0, z}, Normal: Vec{0, 0, 1}})
		require.Len(t, loops, 1)
		assert.InEpsilon(t, 2*math.Pi*0.3, loops[0].Length, 1e-3)
	}
}

func TestAHollowFormIsCutInARing(t *testing.T) {
	loops := CutLoops(hollowSphere(1, 0.5, 200), Plane{At: Vec{0, 0, 0.1}, Normal: Vec{0, 0, 1}})
	require.Len(t, loops, 2)
	assert.InEpsilon(t, math.Pi*(1-0.25), loops[0].Area+loops[1].Area, 1e-3)
	assert.Negative(t, loops[0].Area*loops[1].Area)
}

func TestACutThroughAHoleIsOpen(t *testing.T) {
	whole := cylinder(0.5, 1, 50, 9)
	m := without(whole, func(i int) bool { return i == 200 })
	a, b, c := whole.Corners(200)
	loops := CutLoops(m, Plane{At: a.Add(b).Add(c).Mul(1.0 / 3), Normal: Vec{0, 0, 1}})
	require.Len(t, loops, 1)
	assert.False(t, loops[0].Closed)
	assert.InDelta(t, math.Pi, loops[0].Length, 0.05)
}

func TestAPlaneThatMissesOrIsNoneCutsNothing(t *testing.T) {
	assert.Empty(t, CutLoops(cube(1, 1), Plane{At: Vec{0, 0, 2}, Normal: Vec{0, 0, 1}}))
	assert.Empty(t, CutLoops(cube(1, 1), Plane{At: Vec{0, 0, 0.5}}))
	assert.Empty(t, CutLoops(cube(1, 1), Plane{Normal: Vec{math.Inf(1), 0, 0}}))
	assert.Empty(t, CutLoops(&Mesh{}, Plane{Normal: Vec{0, 0, 1}}))
}

// VTK's vtkCutter makes the same outlines.
func TestCutsOfAFigureAgreeWithVTK(t *testing.T) {
	m := figure(t, "man.off")
	s := Measure(m)
	middle := s.Min.Add(s.Max).Mul(0.5)
	list := askVTK(t, m, `
b = mesh.GetBounds(); out = []
for n in [(0,0,1), (0,1,0), (1,0,0), (1,2,3)]:
    p = vtk.vtkPlane(); p.SetOrigin((b[0]+b[1])/2, (b[2]+b[3])/2, (b[4]+b[5])/2); p.SetNormal(n)
    c = vtk.vtkCutter(); c.SetInputData(mesh); c.SetCutFunction(p); c.Update()
    o = c.GetOutput(); total = 0
    for i in range(o.GetNumberOfCells()):
        q = o.GetCell(i).GetPoints()
        total += sum((x-y)**2 for x, y in zip(q.GetPoint(0), q.GetPoint(1)))**0.5
    out.append(total)
print(json.dumps(out))`)
	for i, n := range []Vec{{0, 0, 1}, {0, 1, 0}, {1, 0, 0}, {1, 2, 3}} {
		length := 0.0
		for _, l := range CutLoops(m, Plane{At: middle, Normal: n}) {
			assert.True(t, l.Closed)
			length += l.Length
		}
		assert.InEpsilon(t, list[i], length, 1e-5)
	}
}

func TestAreaOfACutIsThatOfTheFormThere(t *testing.T) {
	m := sphere(1, 200)
	rapid.Check(t, func(t *rapid.T) {
		z := rapid.Float64Range(-0.9, 0.9).Draw(t, "z")
		n := Vec{rapid.Float64Range(-1, 1).Draw(t, "x"), rapid.Float64Range(-1, 1).Draw(t, "y"), rapid.Float64Range(0.1, 1).Draw(t, "n")}
		n = n.Mul(1 / n.Norm())
		sum := 0.0
		for _, l := range CutLoops(m, Plane{At: n.Mul(z), Normal: n}) {
			sum += l.Area
		}
		assert.InEpsilon(t, math.Pi*(1-z*z), sum, 2e-3)
	})
}
