package estimate

import (
	"meltwright/internal/mesh"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

// sectionWorth is how much weld, in metres, one section more is worth avoiding:
// its gating, dipping, knock-off and fitting take about as long as a metre of
// welding and chasing. Common practice, no source.
const sectionWorth = 1.0

// SectionLimits is what a section of a piece may hold, for a section plan: what
// one heat pours less gates and thickening, what the shell tank takes, and the
// room in tank and kiln.
func SectionLimits(c Commission, s *shop.Shop, piece int) mesh.Limits {
	r := read(c, s)
	r.bare = true
	p := r.pieces[piece]
	r.takeCrucible()
	l := r.sectionLimits(p)
	if d := r.alloyOf(p).Density; d > 0 {
		l.Metal = r.usable.v / (1 + p.in.num(gatingField)) / (1 + p.in.num(thickField)) / (d * 1000)
	}
	return l
}

// sectionLimits are the limits that do not hang on the metal.
func (r *run) sectionLimits(p *piece) mesh.Limits {
	num := r.shop.Num
	return mesh.Limits{Area: p.in.num(tankField), Section: sectionWorth, Boxes: []mesh.Vec{
		{num(shop.TankLong), num(shop.TankWide), num(shop.TankDeep)},
		{num(shop.KilnLong), num(shop.KilnWide), num(shop.KilnHigh)},
	}}
}

// Size is how high and how thick a piece is to be made, as typed.
type Size struct {
	Height quantity.Length // 0 where it is as measured
	Wall   quantity.Length
}

// SizeOf reads the size of a piece, whatever else is wrong with it.
func SizeOf(c Commission, s *shop.Shop, piece int) Size {
	p := read(c, s).pieces[piece]
	z := Size{Wall: quantity.Length(p.in.num(wallField))}
	if p.in.has(heightField) {
		z.Height = quantity.Length(p.in.num(heightField))
	}
	return z
}
