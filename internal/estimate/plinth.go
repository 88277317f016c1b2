package estimate

import (
	"math"

	"meltwright/internal/field"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

// The shapes a plinth has.
const (
	noPlinth      = "no plinth"
	blockPlinth   = "block"
	drumPlinth    = "drum"
	taperedPlinth = "tapered block"
	steppedPlinth = "stepped block"
	ownPlinth     = "free shape"
)

func hasPlinth(in *inputs) bool { return in.word(plinthField) != noPlinth }

func onBlock(in *inputs) bool { return hasPlinth(in) && in.word(plinthField) != drumPlinth }

func onPlinth(shape string) func(*inputs) bool {
	return func(in *inputs) bool { return in.word(plinthField) == shape }
}

var (
	plinthField = choice("base", "plinth", "Plinth", noPlinth, blockPlinth, drumPlinth, taperedPlinth, steppedPlinth, ownPlinth).hint("a free shape is a boulder, a wedge, a curve: any stone whose volume you know or guess")
	stoneField  = choice("base", "stone", "Of", "Granite").picks(func(s *shop.Shop) (names []string) {
		for _, x := range s.Stones {
			names = append(names, x.Name)
		}
		return names
	}).when(hasPlinth)
	plinthHeightField = asked("base", "height", "Height of the plinth", quantity.KindLength, field.AboveZero, "0.6 m", "").when(hasPlinth)
	plinthWidthField  = asked("base", "width", "Width, or diameter of a drum", quantity.KindLength, field.AboveZero, "0.9 m", "").when(hasPlinth)
	plinthDepthField  = asked("base", "depth", "Depth", quantity.KindLength, field.AboveZero, "0.9 m", "").when(onBlock)
	plinthTopField    = asked("base", "top", "Top, of the foot", quantity.KindShare, field.YieldOf1, "85 %", "").when(onPlinth(taperedPlinth))
	stepHeightField   = asked("base", "step_height", "Height of the step", quantity.KindLength, field.AboveZero, "0.15 m", "").when(onPlinth(steppedPlinth))
	stepTreadField    = asked("base", "step_tread", "The step sticks out", quantity.KindLength, field.AboveZero, "0.1 m", "").hint("on every side").when(onPlinth(steppedPlinth))
	plinthVolumeField = asked("base", "volume", "Volume of the stone", quantity.KindVolume, field.AboveZero, "", "half of height × width × depth").when(onPlinth(ownPlinth))
	plinthWorkedField = asked("base", "worked", "Surface to saw and finish", quantity.KindArea, field.ZeroUp, "0 m²", "").when(onPlinth(ownPlinth))
)

// plinth gives its volume in m³ and its worked surface, sides and top, in m².
func (r *run) plinth(p *piece) (volume, worked expr) {
	w, h := r.input(&p.in, plinthWidthField, metre), r.input(&p.in, plinthHeightField, metre)
	if p.in.word(plinthField) == drumPlinth {
		return r.drum(w, h)
	}
	d := r.input(&p.in, plinthDepthField, metre)
	switch p.in.word(plinthField) {
	case taperedPlinth:
		return r.taperedBlock(p, w, d, h)
	case steppedPlinth:
		return r.steppedBlock(p, w, d, h)
	case ownPlinth:
		return r.ownShape(p, w, d, h)
	}
	return r.named("volume of the block", r.mul(w, d, h), cubicMetre),
		r.named("worked surface", r.add(r.mul(w, d), r.around(w, d, h)), squareMetre)
}

// around is the four sides of a block.
func (r *run) around(w, d, h expr) expr { return r.mul(r.number(2), r.add(w, d), h) }

func (r *run) drum(w, h expr) (volume, worked expr) {
	top := r.mul(r.number(math.Pi), r.div(r.mul(w, w), r.number(4)))
	return r.named("volume of the drum", r.mul(top, h), cubicMetre),
		r.named("worked surface", r.add(top, r.mul(r.number(math.Pi), w, h)), squareMetre)
}

// taperedBlock tapers by the same share on both sides: (1 + k + k²)/3 of the
// block; its sides lean, so the slant is a little more than the height.
func (r *run) taperedBlock(p *piece, w, d, h expr) (volume, worked expr) {
	k := r.share(&p.in, plinthTopField)
	mean := r.div(r.add(r.number(1), k, r.mul(k, k)), r.number(3))
	volume = r.named("volume of the tapered block", r.mul(w, d, h, mean), cubicMetre)
	// A side leans in by half of what the foot has more than the top.
	lean := func(side expr) expr {
		in := r.div(r.mul(side, r.less1(k)), r.number(2))
		return r.sqrt(r.add(r.mul(h, h), r.mul(in, in)))
	}
	slanted := r.mul(r.add(r.mul(w, lean(d)), r.mul(d, lean(w))), r.plus1(k))
	return volume, r.named("worked surface", r.add(r.mul(w, d, k, k), slanted), squareMetre)
}

// steppedBlock is a block on a step that sticks out on every side. Seen from
// above, step and block together are the top of the foot.
func (r *run) steppedBlock(p *piece, w, d, h expr) (volume, worked expr) {
	step, tread := r.input(&p.in, stepHeightField, metre), r.input(&p.in, stepTreadField, metre)
	if step.v >= h.v {
		r.fault(p, stepHeightField, "is no less than the plinth, "+quantity.Print(quantity.KindLength, h.v, r.system), "give a lower step")
	}
	if 2*tread.v >= min(w.v, d.v) {
		r.fault(p, stepTreadField, "leaves nothing of the block, "+quantity.Print(quantity.KindLength, min(w.v, d.v), r.system)+" at the foot", "give a narrower step or a wider foot")
	}
	out := r.mul(r.number(2), tread)
	w2, d2, h2 := r.sub(w, out), r.sub(d, out), r.sub(h, step)
	return r.named("volume of the stepped block", r.add(r.mul(w, d, step), r.mul(w2, d2, h2)), cubicMetre),
		r.named("worked surface", r.add(r.mul(w, d), r.around(w, d, step), r.around(w2, d2, h2)), squareMetre)
}

// ownShape is a stone of any shape: its volume as told, or half of its box, as
// of a field stone (common practice, no source), and as much of its surface as
// is worked.
func (r *run) ownShape(p *piece, w, d, h expr) (volume, worked expr) {
	worked = r.input(&p.in, plinthWorkedField, squareMetre)
	if p.in.has(plinthVolumeField) {
		return r.input(&p.in, plinthVolumeField, cubicMetre), worked
	}
	half := r.fact("stone in its box", 0.5, percentUnit, field.Origin{From: field.Proposed, Source: field.NoSource})
	return r.named("volume of the stone", r.mul(w, d, h, half), cubicMetre), worked
}
