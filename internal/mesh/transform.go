package mesh

// A transform takes a point p to m·p + d: the rows of m and, last in each, d.
type transform [3][4]float64

// still leaves everything where it is.
var still = transform{{1, 0, 0, 0}, {0, 1, 0, 0}, {0, 0, 1, 0}}

// apply is where p is taken to.
func (t *transform) apply(p Vec) Vec {
	return Vec{
		t[0][0]*p[0] + t[0][1]*p[1] + t[0][2]*p[2] + t[0][3],
		t[1][0]*p[0] + t[1][1]*p[1] + t[1][2]*p[2] + t[1][3],
		t[2][0]*p[0] + t[2][1]*p[1] + t[2][2]*p[2] + t[2][3],
	}
}

// after is the transform that does inner first and then t.
func (t *transform) after(inner *transform) *transform {
	var out transform
	for i := range 3 {
		for j := range 4 {
			out[i][j] = t[i][0]*inner[0][j] + t[i][1]*inner[1][j] + t[i][2]*inner[2][j]
		}
		out[i][3] += t[i][3]
	}
	return &out
}

// mirrors is whether t turns right hands into left ones, and with them the
// outside of a surface into the inside.
func (t *transform) mirrors() bool {
	row := func(i int) Vec { return Vec{t[i][0], t[i][1], t[i][2]} }
	return row(0).Dot(row(1).Cross(row(2))) < 0
}

// enlarge is the transform that makes everything k times as large.
func enlarge(k float64) *transform {
	return &transform{{k, 0, 0, 0}, {0, k, 0, 0}, {0, 0, k, 0}}
}

// place is the transform of a translation, a turn given as a unit quaternion
// (x, y, z, w) and a stretch along the axes, done in the order stretch, turn,
// translation (glTF 2.0 specification, section 3.5.3).
func place(translation [3]float64, q [4]float64, stretch [3]float64) *transform {
	x, y, z, w := q[0], q[1], q[2], q[3]
	turn := [3][3]float64{
		{1 - 2*(y*y+z*z), 2 * (x*y - z*w), 2 * (x*z + y*w)},
		{2 * (x*y + z*w), 1 - 2*(x*x+z*z), 2 * (y*z - x*w)},
		{2 * (x*z - y*w), 2 * (y*z + x*w), 1 - 2*(x*x+y*y)},
	}
	var t transform
	for i := range 3 {
		for j := range 3 {
			t[i][j] = turn[i][j] * stretch[j]
		}
		t[i][3] = translation[i]
	}
	return &t
}
