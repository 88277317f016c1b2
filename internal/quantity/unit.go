package quantity

// dim is the dimension of a unit: the powers of length, mass, time (counted in
// hours) and energy. Energy stands by itself: no formula of the trade turns
// kilogram metres into kilowatt-hours.
type dim struct{ length, mass, time, energy int8 }

func (d dim) times(e dim, power int8) dim {
	return dim{d.length + power*e.length, d.mass + power*e.mass, d.time + power*e.time, d.energy + power*e.energy}
}

// Unit is a unit with the symbol it prints as and its size in canonical units.
type Unit struct {
	Symbol string
	Size   float64 // how many canonical units make one of these
	dim    dim
}

// In gives v, in canonical units, counted in u.
func (u Unit) In(v float64) float64 { return v / u.Size }

// Of gives the canonical value of n of these units.
func (u Unit) Of(n float64) float64 { return n * u.Size }

// SameSort tells whether two units measure the same sort of thing.
func (u Unit) SameSort(v Unit) bool { return u.dim == v.dim }

// Exact sizes of the inch-pound units in SI: NIST SP 811 (2008), appendix B,
// and 16 CFR 500.19.
const (
	inch  = 0.0254
	foot  = 12 * inch
	pound = 0.45359237
	ounce = pound / 16
)

var (
	dimNone   = dim{}
	dimLength = dim{length: 1}
	dimArea   = dim{length: 2}
	dimVolume = dim{length: 3}
	dimMass   = dim{mass: 1}
	dimTime   = dim{time: 1}
	dimEnergy = dim{energy: 1}
)

// The units that lines and workings are printed in.
var (
	None            = Unit{"", 1, dimNone}
	Percent         = Unit{"%", 0.01, dimNone}
	Metre           = Unit{"m", 1, dimLength}
	Millimetre      = Unit{"mm", 1e-3, dimLength}
	Centimetre      = Unit{"cm", 1e-2, dimLength}
	Kilometre       = Unit{"km", 1e3, dimLength}
	Inch            = Unit{"in", inch, dimLength}
	Foot            = Unit{"ft", foot, dimLength}
	Mile            = Unit{"mi", 5280 * foot, dimLength}
	SquareMetre     = Unit{"m²", 1, dimArea}
	SquareFoot      = Unit{"ft²", foot * foot, dimArea}
	CubicMetre      = Unit{"m³", 1, dimVolume}
	CubicFoot       = Unit{"ft³", foot * foot * foot, dimVolume}
	Litre           = Unit{"L", 1e-3, dimVolume}
	Kilogram        = Unit{"kg", 1, dimMass}
	Gram            = Unit{"g", 1e-3, dimMass}
	Tonne           = Unit{"t", 1e3, dimMass}
	Pound           = Unit{"lb", pound, dimMass}
	Ounce           = Unit{"oz", ounce, dimMass}
	Hour            = Unit{"h", 1, dimTime}
	KilowattHour    = Unit{"kWh", 1, dimEnergy}
	GramPerCubicCM  = Unit{"g/cm³", 1e3, dim{length: -3, mass: 1}}
	PoundPerCubicIn = Unit{"lb/in³", pound / (inch * inch * inch), dim{length: -3, mass: 1}}
	PoundPerCubicFt = Unit{"lb/ft³", pound / (foot * foot * foot), dim{length: -3, mass: 1}}
	KiloPerArea     = Unit{"kg/m²", 1, dim{length: -2, mass: 1}}
	PoundPerArea    = Unit{"lb/ft²", pound / (foot * foot), dim{length: -2, mass: 1}}
	HourPerArea     = Unit{"h/m²", 1, dim{length: -2, time: 1}}
	HourPerFt2      = Unit{"h/ft²", 1 / (foot * foot), dim{length: -2, time: 1}}
	HourPerMetre    = Unit{"h/m", 1, dim{length: -1, time: 1}}
	HourPerFoot     = Unit{"h/ft", 1 / foot, dim{length: -1, time: 1}}
	HourPerKilo     = Unit{"h/kg", 1, dim{mass: -1, time: 1}}
	HourPerPound    = Unit{"h/lb", 1 / pound, dim{mass: -1, time: 1}}
	KWhPerKilo      = Unit{"kWh/kg", 1, dim{mass: -1, energy: 1}}
	KWhPerPound     = Unit{"kWh/lb", 1 / pound, dim{mass: -1, energy: 1}}

	squareCentimetre = Unit{"cm²", 1e-4, dimArea}
	squareInch       = Unit{"in²", inch * inch, dimArea}
	CubicInch        = Unit{"in³", inch * inch * inch, dimVolume}
)

// symbols are the units as people type them, in lower case. Compound units are
// made of these with "/" and powers.
var symbols = map[string]Unit{}

func init() {
	for _, row := range []struct {
		unit  Unit
		names []string
	}{
		{Percent, []string{"%", "percent", "pc"}},
		{Millimetre, []string{"mm", "millimetre", "millimetres", "millimeter", "millimeters"}},
		{Centimetre, []string{"cm", "centimetre", "centimetres", "centimeter", "centimeters"}},
		{Unit{"dm", 0.1, dimLength}, []string{"dm"}},
		{Metre, []string{"m", "metre", "metres", "meter", "meters"}},
		{Kilometre, []string{"km", "kilometre", "kilometres", "kilometer", "kilometers"}},
		{Inch, []string{"in", "inch", "inches", `"`, "''"}},
		{Foot, []string{"ft", "foot", "feet", "'"}},
		{Unit{"yd", 3 * foot, dimLength}, []string{"yd", "yard", "yards"}},
		{Mile, []string{"mi", "mile", "miles"}},
		{Unit{"thou", inch / 1000, dimLength}, []string{"thou", "mil", "mils"}},
		{Unit{"µm", 1e-6, dimLength}, []string{"µm", "um"}},
		{Litre, []string{"l", "litre", "litres", "liter", "liters"}},
		{Unit{"mL", 1e-6, dimVolume}, []string{"ml", "cc"}},
		{Unit{"gal", 231 * inch * inch * inch, dimVolume}, []string{"gal", "gallon", "gallons"}},
		{Unit{"qt", 57.75 * inch * inch * inch, dimVolume}, []string{"qt", "quart", "quarts"}},
		{SquareFoot, []string{"sf"}},
		{Gram, []string{"g", "gram", "grams", "gr"}},
		{Unit{"mg", 1e-6, dimMass}, []string{"mg"}},
		{Kilogram, []string{"kg", "kilo", "kilos", "kilogram", "kilograms"}},
		{Tonne, []string{"t", "tonne", "tonnes"}},
		{Pound, []string{"lb", "lbs", "pound", "pounds", "#"}},
		{Ounce, []string{"oz", "ounce", "ounces"}},
		{Unit{"ton", 2000 * pound, dimMass}, []string{"ton", "tons"}},
		{Unit{"g/m²", 1e-3, dim{length: -2, mass: 1}}, []string{"gsm"}},
		{Hour, []string{"h", "hr", "hrs", "hour", "hours"}},
		{Unit{"min", 1.0 / 60, dimTime}, []string{"min", "mins", "minute", "minutes"}},
		{Unit{"s", 1.0 / 3600, dimTime}, []string{"s", "sec", "second", "seconds"}},
		{Unit{"d", 24, dimTime}, []string{"d", "day", "days"}},
		{Unit{"wk", 168, dimTime}, []string{"wk", "week", "weeks"}},
		{KilowattHour, []string{"kwh"}},
		{Unit{"MJ", 1 / 3.6, dimEnergy}, []string{"mj"}},
		{Unit{"kJ", 1 / 3600.0, dimEnergy}, []string{"kj"}},
		// The international table Btu, 1055.05585262 J: NIST SP 811.
		{Unit{"Btu", 1055.05585262 / 3.6e6, dimEnergy}, []string{"btu"}},
		{Unit{"therm", 1e5 * 1055.05585262 / 3.6e6, dimEnergy}, []string{"therm", "therms"}},
	} {
		for _, n := range row.names {
			symbols[n] = row.unit
		}
	}
}

// kindUnits gives each kind its dimension and the unit it is printed in, by
// system; a bare number in a field of that kind is read in that unit.
var kindUnits = [kinds]struct {
	dim     dim
	printed [2]Unit
}{
	KindFactor:        {dimNone, [2]Unit{None, None}},
	KindCount:         {dimNone, [2]Unit{None, None}},
	KindShare:         {dimNone, [2]Unit{Percent, Percent}},
	KindLength:        {dimLength, [2]Unit{Metre, Inch}},
	KindArea:          {dimArea, [2]Unit{SquareMetre, SquareFoot}},
	KindVolume:        {dimVolume, [2]Unit{CubicMetre, CubicFoot}},
	KindMass:          {dimMass, [2]Unit{Kilogram, Pound}},
	KindDensity:       {dim{length: -3, mass: 1}, [2]Unit{GramPerCubicCM, PoundPerCubicIn}},
	KindAreaMass:      {dim{length: -2, mass: 1}, [2]Unit{KiloPerArea, PoundPerArea}},
	KindTime:          {dimTime, [2]Unit{Hour, Hour}},
	KindTimePerArea:   {dim{length: -2, time: 1}, [2]Unit{HourPerArea, HourPerFt2}},
	KindTimePerLength: {dim{length: -1, time: 1}, [2]Unit{HourPerMetre, HourPerFoot}},
	KindTimePerMass:   {dim{mass: -1, time: 1}, [2]Unit{HourPerKilo, HourPerPound}},
	KindEnergy:        {dimEnergy, [2]Unit{KilowattHour, KilowattHour}},
	KindEnergyPerMass: {dim{mass: -1, energy: 1}, [2]Unit{KWhPerKilo, KWhPerPound}},
	KindTemperature:   {dimNone, [2]Unit{{"°C", 1, dimNone}, {"°F", 1, dimNone}}},
}

// Unit is the unit that quantities of kind k are printed in.
func (k Kind) Unit(s System) Unit { return kindUnits[k].printed[s] }
