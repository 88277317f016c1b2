package mesh

import "math"

// Flat is a point of an outline.
type Flat [2]float64

// Outline is the silhouette of a form from one side: closed paths, those around
// the form turning left and those around holes turning right. Lengths are shares
// of the form's height; the ground is at 0, up is positive, and the middle of
// what touches the ground is at 0 across.
type Outline [][]Flat

// Side is where a silhouette is seen from, of a form that stands with z up.
type Side int

// The two silhouettes that are kept.
const (
	Front Side = iota // along y: x goes to the right
	Flank             // along x: y goes to the right
)

// outlineHeight is how many cells a silhouette is traced in, from foot to top,
// and outlineSlack how far, in cells, the path may pass by what was traced.
const (
	outlineHeight = 1000
	outlineSlack  = 1.1
)

// OutlineOf traces the silhouette of a mesh whose z is up.
func OutlineOf(m *Mesh, side Side) Outline {
	low, high := box(m.Points)
	height := high[2] - low[2]
	if !(height > 0) {
		return nil
	}
	across := int(side)
	scale := outlineHeight / height
	wide := (high[across] - low[across]) * scale
	if !(wide < 20*outlineHeight) {
		return nil // a sheet on edge has no silhouette worth keeping
	}
	s := &shadow{wide: int(wide) + 3, tall: outlineHeight + 3}
	s.cells = make([]bool, s.wide*s.tall)
	at := func(i uint32) Flat {
		p := m.Points[i]
		return Flat{(float64(p[across])-low[across])*scale + 1, (float64(p[2])-low[2])*scale + 1}
	}
	for _, t := range m.Triangles {
		s.fill(at(t[0]), at(t[1]), at(t[2]))
	}
	middle := s.footMiddle()
	var out Outline
	for _, path := range s.trace() {
		path = simplify(path, outlineSlack)
		if len(path) < 3 {
			continue
		}
		for i, p := range path {
			path[i] = Flat{(p[0] - middle) / outlineHeight, (p[1] - 1) / outlineHeight}
		}
		out = append(out, path)
	}
	return out
}

// shadow is a silhouette on a grid; row 0 is the lowest.
type shadow struct {
	wide, tall int
	cells      []bool
}

func (s *shadow) dark(x, y int) bool {
	return x >= 0 && y >= 0 && x < s.wide && y < s.tall && s.cells[y*s.wide+x]
}

// fill darkens every cell whose middle lies in the triangle, and those that its
// corners lie in, so that thin parts leave no gaps.
func (s *shadow) fill(a, b, c Flat) {
	for _, p := range [3]Flat{a, b, c} {
		s.set(int(p[0]), int(p[1]))
	}
	from, to := int(math.Ceil(min(a[1], b[1], c[1])-0.5)), int(math.Floor(max(a[1], b[1], c[1])-0.5))
	for y := max(from, 0); y <= min(to, s.tall-1); y++ {
		left, right, ok := chord(a, b, c, float64(y)+0.5)
		if !ok {
			continue
		}
		for x := max(int(math.Ceil(left-0.5)), 0); x <= min(int(math.Floor(right-0.5)), s.wide-1); x++ {
			s.cells[y*s.wide+x] = true
		}
	}
}

func (s *shadow) set(x, y int) {
	if x >= 0 && y >= 0 && x < s.wide && y < s.tall {
		s.cells[y*s.wide+x] = true
	}
}

// chord is where the line at height y crosses a triangle.
func chord(a, b, c Flat, y float64) (left, right float64, ok bool) {
	left, right = math.Inf(1), math.Inf(-1)
	for _, e := range [3][2]Flat{{a, b}, {b, c}, {c, a}} {
		p, q := e[0], e[1]
		if (p[1] <= y) == (q[1] <= y) {
			continue
		}
		x := p[0] + (q[0]-p[0])*(y-p[1])/(q[1]-p[1])
		left, right = min(left, x), max(right, x)
	}
	return left, right, left <= right
}

// footMiddle is the middle of the lowest dark hundredth, in cells.
func (s *shadow) footMiddle() float64 {
	left, right := s.wide, 0
	for y := range outlineHeight/100 + 2 {
		for x := range s.wide {
			if s.dark(x, y) {
				left, right = min(left, x), max(right, x+1)
			}
		}
	}
	return float64(left+right) / 2
}

// trace follows the borders between dark and light with the dark on the left.
func (s *shadow) trace() (paths [][]Flat) {
	type step struct{ x, y int }
	// Where a border leaves a corner of the grid, by its direction: right, up,
	// left, down.
	away := [4][2]int{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}
	border := func(x, y, d int) bool {
		switch d {
		case 0:
			return s.dark(x, y) && !s.dark(x, y-1)
		case 1:
			return s.dark(x-1, y) && !s.dark(x, y)
		case 2:
			return s.dark(x-1, y-1) && !s.dark(x-1, y)
		}
		return s.dark(x, y-1) && !s.dark(x-1, y-1)
	}
	seen := make([]uint8, (s.wide+1)*(s.tall+1))
	for y := range s.tall + 1 {
		for x := range s.wide + 1 {
			if !border(x, y, 0) || seen[y*(s.wide+1)+x]&1 != 0 {
				continue
			}
			var path []Flat
			at := step{x: x, y: y}
			for d := 0; ; {
				seen[at.y*(s.wide+1)+at.x] |= 1 << d
				path = append(path, Flat{float64(at.x), float64(at.y)})
				at.x, at.y = at.x+away[d][0], at.y+away[d][1]
				if at.x == x && at.y == y {
					break
				}
				// Turn left first, so that cells that touch at a corner stay apart.
				for _, turn := range [3]int{1, 0, 3} {
					if e := (d + turn) % 4; border(at.x, at.y, e) {
						d = e
						break
					}
				}
			}
			paths = append(paths, path)
		}
	}
	return paths
}

// simplify leaves out points that the path passes within slack (Douglas &
// Peucker, Cartographica 10(2), 1973). The path is closed.
func simplify(path []Flat, slack float64) []Flat {
	if len(path) < 4 {
		return path
	}
	far, most := 0, 0.0
	for i, p := range path {
		if d := math.Hypot(p[0]-path[0][0], p[1]-path[0][1]); d > most {
			far, most = i, d
		}
	}
	keep := make([]bool, len(path)+1)
	closed := append(append([]Flat(nil), path...), path[0])
	keep[0], keep[far] = true, true
	thin(closed, 0, far, slack, keep)
	thin(closed, far, len(path), slack, keep)
	var out []Flat
	for i, p := range path {
		if keep[i] {
			out = append(out, p)
		}
	}
	return out
}

// thin keeps, between two points that are kept, what is farther than slack from
// the line between them.
func thin(path []Flat, from, to int, slack float64, keep []bool) {
	if to <= from+1 {
		return
	}
	at, most := 0, slack
	for i := from + 1; i < to; i++ {
		if d := offLine(path[i], path[from], path[to]); d > most {
			at, most = i, d
		}
	}
	if at == 0 {
		return
	}
	keep[at] = true
	thin(path, from, at, slack, keep)
	thin(path, at, to, slack, keep)
}

// offLine is the distance of p from the stretch from a to b.
func offLine(p, a, b Flat) float64 {
	dx, dy := b[0]-a[0], b[1]-a[1]
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = min(max(((p[0]-a[0])*dx+(p[1]-a[1])*dy)/l, 0), 1)
	}
	return math.Hypot(p[0]-a[0]-t*dx, p[1]-a[1]-t*dy)
}
