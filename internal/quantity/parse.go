package quantity

import (
	"math"
	"strings"

	"meltwright/internal/fault"
)

// most is the largest number, in canonical units, that is a quantity: far
// beyond any sculpture, and its cube is still a float64.
const most = 1e12

// Parse reads text as a quantity of kind k and gives it in canonical units. A
// number without a unit is taken in the unit that sys prints the kind in
// (lengths: metres or inches). Units of either system are always understood,
// and so are sums of them, each part smaller than one of the unit before:
// "5'10\"", "5 ft 10 1/2 in", "1 m 80", "2 h 30".
//
// The error is a fault.Fault without a field: the caller knows which it is.
// Range is not checked here: "-3 mm" is a length.
func Parse(k Kind, text string, sys System) (float64, error) {
	if len(text) > longest && len(strings.TrimSpace(text)) > longest {
		return 0, wrong(k, text, "is too long to be "+k.article())
	}
	s := even(text)
	if s == "" {
		return 0, wrong(k, text, "is empty")
	}
	sign, s := cutSign(s)
	if k == KindTemperature {
		return parseTemperature(text, s, sign, sys)
	}
	v, err := sum{k, text, sys}.parse(s)
	switch {
	case err != nil:
		return 0, err
	case v > most:
		return 0, wrong(k, text, "is too large a number")
	case k == KindCount && v != math.Trunc(v):
		return 0, wrong(k, text, "is not a whole number")
	}
	return sign * v, nil
}

// smaller names the unit that a bare number after another unit is taken in:
// "5'10", "2 h 30", "1 m 80", "6 lb 4".
var smaller = map[string]string{"ft": "in", "h": "min", "m": "cm", "lb": "oz", "kg": "g"}

// sum is what the terms of one typed quantity share.
type sum struct {
	kind Kind
	text string // as typed, for faults
	sys  System
}

// parse reads one or several numbers with their units and adds them.
func (q sum) parse(s string) (float64, error) {
	total, last := 0.0, Unit{}
	for first := true; first || s != ""; first = false {
		n, rest, ok := scanNumber(s)
		if !ok {
			return 0, q.wrong("is not " + q.kind.article())
		}
		if math.IsInf(n, 0) || math.IsNaN(n) {
			return 0, q.wrong("divides by zero")
		}
		name, rest := scanUnit(rest)
		u, v, err := q.term(n, name, rest, last)
		if err != nil {
			return 0, err
		}
		if !first && u.Size >= last.Size {
			return 0, q.wrong("has its units in the wrong order")
		}
		if !first && v >= last.Size*(1-1e-12) {
			return 0, q.wrong("has a whole " + last.Symbol + " or more behind the " + last.Symbol)
		}
		total, last, s = total+v, u, rest
		if u.Symbol == Foot.Symbol {
			s = strings.TrimLeft(strings.TrimPrefix(s, "-"), " ") // 5'-10"
		}
	}
	return total, nil
}

// term gives the unit and the canonical value of one number with its unit,
// which follows a term in last and goes before rest.
func (q sum) term(n float64, name, rest string, last Unit) (Unit, float64, error) {
	if name == "" {
		u, err := q.bare(rest, last)
		return u, u.Of(n), err
	}
	u, ok := unitOf(name)
	if !ok {
		return Unit{}, 0, q.wrong("has a unit nobody here knows, “" + name + "”")
	}
	switch want := kindUnits[q.kind].dim; {
	case q.kind == KindFactor || q.kind == KindCount:
	case u.dim == want:
		return u, u.Of(n), nil
	case u.dim == (dim{}).times(want, -1) && n != 0:
		// Suppliers state rubber in cubic inches a pound: density upside down.
		return u, 1 / u.Of(n), nil
	}
	return Unit{}, 0, q.wrong("is not " + q.kind.article())
}

// bare is the unit of a number without one.
func (q sum) bare(rest string, last Unit) (Unit, error) {
	if rest != "" {
		return Unit{}, q.wrong("has two numbers side by side")
	}
	if last.Size == 0 {
		return q.kind.Unit(q.sys), nil
	}
	name, ok := smaller[last.Symbol]
	if !ok {
		return Unit{}, q.wrong("has a number without a unit at its end")
	}
	return symbols[name], nil
}

func (q sum) wrong(problem string) fault.Fault { return wrong(q.kind, q.text, problem) }

func wrong(k Kind, text, problem string) fault.Fault {
	return fault.Fault{Value: shown(text), Problem: problem, Remedy: "give " + k.article() + " such as " + k.example()}
}

var degrees = strings.NewReplacer("°", "", "degrees", "", "degree", "", "deg", "", ".", "")

// parseTemperature reads "220 °F", "1066 C"; a bare number is in sys's degrees.
func parseTemperature(text, s string, sign float64, sys System) (float64, error) {
	n, rest, ok := scanNumber(s)
	if !ok || n > most || math.IsNaN(n) {
		return 0, wrong(KindTemperature, text, "is not a temperature")
	}
	n *= sign
	scale := strings.TrimSpace(degrees.Replace(rest))
	if scale == "" && sys == InchPound {
		scale = "f"
	}
	switch scale {
	case "f", "fahrenheit":
		return (n - 32) / 1.8, nil
	case "c", "celsius", "":
		return n, nil
	case "k", "kelvin":
		return n - 273.15, nil
	}
	return 0, wrong(KindTemperature, text, "is not a temperature")
}
