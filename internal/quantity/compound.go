package quantity

import "strings"

// unitOf reads a unit in lower case such as "mm", "lbs.", "lb/in³", "kg/m2",
// "h per m²".
func unitOf(name string) (Unit, bool) {
	if u, ok := symbols[name]; ok {
		return u, true
	}
	name = strings.ReplaceAll(name, ".", "")
	name = strings.ReplaceAll(name, " per ", "/")
	over, under, _ := strings.Cut(name, "/")
	out, ok := powerOf(strings.TrimSpace(over))
	for ok && under != "" {
		var u Unit
		over, under, _ = strings.Cut(under, "/")
		u, ok = powerOf(strings.TrimSpace(over))
		out = Unit{out.Symbol + "/" + u.Symbol, out.Size / u.Size, out.dim.times(u.dim, -1)}
	}
	return out, ok && !strings.HasSuffix(name, "/")
}

// powers are the ways to write one, behind the unit or before it, the longer
// spelling first.
var powers = []struct {
	mark   string
	before bool
	power  int
}{
	{"²", false, 2},
	{"^2", false, 2},
	{"2", false, 2},
	{"³", false, 3},
	{"^3", false, 3},
	{"3", false, 3},
	{"square", true, 2},
	{"sq", true, 2},
	{"cubic", true, 3},
	{"cu", true, 3},
}

// powerOf reads one unit with its power: "in³", "m2", "m^2", "sq ft", "cu in".
func powerOf(s string) (Unit, bool) {
	if u, ok := symbols[s]; ok {
		return u, true
	}
	for _, p := range powers {
		base, ok := strings.CutSuffix(s, p.mark)
		if p.before {
			base, ok = strings.CutPrefix(s, p.mark)
		}
		if !ok {
			continue
		}
		u, ok := symbols[strings.TrimSpace(base)]
		if !ok || u.dim != dimLength {
			return Unit{}, false
		}
		if p.power == 2 {
			return Unit{u.Symbol + "²", u.Size * u.Size, dimArea}, true
		}
		return Unit{u.Symbol + "³", u.Size * u.Size * u.Size, dimVolume}, true
	}
	return Unit{}, false
}

// ParseUnit reads a unit by itself as people type it: "kg", "lbs.", "ft²",
// "sq ft", "g/cm3"; false if nobody here knows it.
func ParseUnit(text string) (Unit, bool) {
	if len(text) > longest {
		return Unit{}, false
	}
	return unitOf(even(text))
}
