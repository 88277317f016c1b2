package drawing

import "math"

// Point is a place, in points.
type Point struct{ X, Y float64 }

// Box is an upright rectangle, in points; one with Max left of or above Min is empty.
type Box struct{ Min, Max Point }

// emptyBox holds nothing: adding a point to it gives that point.
func emptyBox() Box {
	return Box{Min: Point{math.Inf(1), math.Inf(1)}, Max: Point{math.Inf(-1), math.Inf(-1)}}
}

// Width is how wide b is, in points; 0 if it is empty.
func (b Box) Width() float64 { return max(0, b.Max.X-b.Min.X) }

// Height is how tall b is, in points; 0 if it is empty.
func (b Box) Height() float64 { return max(0, b.Max.Y-b.Min.Y) }

// Empty is true for a box that holds no point.
func (b Box) Empty() bool { return b.Max.X < b.Min.X || b.Max.Y < b.Min.Y }

// Overlaps is true if b and c share more than an edge.
func (b Box) Overlaps(c Box) bool {
	return b.Min.X < c.Max.X && c.Min.X < b.Max.X && b.Min.Y < c.Max.Y && c.Min.Y < b.Max.Y
}

// with is b grown to hold p.
func (b Box) with(p Point) Box {
	return Box{
		Min: Point{min(b.Min.X, p.X), min(b.Min.Y, p.Y)},
		Max: Point{max(b.Max.X, p.X), max(b.Max.Y, p.Y)},
	}
}

// Matrix moves points: x' = A x + C y + E, y' = B x + D y + F. The zero value
// leaves them where they are.
type Matrix struct{ A, B, C, D, E, F float64 }

// Identity leaves points where they are.
var Identity = Matrix{A: 1, D: 1}

// Move shifts by dx to the right and dy down.
func Move(dx, dy float64) Matrix { return Matrix{A: 1, D: 1, E: dx, F: dy} }

// Scale stretches by sx and sy from the origin; a negative factor mirrors.
func Scale(sx, sy float64) Matrix { return Matrix{A: sx, D: sy} }

// Then is m followed by n.
func (m Matrix) Then(n Matrix) Matrix {
	m, n = m.known(), n.known()
	return Matrix{
		A: n.A*m.A + n.C*m.B, B: n.B*m.A + n.D*m.B,
		C: n.A*m.C + n.C*m.D, D: n.B*m.C + n.D*m.D,
		E: n.A*m.E + n.C*m.F + n.E, F: n.B*m.E + n.D*m.F + n.F,
	}
}

// Apply moves p.
func (m Matrix) Apply(p Point) Point {
	m = m.known()
	return Point{m.A*p.X + m.C*p.Y + m.E, m.B*p.X + m.D*p.Y + m.F}
}

// Factor is how many times longer m makes lengths, on average over directions.
func (m Matrix) Factor() float64 {
	m = m.known()
	return math.Sqrt(math.Abs(m.A*m.D - m.B*m.C))
}

// known is m, or Identity for the zero value.
func (m Matrix) known() Matrix {
	if m == (Matrix{}) {
		return Identity
	}
	return m
}

// finite is v, or 0 if v is not a number or has no bound.
func finite(v float64) float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return 0
	}
	return v
}

// positive is v, or 0 if v is below 0, not a number or without bound.
func positive(v float64) float64 { return max(0, finite(v)) }

// within is v held between lo and hi.
func within(v, lo, hi float64) float64 { return min(max(finite(v), lo), hi) }
