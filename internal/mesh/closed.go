package mesh

import (
	"context"
	"runtime"
	"slices"
)

// Seams counts the edges at which a surface is not sound. A closed surface has
// two triangles at every edge, which run along it in opposite directions.
type Seams struct {
	Open   int // edges with one triangle: the rim of a hole
	Shared int // edges with more than two triangles
	Turned int // edges whose two triangles run the same way: one faces inward
}

// Closed says that every edge has its two triangles and that they agree which
// side is out, so that the signed volume can be trusted.
func (s Seams) Closed() bool { return s == Seams{} }

// CountSeams looks at every edge of the mesh.
func CountSeams(m *Mesh) Seams {
	if matched(len(m.Points), m.Triangles) {
		return Seams{}
	}
	e := sortEdges(len(m.Points), m.Triangles, false)
	parts := make([]Seams, e.chunks())
	e.each(func(chunk int, run []uint32, _, _ int) { parts[chunk].note(run) })
	var total Seams
	for _, p := range parts {
		total.Open += p.Open
		total.Shared += p.Shared
		total.Turned += p.Turned
	}
	return total
}

// note counts the edge that these sides lie along, if it is not sound.
func (s *Seams) note(sides []uint32) {
	switch {
	case len(sides) == 1:
		s.Open++
	case len(sides) > 2:
		s.Shared++
	case sides[0] == sides[1]:
		s.Turned++
	}
}

// OpenEdges are the edges with one triangle, as that triangle runs along them:
// pairs of indices into m.Points.
func OpenEdges(m *Mesh) [][2]uint32 {
	e := sortEdges(len(m.Points), m.Triangles, false)
	parts := make([][][2]uint32, e.chunks())
	e.each(func(chunk int, run []uint32, vertex, _ int) {
		if len(run) == 1 {
			parts[chunk] = append(parts[chunk], directed(vertex, run[0]))
		}
	})
	var all [][2]uint32
	for _, p := range parts {
		all = append(all, p...)
	}
	return all
}

// directed undoes the packing of an edge.
func directed(vertex int, packed uint32) [2]uint32 {
	if packed&1 == 0 {
		return [2]uint32{uint32(vertex), packed >> 1}
	}
	return [2]uint32{packed >> 1, uint32(vertex)}
}

// edges are the sides of all triangles, by counting sort on their smaller
// vertex: those of vertex v are packed[start[v]:start[v+1]], each as its larger
// vertex times two, plus one where the triangle runs towards v.
type edges struct {
	start  []uint32
	packed []uint32
	side   []uint32 // three times the triangle, plus which side; only if asked for
}

// vertexChunk is how many vertices one piece of work takes.
const vertexChunk = 1 << 14

func (e *edges) chunks() int { return (len(e.start) + vertexChunk - 1) / vertexChunk }

// each calls see(chunk, run, vertex, at) for every edge, with the packed sides
// that lie along it, packed[at:at+len(run)]. Chunks run side by side.
func (e *edges) each(see func(chunk int, run []uint32, vertex, at int)) {
	_ = inChunks(context.Background(), len(e.start)-1, vertexChunk, func(chunk, from, to int) {
		e.among(from, to, func(run []uint32, vertex, at int) { see(chunk, run, vertex, at) })
	})
}

// among visits the edges whose smaller vertex is from from to to.
func (e *edges) among(from, to int, see func(run []uint32, vertex, at int)) {
	for v := from; v < to; v++ {
		lo, hi := int(e.start[v]), int(e.start[v+1])
		e.order(lo, hi)
		for i := lo; i < hi; {
			j := i + 1
			for j < hi && e.packed[j]>>1 == e.packed[i]>>1 {
				j++
			}
			see(e.packed[i:j], v, i)
			i = j
		}
	}
}

// order sorts the sides of one vertex; there are six on average.
func (e *edges) order(lo, hi int) {
	for i := lo + 1; i < hi; i++ {
		p := e.packed[i]
		j := i
		for ; j > lo && e.packed[j-1] > p; j-- {
			e.packed[j] = e.packed[j-1]
		}
		e.packed[j] = p
		if e.side != nil {
			s := e.side[i]
			copy(e.side[j+1:i+1], e.side[j:i])
			e.side[j] = s
		}
	}
}

// sortEdges is the counting sort; sides says whether to keep whose side each is.
// Each core sorts a stretch of the triangles; at every vertex the sides of the
// first stretch come first.
func sortEdges(points int, triangles [][3]uint32, sides bool) *edges {
	e := &edges{start: make([]uint32, points+1), packed: make([]uint32, 3*len(triangles))}
	if sides {
		e.side = make([]uint32, len(e.packed))
	}
	stretch := stretchFor(len(triangles))
	next := make([][]uint32, len(triangles)/stretch+1) // where the next side of each vertex goes
	_ = inChunks(context.Background(), len(triangles), stretch, func(k, from, to int) {
		next[k] = countLower(points, triangles[from:to])
	})
	sum := uint32(0)
	next = slices.DeleteFunc(next, func(at []uint32) bool { return at == nil })
	for v := range e.start[:points] {
		e.start[v] = sum
		for _, at := range next {
			at[v], sum = sum, sum+at[v]
		}
	}
	e.start[points] = sum
	_ = inChunks(context.Background(), len(triangles), stretch, func(k, from, to int) {
		at := next[k]
		for i := from; i < to; i++ {
			a, b, c := triangles[i][0], triangles[i][1], triangles[i][2]
			e.put(at, a, b, 3*i)
			e.put(at, b, c, 3*i+1)
			e.put(at, c, a, 3*i+2)
		}
	})
	return e
}

// stretchFor is how many triangles each core sorts.
func stretchFor(triangles int) int {
	n := min(runtime.GOMAXPROCS(0), mostSorters, triangles/fewestSorted+1)
	return (triangles + n) / n
}

const (
	mostSorters  = 4       // each takes four bytes a point
	fewestSorted = 1 << 15 // triangles for which a core more is worth its start
)

// countLower counts the sides by their smaller vertex.
func countLower(points int, triangles [][3]uint32) []uint32 {
	n := zeroes(points)
	for i := range triangles {
		a, b, c := triangles[i][0], triangles[i][1], triangles[i][2]
		n[min(a, b)]++
		n[min(b, c)]++
		n[min(c, a)]++
	}
	return n
}

func (e *edges) put(next []uint32, from, to uint32, side int) {
	low, packed := from, to<<1
	if to < from {
		low, packed = to, from<<1|1
	}
	at := next[low]
	next[low] = at + 1
	e.packed[at] = packed
	if e.side != nil {
		e.side[at] = uint32(side)
	}
}
