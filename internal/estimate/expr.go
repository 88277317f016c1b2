package estimate

import (
	"math"

	"meltwright/internal/field"
	"meltwright/internal/quantity"
)

// expr is a number with the way it was worked out. Numbers are in the unit they
// are printed in, so that the working is what a calculator would be given: m²
// × mm gives litres, litres × g/cm³ gives kilograms.
type expr struct {
	v  float64
	at int32 // its node
}

type op uint8

const (
	opNumber op = iota // a plain number of the formula
	opInput            // a field's value
	opNamed            // an intermediate result with a name, worked out by node a
	opFact             // a named value from elsewhere: an alloy's density
	opAdd
	opSub
	opMul
	opDiv
	opPow
	opSqrt
	opCeil
	opMax
	opMin
)

// node is one step of a working. Nodes of an estimate lie in one slice and
// refer to each other by number; they are turned into words only when somebody
// looks.
type node struct {
	op     op
	a, b   int32
	origin int32 // of a fact: its number in nodes.origins
	v      float64
	unit   *quantity.Unit
	name   string
	field  *Field
	in     *inputs
}

// nodes collects the nodes of one estimate. Bare nodes keep none: trials need
// the numbers only.
type nodes struct {
	list    []node
	origins []field.Origin
	bare    bool
}

func (n *nodes) put(x node) expr {
	if n.bare {
		return expr{x.v, 0}
	}
	n.list = append(n.list, x)
	return expr{x.v, int32(len(n.list) - 1)}
}

func (n *nodes) two(o op, a, b expr, v float64) expr {
	if n.bare {
		return expr{v: v}
	}
	return n.put(node{op: o, a: a.at, b: b.at, v: v})
}

// number is a plain number in a formula: the 2 of 2√A.
func (n *nodes) number(v float64) expr { return n.put(node{op: opNumber, v: v}) }

// input is the value of a field, in the unit it is shown in.
func (n *nodes) input(in *inputs, f *Field, u *quantity.Unit) expr {
	return n.put(node{op: opInput, v: u.In(in.num(f)), unit: u, field: f, in: in})
}

// fact is a named value from a table, with its origin.
func (n *nodes) fact(name string, v float64, u *quantity.Unit, o field.Origin) expr {
	if n.bare {
		return expr{v: v}
	}
	n.origins = append(n.origins, o)
	return n.put(node{op: opFact, v: v, unit: u, name: name, origin: int32(len(n.origins) - 1)})
}

// words puts a name together, where somebody will read it.
func (n *nodes) words(a, b string) string {
	if n.bare {
		return ""
	}
	return a + b
}

// named gives a result a name, so that further workings show it as one number.
func (n *nodes) named(name string, x expr, u *quantity.Unit) expr {
	return n.put(node{op: opNamed, a: x.at, v: x.v, unit: u, name: name})
}

func (n *nodes) add(a expr, more ...expr) expr {
	for _, b := range more {
		a = n.two(opAdd, a, b, a.v+b.v)
	}
	return a
}

func (n *nodes) mul(a expr, more ...expr) expr {
	for _, b := range more {
		a = n.two(opMul, a, b, a.v*b.v)
	}
	return a
}

func (n *nodes) sub(a, b expr) expr { return n.two(opSub, a, b, a.v-b.v) }
func (n *nodes) div(a, b expr) expr { return n.two(opDiv, a, b, a.v/b.v) }
func (n *nodes) pow(a, b expr) expr { return n.two(opPow, a, b, math.Pow(a.v, b.v)) }
func (n *nodes) max(a, b expr) expr { return n.two(opMax, a, b, math.Max(a.v, b.v)) }
func (n *nodes) min(a, b expr) expr { return n.two(opMin, a, b, math.Min(a.v, b.v)) }
func (n *nodes) sqrt(a expr) expr   { return n.two(opSqrt, a, a, math.Sqrt(a.v)) }

// ceil rounds up to a whole number. A hair above one, left by binary fractions,
// is not another heat.
func (n *nodes) ceil(a expr) expr { return n.two(opCeil, a, a, math.Ceil(a.v-1e-9)) }

// plus1 is 1 + x, for a waste or loss that comes on top.
func (n *nodes) plus1(x expr) expr { return n.add(n.number(1), x) }

// less1 is 1 − x, for a share that is taken away.
func (n *nodes) less1(x expr) expr { return n.sub(n.number(1), x) }

// share is a percentage as the number a formula wants: inputs shown in per cent
// are fractions inside.
func (n *nodes) share(in *inputs, f *Field) expr {
	return n.put(node{op: opInput, v: in.num(f), unit: percentUnit, field: f, in: in})
}

// The units that formulas are written in.
var (
	none, percentUnit  = &quantity.None, &quantity.Percent
	metre, millimetre  = &quantity.Metre, &quantity.Millimetre
	centimetre         = &quantity.Centimetre
	kilometre          = &quantity.Kilometre
	squareMetre        = &quantity.SquareMetre
	cubicMetre, litre  = &quantity.CubicMetre, &quantity.Litre
	kilogram           = &quantity.Kilogram
	hour, kilowattHour = &quantity.Hour, &quantity.KilowattHour
	gramPerCubicCM     = &quantity.GramPerCubicCM
	kiloPerCubicMetre  = &quantity.Unit{Symbol: "kg/m³", Size: 1}
	kiloPerArea        = &quantity.KiloPerArea
	hourPerArea        = &quantity.HourPerArea
	hourPerMetre       = &quantity.HourPerMetre
	hourPerKilo        = &quantity.HourPerKilo
	degrees            = &quantity.Unit{Symbol: "°C", Size: 1}
	kilojoulePerKilo   = &quantity.Unit{Symbol: "kJ/kg", Size: 1}
)
