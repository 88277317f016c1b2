package estimate

import (
	"slices"

	"meltwright/internal/field"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

var baseStage = &Stage{
	ID: "base", Name: "Base", Does: "Plinth, frame, anchors, footing",
	lines: baseLines, wholeLines: baseWholeLines,
	byOthers: baseByOthers,
	swing: func(v *Variation, it *item) float64 {
		switch it.class {
		case Labour:
			return 1
		case Bought:
			return v.Site
		}
		return v.Material
	},
	cautions: baseCautions,
}

var (
	baseByField      = choice("base", "by", "Base is", "by us", byOthers)
	footingField     = choice("base", "footing", "Footing", "none", "by us", byOthers)
	frameField       = asked("base", "frame", "Inner frame", quantity.KindMass, field.ZeroUp, "", "a share of the bronze, from a height on, by the shop book")
	anchorsField     = asked("base", "anchors", "Anchors", quantity.KindCount, field.ZeroUp, "", "4 with a plinth or a frame")
	frameHoursField  = fromBook("base", "frame_hours", Hours, shop.FrameHours)
	anchorHoursField = fromBook("base", "anchor_hours", Hours, shop.AnchorHours)
	mountHoursField  = fromBook("base", "mount_hours", Hours, shop.MountHours)
	padMarginField   = fromBook("base", "pad_margin", Hours, shop.PadMargin)
	padDepthField    = fromBook("base", "pad_depth", Hours, shop.PadDepth)
	engineerField    = askedWhole("base", "engineer", "Engineer's stamps", quantity.KindCount, field.ZeroUp, "", "1 from the shop book's height on")
	baseLabourRate   = fromBookWhole("base", "labour", Rates, shop.LabourBase)
	frameRate        = fromBookWhole("base", "frame_price", Rates, shop.FramePrice)
	anchorRate       = fromBookWhole("base", "anchor_price", Rates, shop.AnchorPrice)
	stoneWorkRate    = fromBookWhole("base", "working", Rates, shop.StoneWorking)
	concreteRate     = fromBookWhole("base", "concrete", Rates, shop.Concrete)
	engineerRate     = fromBookWhole("base", "engineer_price", Rates, shop.Engineer)
)

func baseByOthers(p *piece) bool { return p.in.word(baseByField) == byOthers }

// takeBase works out the plinth and the frame.
func (r *run) takeBase(p *piece) {
	p.frame = r.number(0)
	if !baseByOthers(p) {
		p.frame = r.frameMass(p)
	}
	if !hasPlinth(&p.in) {
		p.plinth, p.plinthMass = r.number(0), r.number(0)
		return
	}
	p.plinth, p.worked = r.plinth(p)
	for _, s := range r.shop.Stones {
		if s.Name == p.in.word(stoneField) {
			d := r.fact(r.words("density of ", lowerFirst(s.Name)), float64(s.Density), kiloPerCubicMetre, field.Origin{From: field.ShopBook, Source: s.Source})
			p.plinthMass = r.named("plinth", r.mul(p.plinth, d), kilogram)
			p.stone, p.stoneName, p.stoneFrom = s.Price, s.Name, s.Priced
		}
	}
}

func (r *run) frameMass(p *piece) expr {
	if p.in.has(frameField) {
		return r.input(&p.in, frameField, kilogram)
	}
	if p.finishedHeight.v < r.shop.Num(shop.FrameFrom) {
		return r.number(0)
	}
	share := r.fact("frame, of the bronze", r.shop.Num(shop.FrameShare), percentUnit, r.shop.Origin(shop.FrameShare))
	return r.named("inner frame", r.mul(p.finished, share), kilogram)
}

func baseLines(r *run, st *Stage, p *piece) {
	if hasPlinth(&p.in) {
		r.write(st, item{piece: p, name: r.words(p.stoneName, " plinth"), q: r.perCast(st, p, p.plinthMass), unit: kilogram, rate: p.stone, from: field.Origin{From: field.ShopBook, Source: p.stoneFrom}})
		r.write(st, item{piece: p, name: "Sawing and finishing the plinth", class: Bought, q: r.perCast(st, p, p.worked), unit: squareMetre, rate: r.whole.value(stoneWorkRate), from: r.whole.origin(stoneWorkRate)})
		r.labour(st, p, "Mounting on the plinth", r.input(&p.in, mountHoursField, hour), baseLabourRate)
	}
	if p.frame.v > 0 {
		r.material(st, p, "Inner frame, stainless steel", p.frame, kilogram, frameRate)
		r.labour(st, p, "Making and fitting the frame", r.mul(p.frame, r.input(&p.in, frameHoursField, hourPerKilo)), baseLabourRate)
	}
	if n := r.anchors(p); n.v > 0 {
		r.counted(st, p, "Anchors", "anchor", Material, n, anchorRate)
		r.labour(st, p, "Drilling and setting anchors", r.mul(n, r.input(&p.in, anchorHoursField, hour)), baseLabourRate)
	}
	if p.in.word(footingField) == "by us" {
		r.write(st, item{piece: p, name: "Footing, dug, formed and poured", class: Bought, q: r.perCast(st, p, r.footing(p)), unit: cubicMetre, rate: r.whole.value(concreteRate), from: r.whole.origin(concreteRate)})
	}
}

func (r *run) anchors(p *piece) expr {
	if p.in.has(anchorsField) {
		return r.input(&p.in, anchorsField, none)
	}
	if hasPlinth(&p.in) || p.frame.v > 0 {
		return r.fact("anchors", 4, none, field.Origin{From: field.Proposed, Source: field.NoSource})
	}
	return r.number(0)
}

// footing is a pad wider than the base on every side, below frost. Without a
// plinth the base is the piece's own foot.
func (r *run) footing(p *piece) expr {
	margin := r.mul(r.number(2), r.input(&p.in, padMarginField, metre))
	w, d := p.wide, p.deep
	if hasPlinth(&p.in) {
		w = r.input(&p.in, plinthWidthField, metre)
		d = w
		if onBlock(&p.in) {
			d = r.input(&p.in, plinthDepthField, metre)
		}
	}
	return r.mul(r.add(w, margin), r.add(d, margin), r.input(&p.in, padDepthField, metre))
}

// baseWholeLines has the engineer, whose stamp covers the whole commission.
func baseWholeLines(r *run, st *Stage) {
	n := r.number(0)
	if r.whole.has(engineerField) {
		n = r.input(&r.whole, engineerField, none)
	} else {
		for _, p := range r.pieces {
			if p.finishedHeight.v >= r.shop.Num(shop.EngineerFrom) && !st.byOthers(p) {
				n = r.fact("stamps", 1, none, r.shop.Origin(shop.EngineerFrom))
			}
		}
	}
	r.counted(st, nil, "Engineer's design and stamp", "stamp", Bought, n, engineerRate)
}

// baseCautions defer to the engineer where something stands that can fall: not
// for a small bronze on a shelf.
func baseCautions(r *run) []Caution {
	stands := func(p *piece) bool {
		return !baseByOthers(p) && (hasPlinth(&p.in) && p.standing() >= tableTop || p.frame.v > 0 || p.in.word(footingField) == "by us" || p.finishedHeight.v >= tableTop)
	}
	if !slices.ContainsFunc(r.pieces, stands) {
		return nil
	}
	wind := r.shop.Num(shop.WindSpeed)
	speed, force := quantity.Number(wind, 0)+" m/s", quantity.Number(WindPressure(wind), 0)+" N/m²"
	if r.system == quantity.InchPound {
		speed, force = quantity.Number(wind/0.44704, 0)+" mph", quantity.Number(WindPressure(wind)/47.880259, 0)+" lb/ft²"
	}
	return []Caution{{Level: Warning, Stage: "base", Text: "Frame, anchors, footing and wind are for a licensed engineer; depth and drainage follow the local code. The figures here are for the budget. A wind of " + speed + " presses with " + force + ".", Source: "ASCE 7, from memory"}}
}

// tableTop is the height, with its plinth, of a bronze that stands on furniture
// and falls on nobody; common practice, no source.
const tableTop = 0.6

// topple is the height of the work over its ground, for the crane and the eye.
func (p *piece) standing() float64 {
	h := p.finishedHeight.v
	if hasPlinth(&p.in) {
		h += p.in.num(plinthHeightField)
	}
	return h
}
