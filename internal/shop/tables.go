package shop

import (
	"meltwright/internal/field"
	"meltwright/internal/quantity"
)

// The tables of the book, by key.
const (
	AlloyTable    = "alloys"
	CrucibleTable = "crucibles"
	RubberTable   = "rubbers"
	StoneTable    = "stones"
	AnimalTable   = "animals"
	CraneTable    = "cranes"
	TaxTable      = "taxes"
)

const (
	cda    = "CDA alloy tables, from memory"
	canada = "Canada.ca, GST/HST and provincial rate tables"
	// gstDate names, besides, the notice that says from when.
	gstDate = canada + "; date: CRA, Notice 226"
)

// priced is where a row's price comes from: its source is that of its density.
var priced = text("priced", "Price from", true)

func init() {
	tables = []Table{
		alloyTable(), crucibleTable(), rubberTable(), stoneTable(), animalTable(), craneTable(), taxTable(), packTable(),
	}
}

func alloyTable() Table {
	return Table{
		AlloyTable, "Alloys", "What is poured. Density and shrinkage decide the weight; the price is of ingot.",
		[]Column{
			text("name", "Alloy", false),
			column("density", "Density", quantity.KindDensity, field.Bounds{Min: 1000, Max: 25000}),
			column("solidus", "Solidus", quantity.KindTemperature, field.Bounds{Min: 0, Max: 2000}),
			column("liquidus", "Liquidus", quantity.KindTemperature, field.Bounds{Min: 0, Max: 2000}),
			column("shrinkage", "Alloy's own shrinkage", quantity.KindShare, field.Bounds{Max: 0.1}),
			price("price", "Ingot", quantity.Kilogram),
			text("caution", "Caution", true),
			text("source", "Source", true),
			priced,
		},
		[][]string{
			{"C87300 silicon bronze 95-1-4", "0.302 lb/in³", "1510 °F", "1780 °F", "1/4 in/ft", "17.80 / kg", "", "density and range: CDA-format data sheet, 2006; shrinkage from memory", ""},
			{"C87200 silicon bronze", "0.302 lb/in³", "1580 °F", "1780 °F", "1/4 in/ft", "17.20 / kg", "", "Conex data sheet; the composition is wide, values nominal", ""},
			{"C87600 low-zinc silicon brass", "0.300 lb/in³", "1580 °F", "1780 °F", "1/4 in/ft", "15.90 / kg", "", cda, ""},
			{"C83600 leaded red brass 85-5-5-5", "0.318 lb/in³", "1570 °F", "1850 °F", "11/64 in/ft", "14.60 / kg", "holds 4–6 % lead", "density: published data sheet; the rest " + cda, ""},
			{"C90300 tin bronze", "0.318 lb/in³", "1570 °F", "1832 °F", "3/16 in/ft", "21.40 / kg", "", "published data sheet; shrinkage from memory", ""},
			{"C90500 gunmetal 88-10-0-2", "0.315 lb/in³", "1570 °F", "1830 °F", "3/16 in/ft", "22.10 / kg", "", "published data sheet; 1.6 % shrinkage: makeitfrom.com", ""},
			{"C92200 Navy M", "0.312 lb/in³", "1518 °F", "1810 °F", "3/16 in/ft", "20.70 / kg", "holds 1–2 % lead", "density: published data sheet; the rest " + cda, ""},
		},
	}
}

func crucibleTable() Table {
	return Table{
		CrucibleTable, "Crucibles", "A bilge number is pounds of aluminium, and bronze is three times that (MIFCO: no. 16 holds 48 lb). A-shapes differ: type what yours holds.",
		[]Column{
			text("name", "Crucible", false),
			column("holds", "Holds, in bronze", quantity.KindMass, field.AboveZero),
			text("source", "Source", true),
		},
		[][]string{
			{"Bilge no. 16", "48 lb", "MIFCO crucible table"},
			{"Bilge no. 20", "60 lb", "by the same rule"},
			{"Bilge no. 30", "90 lb", "by the same rule; shops say 90–100 lb"},
			{"Bilge no. 60", "180 lb", "by the same rule"},
			{"Bilge no. 90", "270 lb", "by the same rule"},
		},
	}
}

func rubberTable() Table {
	return Table{
		RubberTable, "Mould rubbers", "Brushed on in two to four coats.",
		[]Column{
			text("name", "Rubber", false),
			column("density", "Density", quantity.KindDensity, field.Bounds{Min: 500, Max: 3000}),
			price("price", "Price", quantity.Kilogram),
			text("caution", "Caution", true),
			text("source", "Source", true),
			priced,
		},
		[][]string{
			{"Urethane, brush-on", "23.7 in³/lb", "24.50 / kg", "the hardener holds isocyanates", "Smooth-On, brush-on data sheet: 23.7 in³/lb", ""},
			{"Silicone, tin-cured", "1.2 g/cm³", "33 / kg", "", "suppliers' sheets: 1.2–1.28 g/cm³", ""},
			{"Silicone, platinum-cured", "1.24 g/cm³", "46 / kg", "", "suppliers' sheets: 1.2–1.28 g/cm³", ""},
		},
	}
}

func stoneTable() Table {
	return Table{
		StoneTable, "Stones and bases", "What the bronze stands on. Prices are of sawn block, before it is worked.",
		[]Column{
			text("name", "Stone", false),
			column("density", "Density", quantity.KindDensity, field.Bounds{Min: 100, Max: 12000}),
			price("price", "Price", quantity.Kilogram),
			text("source", "Source", true),
			priced,
		},
		[][]string{
			{"Granite", "2691 kg/m³", "2.60 / kg", "published density table", ""},
			{"Basalt", "3011 kg/m³", "2.90 / kg", "published density table", ""},
			{"Marble", "2700 kg/m³", "3.40 / kg", "published density tables: 2600–2800", ""},
			{"Limestone", "2400 kg/m³", "1.60 / kg", "published density tables: 2100–2760", ""},
			{"Concrete, cast", "2400 kg/m³", "0.85 / kg", "handbook tables", ""},
			{"Mild steel", "7850 kg/m³", "4.80 / kg", "handbook tables", ""},
			{"Stainless steel", "8000 kg/m³", "11 / kg", "handbook tables, from memory", ""},
			{"Hardwood", "750 kg/m³", "9.50 / kg", "from memory", ""},
		},
	}
}

func animalTable() Table {
	return Table{
		AnimalTable, "Animals", "Meeh's rule: area = k × mass^⅔, in square metres and kilograms.",
		[]Column{
			text("name", "Animal", false),
			column("k", "k", quantity.KindFactor, field.AboveZero),
			text("source", "Source", true),
		},
		[][]string{
			{"Dog", "0.101", "Meeh's rule, from memory, low confidence"},
			{"Cat", "0.100", "Meeh's rule, from memory, low confidence"},
			{"Horse", "0.10", "Meeh's rule, from memory, low confidence"},
			{"Other animal", "0.10", "Meeh's rule, from memory, low confidence"},
		},
	}
}

func craneTable() Table {
	return Table{
		CraneTable, "Cranes", "By the load at the reach, from the smallest up. A licensed rigger chooses; this is for the budget.",
		[]Column{
			text("name", "Crane", false),
			column("moment", "Load × reach (t·m, as a number)", quantity.KindFactor, field.AboveZero),
			price("day", "A day, with operator", quantity.None),
			text("source", "Source", true),
		},
		[][]string{
			{"Truck with loader crane", "8", "1150", field.NoSource},
			{"City crane", "40", "2300", field.NoSource},
			{"Mobile crane", "200", "4800", field.NoSource},
			{"Heavy mobile crane", "1000", "11500", field.NoSource},
		},
	}
}

func taxTable() Table {
	return Table{
		TaxTable, "Taxes", "One row a tax; a place with two taxes has two rows. Both are taken on the price before tax. Check the rate before you print it.",
		[]Column{
			text("place", "Place", false),
			text("name", "Tax", false),
			column("rate", "Rate", quantity.KindShare, field.Bounds{Max: 1}),
			text("dated", "In force from", true),
			text("source", "Source", true),
		},
		[][]string{
			{"Alberta", "GST", "5 %", "2008-01-01", gstDate},
			{"British Columbia", "GST", "5 %", "2008-01-01", gstDate},
			{"British Columbia", "PST", "7 %", "2013-04-01", canada + "; date: CRA, GI-088"},
			{"New Brunswick", "HST", "15 %", "2016-07-01", canada + "; date from memory"},
			{"Newfoundland and Labrador", "HST", "15 %", "2016-07-01", canada + "; date from memory"},
			{"Nova Scotia", "HST", "14 %", "2025-04-01", canada},
			{"Ontario", "HST", "13 %", "2010-07-01", canada},
			{"Prince Edward Island", "HST", "15 %", "2016-10-01", canada + "; date from memory"},
			{"Québec", "GST", "5 %", "2008-01-01", gstDate},
			{"Québec", "QST", "9.975 %", "2013-01-01", "Revenu Québec, changes to the QST system in 2013"},
			{"United Kingdom", "VAT", "20 %", "2011-01-04", "from memory"},
		},
	}
}
