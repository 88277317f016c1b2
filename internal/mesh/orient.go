package mesh

import "context"

// Turned is what Orient did.
type Turned struct {
	Faces  int // triangles that ran against their neighbours
	Shells int // whole shells that faced inwards
}

// Orient makes the faces of a mesh agree which side is out: first neighbours
// with each other, the majority deciding; then whole shells that enclose less
// than nothing are turned, with what lies within them. The skin of a hollow
// rightly faces inwards and is left. m is not changed, and is given back if
// nothing had to be turned. It ends with ctx, whose error it gives.
func Orient(ctx context.Context, m *Mesh) (*Mesh, *Shells, Turned, error) {
	var done Turned
	if CountSeams(m).Turned > 0 {
		flip := disagreeing(ctx, m)
		for _, f := range flip {
			if f {
				done.Faces++
			}
		}
		m = turnWhere(m, func(i int) bool { return flip[i] })
	}
	s := FindShells(m)
	s.Nest(ctx, m)
	turn := s.inverted()
	for i, t := range turn {
		if t {
			done.Shells++
			s.List[i].Size.Volume = -s.List[i].Size.Volume
		}
	}
	if done.Shells > 0 {
		m = turnWhere(m, func(i int) bool { return turn[s.Of[i]] })
	}
	return m, s, done, ctx.Err()
}

// inverted says which shells to turn: those that enclose less than nothing, and
// with them what they hold.
func (s *Shells) inverted() []bool {
	turn := make([]bool, len(s.List))
	holds := func(i int) bool { n := s.List[i].Nesting; return n == Hollow || n == Buried }
	for i := range s.List {
		outer := i
		for steps := 0; holds(outer) && steps < nestShells; steps++ {
			outer = s.List[outer].Within
		}
		turn[i] = s.List[outer].Size.Volume < 0
	}
	return turn
}

// turnWhere is m with some triangles facing the other way.
func turnWhere(m *Mesh, turn func(triangle int) bool) *Mesh {
	out := &Mesh{Points: m.Points, Triangles: append([][3]uint32(nil), m.Triangles...)}
	for i := range out.Triangles {
		if turn(i) {
			t := &out.Triangles[i]
			t[1], t[2] = t[2], t[1]
		}
	}
	return out
}

// disagreeing says which triangles to turn so that neighbours agree, in every
// part that hangs together by edges of two triangles; the fewer are turned.
func disagreeing(ctx context.Context, m *Mesh) []bool {
	beside := besides(m)
	const unseen, kept, turned = 0, 1, 2
	const steps = 1 << 14 // between looks at ctx
	state := make([]byte, len(m.Triangles))
	flip := make([]bool, len(m.Triangles))
	var part []uint32
	for first := range state {
		if state[first] != unseen {
			continue
		}
		part = append(part[:0], uint32(first))
		state[first] = kept
		against := 0
		for next := 0; next < len(part); next++ {
			i := part[next]
			if next%steps == 0 && ctx.Err() != nil {
				return flip
			}
			for _, b := range beside[i] {
				if b.triangle == nobody || state[b.triangle] != unseen {
					continue
				}
				state[b.triangle] = state[i]
				if b.against {
					state[b.triangle] = kept + turned - state[i]
				}
				if state[b.triangle] == turned {
					against++
				}
				part = append(part, b.triangle)
			}
		}
		wrong := byte(turned)
		if 2*against > len(part) {
			wrong = kept
		}
		for _, i := range part {
			flip[i] = state[i] == wrong
		}
	}
	return flip
}

// beside is the triangle on the other side of an edge.
type beside struct {
	triangle uint32
	against  bool // it runs along the edge the same way: one of the two is turned
}

// nobody is no triangle.
const nobody = ^uint32(0)

// besides gives, for each side of each triangle, the one triangle beyond it;
// nobody at an open edge, and where more than two meet.
func besides(m *Mesh) [][3]beside {
	out := make([][3]beside, len(m.Triangles))
	for i := range out {
		for k := range 3 {
			out[i][k].triangle = nobody
		}
	}
	e := sortEdges(len(m.Points), m.Triangles, true)
	e.each(func(_ int, run []uint32, _, at int) {
		if len(run) != 2 {
			return
		}
		a, b := e.side[at], e.side[at+1]
		against := run[0] == run[1]
		out[a/3][a%3] = beside{b / 3, against}
		out[b/3][b%3] = beside{a / 3, against}
	})
	return out
}
