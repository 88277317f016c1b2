// Package quantity holds the physical quantities of the trade: lengths, areas,
// masses, hours and their ratios; reads them as people type them, metric and
// inch-pound mixed ("5'10\"", "3/16 in", "4,5 mm", "90 lb", "2 h 30"), and
// prints them in the system of the reader's choice.
//
// Every value is a float64 in one canonical unit, named beside its type. Those
// are SI units, but for labour, which the trade counts in hours.
package quantity

// The quantities that formulas work with.
type (
	Length      float64 // metres
	Area        float64 // square metres
	Volume      float64 // cubic metres
	Mass        float64 // kilograms
	Density     float64 // kilograms per cubic metre
	AreaMass    float64 // kilograms per square metre
	Time        float64 // hours
	Energy      float64 // kilowatt-hours
	Temperature float64 // degrees Celsius
)

// Kind says what sort of quantity a number is, so that a field can be read and
// printed without knowing what it is for. The zero Kind is a bare Factor.
type Kind int

// The kinds, each with the canonical unit its float64 is in.
const (
	KindFactor        Kind = iota // a number without unit
	KindCount                     // a whole number of things
	KindShare                     // a fraction; typed and printed in per cent
	KindLength                    // m
	KindArea                      // m²
	KindVolume                    // m³
	KindMass                      // kg
	KindDensity                   // kg/m³
	KindAreaMass                  // kg/m²
	KindTime                      // h
	KindTimePerArea               // h/m²
	KindTimePerLength             // h/m
	KindTimePerMass               // h/kg
	KindEnergy                    // kWh
	KindEnergyPerMass             // kWh/kg
	KindTemperature               // °C
	kinds
)

// System is the set of units a reader prefers to see. What is typed may always
// be in either.
type System int

// The two systems; the zero System is metric.
const (
	Metric System = iota
	InchPound
)

// ParseSystem reads "metric" or "inch-pound"; anything else is metric and false.
func ParseSystem(s string) (System, bool) {
	switch s {
	case "metric", "":
		return Metric, true
	case "inch-pound":
		return InchPound, true
	}
	return Metric, false
}

// String names the system as ParseSystem reads it.
func (s System) String() string {
	if s == InchPound {
		return "inch-pound"
	}
	return "metric"
}
