package mesh

import (
	"context"
	"math/rand/v2"
)

const (
	nestShells = 32  // the largest ones are compared; each pair costs a millisecond
	nestPoints = 200 // of each
)

// Nest finds how the largest shells lie to each other, by asking of points on
// each whether they are inside another: shells that overlap hold metal twice
// where there is but once room, and one inside another is either a hollow or
// forgotten there. Where ctx ends first, some pairs are not compared.
func (s *Shells) Nest(ctx context.Context, m *Mesh) {
	n := min(len(s.List), nestShells)
	if n < 2 {
		return
	}
	trees := make([]*Tree, n)
	for i := range n {
		for j := range n {
			if ctx.Err() != nil {
				return
			}
			if i == j || !boxesMeet(s.List[i].Size, s.List[j].Size) {
				continue
			}
			if trees[j] == nil {
				trees[j] = NewTree(m, func(k int) bool { return int(s.Of[k]) == j })
			}
			s.compare(m, i, j, trees[j])
		}
	}
}

func boxesMeet(a, b Size) bool {
	for k := range 3 {
		if a.Max[k] < b.Min[k] || b.Max[k] < a.Min[k] {
			return false
		}
	}
	return true
}

// compare looks where points of shell i lie in shell j. A shell that is wholly
// within another keeps that finding; the smallest that holds it counts.
func (s *Shells) compare(m *Mesh, i, j int, tree *Tree) {
	inside, points := 0, s.somePoints(m, i)
	for _, q := range points {
		if w := tree.Winding(q); w > 0.5 || w < -0.5 {
			inside++
		}
	}
	shell := &s.List[i]
	enclosed := shell.Nesting == Hollow || shell.Nesting == Buried
	switch {
	case inside == 0 || len(points) == 0:
	case inside*50 < len(points)*49:
		if !enclosed {
			shell.Nesting, shell.Within = Crossing, j
		}
	case enclosed && s.List[shell.Within].Size.Area < s.List[j].Size.Area:
	default:
		shell.Nesting, shell.Within = Buried, j
		if shell.Size.Volume < 0 != (s.List[j].Size.Volume < 0) {
			shell.Nesting = Hollow
		}
	}
}

// somePoints are middles of triangles of shell i, taken evenly.
func (s *Shells) somePoints(m *Mesh, i int) []Vec {
	random := rand.New(rand.NewPCG(uint64(i), 1))
	share := float64(nestPoints) / float64(max(s.List[i].Triangles, 1))
	var points []Vec
	for k := range m.Triangles {
		if int(s.Of[k]) == i && (share >= 1 || random.Float64() < share) {
			a, b, c := m.Corners(k)
			points = append(points, a.Add(b).Add(c).Mul(1.0/3))
		}
	}
	return points
}

// Overlaps says that some shells share room, so that the volume of the whole is
// less than the sum of theirs.
func (s *Shells) Overlaps() bool {
	for _, shell := range s.List {
		if shell.Nesting == Buried || shell.Nesting == Crossing {
			return true
		}
	}
	return false
}

// buriedFaces finds the triangles with form on both sides: just above them, by a
// hair, is still inside. They carry no metal of their own. Nil if there are none.
func buriedFaces(ctx context.Context, m *Mesh, long float64) ([]bool, error) {
	tree := NewTree(m, nil)
	out := make([]bool, len(m.Triangles))
	found := make([]bool, (len(m.Triangles)+255)/256)
	err := inChunks(ctx, len(tree.corners), 256, func(chunk, from, to int) {
		for k := from; k < to; k++ {
			above := tree.middle(k).Add(tree.normal(k).Mul(1e-5 * long))
			if tree.Inside(above) {
				out[tree.order[k]] = true
				found[chunk] = true
			}
		}
	})
	for _, f := range found {
		if f {
			return out, err
		}
	}
	return nil, err
}

// Bodies gives each triangle a number that shells share which are cast as one:
// a skin and its hollow, and shells that overlap. Nest must have been called.
func (s *Shells) Bodies() []uint32 {
	f := newForest(len(s.List))
	for i, shell := range s.List {
		if shell.Within >= 0 {
			f.join(uint32(i), uint32(shell.Within))
		}
	}
	body := make([]uint32, len(s.Of))
	for i, n := range s.Of {
		body[i] = f.find(n)
	}
	return body
}
