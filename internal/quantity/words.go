package quantity

// kindWords is how a kind is named and shown in a sentence.
var kindWords = [kinds]struct{ article, example string }{
	KindFactor:        {"a number", "1.15"},
	KindCount:         {"a whole number", "3"},
	KindShare:         {"a percentage", "12.5 %"},
	KindLength:        {"a length", "1.8 m, 72 in or 5'10\""},
	KindArea:          {"an area", "2.6 m² or 28 ft²"},
	KindVolume:        {"a volume", "0.36 m³ or 20 L"},
	KindMass:          {"a weight", "41 kg or 90 lb"},
	KindDensity:       {"a density", "8.36 g/cm³ or 0.302 lb/in³"},
	KindAreaMass:      {"a weight per area", "0.9 kg/m² or 1.5 oz/ft²"},
	KindTime:          {"a time", "2 h 30 or 2.5 h"},
	KindTimePerArea:   {"hours per area", "20 h/m²"},
	KindTimePerLength: {"hours per length", "1.6 h/m"},
	KindTimePerMass:   {"hours per weight", "0.1 h/kg"},
	KindEnergy:        {"an energy", "250 kWh"},
	KindEnergyPerMass: {"an energy per weight", "0.16 kWh/kg"},
	KindTemperature:   {"a temperature", "1950 °F or 1066 °C"},
}

func (k Kind) article() string { return kindWords[k].article }
func (k Kind) example() string { return kindWords[k].example }

// Words says what is typed for a quantity of the kind: "a length, such as 1.8 m,
// 72 in or 5'10\"".
func (k Kind) Words() string { return k.article() + ", such as " + k.example() }
