package estimate

import (
	"strings"

	"meltwright/internal/field"
	"meltwright/internal/quantity"
)

// Working is how a number came about.
type Working struct {
	Item    string // what was worked out: "Stucco, coarse"
	Formula string // in words: "shelled area × coats × stucco for each coat"
	Numbers string // in figures: "6.17 m² × 7 × 1.2 kg/m² = 51.83 kg"
	Parts   []Part // each value of it, in order
}

// Part is one value of a working.
type Part struct {
	Name    string
	Value   string // "6.17 m²"
	Local   string // the same in the quote's units, where they are others: "66.4 ft²"
	Numbers string // its own working in figures, where it was worked out
	Origin  field.Origin
}

// String puts the working in one paragraph, for files.
func (w Working) String() string {
	var b strings.Builder
	b.WriteString(w.Numbers)
	for _, p := range w.Parts {
		b.WriteString("; " + p.Name + " " + p.Value)
		if p.Local != "" {
			b.WriteString(", " + p.Local)
		}
		if p.Numbers != "" {
			b.WriteString(" = " + p.Numbers)
		}
		if o := p.Origin.String(); p.Numbers == "" {
			b.WriteString(" (" + o + ")")
		}
	}
	return b.String()
}

// working turns the node of a result into words, for a reader of sys.
func (n *nodes) working(item string, at int32, result string, sys quantity.System) Working {
	w := Working{Item: item, Formula: n.print(at, 0, false, true), Numbers: n.print(at, 0, true, true)}
	if result != "" {
		w.Numbers += " = " + result
	}
	n.parts(at, &w.Parts, sys, true)
	return w
}

// parts collects the values of a formula, then those that its worked-out values
// came from, down to what was typed, chosen or taken from a table.
func (n *nodes) parts(at int32, out *[]Part, sys quantity.System, top bool) {
	var deeper []int32
	n.leaves(at, top, func(x node) {
		if n.known(*out, x) {
			return
		}
		p := Part{Name: n.nameOf(x), Value: figure(x), Local: local(x, sys)}
		switch x.op {
		case opInput:
			p.Origin = x.in.origin(x.field)
		case opFact:
			p.Origin = n.origins[x.origin]
		case opNamed:
			p.Numbers = n.print(x.a, 0, true, false)
			deeper = append(deeper, x.a)
		}
		*out = append(*out, p)
	})
	for _, d := range deeper {
		n.parts(d, out, sys, false)
	}
}

// leaves calls f with each named value of a formula, from left to right. A named
// result at the top is looked into.
func (n *nodes) leaves(at int32, top bool, f func(node)) {
	switch x := n.list[at]; x.op {
	case opNumber:
	case opNamed:
		if top {
			n.leaves(x.a, false, f)
			return
		}
		f(x)
	case opInput, opFact:
		f(x)
	case opSqrt, opCeil:
		n.leaves(x.a, false, f)
	default:
		n.leaves(x.a, false, f)
		n.leaves(x.b, false, f)
	}
}

// known tells whether the same value is listed already under the same name.
func (n *nodes) known(parts []Part, x node) bool {
	name, value := n.nameOf(x), figure(x)
	for _, p := range parts {
		if p.Name == name && p.Value == value {
			return true
		}
	}
	return false
}

func (n *nodes) nameOf(x node) string {
	if x.op == opInput {
		return lowerFirst(x.field.Label)
	}
	return lowerFirst(x.name)
}

func lowerFirst(s string) string {
	if len(s) > 1 && s[1] >= 'A' && s[1] <= 'Z' {
		return s
	}
	if s == "" || s[0] < 'A' || s[0] > 'Z' {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}

// figure prints the value of a leaf with its unit, in six significant digits:
// enough that a calculator comes to the printed quantity.
func figure(x node) string {
	if x.unit == percentUnit {
		return quantity.Significant(x.v*100, 6) + " %"
	}
	s := quantity.Significant(x.v, 6)
	if x.unit != nil && x.unit.Symbol != "" {
		s += " " + x.unit.Symbol
	}
	return s
}

// inchPound are the inch-pound units for the units that formulas work in.
var inchPound = map[string]quantity.Unit{
	"m": quantity.Foot, "mm": quantity.Inch, "cm": quantity.Inch, "km": quantity.Mile, "m²": quantity.SquareFoot, "m³": quantity.CubicFoot, "L": quantity.CubicInch,
	"kg": quantity.Pound, "g/cm³": quantity.PoundPerCubicIn, "kg/m³": quantity.PoundPerCubicFt, "kg/m²": quantity.PoundPerArea,
	"h/m²": quantity.HourPerFt2, "h/m": quantity.HourPerFoot, "h/kg": quantity.HourPerPound,
}

// local prints the value of a leaf in inch-pound units, for a reader of them.
func local(x node, sys quantity.System) string {
	if sys != quantity.InchPound || x.unit == nil {
		return ""
	}
	if x.unit == degrees {
		return quantity.Significant(x.v*1.8+32, 5) + " °F"
	}
	u, ok := inchPound[x.unit.Symbol]
	if !ok {
		return ""
	}
	return quantity.Significant(x.v*x.unit.Size/u.Size, 5) + " " + u.Symbol
}

// How tightly an operation binds, for brackets.
var binding = [...]int{opAdd: 1, opSub: 1, opMul: 2, opDiv: 2, opPow: 3}

var signs = map[op]string{opAdd: " + ", opSub: " − ", opMul: " × ", opDiv: " ÷ ", opPow: "^"}

// print writes the formula below a node, in figures or in names. A named node is
// its own formula where open, and one value elsewhere.
func (n *nodes) print(at int32, outer int, figures, open bool) string {
	x := n.list[at]
	switch x.op {
	case opNumber:
		return quantity.Significant(x.v, 6)
	case opInput, opFact, opNamed:
		if x.op == opNamed && open {
			return n.print(x.a, outer, figures, false)
		}
		if figures {
			return figure(x)
		}
		return n.nameOf(x)
	case opSqrt:
		return "√(" + n.print(x.a, 0, figures, false) + ")"
	case opCeil:
		return "round up(" + n.print(x.a, 0, figures, false) + ")"
	case opMax:
		return "the larger of (" + n.print(x.a, 0, figures, false) + " and " + n.print(x.b, 0, figures, false) + ")"
	case opMin:
		return "the smaller of (" + n.print(x.a, 0, figures, false) + " and " + n.print(x.b, 0, figures, false) + ")"
	}
	level := binding[x.op]
	right := level
	if x.op == opSub || x.op == opDiv {
		right++
	}
	s := n.print(x.a, level, figures, false) + signs[x.op] + n.print(x.b, right, figures, false)
	if level < outer {
		return "(" + s + ")"
	}
	return s
}
