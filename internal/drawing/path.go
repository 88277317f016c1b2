package drawing

import "math"

// Op is what one step of a path does.
type Op uint8

// The four steps of a path.
const (
	MoveTo  Op = iota // starts a new outline at P[0]
	LineTo            // a straight line to P[0]
	CubicTo           // a cubic Bézier curve by way of P[0] and P[1] to P[2]
	Close             // a straight line back to where the outline began
)

// Step is one step of a path; see Op for what P holds.
type Step struct {
	Op Op
	P  [3]Point
}

// Path is one or more outlines. Filled, an outline that turns the other way
// within another is a hole (the non-zero winding rule).
type Path []Step

// Move starts a new outline at (x, y).
func (p *Path) Move(x, y float64) { *p = append(*p, Step{Op: MoveTo, P: [3]Point{{x, y}}}) }

// Line goes straight to (x, y).
func (p *Path) Line(x, y float64) { *p = append(*p, Step{Op: LineTo, P: [3]Point{{x, y}}}) }

// Cubic goes to (x, y) on a curve that leaves towards (x1, y1) and arrives from (x2, y2).
func (p *Path) Cubic(x1, y1, x2, y2, x, y float64) {
	*p = append(*p, Step{Op: CubicTo, P: [3]Point{{x1, y1}, {x2, y2}, {x, y}}})
}

// Close goes straight back to where the outline began.
func (p *Path) Close() { *p = append(*p, Step{Op: Close}) }

// points is how many of a step's points its Op uses.
func (s Step) points() int {
	switch s.Op {
	case CubicTo:
		return 3
	case Close:
		return 0
	default:
		return 1
	}
}

// Transform is p moved by m.
func (p Path) Transform(m Matrix) Path {
	moved := make(Path, len(p))
	for i, s := range p {
		moved[i].Op = s.Op
		for k := range s.points() {
			moved[i].P[k] = m.Apply(s.P[k])
		}
	}
	return moved
}

// Bounds is the smallest box that holds p, curves measured exactly. It is empty
// for an empty path.
func (p Path) Bounds() Box {
	b := emptyBox()
	var at Point
	for _, s := range p {
		switch s.Op {
		case MoveTo, LineTo:
			at = s.P[0]
			b = b.with(at)
		case CubicTo:
			b = b.with(s.P[2])
			for _, t := range turns(at.X, s.P[0].X, s.P[1].X, s.P[2].X) {
				b = b.with(onCubic(at, s, t))
			}
			for _, t := range turns(at.Y, s.P[0].Y, s.P[1].Y, s.P[2].Y) {
				b = b.with(onCubic(at, s, t))
			}
			at = s.P[2]
		}
	}
	return b
}

// onCubic is the point at t of the curve from a by step s.
func onCubic(a Point, s Step, t float64) Point {
	u := 1 - t
	f := func(p0, p1, p2, p3 float64) float64 {
		return u*u*u*p0 + 3*u*u*t*p1 + 3*u*t*t*p2 + t*t*t*p3
	}
	return Point{f(a.X, s.P[0].X, s.P[1].X, s.P[2].X), f(a.Y, s.P[0].Y, s.P[1].Y, s.P[2].Y)}
}

// turns gives where, strictly between 0 and 1, one coordinate of a cubic turns
// back: the roots of its derivative.
func turns(p0, p1, p2, p3 float64) []float64 {
	a, b, c := p3-3*p2+3*p1-p0, 2*(p2-2*p1+p0), p1-p0
	var roots []float64
	keep := func(t float64) {
		if t > 0 && t < 1 {
			roots = append(roots, t)
		}
	}
	if math.Abs(a) < 1e-12 {
		if math.Abs(b) > 1e-12 {
			keep(-c / b)
		}
		return roots
	}
	if d := b*b - 4*a*c; d >= 0 {
		r := math.Sqrt(d)
		keep((-b + r) / (2 * a))
		keep((-b - r) / (2 * a))
	}
	return roots
}
