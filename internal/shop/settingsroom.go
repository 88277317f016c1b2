package shop

import (
	"meltwright/internal/field"
	"meltwright/internal/quantity"
)

// Room for a section: what a casting may measure, lying or standing, to go into
// the slurry tank and into the burn-out kiln with its shell and gates.
var (
	TankLong = room("form.tank_long", "Room in the slurry tank, length", "0.9 m")
	TankWide = room("form.tank_wide", "Room in the slurry tank, width", "0.9 m")
	TankDeep = room("form.tank_deep", "Room in the slurry tank, height", "1.2 m")
	KilnLong = room("form.kiln_long", "Room in the burn-out kiln, length", "1.2 m")
	KilnWide = room("form.kiln_wide", "Room in the burn-out kiln, width", "1.2 m")
	KilnHigh = room("form.kiln_high", "Room in the burn-out kiln, height", "1.2 m")
)

// room defines one inside measure that a section has to fit.
func room(key, label, start string) Key {
	return number("Room for a section", key, label, quantity.KindLength, start, field.AboveZero, "")
}
