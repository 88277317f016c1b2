package estimate

import (
	"math"
	"strconv"

	"meltwright/internal/fault"
	"meltwright/internal/field"
	"meltwright/internal/form"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

// The ways a form is known.
const (
	wayArea    = "typed area"
	wayFigure  = "human figure"
	wayAnimal  = "animal"
	waySolids  = "solids"
	wayCovered = "covered maquette"
)

// Where the work starts: what whoever commissions it brings.
const (
	startClay  = "nothing: we make the original"
	startOrig  = "their original"
	startMould = "their mould"
	startWax   = "their wax"
	startFile  = "their digital file"
)

var formStage = &Stage{ID: "form", Name: "Form", Does: "How big it is, how thick, in what metal", byOthers: never}

func isWay(way string) func(*inputs) bool {
	return func(in *inputs) bool { return in.word(wayField) == way }
}

var (
	wayField         = choice("form", "known_by", "Known by", wayFigure, wayArea, wayAnimal, waySolids, wayCovered, wayScan)
	bodyHeightField  = asked("form", "body_height", "Height of the body", quantity.KindLength, field.AboveZero, "1.75 m", "").when(isWay(wayFigure))
	bodyMassField    = asked("form", "body_mass", "Mass of the body", quantity.KindMass, field.AboveZero, "75 kg", "").when(isWay(wayFigure))
	formulaField     = choice("form", "formula", "Formula", form.Formulas[0].Name, form.Formulas[1].Name, form.Formulas[2].Name, form.Formulas[3].Name).when(isWay(wayFigure))
	dressField       = choice("form", "dress", "Dress", "nude", "light clothes", "coat and boots", "robes").when(isWay(wayFigure))
	dressFactorField = asked("form", "dress_factor", "Dress factor", quantity.KindFactor, field.AboveZero, "", "from the dress").when(isWay(wayFigure))
	areaField        = asked("form", "area", "Surface, as measured", quantity.KindArea, field.Bounds{Max: 1e6, Over: true}, "1 m²", "").when(isWay(wayArea))
	animalField      = choice("form", "animal", "Animal", "Dog").picks(func(s *shop.Shop) (names []string) {
		for _, a := range s.Animals {
			names = append(names, a.Name)
		}
		return names
	}).when(isWay(wayAnimal))
	animalMassField = asked("form", "animal_mass", "Mass of the animal", quantity.KindMass, field.AboveZero, "30 kg", "").when(isWay(wayAnimal))
	animalKField    = asked("form", "animal_k", "k of Meeh's rule", quantity.KindFactor, field.AboveZero, "", "of the animal, by the shop book").when(isWay(wayAnimal))
	coverMassField  = asked("form", "cover_mass", "Foil or tape used", quantity.KindMass, field.AboveZero, "100 g", "").when(isWay(wayCovered))
	coverAreaField  = asked("form", "cover_per_area", "Weight of the foil or tape", quantity.KindAreaMass, field.AboveZero, "100 g/m²", "").when(isWay(wayCovered))
	measuredField   = asked("form", "measured_height", "Height it was measured at", quantity.KindLength, field.AboveZero, "1 m", "").when(func(in *inputs) bool { w := in.word(wayField); return w != wayFigure && w != wayScan })
	heightField     = asked("form", "height", "Height to make", quantity.KindLength, field.AboveZero, "", "as measured")
	heightIsField   = choice("form", "height_is", "That height is", "the finished bronze's", "the clay original's")
	volumeField     = asked("form", "volume", "Displaced volume, as measured", quantity.KindVolume, field.AboveZero, "", "not known").when(func(in *inputs) bool {
		w := in.word(wayField)
		return w == wayArea || w == wayCovered
	})
	wallField  = fromBook("form", "wall", Choices, shop.Wall)
	alloyField = choice("form", "alloy", "Alloy", "C87300 silicon bronze 95-1-4").picks(func(s *shop.Shop) (names []string) {
		for _, a := range s.Alloys {
			names = append(names, a.Name)
		}
		return names
	})
	castsField      = asked("form", "casts", "Casts", quantity.KindCount, field.Bounds{Min: 1, Max: 10000}, "1", "")
	startField      = choice("form", "start", "They bring", startClay, startOrig, startMould, startWax, startFile)
	difficultyField = asked("form", "difficulty", "Difficulty of the work", quantity.KindFactor, field.Bounds{Min: 0.3, Max: 4}, "1", "").hint("plain 0.8, ordinary 1, intricate 1.6")
	sectionsField   = asked("form", "sections", "Sections", quantity.KindCount, field.Bounds{Min: 1, Max: 2000}, "", "by crucible and shell tank")
	alongField      = choice("form", "in_options", "At another scale it", "scales along", "stays as it is")
	weldField       = asked("form", "weld", "Weld length", quantity.KindLength, field.ZeroUp, "", "of equal square patches")
	widthField      = asked("form", "width", "Width, as measured", quantity.KindLength, field.AboveZero, "", "by the form, or a share of the height").hint("the room it takes on the ground and in its crate")
	depthField      = asked("form", "depth", "Depth, as measured", quantity.KindLength, field.AboveZero, "", "by the form, or a share of the height")
	shrinkField     = fromBook("form", "shrinkage", Hours, shop.Shrinkage)
	thickField      = fromBook("form", "thickening", Hours, shop.Thickening)
	lugsField       = asked("form", "lugs", "Lugs and flanges", quantity.KindMass, field.ZeroUp, "0 kg", "")
	tankField       = fromBook("form", "max_section", Hours, shop.MaxSection)
	repeatField     = fromBook("form", "repeat", Hours, shop.RepeatFactor)
	curveField      = fromBook("form", "curve", Hours, shop.LearningCurve)
)

// takeForm works out how big the piece is: its heights, its areas, and the body
// that gives the metal of a wall.
func (r *run) takeForm(p *piece) {
	body, ref, area := r.body(p)
	area = r.variedArea(p, area)
	p.reference = ref
	target := r.targetHeight(p, ref)
	shrink := r.share(&p.in, shrinkField)
	p.finishedHeight, p.originalHeight = target, target
	if p.in.word(heightIsField) == heightIsField.Choices[0] {
		p.originalHeight = r.named("height of the original", r.div(target, r.less1(shrink)), metre)
	} else {
		p.finishedHeight = r.named("height of the bronze", r.mul(target, r.less1(shrink)), metre)
	}
	p.scale = r.named("scale", r.div(p.finishedHeight, ref), none)
	p.area = r.named("surface of the bronze", r.scaled(area, p.scale), squareMetre)
	p.originalArea = r.named("surface of the original", r.div(p.area, r.mul(r.less1(shrink), r.less1(shrink))), squareMetre)
	if p.in.word(heightIsField) != heightIsField.Choices[0] {
		grown := r.named("scale of the original", r.div(p.originalHeight, ref), none)
		p.originalArea = r.named("surface of the original", r.scaled(area, grown), squareMetre)
	}
	p.body = form.Sized{Body: body, Scale: p.scale.v}
	r.takePlan(p, ref)
	r.checkSize(p)
}

// scaled is an area at another scale: × s².
func (r *run) scaled(area, s expr) expr {
	if s.v == 1 {
		return area
	}
	return r.mul(area, s, s)
}

// targetHeight is the height to make: as typed, else as measured.
func (r *run) targetHeight(p *piece, ref expr) expr {
	if p.in.has(heightField) {
		return r.input(&p.in, heightField, metre)
	}
	return r.named("height to make, as measured", ref, metre)
}

// checkSize refuses pieces that no formula is meant for.
func (r *run) checkSize(p *piece) {
	if p.in.word(wayField) == waySolids && len(p.solids) == 0 {
		return // has been told of already
	}
	if a := p.area.v; !(a > 0) || math.IsInf(a, 0) || a > 1e5 {
		r.fault(p, heightField, "leaves a surface of "+quantity.Significant(a, 3)+" m²", "check the heights: made and measured")
	}
	if v, a := p.in.num(volumeField), float64(p.body.Body.Area()); p.in.has(volumeField) && volumeField.applies(&p.in) && 36*math.Pi*v*v > a*a*a*(1+1e-9) {
		r.fault(p, volumeField, "is more than "+quantity.Print(quantity.KindArea, a, r.system)+" of surface can hold: a ball holds the most, "+quantity.Print(quantity.KindVolume, math.Sqrt(a*a*a/(36*math.Pi)), r.system), "check the volume and the surface, both at the size they were measured at")
	}
	wall := quantity.Length(p.in.num(wallField))
	if most := p.body.Most(); wall > most*(1+1e-9) && p.area.v > 0 {
		show := func(l quantity.Length) string { return quantity.Print(quantity.KindLength, float64(l), r.system) }
		if p.in.has(heightField) && !p.in.has(wallField) {
			r.fault(p, heightField, "is too little for a wall of "+show(wall)+": at that size one of "+show(most)+" fills the form", "give a larger height or a thinner wall")
			return
		}
		r.fault(p, wallField, "is thicker than the form, which a wall of "+show(most)+" fills", "give a thinner wall or a larger height")
	}
}

// takePlan works out how much room the piece takes on the ground: as measured, as
// the form tells, or as a share of its height.
func (r *run) takePlan(p *piece, ref expr) {
	wide, deep, known := p.body.Body.Plan(quantity.Length(ref.v))
	p.wide = r.across(p, widthField, "width", float64(wide), known)
	p.deep = r.across(p, depthField, "depth", float64(deep), known)
}

func (r *run) across(p *piece, f *Field, name string, v float64, known bool) expr {
	switch {
	case p.in.has(f):
		return r.named(r.words(name, " of the piece"), r.mul(r.input(&p.in, f, metre), p.scale), metre)
	case known:
		o := field.Origin{From: field.Proposed, Source: "the largest of the solids"}
		if p.scanned() {
			o = field.Origin{From: field.Scanned, Source: p.scan.File}
		}
		return r.named(r.words(name, " of the piece"), r.mul(r.fact(r.words(name, " of the form"), v, metre, o), p.scale), metre)
	}
	return r.named(r.words(name, " of the piece"), r.mul(p.finishedHeight, r.input(&p.in, boxField, none)), metre)
}

// mostSolids is how many rows of solids a working tells one by one.
const mostSolids = 12

// solidsArea adds up the surfaces of the solids, row by row.
func (r *run) solidsArea(p *piece) expr {
	rows := r.commission.Pieces[p.index].Solids
	if r.bare || len(rows) != len(p.solids) || len(rows) > mostSolids {
		return r.fact("surface of the solids", float64(p.solids.Area()), squareMetre, field.Origin{From: field.Proposed, Source: "the list of solids, exact"})
	}
	var sum expr
	for i, s := range p.solids {
		one := form.Solids{{Shape: s.Shape, Count: 1}}
		a := r.fact("surface of a "+form.Describe(rows[i]), float64(one.Area()), squareMetre, field.Origin{From: field.Proposed, Source: "exact, from the sizes typed in row " + strconv.Itoa(i+1) + " of the solids"})
		if s.Count > 1 {
			a = r.mul(r.number(float64(s.Count)), a)
		}
		sum = r.also(sum, a)
	}
	return r.named("surface of the solids", sum, squareMetre)
}

// body gives the form as measured, the height that goes with it, and its area.
func (r *run) body(p *piece) (form.Body, expr, expr) {
	switch p.in.word(wayField) {
	case wayFigure:
		return r.figure(p)
	case wayScan:
		return r.scanForm(p)
	case wayAnimal:
		return r.animal(p)
	case waySolids:
		return p.solids, r.input(&p.in, measuredField, metre), r.solidsArea(p)
	case wayCovered:
		a := r.named("surface, as covered", r.div(r.input(&p.in, coverMassField, kilogram), r.input(&p.in, coverAreaField, kiloPerArea)), squareMetre)
		return form.Surface{Outside: quantity.Area(a.v), Room: quantity.Volume(p.in.num(volumeField))}, r.input(&p.in, measuredField, metre), a
	}
	a := r.input(&p.in, areaField, squareMetre)
	return form.Surface{Outside: quantity.Area(a.v), Room: quantity.Volume(p.in.num(volumeField))}, r.input(&p.in, measuredField, metre), a
}

// figure is a human figure: the formula's nude surface times the dress factor.
// The body displaces its mass over its density.
func (r *run) figure(p *piece) (form.Body, expr, expr) {
	f, _ := form.FormulaNamed(p.in.word(formulaField))
	h, w := quantity.Length(p.in.num(bodyHeightField)), quantity.Mass(p.in.num(bodyMassField))
	nude := r.nude(p, f)
	dress := r.dressFactor(p)
	p.dress = dress.v
	a := r.named("surface of the figure as dressed", r.mul(nude, dress), squareMetre)
	room := float64(w) / r.shop.Num(shop.BodyDensity)
	if !r.bare {
		for _, g := range form.Formulas {
			p.crossChecks = append(p.crossChecks, CrossCheck{g.Name, g.Source, g.Area(h, w), g.Name == f.Name})
		}
		p.parts = form.Nines
	}
	return form.Surface{Outside: quantity.Area(a.v), Room: quantity.Volume(room * math.Max(1, dress.v))}, r.input(&p.in, bodyHeightField, metre), a
}

// nude is the surface of a nude body by a formula.
func (r *run) nude(p *piece, f form.Formula) expr {
	tall, heavy := r.input(&p.in, bodyHeightField, centimetre), r.input(&p.in, bodyMassField, kilogram)
	factor := r.fact(r.words(f.Name, "'s factor"), f.Factor, none, field.Origin{From: field.Published, Source: f.Source})
	return r.named("nude surface", r.mul(factor, r.pow(tall, r.number(f.Height)), r.pow(heavy, r.number(f.Mass))), squareMetre)
}

func (r *run) dressFactor(p *piece) expr {
	if p.in.has(dressFactorField) {
		return r.input(&p.in, dressFactorField, none)
	}
	factor, origin := 1.0, field.Origin{From: field.Published, Source: "the formula is for a nude body"}
	for i, k := range []shop.Key{shop.Unset, shop.DressLight, shop.DressCoat, shop.DressRobes} {
		if i > 0 && p.in.word(dressField) == dressField.Choices[i] {
			factor, origin = r.shop.Num(k), r.shop.Origin(k)
		}
	}
	return r.fact(r.words("dress factor, ", p.in.word(dressField)), factor, none, origin)
}

// animal is Meeh's rule. The animal displaces its mass over its density.
func (r *run) animal(p *piece) (form.Body, expr, expr) {
	m := r.input(&p.in, animalMassField, kilogram)
	k := r.animalK(p)
	p.meehK = k.v
	two3 := r.div(r.number(2), r.number(3))
	a := r.named("surface by Meeh's rule", r.mul(k, r.pow(m, two3)), squareMetre)
	room := m.v / r.shop.Num(shop.BodyDensity)
	return form.Surface{Outside: quantity.Area(a.v), Room: quantity.Volume(room)}, r.input(&p.in, measuredField, metre), a
}

func (r *run) animalK(p *piece) expr {
	if p.in.has(animalKField) {
		return r.input(&p.in, animalKField, none)
	}
	for _, a := range r.shop.Animals {
		if a.Name == p.in.word(animalField) {
			return r.fact(r.words("k of Meeh's rule, ", a.Name), a.K, none, field.Origin{From: field.ShopBook, Source: a.Source})
		}
	}
	return r.number(0)
}

// fault tells of one field of a piece, or of the commission where p is nil.
func (r *run) fault(p *piece, f *Field, problem, remedy string) {
	x := fault.Fault{Where: f.Path(), Field: f.Label, Problem: problem, Remedy: remedy}
	in := &r.whole
	if p != nil {
		in = &p.in
		x.Where, x.Field = p.where(f), p.fieldName(f, len(r.pieces))
	}
	switch {
	case in.has(f):
		x.Value = in.texts[f.id]
	case f.Book != shop.Unset || f.Start != "":
		x.Value = f.Print(in.value(f), r.system)
	}
	r.faults = append(r.faults, x)
}
