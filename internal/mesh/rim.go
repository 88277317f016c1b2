package mesh

// rim is the length of all edges where a section is open, in metres: where it was
// cut, and where the form is open itself.
func (l *lump) rim() (length float64) {
	sortEdges(len(l.points), l.triangles, false).among(0, len(l.points), func(run []uint32, vertex, _ int) {
		if len(run) == 1 {
			length += l.points[run[0]>>1].Sub(l.points[vertex]).Norm()
		}
	})
	return length
}
