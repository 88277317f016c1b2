package form

import "math"

// Cylinder has a diameter and a height. Open at both ends it is a pipe.
type Cylinder struct {
	D, H float64
	Ends Ends
}

func (c Cylinder) area() float64 {
	return math.Pi*c.D*c.H + float64(2-c.Ends)*math.Pi*c.D*c.D/4
}
func (c Cylinder) volume() float64                        { return math.Pi * c.D * c.D / 4 * c.H }
func (c Cylinder) plan(high float64) (wide, deep float64) { return lying(c.D, c.H, high), c.D }
func (c Cylinder) half() float64                          { return halfOf(c.D, c.H, c.Ends) }
func (c Cylinder) hollow(t float64) float64 {
	return Cylinder{c.D - 2*t, c.H - walls(c.Ends)*t, c.Ends}.volume()
}

func (c Cylinder) inner(t float64) float64 {
	return Cylinder{c.D - 2*t, c.H - walls(c.Ends)*t, c.Ends}.area()
}

// lying is how wide something long takes: its length where that is more than the
// height of the form, in which it cannot stand.
func lying(across, long, high float64) float64 {
	if long > high*1.001 {
		return math.Max(long, across)
	}
	return across
}

// walls counts the closed ends.
func walls(e Ends) float64 { return float64(2 - e) }

// halfOf is the wall that fills a section of width d and a height h with the
// given closed ends.
func halfOf(d, h float64, e Ends) float64 {
	if e == Open {
		return d / 2
	}
	return math.Min(d/2, h/walls(e))
}

// Box is A × B on plan and C high; its open ends are the foot and the top.
type Box struct {
	A, B, C float64
	Ends    Ends
}

func (b Box) area() float64                     { return 2*(b.A+b.B)*b.C + walls(b.Ends)*b.A*b.B }
func (b Box) volume() float64                   { return b.A * b.B * b.C }
func (b Box) plan(float64) (wide, deep float64) { return b.A, b.B }
func (b Box) half() float64                     { return halfOf(math.Min(b.A, b.B), b.C, b.Ends) }
func (b Box) room(t float64) Box {
	return Box{b.A - 2*t, b.B - 2*t, b.C - walls(b.Ends)*t, b.Ends}
}
func (b Box) hollow(t float64) float64 { return b.room(t).volume() }
func (b Box) inner(t float64) float64  { return b.room(t).area() }

// Plate is a flat piece of its own thickness; it is hollow only if two walls fit
// in that.
type Plate struct{ A, B, Thick float64 }

func (p Plate) box() Box                          { return Box{p.A, p.B, p.Thick, Closed} }
func (p Plate) area() float64                     { return p.box().area() }
func (p Plate) volume() float64                   { return p.box().volume() }
func (p Plate) plan(float64) (wide, deep float64) { return p.A, p.B }
func (p Plate) own() float64                      { return p.Thick }
func (p Plate) half() float64                     { return p.box().half() }
func (p Plate) hollow(t float64) float64          { return p.box().hollow(t) }
func (p Plate) inner(t float64) float64           { return p.box().inner(t) }

// Tube is a ring of outer diameter D, bore and length: a surface outside, one
// inside, and two rims. Its wall is its own; it is hollow only if two cast walls
// fit in that.
type Tube struct{ D, Bore, L float64 }

func (u Tube) area() float64 {
	return math.Pi*(u.D+u.Bore)*u.L + math.Pi/2*(u.D*u.D-u.Bore*u.Bore)
}

func (u Tube) volume() float64                        { return math.Pi / 4 * (u.D*u.D - u.Bore*u.Bore) * u.L }
func (u Tube) plan(high float64) (wide, deep float64) { return lying(u.D, u.L, high), u.D }
func (u Tube) own() float64                           { return (u.D - u.Bore) / 2 }
func (u Tube) half() float64                          { return math.Min((u.D-u.Bore)/4, u.L/2) }
func (u Tube) room(t float64) Tube                    { return Tube{u.D - 2*t, u.Bore + 2*t, u.L - 2*t} }
func (u Tube) hollow(t float64) float64               { return u.room(t).volume() }
func (u Tube) inner(t float64) float64                { return u.room(t).area() }

// Frustum is a cone cut off: diameters at the foot and the top, and a height.
// With Top 0 it is a cone, whose only end is its foot.
type Frustum struct {
	Foot, Top, H float64
	Ends         Ends
}

func (f Frustum) slant() float64 { return math.Hypot(f.H, (f.Foot-f.Top)/2) }

// floor and roof tell which ends have a wall. One open end is the foot.
func (f Frustum) floor() bool { return f.Ends == Closed }
func (f Frustum) roof() bool  { return f.Ends != Open && f.Top > 0 }

func (f Frustum) area() float64 {
	a := math.Pi / 2 * (f.Foot + f.Top) * f.slant()
	if f.floor() {
		a += math.Pi / 4 * f.Foot * f.Foot
	}
	if f.roof() {
		a += math.Pi / 4 * f.Top * f.Top
	}
	return a
}

func (f Frustum) volume() float64 {
	return math.Pi / 12 * f.H * (f.Foot*f.Foot + f.Foot*f.Top + f.Top*f.Top)
}

// room is what a wall t leaves: the side moves in by t square to itself, which
// is t × slant/height on plan; closed ends move by t along the axis; where the
// side meets itself before the top, the room ends in a point.
func (f Frustum) room(t float64) (Frustum, bool) {
	plan := 2 * t * f.slant() / f.H
	from, to := 0.0, f.H
	if f.floor() {
		from = t
	}
	if f.roof() {
		to = f.H - t
	}
	at := func(z float64) float64 { return f.Foot + (f.Top-f.Foot)*z/f.H - plan }
	if f.Foot != f.Top {
		tip := (f.Foot - plan) * f.H / (f.Foot - f.Top)
		if f.Foot > f.Top {
			to = math.Min(to, tip)
		} else {
			from = math.Max(from, tip)
		}
	}
	r := Frustum{math.Max(at(from), 0), math.Max(at(to), 0), to - from, f.Ends}
	return r, r.H > 0 && r.Foot+r.Top > 0
}

func (f Frustum) hollow(t float64) float64 {
	r, ok := f.room(t)
	if !ok {
		return 0
	}
	return r.volume()
}

func (f Frustum) inner(t float64) float64 {
	r, ok := f.room(t)
	if !ok {
		return 0
	}
	return r.area()
}

func (f Frustum) plan(high float64) (wide, deep float64) {
	across := math.Max(f.Foot, f.Top)
	return lying(across, f.H, high), across
}

// half is found by halving: the room shrinks steadily as the wall grows.
func (f Frustum) half() float64 {
	low, high := 0.0, math.Max(f.Foot, f.Top)
	for range 60 {
		mid := (low + high) / 2
		if _, ok := f.room(mid); ok {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}
