package mesh

import "sort"

// Shell is one connected surface of a mesh: triangles that hang together by
// their points.
type Shell struct {
	Triangles int
	Size      Size
	Nesting   Nesting // how it lies to the others, as Nest found it
	Within    int     // the shell that it lies in or crosses; −1 for none
}

// Nesting is how a shell lies to the other shells of its mesh.
type Nesting int

// A shell of its own, one that bounds a hollow inside another, one that is
// counted twice because another encloses it, and one that is partly within
// another.
const (
	Apart Nesting = iota
	Hollow
	Buried
	Crossing
)

// String is how the window calls it.
func (n Nesting) String() string {
	return [...]string{"apart", "hollow", "buried", "crossing"}[n]
}

// Shells are all shells of a mesh, the one with the most surface first.
type Shells struct {
	List []Shell
	Of   []uint32 // the shell of each triangle
}

// FindShells tells a mesh apart into its shells.
func FindShells(m *Mesh) *Shells {
	root := joinPoints(m)
	number := make([]uint32, len(m.Points)) // of the shell, plus one
	s := &Shells{Of: make([]uint32, len(m.Triangles))}
	for i := range m.Triangles {
		r := root.find(m.Triangles[i][0])
		if number[r] == 0 {
			s.List = append(s.List, Shell{Within: -1})
			number[r] = uint32(len(s.List))
		}
		s.Of[i] = number[r] - 1
		s.List[s.Of[i]].Triangles++
	}
	s.measure(m)
	s.sort()
	return s
}

// forest joins numbers into sets; each points towards the one that stands for
// its set.
type forest []uint32

func newForest(n int) forest {
	f := make(forest, n)
	for i := range f {
		f[i] = uint32(i)
	}
	return f
}

func (f forest) find(i uint32) uint32 {
	for f[i] != i {
		f[i] = f[f[i]]
		i = f[i]
	}
	return i
}

func (f forest) join(a, b uint32) {
	a, b = f.find(a), f.find(b)
	if a < b {
		f[b] = a
	} else {
		f[a] = b
	}
}

func joinPoints(m *Mesh) forest {
	f := newForest(len(m.Points))
	for i := range m.Triangles {
		t := &m.Triangles[i]
		f.join(t[0], t[1])
		f.join(t[1], t[2])
	}
	return f
}

// measure gives every shell its size, going through the triangles shell by shell.
func (s *Shells) measure(m *Mesh) {
	start := make([]int, len(s.List)+1)
	for i, shell := range s.List {
		start[i+1] = start[i] + shell.Triangles
	}
	at := append([]int(nil), start...)
	sorted := make([][3]uint32, len(m.Triangles))
	for i, t := range m.Triangles {
		sorted[at[s.Of[i]]] = t
		at[s.Of[i]]++
	}
	for i := range s.List {
		s.List[i].Size = measureSome(m.Points, sorted[start[i]:start[i+1]])
	}
}

// sort puts the shell with the most surface first.
func (s *Shells) sort() {
	order := make([]int, len(s.List))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return s.List[order[a]].Size.Area > s.List[order[b]].Size.Area })
	list, to := make([]Shell, len(s.List)), make([]uint32, len(s.List))
	for k, i := range order {
		list[k], to[i] = s.List[i], uint32(k)
	}
	s.List = list
	for i, n := range s.Of {
		s.Of[i] = to[n]
	}
}

// Keep is the mesh of the shells for which keep is true. Points that no triangle
// needs are left out.
func (s *Shells) Keep(m *Mesh, keep []bool) *Mesh {
	out := &Mesh{}
	to := make([]uint32, len(m.Points)) // the new number of a point, plus one
	for i := range m.Triangles {
		n := int(s.Of[i])
		if n >= len(keep) || !keep[n] {
			continue
		}
		var t [3]uint32
		for k, p := range m.Triangles[i] {
			if to[p] == 0 {
				out.Points = append(out.Points, m.Points[p])
				to[p] = uint32(len(out.Points))
			}
			t[k] = to[p] - 1
		}
		out.Triangles = append(out.Triangles, t)
	}
	return out
}
