package form

import "math"

// Sphere has a diameter.
type Sphere struct{ D float64 }

func (s Sphere) area() float64                     { return math.Pi * s.D * s.D }
func (s Sphere) volume() float64                   { return math.Pi * s.D * s.D * s.D / 6 }
func (s Sphere) plan(float64) (wide, deep float64) { return s.D, s.D }
func (s Sphere) half() float64                     { return s.D / 2 }
func (s Sphere) hollow(t float64) float64          { return Sphere{s.D - 2*t}.volume() }
func (s Sphere) inner(t float64) float64           { return Sphere{s.D - 2*t}.area() }

// Ellipsoid has three diameters.
type Ellipsoid struct{ A, B, C float64 }

// area is exact for any three axes: 4π R_G(a²b², b²c², c²a²), with Carlson's
// symmetric integral (B. C. Carlson, Numerical Algorithms 10:13–26, 1995; DLMF
// 19.33.1).
func (e Ellipsoid) area() float64 {
	a, b, c := sq(e.A/2), sq(e.B/2), sq(e.C/2)
	return 4 * math.Pi * carlsonRG(a*b, b*c, c*a)
}

func (e Ellipsoid) volume() float64                   { return math.Pi * e.A * e.B * e.C / 6 }
func (e Ellipsoid) plan(float64) (wide, deep float64) { return e.A, e.B }
func (e Ellipsoid) half() float64                     { return min(e.A, e.B, e.C) / 2 }

// hollow is the room that is t or more from the surface. Up to the smallest
// radius of curvature it is Steiner's formula, V − A t + M t² − ⁴⁄₃π t³, M the
// integral of mean curvature; past that the tips fill, and it is added up along
// the normals.
func (e Ellipsoid) hollow(t float64) float64 {
	if t <= e.bend() {
		return e.volume() - e.area()*t + e.curvature()*t*t - 4*math.Pi/3*t*t*t
	}
	return e.alongNormals(func(h, k, reach float64) float64 {
		return reach - t - h*(reach*reach-t*t) + k*(reach*reach*reach-t*t*t)/3
	}, t)
}

func (e Ellipsoid) inner(t float64) float64 {
	if t <= e.bend() {
		return e.area() - 2*e.curvature()*t + 4*math.Pi*t*t
	}
	return e.alongNormals(func(h, k, _ float64) float64 { return 1 - 2*h*t + k*t*t }, t)
}

// bend is the smallest radius of curvature, at the tips of the longest axis.
func (e Ellipsoid) bend() float64 {
	return sq(min(e.A, e.B, e.C)) / max(e.A, e.B, e.C) / 2
}

// alongNormals integrates f over the part of the surface whose normals reach
// further inside than t. By symmetry a normal is nearest to its own foot until
// it meets the plane of the two longer axes. f is given the mean curvature, the
// Gaussian curvature and that reach.
func (e Ellipsoid) alongNormals(f func(h, k, reach float64) float64, t float64) float64 {
	a, b, c := sq(e.A/2), sq(e.B/2), sq(e.C/2)
	short := min(a, b, c)
	const n = 64
	sum := 0.0
	for i := range n {
		w := (float64(i) + 0.5) / n // of an eighth of the unit sphere, in even parts
		for j := range n {
			sin, cos := math.Sincos((float64(j) + 0.5) / n * math.Pi / 2)
			u, v := sq(cos)*(1-w*w), sq(sin)*(1-w*w)
			gradient := math.Sqrt(u/a + v/b + w*w/c)
			reach := short * gradient
			if reach <= t {
				continue
			}
			k := 1 / (a * b * c * sq(sq(gradient)))
			h := (a + b + c - a*u - b*v - c*w*w) * k * gradient / 2
			sum += gradient * f(h, k, reach)
		}
	}
	return sum / (n * n) * 4 * math.Pi * math.Sqrt(a*b*c)
}

func (e Ellipsoid) curvature() float64 {
	return 4 * math.Pi * carlsonRG(sq(e.A/2), sq(e.B/2), sq(e.C/2))
}

// Torus has the diameter of its centre line and of its ring's section.
type Torus struct{ Ring, D float64 }

func (s Torus) area() float64                     { return math.Pi * math.Pi * s.Ring * s.D }
func (s Torus) volume() float64                   { return math.Pi * math.Pi / 4 * s.Ring * s.D * s.D }
func (s Torus) half() float64                     { return s.D / 2 }
func (s Torus) plan(float64) (wide, deep float64) { return s.Ring + s.D, s.Ring + s.D }
func (s Torus) hollow(t float64) float64          { return Torus{s.Ring, s.D - 2*t}.volume() }
func (s Torus) inner(t float64) float64           { return Torus{s.Ring, s.D - 2*t}.area() }

func sq(x float64) float64 { return x * x }

// carlsonRG is Carlson's R_G: the mean over the unit sphere of √(x u² + y v² +
// z w²), by R_F and R_D (DLMF 19.21.10).
func carlsonRG(x, y, z float64) float64 {
	// The formula wants z between the others, or at least not zero.
	if z < x {
		x, z = z, x
	}
	if z < y {
		y, z = z, y
	}
	return (z*carlsonRF(x, y, z) - (z-x)*(z-y)*carlsonRD(x, y, z)/3 + math.Sqrt(x*y/z)) / 2
}

// carlsonRF by duplication until the arguments agree to 1e-3, where the series
// is good to 1e-16.
func carlsonRF(x, y, z float64) float64 {
	for {
		l := math.Sqrt(x*y) + math.Sqrt(y*z) + math.Sqrt(z*x)
		x, y, z = (x+l)/4, (y+l)/4, (z+l)/4
		m := (x + y + z) / 3
		dx, dy, dz := 1-x/m, 1-y/m, 1-z/m
		if max(math.Abs(dx), math.Abs(dy), math.Abs(dz)) < 1e-3 {
			e2, e3 := dx*dy-dz*dz, dx*dy*dz
			return (1 - e2/10 + e3/14 + e2*e2/24 - 3*e2*e3/44) / math.Sqrt(m)
		}
	}
}

// carlsonRD by duplication.
func carlsonRD(x, y, z float64) float64 {
	sum, f := 0.0, 1.0
	for {
		l := math.Sqrt(x*y) + math.Sqrt(y*z) + math.Sqrt(z*x)
		sum += f / (math.Sqrt(z) * (z + l))
		f /= 4
		x, y, z = (x+l)/4, (y+l)/4, (z+l)/4
		m := (x + y + 3*z) / 5
		dx, dy, dz := 1-x/m, 1-y/m, 1-z/m
		if max(math.Abs(dx), math.Abs(dy), math.Abs(dz)) < 1e-3 {
			ea, eb := dx*dy, dz*dz
			ec, ed := ea-eb, ea-6*eb
			ef := ed + 2*ec
			s := ed*(-3.0/14+9.0/88*ed-4.5/26*dz*ef) + dz*(ef/6+dz*(-9.0/22*ec+dz*3.0/26*ea))
			return 3*sum + f*(1+s)/(m*math.Sqrt(m))
		}
	}
}
