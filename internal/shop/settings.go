package shop

import (
	"meltwright/internal/field"
	"meltwright/internal/quantity"
)

// Sources that more than one starting value has.
const (
	soderberg = "A. Soderberg, practitioners' measurements: usually 2.8–4.2 %, up to 5 %"
	memory    = "from memory, to be looked up"
)

// Labour: what an hour costs the shop, wages and their on-costs.
var (
	LabourSculptor = rate("Labour", "labour.sculptor", "Sculptor", quantity.Hour, "72 / h")
	LabourMould    = rate("Labour", "labour.mould", "Mould maker", quantity.Hour, "54 / h")
	LabourWax      = rate("Labour", "labour.wax", "Wax worker", quantity.Hour, "52 / h")
	LabourShell    = rate("Labour", "labour.shell", "Shell room", quantity.Hour, "48 / h")
	LabourPour     = rate("Labour", "labour.pour", "Pour crew", quantity.Hour, "58 / h")
	LabourMetal    = rate("Labour", "labour.metal", "Welder and chaser", quantity.Hour, "60 / h")
	LabourPatina   = rate("Labour", "labour.patina", "Patineur", quantity.Hour, "64 / h")
	LabourBase     = rate("Labour", "labour.base", "Base and frame", quantity.Hour, "58 / h")
	LabourInstall  = rate("Labour", "labour.install", "Installation crew", quantity.Hour, "62 / h")
)

// Form and metal.
var (
	Shrinkage     = number("Form and metal", "form.shrinkage", "Shrinkage, original to bronze", quantity.KindShare, "3.5 %", field.Bounds{Max: 0.2}, soderberg)
	Wall          = thin("Form and metal", "form.wall", "Wall thickness", "3/16 in", field.AboveZero, "")
	Thickening    = number("Form and metal", "form.thickening", "As-cast thickening", quantity.KindShare, "5 %", field.Bounds{Max: 1}, "")
	BodyDensity   = number("Form and metal", "form.body_density", "Density of a living body", quantity.KindDensity, "1.0 g/cm³", field.AboveZero, memory)
	DressLight    = number("Form and metal", "form.dress_light", "Dress factor, light clothes", quantity.KindFactor, "1.15", field.AboveZero, "")
	DressCoat     = number("Form and metal", "form.dress_coat", "Dress factor, coat and boots", quantity.KindFactor, "1.35", field.AboveZero, "")
	DressRobes    = number("Form and metal", "form.dress_robes", "Dress factor, robes", quantity.KindFactor, "1.6", field.AboveZero, "")
	MaxSection    = number("Form and metal", "form.max_section", "Largest section of the tank", quantity.KindArea, "0.35 m²", field.AboveZero, "")
	RepeatFactor  = number("Form and metal", "form.repeat", "Hours when a run doubles", quantity.KindShare, "100 %", field.Bounds{Min: 0.5, Max: 1}, "")
	LearningCurve = words("Form and metal", "form.curve", "Curve of repeats", "unit (Crawford)", "unit (Crawford)", "cumulative average (Wright)")
)

// Original.
var (
	OriginalHours = number("Original", "original.hours", "Sculpting in clay", quantity.KindTimePerArea, "150 h/m²", field.ZeroUp, "")
	Armature      = rate("Original", "original.armature", "Armature, clay and supports", quantity.SquareMetre, "320 / m²")
	PrintedRate   = rate("Original", "original.printed", "Printed original, bought in", quantity.SquareMetre, "1450 / m²")
	MilledRate    = rate("Original", "original.milled", "Milled foam original, bought in", quantity.SquareMetre, "980 / m²")
	OutputHours   = number("Original", "original.output_hours", "Finishing a print or milling", quantity.KindTimePerArea, "20 h/m²", field.ZeroUp, "")
)

// Mould.
var (
	MouldHours    = number("Mould", "mould.hours", "Mould making", quantity.KindTimePerArea, "25 h/m²", field.ZeroUp, "")
	RubberThick   = thin("Mould", "mould.rubber_thickness", "Rubber thickness", "3/8 in", field.AboveZero, "Smooth-On, brush-on mould rubber, printed guide")
	RubberWaste   = number("Mould", "mould.rubber_waste", "Rubber waste", quantity.KindShare, "8 %", field.AnyShare, "suppliers' guides: 5–10 %")
	Undercuts     = number("Mould", "mould.undercuts", "Undercuts", quantity.KindFactor, "1.15", field.Bounds{Min: 1, Max: 3}, "")
	FlangeWidth   = thin("Mould", "mould.flange_width", "Width of the base flange", "3 in", field.ZeroUp, "Smooth-On, brush-on mould rubber, printed guide")
	FlangeLength  = number("Mould", "mould.flange_length", "Length of the base flange, for each unit of height", quantity.KindFactor, "0.8", field.ZeroUp, "")
	GlassLayers   = number("Mould", "mould.glass_layers", "Glass mat layers", quantity.KindCount, "3", field.AtLeast1, "mother mould guides: 2–3 layers")
	FlangeLayers  = number("Mould", "mould.flange_layers", "Mat layers at the flanges", quantity.KindCount, "5", field.AtLeast1, "mother mould guides: 5 layers")
	FlangeShare   = number("Mould", "mould.flange_share", "Flanges, of the area", quantity.KindShare, "25 %", field.AnyShare, "")
	MatWeight     = number("Mould", "mould.mat_weight", "Weight of the mat", quantity.KindAreaMass, "450 g/m²", field.AboveZero, "chopped-strand mat, 1½ oz/ft² as sold")
	ResinRatio    = number("Mould", "mould.resin_ratio", "Resin to glass by weight", quantity.KindFactor, "2.5", field.AboveZero, "East Coast Fibreglass, resin calculator page")
	CatalystShare = number("Mould", "mould.catalyst", "Catalyst, of the resin", quantity.KindShare, "1.5 %", field.AnyShare, "suppliers' guides: 1–2 %")
	ResinWaste    = number("Mould", "mould.resin_waste", "Resin and glass waste", quantity.KindShare, "10 %", field.AnyShare, "")
	GlassPrice    = rate("Mould", "mould.glass_price", "Glass mat", quantity.Kilogram, "6.90 / kg")
	ResinPrice    = rate("Mould", "mould.resin_price", "Polyester resin", quantity.Kilogram, "7.40 / kg")
	CatalystPrice = rate("Mould", "mould.catalyst_price", "Catalyst", quantity.Kilogram, "24 / kg")
	MouldSundries = rate("Mould", "mould.sundries", "Release, shims, bolts, brushes", quantity.SquareMetre, "45 / m²")
)

// Wax.
var (
	WaxPourHours  = number("Wax", "wax.pour_hours", "Brushing and slushing the wax", quantity.KindTimePerArea, "8 h/m²", field.ZeroUp, "")
	WaxChaseHours = number("Wax", "wax.chase_hours", "Pulling and chasing the wax", quantity.KindTimePerArea, "15 h/m²", field.ZeroUp, "")
	WaxDensity    = number("Wax", "wax.density", "Density of the wax", quantity.KindDensity, "0.94 g/cm³", field.AboveZero, "suppliers' sheets: 0.93–0.95 g/cm³, in part from memory")
	WaxLoss       = number("Wax", "wax.loss", "Wax lost after reclaim", quantity.KindShare, "12 %", field.AnyShare, "")
	WaxPrice      = rate("Wax", "wax.price", "Casting wax", quantity.Kilogram, "11.50 / kg")
)

// Gating.
var (
	GatingShare   = number("Gating", "gating.share", "Gates and vents, of the casting", quantity.KindShare, "40 %", field.Bounds{Max: 3}, "")
	GatingSection = number("Gating", "gating.section_hours", "Gating a section", quantity.KindTime, "2 h", field.ZeroUp, "")
	GatingHours   = number("Gating", "gating.hours", "Gating by area", quantity.KindTimePerArea, "3 h/m²", field.ZeroUp, "")
	CupPrice      = rate("Gating", "gating.cup_price", "Cup, vents and pins for a section", quantity.None, "6.50")
)

// Shell.
var (
	GateArea      = number("Shell", "shell.gate_area", "Cup and gates, of the outside", quantity.KindShare, "20 %", field.AnyShare, "")
	InsideShare   = number("Shell", "shell.inside", "Inside surface, of the outside", quantity.KindShare, "95 %", field.Bounds{Max: 2}, "")
	FineCoats     = number("Shell", "shell.fine", "Fine coats", quantity.KindCount, "2", field.ZeroUp, "")
	MediumCoats   = number("Shell", "shell.medium", "Medium coats", quantity.KindCount, "2", field.ZeroUp, "")
	CoarseSmall   = number("Shell", "shell.coarse_small", "Coarse coats, small pieces", quantity.KindCount, "3", field.ZeroUp, "7–14 coats in all are published; the steps are common practice")
	CoarseMiddle  = number("Shell", "shell.coarse_middle", "Coarse coats, middling pieces", quantity.KindCount, "5", field.ZeroUp, "7–14 coats in all are published; the steps are common practice")
	CoarseLarge   = number("Shell", "shell.coarse_large", "Coarse coats, large pieces", quantity.KindCount, "7", field.ZeroUp, "7–14 coats in all are published; the steps are common practice")
	SmallPiece    = number("Shell", "shell.small_piece", "A small piece weighs up to", quantity.KindMass, "10 kg", field.ZeroUp, "")
	LargePiece    = number("Shell", "shell.large_piece", "A large piece weighs from", quantity.KindMass, "60 kg", field.ZeroUp, "")
	SealCoats     = number("Shell", "shell.seal", "Seal coats (slurry alone)", quantity.KindCount, "1", field.ZeroUp, "")
	SlurryCoat    = number("Shell", "shell.slurry", "Slurry for each coat", quantity.KindAreaMass, "0.9 kg/m²", field.ZeroUp, "nothing published: weigh one shell")
	StuccoCoat    = number("Shell", "shell.stucco", "Stucco for each coat", quantity.KindAreaMass, "1.2 kg/m²", field.ZeroUp, "nothing published: weigh one shell")
	DrainLoss     = number("Shell", "shell.drain_loss", "Slurry lost in draining", quantity.KindShare, "15 %", field.AnyShare, "")
	StuccoLoss    = number("Shell", "shell.stucco_loss", "Stucco lost", quantity.KindShare, "5 %", field.AnyShare, "")
	FlourRatio    = number("Shell", "shell.flour_ratio", "Flour to binder by weight", quantity.KindFactor, "1.6", field.AboveZero, "from memory: 1.4–1.8 to 1")
	DipHours      = number("Shell", "shell.dip_hours", "Dipping a coat, by area", quantity.KindTimePerArea, "0.15 h/m²", field.ZeroUp, "")
	DipSection    = number("Shell", "shell.dip_section", "Dipping a coat, each section", quantity.KindTime, "0.08 h", field.ZeroUp, "")
	CoatThickness = thin("Shell", "shell.coat_thickness", "Thickness of a coat", "1.1 mm", field.AboveZero, "0.9–1.4 mm, from published shells of 3/8–1/2 in")
	ShellDensity  = number("Shell", "shell.density", "Density of the fired shell", quantity.KindDensity, "1.65 g/cm³", field.AboveZero, memory)
	CoatsADay     = number("Shell", "shell.coats_a_day", "Coats a working day", quantity.KindFactor, "1.5", field.AboveZero, "")
	BinderPrice   = rate("Shell", "shell.binder_price", "Colloidal silica binder", quantity.Kilogram, "4.60 / kg")
	FlourPrice    = rate("Shell", "shell.flour_price", "Fused silica flour", quantity.Kilogram, "2.90 / kg")
	FinePrice     = rate("Shell", "shell.fine_price", "Stucco, fine", quantity.Kilogram, "3.10 / kg")
	MediumPrice   = rate("Shell", "shell.medium_price", "Stucco, medium", quantity.Kilogram, "2.35 / kg")
	CoarsePrice   = rate("Shell", "shell.coarse_price", "Stucco, coarse", quantity.Kilogram, "2.20 / kg")
)

// Pour.
var (
	Yield         = number("Pour", "pour.yield", "Good castings", quantity.KindShare, "95 %", field.Bounds{Min: 0.1, Max: 1}, "")
	UsableFill    = number("Pour", "pour.fill", "Usable fill of the crucible", quantity.KindShare, "90 %", field.YieldOf1, "")
	MeltLoss      = number("Pour", "pour.loss", "Melt and dross loss", quantity.KindShare, "2 %", field.PartOf1, "")
	WeeklyPour    = number("Pour", "pour.weekly", "Metal a pour day", quantity.KindMass, "450 lb", field.AboveZero, "common practice: one day a week, 400–500 lb")
	PourPeople    = number("Pour", "pour.people", "People at the pour", quantity.KindCount, "3", field.AtLeast1, "")
	PourDayHours  = number("Pour", "pour.day_hours", "Hours each, a pour day", quantity.KindTime, "4 h", field.ZeroUp, "")
	PourHeatHours = number("Pour", "pour.heat_hours", "Hours each, a heat", quantity.KindTime, "0.5 h", field.ZeroUp, "")
	BurnoutLoad   = number("Pour", "pour.burnout_load", "Shells in a burn-out load", quantity.KindCount, "4", field.AtLeast1, "")
	BurnoutHours  = number("Pour", "pour.burnout_hours", "Tending a burn-out load", quantity.KindTime, "1.5 h", field.ZeroUp, "")
	BurnoutFuel   = number("Pour", "pour.burnout_fuel", "Fuel for a burn-out load", quantity.KindEnergy, "260 kWh", field.ZeroUp, "")
	PourTemp      = number("Pour", "pour.temperature", "Pouring temperature", quantity.KindTemperature, "1950 °F", field.Bounds{Min: 500, Max: 1600}, "")
	AirTemp       = number("Pour", "pour.air", "Temperature of the ingot", quantity.KindTemperature, "20 °C", field.Bounds{Min: -60, Max: 400}, "")
	HeatCapacity  = number("Pour", "pour.heat_capacity", "Heat capacity (kJ/kg K)", quantity.KindFactor, "0.37", field.AboveZero, "C90500 at constant heat capacity, from memory")
	LatentHeat    = number("Pour", "pour.latent_heat", "Heat of melting (kJ/kg)", quantity.KindFactor, "190", field.ZeroUp, "C90500, from memory")
	FurnaceShare  = number("Pour", "pour.efficiency", "Efficiency of the furnace", quantity.KindShare, "13 %", field.YieldOf1, "gas crucible furnaces 7–19 %, US DOE, from memory")
	FuelPrice     = rate("Pour", "pour.fuel_price", "Gas", quantity.KilowattHour, "0.055 / kWh")
	HeatSundries  = rate("Pour", "pour.sundries", "Flux, deoxidiser, crucible wear", quantity.None, "18")
)

// Metalwork.
var (
	KnockSection = number("Metalwork", "metal.knock_section", "Knock-off, each section", quantity.KindTime, "0.6 h", field.ZeroUp, "")
	KnockHours   = number("Metalwork", "metal.knock_hours", "Knock-off, by area", quantity.KindTimePerArea, "1.5 h/m²", field.ZeroUp, "")
	FitHours     = number("Metalwork", "metal.fit", "Fitting, each section", quantity.KindTime, "1.5 h", field.ZeroUp, "")
	WeldHours    = number("Metalwork", "metal.weld", "Welding", quantity.KindTimePerLength, "1.6 h/m", field.ZeroUp, "")
	ChaseHours   = number("Metalwork", "metal.chase", "Chasing, by area", quantity.KindTimePerArea, "20 h/m²", field.ZeroUp, "")
	ChaseWeld    = number("Metalwork", "metal.chase_weld", "Chasing, along the weld", quantity.KindTimePerLength, "3 h/m", field.ZeroUp, "")
	RodFactor    = number("Metalwork", "metal.rod_factor", "Rod, over the seam's own metal", quantity.KindFactor, "1.2", field.AboveZero, "")
	RodPrice     = rate("Metalwork", "metal.rod_price", "Silicon bronze rod", quantity.Kilogram, "42 / kg")
	GasPrice     = rate("Metalwork", "metal.gas_price", "Argon and tungsten", quantity.Metre, "7.50 / m")
	Abrasives    = rate("Metalwork", "metal.abrasives", "Discs, burrs and blast media", quantity.SquareMetre, "48 / m²")
)

// Patina.
var (
	PatinaFixed = number("Patina", "patina.fixed", "Setting up a patina", quantity.KindTime, "4 h", field.ZeroUp, "")
	PatinaHours = number("Patina", "patina.hours", "Patina by torch, and wax", quantity.KindTimePerArea, "6 h/m²", field.ZeroUp, "")
	ColourExtra = number("Patina", "patina.colour_extra", "Each further colour adds", quantity.KindShare, "30 %", field.AnyShare, "")
	PatinaPrice = rate("Patina", "patina.chemicals", "Patina chemicals, a colour", quantity.SquareMetre, "28 / m²")
	PatinaWax   = rate("Patina", "patina.wax", "Finishing wax", quantity.SquareMetre, "9 / m²")
)

// Base.
var (
	FrameShare   = number("Base", "base.frame_share", "Inner frame, of the bronze's weight", quantity.KindShare, "12 %", field.AnyShare, "")
	FrameFrom    = number("Base", "base.frame_from", "Pieces from this height have a frame", quantity.KindLength, "1.2 m", field.ZeroUp, "")
	FramePrice   = rate("Base", "base.frame_price", "Stainless steel for frames", quantity.Kilogram, "11 / kg")
	FrameHours   = number("Base", "base.frame_hours", "Making and fitting the frame", quantity.KindTimePerMass, "0.6 h/kg", field.ZeroUp, "")
	AnchorPrice  = rate("Base", "base.anchor_price", "Anchor, stainless, with resin", quantity.None, "38")
	AnchorHours  = number("Base", "base.anchor_hours", "Drilling and setting an anchor", quantity.KindTime, "1 h", field.ZeroUp, "")
	MountHours   = number("Base", "base.mount_hours", "Mounting on the plinth", quantity.KindTime, "4 h", field.ZeroUp, "")
	StoneWorking = rate("Base", "base.working", "Working the stone", quantity.SquareMetre, "310 / m²")
	PadMargin    = number("Base", "base.pad_margin", "Footing wider by, each side", quantity.KindLength, "8 in", field.ZeroUp, "published pad guides for monuments; always an engineer's call")
	PadDepth     = number("Base", "base.pad_depth", "Depth of the footing", quantity.KindLength, "1.2 m", field.ZeroUp, "below frost; the local code decides")
	ConcreteDens = number("Base", "base.concrete_density", "Density of concrete", quantity.KindDensity, "2.4 g/cm³", field.AboveZero, "handbook tables: 2400 kg/m³")
	Concrete     = rate("Base", "base.concrete", "Footing, dug, formed and poured", quantity.CubicMetre, "950 / m³")
	Engineer     = rate("Base", "base.engineer", "Engineer's design and stamp", quantity.None, "2400")
	EngineerFrom = number("Base", "base.engineer_from", "Pieces from this height go to an engineer", quantity.KindLength, "1.5 m", field.ZeroUp, "")
)

// WindSpeed is for the caution that goes to the engineer.
var WindSpeed = number("Base", "base.wind", "Wind that the caution speaks of (m/s)", quantity.KindFactor, "40", field.AboveZero, "the local code decides")

// Delivery and install.
var (
	BoxWidth     = number("Delivery and install", "delivery.box", "Width of a piece, of its height", quantity.KindFactor, "0.45", field.AboveZero, "")
	CrateMargin  = number("Delivery and install", "delivery.margin", "Crate larger, on every side", quantity.KindLength, "12 cm", field.ZeroUp, "suppliers' guides: 10–15 cm")
	CrateTare    = number("Delivery and install", "delivery.tare", "Crate, of what it holds", quantity.KindShare, "15 %", field.AnyShare, "suppliers' guides: 10–20 %")
	CratePrice   = rate("Delivery and install", "delivery.crate_price", "Crate, by its surface", quantity.SquareMetre, "62 / m²")
	VolumeWeight = number("Delivery and install", "delivery.volume_weight", "Weight by volume (÷ 5000)", quantity.KindDensity, "0.2 g/cm³", field.AboveZero, "carriers' tables: 5000 cm³/kg, 139 in³/lb; IATA 6000, 166")
	FreightPrice = rate("Delivery and install", "delivery.freight_price", "Freight by chargeable weight", quantity.Kilogram, "1.10 / kg")
	FreightKm    = rate("Delivery and install", "delivery.freight_km", "Freight by distance", quantity.Kilometre, "2.40 / km")
	HandsLimit   = number("Delivery and install", "delivery.hands", "One person lifts up to", quantity.KindMass, "23 kg", field.AboveZero, "NIOSH lifting equation's load constant, from memory")
	HoistLimit   = number("Delivery and install", "delivery.hoist", "Hoist or truck arm up to", quantity.KindMass, "150 kg", field.AboveZero, "")
	HoistPrice   = rate("Delivery and install", "delivery.hoist_price", "Hoist, a day", quantity.None, "380")
	CrewPeople   = number("Delivery and install", "delivery.crew", "Installation crew", quantity.KindCount, "3", field.AtLeast1, "")
	DayHours     = number("Delivery and install", "delivery.day_hours", "Hours of a day on site", quantity.KindTime, "8 h", field.AboveZero, "")
	TravelKm     = rate("Delivery and install", "delivery.travel_km", "Crew's travel", quantity.Kilometre, "0.72 / km")
	NightPrice   = rate("Delivery and install", "delivery.night", "Lodging and meals, a person a night", quantity.None, "210")
)

// Price.
var (
	Overhead      = number("Price", "price.overhead", "Overhead", quantity.KindShare, "22 %", field.AnyShare, "")
	OverheadBase  = words("Price", "price.overhead_base", "Overhead is taken on", "direct cost", "direct cost", "labour")
	Contingency   = number("Price", "price.contingency", "Contingency", quantity.KindShare, "8 %", field.AnyShare, "public calls: 5–15 %")
	ProfitWay     = words("Price", "price.profit_way", "Profit is a", "margin", "margin", "markup")
	Profit        = number("Price", "price.profit", "Margin or markup", quantity.KindShare, "15 %", field.AnyShare, "")
	InsurancePart = number("Price", "price.insurance", "Insurance, of the price", quantity.KindShare, "1.5 %", field.PartOf1, "")
	RoundStep     = number("Price", "price.step", "Round the price to", quantity.KindFactor, "10", field.ZeroUp, "")
	RoundWay      = words("Price", "price.round", "Round", "to the nearest", "to the nearest", "up")
	Payments      = words("Price", "price.payments", "Payments", "Agreement signed 30; Original approved 30; Bronze cast 30; Installed and accepted 10")
	ValidDays     = number("Price", "price.valid_days", "Quote stands for (days)", quantity.KindCount, "60", field.AtLeast1, "")
)

// PaperLanguage is what the papers that the work is done by are written in. A
// proposal has a language of its own.
var PaperLanguage = define("Price", Def{
	Def:   field.Def{Key: "papers.language", Label: "Order list and traveller in", Sort: field.Choice, Choices: []string{"English", "français", "español"}},
	Start: "English", Source: "as the shop speaks",
})

// Ranges: how far below and above the estimate each input may come to lie, by
// how well it is known. One shop's hours move together.
var (
	AreaTypedLow     = number("Ranges", "range.area_typed_low", "A typed surface may be less by", quantity.KindShare, "8 %", field.PartOf1, "")
	AreaTypedHigh    = number("Ranges", "range.area_typed_high", "A typed surface may be more by", quantity.KindShare, "12 %", field.AnyShare, "")
	AreaFormulaLow   = number("Ranges", "range.area_formula_low", "A surface by formula may be less by", quantity.KindShare, "15 %", field.PartOf1, "")
	AreaFormulaHigh  = number("Ranges", "range.area_formula_high", "A surface by formula may be more by", quantity.KindShare, "25 %", field.AnyShare, "")
	AreaScanLow      = number("Ranges", "range.area_scan_low", "A scanned surface may be less by", quantity.KindShare, "2 %", field.PartOf1, "")
	AreaScanHigh     = number("Ranges", "range.area_scan_high", "A scanned surface may be more by", quantity.KindShare, "3 %", field.AnyShare, "")
	WallLow          = number("Ranges", "range.wall_low", "The wall as cast may be less by", quantity.KindShare, "5 %", field.PartOf1, "")
	WallHigh         = number("Ranges", "range.wall_high", "The wall as cast may be more by", quantity.KindShare, "20 %", field.AnyShare, "")
	HoursLow         = number("Ranges", "range.hours_low", "Hours may be less by", quantity.KindShare, "15 %", field.PartOf1, "")
	HoursHigh        = number("Ranges", "range.hours_high", "Hours may be more by", quantity.KindShare, "40 %", field.AnyShare, "")
	HoursCorrelation = number("Ranges", "range.hours_together", "Hours of one shop move together by", quantity.KindShare, "60 %", field.Bounds{Max: 1}, "")
	MaterialLow      = number("Ranges", "range.material_low", "Prices of materials may be less by", quantity.KindShare, "5 %", field.PartOf1, "")
	MaterialHigh     = number("Ranges", "range.material_high", "Prices of materials may be more by", quantity.KindShare, "15 %", field.AnyShare, "")
	MetalLow         = number("Ranges", "range.metal_low", "The price of ingot may be less by", quantity.KindShare, "10 %", field.PartOf1, "")
	MetalHigh        = number("Ranges", "range.metal_high", "The price of ingot may be more by", quantity.KindShare, "25 %", field.AnyShare, "")
	FreightLow       = number("Ranges", "range.freight_low", "Freight may be less by", quantity.KindShare, "10 %", field.PartOf1, "")
	FreightHigh      = number("Ranges", "range.freight_high", "Freight may be more by", quantity.KindShare, "30 %", field.AnyShare, "")
	SiteLow          = number("Ranges", "range.site_low", "Site and lifting may be less by", quantity.KindShare, "10 %", field.PartOf1, "")
	SiteHigh         = number("Ranges", "range.site_high", "Site and lifting may be more by", quantity.KindShare, "60 %", field.AnyShare, "")
)
