package estimate

import (
	"meltwright/internal/field"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

var mouldStage = &Stage{
	ID: "mould", Name: "Mould", Does: "Brushed rubber, then a rigid mother mould in bolted panels", Foundry: true, Once: true,
	lines:    mouldLines,
	byOthers: func(p *piece) bool { return p.starts(startMould, startWax) },
	cautions: func(*run) []Caution {
		return []Caution{{Level: Warning, Stage: "mould", Text: "Urethane hardeners hold isocyanates (ceiling 0.02 ppm, from memory); polyester resin gives off styrene, and its catalyst is an organic peroxide. Fresh air, gloves, the right respirator; never mix peroxide with accelerator.", Source: "OSHA Table Z-1, from memory"}}
	},
}

var (
	rubberField = choice("mould", "rubber", "Rubber", "Urethane, brush-on").picks(func(s *shop.Shop) (names []string) {
		for _, x := range s.Rubbers {
			names = append(names, x.Name)
		}
		return names
	})
	undercutField     = fromBook("mould", "undercuts", Choices, shop.Undercuts)
	rubberThickField  = fromBook("mould", "rubber_thickness", Choices, shop.RubberThick)
	glassLayersField  = fromBook("mould", "glass_layers", Choices, shop.GlassLayers)
	rubberWasteField  = fromBook("mould", "rubber_waste", Hours, shop.RubberWaste)
	flangeWidthField  = fromBook("mould", "flange_width", Hours, shop.FlangeWidth)
	flangeLengthField = asked("mould", "flange_length", "Length of the base flange", quantity.KindLength, field.ZeroUp, "", "from the height, by the shop book")
	flangeLayersField = fromBook("mould", "flange_layers", Hours, shop.FlangeLayers)
	flangeShareField  = fromBook("mould", "flange_share", Hours, shop.FlangeShare)
	matField          = fromBook("mould", "mat_weight", Hours, shop.MatWeight)
	resinRatioField   = fromBook("mould", "resin_ratio", Hours, shop.ResinRatio)
	catalystField     = fromBook("mould", "catalyst", Hours, shop.CatalystShare)
	resinWasteField   = fromBook("mould", "resin_waste", Hours, shop.ResinWaste)
	mouldHoursField   = fromBook("mould", "hours", Hours, shop.MouldHours)
	mouldRate         = fromBookWhole("mould", "labour", Rates, shop.LabourMould)
	glassRate         = fromBookWhole("mould", "glass_price", Rates, shop.GlassPrice)
	resinRate         = fromBookWhole("mould", "resin_price", Rates, shop.ResinPrice)
	catalystRate      = fromBookWhole("mould", "catalyst_price", Rates, shop.CatalystPrice)
	mouldSundriesRate = fromBookWhole("mould", "sundries", Rates, shop.MouldSundries)
)

func mouldLines(r *run, st *Stage, p *piece) {
	r.labour(st, p, "Mould making", r.mul(p.originalArea, r.input(&p.in, mouldHoursField, hourPerArea)), mouldRate)
	r.rubberLine(st, p)
	r.motherMould(st, p)
	r.material(st, p, "Release, shims, bolts, brushes", p.originalArea, squareMetre, mouldSundriesRate)
}

// rubberLine is area × thickness × density × (1 + waste), undercuts and the base
// flange included.
func (r *run) rubberLine(st *Stage, p *piece) {
	for _, x := range r.shop.Rubbers {
		if x.Name != p.in.word(rubberField) {
			continue
		}
		skin := r.mul(p.originalArea, r.input(&p.in, undercutField, none))
		area := r.named("rubber surface", r.add(skin, r.flange(p)), squareMetre)
		density := r.fact("density of the rubber", float64(x.Density)/1000, gramPerCubicCM, field.Origin{From: field.ShopBook, Source: x.Source})
		kg := r.mul(area, r.input(&p.in, rubberThickField, millimetre), density, r.plus1(r.share(&p.in, rubberWasteField)))
		r.write(st, item{piece: p, name: r.words("Rubber, ", lowerFirst(x.Name)), q: kg, unit: kilogram, rate: x.Price, from: field.Origin{From: field.ShopBook, Source: x.Priced}})
	}
}

func (r *run) flange(p *piece) expr {
	length := r.input(&p.in, flangeLengthField, metre)
	if !p.in.has(flangeLengthField) {
		o := r.shop.Origin(shop.FlangeLength)
		length = r.mul(p.originalHeight, r.fact("flange for each unit of height", r.shop.Num(shop.FlangeLength), none, o))
	}
	return r.mul(length, r.input(&p.in, flangeWidthField, metre))
}

// motherMould is glass mat in layers over the area, and in more layers over the
// flanges between panels; resin by the weight of the glass; catalyst by that of
// the resin.
func (r *run) motherMould(st *Stage, p *piece) {
	layers := r.add(r.input(&p.in, glassLayersField, none), r.mul(r.share(&p.in, flangeShareField), r.input(&p.in, flangeLayersField, none)))
	waste := r.plus1(r.share(&p.in, resinWasteField))
	glass := r.named("glass mat", r.mul(p.originalArea, layers, r.input(&p.in, matField, kiloPerArea), waste), kilogram)
	resin := r.named("resin", r.mul(glass, r.input(&p.in, resinRatioField, none)), kilogram)
	r.material(st, p, "Glass mat", glass, kilogram, glassRate)
	r.material(st, p, "Resin", resin, kilogram, resinRate)
	r.material(st, p, "Catalyst", r.mul(resin, r.share(&p.in, catalystField)), kilogram, catalystRate)
}
