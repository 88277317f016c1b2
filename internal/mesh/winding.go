package mesh

import "math"

// field is what the triangles of a node look like from far off: how much
// surface faces which way, and how it is spread about its middle. It stands in
// for them in the winding number (Barill, Dickson, Schmidt, Levin and Jacobson,
// Fast Winding Numbers for Soups and Clouds, ACM Trans. Graph. 37(4), 2018;
// here to the first order of their expansion).
type field struct {
	middle [3]float32
	radius float32 // squared, times beyond²: farther off the field will do
	facing [3]float32
	spread [3][3]float32 // spread[i][j]: facing i × offset j
}

// beyond is how many radii away a node's field stands in for its triangles.
const beyond = 2.0

// gatherFields sums the fields from the leaves up; children come after their
// parent in the list.
func (t *Tree) gatherFields() {
	t.fields = make([]field, len(t.nodes))
	area := make([]float64, len(t.nodes))
	for i := len(t.nodes) - 1; i >= 0; i-- {
		n := &t.nodes[i]
		var s gathered
		if n.count > 0 {
			for k := n.first; k < n.first+n.count; k++ {
				s.triangle(&t.corners[k])
			}
		} else {
			s.merge(&t.fields[n.first], area[n.first])
			s.merge(&t.fields[n.first+1], area[n.first+1])
		}
		area[i] = s.area
		t.fields[i] = s.about(n)
	}
}

// gathered are sums about the origin.
type gathered struct {
	area   float64
	moment Vec // Σ area × middle
	facing Vec // Σ area × normal
	spread [3]Vec
}

func (s *gathered) triangle(c *[9]float32) {
	a := Vec{float64(c[0]), float64(c[1]), float64(c[2])}
	b := Vec{float64(c[3]), float64(c[4]), float64(c[5])}
	d := Vec{float64(c[6]), float64(c[7]), float64(c[8])}
	normal := b.Sub(a).Cross(d.Sub(a)).Mul(0.5)
	s.add(normal.Norm(), a.Add(b).Add(d).Mul(1.0/3), normal, [3]Vec{})
}

func (s *gathered) merge(f *field, area float64) {
	var spread [3]Vec
	for i := range 3 {
		spread[i] = Vec32(f.spread[i]).Vec()
	}
	s.add(area, Vec32(f.middle).Vec(), Vec32(f.facing).Vec(), spread)
}

func (s *gathered) add(area float64, middle, facing Vec, spread [3]Vec) {
	s.area += area
	s.moment = s.moment.Add(middle.Mul(area))
	s.facing = s.facing.Add(facing)
	for i := range 3 {
		s.spread[i] = s.spread[i].Add(spread[i]).Add(middle.Mul(facing[i]))
	}
}

// about moves the sums to the middle of the surface in node n.
func (s *gathered) about(n *node) field {
	middle := Vec32(n.low).Vec().Add(Vec32(n.high).Vec()).Mul(0.5)
	if s.area > 0 {
		middle = s.moment.Mul(1 / s.area)
	}
	var far Vec // the corner of the box that is farthest from the middle
	for k := range 3 {
		far[k] = max(float64(n.high[k])-middle[k], middle[k]-float64(n.low[k]))
	}
	f := field{middle: middle.Vec32(), radius: float32(far.Dot(far) * beyond * beyond), facing: s.facing.Vec32()}
	for i := range 3 {
		f.spread[i] = s.spread[i].Sub(middle.Mul(s.facing[i])).Vec32()
	}
	return f
}

// Winding is how many times the surface goes round q: 1 inside a closed form, 0
// outside, and in between near a hole, where one half is the skin that would
// close it. It is right to about a hundredth.
func (t *Tree) Winding(q Vec) float64 {
	if len(t.nodes) == 0 {
		return 0
	}
	x, y, z := q[0], q[1], q[2]
	var stack [64]uint32
	top := 1 // begins with the root, node 0
	sum := 0.0
	for top > 0 {
		top--
		f := &t.fields[stack[top]]
		dx, dy, dz := float64(f.middle[0])-x, float64(f.middle[1])-y, float64(f.middle[2])-z
		if d := dx*dx + dy*dy + dz*dz; d > float64(f.radius) {
			sum += f.angle(dx, dy, dz, d)
			continue
		}
		n := &t.nodes[stack[top]]
		if n.count == 0 {
			stack[top], stack[top+1] = n.first, n.first+1
			top += 2
			continue
		}
		for k := n.first; k < n.first+n.count; k++ {
			sum += solidAngle(&t.corners[k], x, y, z)
		}
	}
	return sum / (4 * math.Pi)
}

// Inside says whether q is within the form.
func (t *Tree) Inside(q Vec) bool { return t.Winding(q) > 0.5 }

// angle is the solid angle of the field at d = middle − q, d·d = dd.
func (f *field) angle(x, y, z, dd float64) float64 {
	inverse := 1 / (dd * math.Sqrt(dd))
	s := &f.spread
	flux := float64(f.facing[0])*x + float64(f.facing[1])*y + float64(f.facing[2])*z
	trace := float64(s[0][0]) + float64(s[1][1]) + float64(s[2][2])
	twice := x*(x*float64(s[0][0])+y*float64(s[0][1]+s[1][0])+z*float64(s[0][2]+s[2][0])) +
		y*(y*float64(s[1][1])+z*float64(s[1][2]+s[2][1])) + z*z*float64(s[2][2])
	return (flux + trace - 3*twice/dd) * inverse
}

// solidAngle of a triangle seen from a point (Van Oosterom and Strackee, IEEE
// Trans. Biomed. Eng. 30(2), 1983).
func solidAngle(c *[9]float32, x, y, z float64) float64 {
	ax, ay, az := float64(c[0])-x, float64(c[1])-y, float64(c[2])-z
	bx, by, bz := float64(c[3])-x, float64(c[4])-y, float64(c[5])-z
	cx, cy, cz := float64(c[6])-x, float64(c[7])-y, float64(c[8])-z
	a, b, d := math.Sqrt(ax*ax+ay*ay+az*az), math.Sqrt(bx*bx+by*by+bz*bz), math.Sqrt(cx*cx+cy*cy+cz*cz)
	over := ax*(by*cz-bz*cy) + ay*(bz*cx-bx*cz) + az*(bx*cy-by*cx)
	under := a*b*d + (ax*bx+ay*by+az*bz)*d + (bx*cx+by*cy+bz*cz)*a + (cx*ax+cy*ay+cz*az)*b
	if under > 0 && math.Abs(over) < 0.1*under {
		r := over / under
		r2 := r * r
		return 2 * r * (1 - r2*(1.0/3-r2*(1.0/5-r2/7)))
	}
	return 2 * math.Atan2(over, under)
}
