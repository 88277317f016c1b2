package mesh

import (
	"os/exec"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// What others make of the same file: read it, make one of points that are the
// same, area, volume, and whether it is closed. Each Python script tells its
// own time, so that the start of Python and its modules is not counted.
const (
	vtkScript = `
import sys, time
from vtkmodules.vtkIOGeometry import vtkSTLReader
from vtkmodules.vtkFiltersCore import vtkMassProperties, vtkFeatureEdges
start = time.perf_counter()
reader = vtkSTLReader(); reader.SetFileName(sys.argv[1]); reader.MergingOn(); reader.Update()
mass = vtkMassProperties(); mass.SetInputData(reader.GetOutput()); mass.Update()
area, volume = mass.GetSurfaceArea(), mass.GetVolume()
edges = vtkFeatureEdges(); edges.SetInputData(reader.GetOutput())
edges.BoundaryEdgesOn(); edges.NonManifoldEdgesOn(); edges.FeatureEdgesOff(); edges.ManifoldEdgesOff(); edges.Update()
closed = edges.GetOutput().GetNumberOfCells() == 0
print("seconds", time.perf_counter() - start, "area", area, "volume", volume, "closed", int(closed))`

	// It has no welding: is_closed compares edges by their coordinates.
	numpySTLScript = `
import sys, time, stl
start = time.perf_counter()
mesh = stl.mesh.Mesh.from_file(sys.argv[1])
area, volume = mesh.areas.sum(), mesh.get_mass_properties()[0]
closed = mesh.is_closed() if len(sys.argv) > 2 else True
print("seconds", time.perf_counter() - start, "area", area, "volume", volume, "closed", int(closed))`
)

// middling is the median of five tries: neither side is judged by its luck.
func middling(try func() time.Duration) time.Duration {
	return median([]time.Duration{try(), try(), try(), try(), try()})
}

func median(took []time.Duration) time.Duration {
	slices.Sort(took)
	return took[len(took)/2]
}

// told is the time that a script says it took; it has to find the same form.
func told(b *testing.B, want Size, python, script string, args ...string) time.Duration {
	out, err := exec.Command(python, append([]string{"-W", "ignore", "-c", script}, args...)...).Output()
	require.NoError(b, err)
	require.InEpsilon(b, want.Area, numberAfter(b, "area", out), 1e-5)
	require.InEpsilon(b, want.Volume, numberAfter(b, "volume", out), 1e-5)
	require.Equal(b, 1.0, numberAfter(b, "closed", out))
	return time.Duration(numberAfter(b, "seconds", out) * float64(time.Second))
}

// admeshTime is how long admesh takes as a whole; it starts in a millisecond.
// It welds nothing and finds no area. As it comes it also checks normals and
// looks for parts; with --exact it only matches edges.
func admeshTime(b *testing.B, admesh string, args ...string) time.Duration {
	start := time.Now()
	out, err := exec.Command(admesh, args...).Output()
	took := time.Since(start)
	require.NoError(b, err)
	require.Equal(b, 1e6, numberAfter(b, `Number of facets\s*:`, out))
	require.Contains(b, string(out), "Volume")
	return took
}

// BenchmarkMillionBesideOthers reads a binary STL of a million triangles, welds
// it, and finds area, volume and whether it is closed, beside the programs that
// do the same. The metrics say how many times as long each of them takes, median
// by median.
func BenchmarkMillionBesideOthers(b *testing.B) {
	admesh := needTool(b, "admesh")
	vtk := needModule(b, "vtkmodules.vtkFiltersCore")
	numpy := needModule(b, "stl")
	path := millionFile(b, func(m *Mesh) []byte { return binarySTL("", m) })
	var size Size
	var ours []time.Duration
	work := func() {
		start := time.Now()
		m, _, err := ReadFile(b.Context(), path, nil)
		require.NoError(b, err)
		size = Measure(m)
		require.True(b, CountSeams(m).Closed())
		ours = append(ours, time.Since(start))
	}
	most := peak(work)
	others := map[string]time.Duration{
		"VTK":                      middling(func() time.Duration { return told(b, size, vtk, vtkScript, path) }),
		"numpy-stl":                told(b, size, numpy, numpySTLScript, path, "closed"),
		"numpy-stl-without-closed": middling(func() time.Duration { return told(b, size, numpy, numpySTLScript, path) }),
		"admesh":                   middling(func() time.Duration { return admeshTime(b, admesh, path) }),
		"admesh-exact-only":        middling(func() time.Duration { return admeshTime(b, admesh, "--exact", path) }),
	}
	for b.Loop() {
		work()
	}
	took := median(ours)
	b.ReportMetric(float64(took.Microseconds())/1000, "ms-median")
	b.ReportMetric(float64(ours[0].Microseconds())/1000, "ms-best")
	b.ReportMetric(float64(most)/1e6, "MB-peak")
	for name, theirs := range others {
		b.ReportMetric(float64(theirs)/float64(took), "×-"+name)
	}
}
