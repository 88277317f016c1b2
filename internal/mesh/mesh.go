// Package mesh is what a scan knows about a form: it reads the file, and
// measures the area, the volume and the metal in a wall of any thickness.
package mesh

// Mesh is a surface of triangles that share their points.
//
// A mesh that Read gives is sound in itself: every index is below len(Points),
// every coordinate is finite, no triangle names a point twice, and no two
// points are the same. Whether the surface is closed is another question.
// A million triangles of a closed form take 18 MB.
type Mesh struct {
	Points    []Vec32     // each once, in the mesh's own unit
	Triangles [][3]uint32 // indices into Points, counter-clockwise seen from outside
}

// Corners are the three points of triangle i.
func (m *Mesh) Corners(i int) (a, b, c Vec) {
	t := m.Triangles[i]
	return m.Points[t[0]].Vec(), m.Points[t[1]].Vec(), m.Points[t[2]].Vec()
}

// Scale is the same form k times as large: 0.001 turns millimetres into
// metres. The triangles are shared with m, the points are new.
func (m *Mesh) Scale(k float64) *Mesh {
	points := make([]Vec32, len(m.Points))
	for i, p := range m.Points {
		points[i] = p.Vec().Mul(k).Vec32()
	}
	return &Mesh{Points: points, Triangles: m.Triangles}
}
