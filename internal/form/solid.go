package form

import (
	"math"

	"meltwright/internal/quantity"
)

// Ends says which ends of a solid are open: an open end has no wall, and its
// rim is not counted as surface.
type Ends int

// The ends of a solid.
const (
	Closed  Ends = iota
	OneOpen      // the end at the foot
	Open
)

// Shape is one geometric solid, its sizes in metres. An open end has neither
// surface nor wall.
type Shape interface {
	area() float64
	volume() float64
	// hollow is the room that a wall t leaves inside, 0 where nothing is left.
	hollow(t float64) float64
	// inner is the surface of that room that is a wall's inside.
	inner(t float64) float64
	// half is the wall from which nothing is hollow.
	half() float64
	// plan is the room on the ground: as wide and as deep, in a form so high.
	plan(high float64) (wide, deep float64)
}

// sheet is a shape with a wall of its own.
type sheet interface{ own() float64 }

// Solid is a shape with the number of times it occurs.
type Solid struct {
	Shape Shape
	Count int
}

// Solids is a form put together from solids that do not share surface.
type Solids []Solid

func (s Solids) sum(f func(Shape) float64) (total float64) {
	for _, x := range s {
		total += float64(x.Count) * f(x.Shape)
	}
	return total
}

// Area is the surface of all solids, open ends left out.
func (s Solids) Area() quantity.Area { return quantity.Area(s.sum(Shape.area)) }

// Volume is what the solids displace.
func (s Solids) Volume() (quantity.Volume, bool) { return quantity.Volume(s.sum(Shape.volume)), true }

// Metal is exact: what the solids displace less the room inside their walls.
func (s Solids) Metal(t quantity.Length) (metal, solid quantity.Volume) {
	for _, x := range s {
		v := float64(x.Count) * x.Shape.volume()
		if float64(t) >= x.Shape.half() {
			metal, solid = metal+quantity.Volume(v), solid+quantity.Volume(v)
			continue
		}
		metal += quantity.Volume(v - float64(x.Count)*x.Shape.hollow(float64(t)))
	}
	return metal, solid
}

// Inside is the surface of the rooms inside the walls.
func (s Solids) Inside(t quantity.Length) (quantity.Area, bool) {
	return quantity.Area(s.sum(func(x Shape) float64 {
		if float64(t) >= x.half() {
			return 0
		}
		return x.inner(float64(t))
	})), true
}

// Thickest is the wall from which not one of the solids would be hollow.
func (s Solids) Thickest() quantity.Length {
	most := 0.0
	for _, x := range s {
		most = math.Max(most, x.Shape.half())
	}
	return quantity.Length(most)
}

// Most is the thickest wall that can be asked for: a plate or a tube may be as
// thick as a wall, and casts solid.
func (s Solids) Most() quantity.Length {
	most := float64(s.Thickest())
	for _, x := range s {
		if thin, ok := x.Shape.(sheet); ok {
			most = math.Max(most, thin.own())
		}
	}
	return quantity.Length(most)
}

// Plan is the room of the largest of the solids either way: how they stand to
// each other nobody has told.
func (s Solids) Plan(height quantity.Length) (wide, deep quantity.Length, known bool) {
	for _, x := range s {
		w, d := x.Shape.plan(float64(height))
		wide, deep = max(wide, quantity.Length(max(w, d))), max(deep, quantity.Length(min(w, d)))
	}
	return wide, deep, len(s) > 0
}

// Exact is true: the hollow volumes are the solids' own.
func (s Solids) Exact() bool { return true }
