package form

import (
	"meltwright/internal/mesh"
	"meltwright/internal/quantity"
)

// Scan is a form measured on a scan: its metal follows the skin itself.
type Scan struct {
	Profile *mesh.Profile
	Box     mesh.Vec // of the form as it stands, in metres
}

// Area is the skin that metal lies under.
func (s Scan) Area() quantity.Area { return quantity.Area(s.Profile.Area) }

// Volume is what the skin encloses.
func (s Scan) Volume() (quantity.Volume, bool) {
	return quantity.Volume(s.Profile.Volume), s.Profile.Volume > 0
}

// Metal is the volume of inside points within t of the skin, and how much of it
// lies where the form is thinner than two walls.
func (s Scan) Metal(t quantity.Length) (metal, solid quantity.Volume) {
	m := quantity.Volume(s.Profile.Metal(1, float64(t)))
	return m, min(m, quantity.Volume(s.Profile.SolidShare(1, float64(t))*s.Profile.Volume))
}

// Inside is the inner face of such a wall.
func (s Scan) Inside(t quantity.Length) (quantity.Area, bool) {
	return quantity.Area(s.Profile.InnerArea(1, float64(t))), true
}

// Thickest is how deep the deepest point lies.
func (s Scan) Thickest() quantity.Length { return quantity.Length(s.Profile.Reach) }

// Most is the wall that fills the form.
func (s Scan) Most() quantity.Length { return s.Thickest() }

// Plan is the box around the form, seen from above.
func (s Scan) Plan(quantity.Length) (wide, deep quantity.Length, known bool) {
	return quantity.Length(max(s.Box[0], s.Box[1])), quantity.Length(min(s.Box[0], s.Box[1])), s.Box[0] > 0
}

// Exact is true: the metal is measured below the skin.
func (s Scan) Exact() bool { return true }
