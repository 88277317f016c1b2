// Package form knows how big a piece is: its surface, the room it takes, and how
// much metal a wall of a given thickness holds, however the piece is known — by
// a typed area, a human figure, an animal, solids, a covered maquette or a scan.
//
// Everything here is in SI units and at the size the piece was measured at;
// Sized gives it at the size it is made.
package form

import (
	"math"

	"meltwright/internal/quantity"
)

// Body is a form at the size it was measured at.
type Body interface {
	// Area is the outside surface.
	Area() quantity.Area
	// Volume is what the form displaces, and false where nobody knows.
	Volume() (quantity.Volume, bool)
	// Metal is the volume of a wall of thickness t inside the surface, and how
	// much of it is in parts that cast solid because they are thinner than two
	// walls.
	Metal(t quantity.Length) (metal, solid quantity.Volume)
	// Inside is the inner surface of such a wall, and false where the form does
	// not give it.
	Inside(t quantity.Length) (quantity.Area, bool)
	// Thickest is the wall from which nothing of the form would be hollow.
	Thickest() quantity.Length
	// Most is the thickest wall that can be asked for: one that fills the form, and
	// of a sheet its own thickness.
	Most() quantity.Length
	// Plan is the room that the form takes on the ground, as wide and as deep, and
	// false where nobody knows. Height is the form's own.
	Plan(height quantity.Length) (wide, deep quantity.Length, known bool)
	// Exact tells whether Metal follows the form itself, rather than area × wall.
	Exact() bool
}

// Sized is a body scaled: lengths × Scale, areas × Scale², volumes × Scale³.
type Sized struct {
	Body  Body
	Scale float64
}

// Area is the outside surface at this size.
func (z Sized) Area() quantity.Area {
	return z.Body.Area() * quantity.Area(z.Scale*z.Scale)
}

// Volume is what the form displaces at this size.
func (z Sized) Volume() (quantity.Volume, bool) {
	v, ok := z.Body.Volume()
	return v * z.cube(), ok
}

// Metal is the volume of a wall of thickness t at this size: the wall does not
// grow with the form, so it is that of a wall t/s at the measured size, × s³.
func (z Sized) Metal(t quantity.Length) (metal, solid quantity.Volume) {
	metal, solid = z.Body.Metal(t / quantity.Length(z.Scale))
	return metal * z.cube(), solid * z.cube()
}

// Inside is the inner surface of a wall of thickness t at this size.
func (z Sized) Inside(t quantity.Length) (quantity.Area, bool) {
	a, ok := z.Body.Inside(t / quantity.Length(z.Scale))
	return a * quantity.Area(z.Scale*z.Scale), ok
}

// Thickest is the wall from which nothing of the form would be hollow.
func (z Sized) Thickest() quantity.Length {
	return z.Body.Thickest() * quantity.Length(z.Scale)
}

// Most is the thickest wall that can be asked for.
func (z Sized) Most() quantity.Length { return z.Body.Most() * quantity.Length(z.Scale) }

func (z Sized) cube() quantity.Volume { return quantity.Volume(z.Scale * z.Scale * z.Scale) }

// Surface is a form of which only the surface is known, and perhaps the volume.
// Its wall is area × thickness, never more than the volume.
type Surface struct {
	Outside quantity.Area
	Room    quantity.Volume // displaced volume; 0 where unknown
}

// Area is the outside surface.
func (s Surface) Area() quantity.Area { return s.Outside }

// Volume is the displaced volume, where it is known.
func (s Surface) Volume() (quantity.Volume, bool) { return s.Room, s.Room > 0 }

// Metal is area × wall, and no more than the displaced volume; where it reaches
// that, the whole piece casts solid.
func (s Surface) Metal(t quantity.Length) (metal, solid quantity.Volume) {
	m := quantity.Volume(float64(s.Outside) * float64(t))
	if s.Room > 0 && m >= s.Room {
		return s.Room, s.Room
	}
	return m, 0
}

// Inside is not known from a surface alone.
func (s Surface) Inside(quantity.Length) (quantity.Area, bool) { return 0, false }

// Thickest is the radius of the ball of the same surface: no form of that
// surface holds a thicker wall. Where the volume is known it is three times
// volume ÷ surface, if that is less: as deep as a convex form of them can be (the
// cones from its deepest point to its skin fill it).
func (s Surface) Thickest() quantity.Length {
	ball := math.Sqrt(float64(s.Outside) / (4 * math.Pi))
	if s.Room > 0 {
		ball = min(ball, 3*float64(s.Room)/float64(s.Outside))
	}
	return quantity.Length(ball)
}

// Most is the wall that fills the form.
func (s Surface) Most() quantity.Length { return s.Thickest() }

// Plan is not known from a surface.
func (s Surface) Plan(quantity.Length) (wide, deep quantity.Length, known bool) { return 0, 0, false }

// Exact is false: area × wall is high on convex forms.
func (s Surface) Exact() bool { return false }
