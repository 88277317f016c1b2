package quantity

import (
	"math"
	"strings"

	"meltwright/internal/fault"
)

// Parse reads text as a quantity of kind k and gives it in canonical units. A
// number without a unit is taken in the unit that sys prints the kind in
// (lengths: metres or inches). Units of either system are always understood,
// and so are sums of them: "5'10\"", "5 ft 10 1/2 in", "1 m 80", "2 h 30".
//
// The error is a fault.Fault without a field: the caller knows which it is.
// Range is not checked here: "-3 mm" is a length.
func Parse(k Kind, text string, sys System) (float64, error) {
	s := strings.ToLower(strings.TrimSpace(text))
	if s == "" {
		return 0, wrong(k, text, "is empty")
	}
	sign := 1.0
	if rest, ok := cutSign(s); ok {
		sign, s = -1, rest
	}
	if k == KindTemperature {
		return parseTemperature(text, s, sign, sys)
	}
	v, err := parseSum(k, text, s, sys)
	if err != nil {
		return 0, err
	}
	v *= sign
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return 0, wrong(k, text, "is too large a number")
	}
	if k == KindCount && v != math.Trunc(v) {
		return 0, wrong(k, text, "is not a whole number")
	}
	return v, nil
}

func cutSign(s string) (string, bool) {
	for _, minus := range []string{"-", "−", "–"} {
		if rest, ok := strings.CutPrefix(s, minus); ok {
			return strings.TrimSpace(rest), true
		}
	}
	return strings.TrimPrefix(s, "+"), false
}

// smaller names the unit that a bare number after another unit is taken in:
// "5'10", "2 h 30", "1 m 80", "6 lb 4".
var smaller = map[string]string{"ft": "in", "h": "min", "m": "cm", "lb": "oz", "kg": "g"}

// parseSum reads one or several numbers with their units, each smaller than the
// one before, and adds them.
func parseSum(k Kind, text, s string, sys System) (float64, error) {
	total, last := 0.0, Unit{}
	for first := true; s != ""; first = false {
		n, rest, ok := scanNumber(s)
		if !ok {
			return 0, wrong(k, text, "is not "+k.article())
		}
		name, rest := scanUnit(rest)
		u, v, err := termValue(k, text, n, name, last, sys, first)
		if err != nil {
			return 0, err
		}
		if !first && u.Size >= last.Size {
			return 0, wrong(k, text, "has its units in the wrong order")
		}
		total, last, s = total+v, u, strings.TrimSpace(rest)
	}
	return total, nil
}

// termValue gives the unit and the canonical value of one number with its unit.
func termValue(k Kind, text string, n float64, name string, last Unit, sys System, first bool) (Unit, float64, error) {
	if name == "" {
		u := k.Unit(sys)
		if !first {
			s, ok := smaller[last.Symbol]
			if !ok {
				return Unit{}, 0, wrong(k, text, "has a number without a unit at its end")
			}
			u = symbols[s]
		}
		return u, u.Of(n), nil
	}
	u, ok := unitOf(name)
	if !ok {
		return Unit{}, 0, wrong(k, text, "has a unit nobody here knows, “"+name+"”")
	}
	switch want := kindUnits[k].dim; {
	case u.dim == want && (k != KindCount && k != KindFactor || u.Symbol == ""):
		return u, u.Of(n), nil
	case want == dimNone && k == KindShare && u.dim == dimNone:
		return u, u.Of(n), nil
	case want != dimNone && u.dim == (dim{}).times(want, -1) && n != 0:
		// Suppliers state rubber in cubic inches a pound: density upside down.
		return u, 1 / u.Of(n), nil
	}
	return Unit{}, 0, wrong(k, text, "is not "+k.article())
}

// ParseUnit reads the name of a unit, simple or compound: "kg", "lb", "h/m²".
func ParseUnit(name string) (Unit, bool) { return unitOf(strings.ToLower(strings.TrimSpace(name))) }

// unitOf reads a unit such as "mm", "lb/in³", "kg/m2", "h per m²".
func unitOf(name string) (Unit, bool) {
	out := Unit{Symbol: name, Size: 1}
	for i, part := range strings.Split(strings.ReplaceAll(name, " per ", "/"), "/") {
		u, ok := powerOf(strings.TrimSpace(part))
		if !ok {
			return Unit{}, false
		}
		if i == 0 {
			out.Symbol, out.Size, out.dim = u.Symbol, u.Size, u.dim
			continue
		}
		out.Symbol += "/" + u.Symbol
		out.Size /= u.Size
		out.dim = out.dim.times(u.dim, -1)
	}
	return out, true
}

// powerOf reads one unit with its power: "in³", "m2", "m^2", "sq ft", "cu in".
func powerOf(s string) (Unit, bool) {
	if u, ok := symbols[s]; ok {
		return u, true
	}
	power := int8(1)
	for _, p := range []struct {
		mark  string
		power int8
	}{{"²", 2}, {"^2", 2}, {"2", 2}, {"³", 3}, {"^3", 3}, {"3", 3}} {
		if rest, ok := strings.CutSuffix(s, p.mark); ok {
			s, power = rest, p.power
			break
		}
	}
	for _, p := range []struct {
		mark  string
		power int8
	}{{"sq. ", 2}, {"sq ", 2}, {"square ", 2}, {"cu. ", 3}, {"cu ", 3}, {"cubic ", 3}} {
		if rest, ok := strings.CutPrefix(s, p.mark); ok {
			s, power = rest, p.power
			break
		}
	}
	u, ok := symbols[strings.TrimSpace(s)]
	if !ok || power > 1 && u.dim != dimLength {
		return Unit{}, false
	}
	switch power {
	case 2:
		return Unit{u.Symbol + "²", u.Size * u.Size, dimArea}, true
	case 3:
		return Unit{u.Symbol + "³", u.Size * u.Size * u.Size, dimVolume}, true
	}
	return u, true
}

// parseTemperature reads "220 °F", "1066 C"; a bare number is in sys's degrees.
func parseTemperature(text, s string, sign float64, sys System) (float64, error) {
	n, rest, ok := scanNumber(s)
	if !ok {
		return 0, wrong(KindTemperature, text, "is not a temperature")
	}
	n *= sign
	switch strings.TrimSpace(strings.NewReplacer("°", "", "deg", "", "º", "").Replace(rest)) {
	case "f":
		return (n - 32) / 1.8, nil
	case "c":
		return n, nil
	case "k":
		return n - 273.15, nil
	case "":
		if sys == InchPound {
			return (n - 32) / 1.8, nil
		}
		return n, nil
	}
	return 0, wrong(KindTemperature, text, "is not a temperature")
}

func wrong(k Kind, text, problem string) fault.Fault {
	return fault.Fault{Value: strings.TrimSpace(text), Problem: problem, Remedy: "give " + k.article() + " such as " + k.example()}
}
