package mesh

import "math"

// knots is how many points a profile has. They lie close together at the skin
// and apart in the depth, at reach × (i/(knots−1))².
const knots = 256

// Profile is how the inside of a form lies below its skin: V(t), the volume of
// the inside points nearer than t to the skin, for every t. Scaled up by s, the
// form holds s³ V(t/s) within t, so one profile answers every scale and wall.
//
// Lengths are in metres, volumes in cubic metres, at scale 1. The zero value
// is a form without any inside.
type Profile struct {
	Volume float64 // enclosed, by winding number
	Area   float64 // of the skin that metal lies under
	Reach  float64 // depth of the deepest point
	Error  float64 // share by which a metal volume may be off, for walls from 0.5 % of the longest side
	within [knots]float32
	moment [3][knots]float32 // ∫ x, y, z over the same points, each over within
	solid  [knots]float32    // share of the volume that is solid at this wall
}

// at is V(t), between the knots by a parabola in √t, which V nearly is.
func (p *Profile) at(t float64) float64 {
	i, f := p.find(t)
	if i < 0 {
		return 0
	}
	return curve(&p.within, i, f)
}

// find gives the knot below t and how far t is on the way to the next, in the
// square root of t.
func (p *Profile) find(t float64) (i int, f float64) {
	if !(t > 0) || !(p.Reach > 0) {
		return -1, 0
	}
	x := math.Sqrt(t/p.Reach) * (knots - 1)
	if x >= knots-1 {
		return knots - 2, 1
	}
	i = int(x)
	return i, x - float64(i)
}

// curve runs through the values at the knots without overshooting: a cubic whose
// slopes are the harmonic means of the neighbours' (Fritsch and Butland, SIAM J.
// Sci. Stat. Comput. 5(2), 1984).
func curve(v *[knots]float32, i int, f float64) float64 {
	a, b := float64(v[i]), float64(v[i+1])
	here := b - a
	before, after := here, here
	if i > 0 {
		before = a - float64(v[i-1])
	}
	if i+2 < knots {
		after = float64(v[i+2]) - b
	}
	s, e := slope(before, here), slope(here, after)
	if i == 0 {
		s = 0 // V starts flat in √t
	}
	g := 1 - f
	return a*g*g*(1+2*f) + b*f*f*(3-2*f) + f*g*(s*g-e*f)
}

func slope(a, b float64) float64 {
	if a*b <= 0 {
		return 0
	}
	return 2 * a * b / (a + b)
}

// Metal is the volume of bronze, in m³, in a wall that is everywhere the given
// thickness in metres, of the form at the given scale. Where the form is thinner
// than two walls it is solid. It is never more than the form itself encloses.
func (p *Profile) Metal(scale, wall float64) float64 {
	if !(scale > 0) || !(wall > 0) {
		return 0
	}
	if wall >= scale*p.Reach {
		return scale * scale * scale * p.Volume
	}
	return scale * scale * scale * min(p.at(wall/scale), p.Volume)
}

// InnerArea is the area, in m², of the inside face of such a wall: how fast the
// metal grows with the wall.
func (p *Profile) InnerArea(scale, wall float64) float64 {
	if !(scale > 0) || !(wall >= 0) {
		return 0
	}
	t := wall / scale
	step := max(0.05*t, 2e-3*p.Reach)
	low := max(t-step, 0)
	return scale * scale * (p.at(t+step) - p.at(low)) / (t + step - low)
}

// SolidShare is the share of the form's volume, from 0 to 1, that casts solid:
// metal farther than two walls from the nearest hollow. See the file solid.go.
func (p *Profile) SolidShare(scale, wall float64) float64 {
	if !(scale > 0) {
		return 0
	}
	i, f := p.find(wall / scale)
	if i < 0 {
		return 0
	}
	return float64(p.solid[i])*(1-f) + float64(p.solid[i+1])*f
}

// Centre is the centre of mass of the metal in such a wall, in metres at that
// scale, from the same origin as the mesh.
func (p *Profile) Centre(scale, wall float64) Vec {
	if !(scale > 0) {
		return Vec{}
	}
	i, f := p.find(wall / scale)
	if i < 0 {
		i, f = 0, 1
	}
	var c Vec
	for k := range 3 {
		c[k] = scale * (float64(p.moment[k][i])*(1-f) + float64(p.moment[k][i+1])*f)
	}
	return c
}
