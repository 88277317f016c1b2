package mesh

import (
	"context"
	"math"
)

// Wall knows the metal below a skin: as a profile for the whole form, and cell
// by cell, so that it can be told apart by sections.
type Wall struct {
	Profile Profile
	Skin    *Skin
	skin    *Tree
	octree  *octree
	planned *octree // what plans go by, where the last halvings left more cells than they need; else nil
	solid   *patches
	sliced  *sliced
}

// Skin is a form ready for its wall to be measured: a mesh in metres, standing
// on z = 0, and which of its triangles only close it and carry no metal.
type Skin struct {
	Mesh *Mesh
	Bare []bool   // by triangle: an open foot, or a face buried in another shell; nil for none
	Body []uint32 // by triangle: shells of one number are cast as one piece; nil if each is its own
	// Overlap says that shells share room: the signed sum counts that room twice.
	Overlap bool
}

func (s *Skin) bare(triangle int) bool { return s.Bare != nil && s.Bare[triangle] }

// Area of the skin that metal lies under.
func (s *Skin) Area() float64 {
	if s.Bare == nil {
		return Measure(s.Mesh).Area
	}
	kept := &Mesh{Points: s.Mesh.Points}
	for i, t := range s.Mesh.Triangles {
		if !s.bare(i) {
			kept.Triangles = append(kept.Triangles, t)
		}
	}
	return Measure(kept).Area
}

const (
	// quick levels of halving follow the coarse cells for the first answer: 128
	// cells along the longest side; patient ones make 256, the last 512 only
	// where the answer still moves.
	quickLevels   = 3
	patientLevels = 4
	lastLevel     = 5
	// settledError is how much the last halving may have moved the answer.
	settledError = 0.003
	fewPatches   = 3_000
	manyPatches  = 12_000
	mostCells    = 3_000_000 // 130 MB: no form needs them, a broken one might
	// plannedCells are as many as a plan goes by: it looks at all of them again
	// for every section that it tries.
	plannedCells = 400_000
)

// atLevel is the share of the work that is done when so many halvings are.
var atLevel = [lastLevel + 1]float64{0.05, 0.07, 0.12, 0.3, 0.6, 0.8}

// MeasureWall finds the profile of the metal below a skin. first, if not nil, is
// called with a good answer as soon as there is one; the final one is finer. tell,
// if not nil, hears the share of the work that is done. The error is that of ctx.
func MeasureWall(ctx context.Context, s *Skin, first func(*Wall), tell func(share float64)) (*Wall, error) {
	if tell == nil {
		tell = func(float64) {}
	}
	size := Measure(s.Mesh)
	w := &Wall{Skin: s, sliced: &sliced{}, skin: NewTree(s.Mesh, func(i int) bool { return !s.bare(i) })}
	all := w.skin
	if s.Bare != nil {
		all = NewTree(s.Mesh, nil)
	}
	holes := CountSeams(s.Mesh).Open > 0
	area := s.Area()
	tell(atLevel[0])
	var err error
	if w.octree, err = newOctree(ctx, w.skin, all, holes, size.Min, size.Max); err != nil {
		return nil, err
	}
	if err = w.refineTo(ctx, quickLevels, area, tell); err != nil {
		return nil, err
	}
	if err = w.findSolid(ctx, fewPatches, nil); err != nil {
		return nil, err
	}
	if first != nil {
		early := *w
		early.octree, early.sliced = w.octree.copy(), &sliced{}
		first(&early)
	}
	quick := w.octree.copy()
	if err = w.refineTo(ctx, patientLevels, area, tell); err != nil {
		return nil, err
	}
	if w.Profile.Error > settledError {
		fewer := w.octree.copy()
		if fewer.cells() > plannedCells {
			fewer = quick
		}
		if err = w.refineTo(ctx, lastLevel, area, tell); err != nil {
			return nil, err
		}
		if w.octree.cells() > plannedCells {
			w.planned = fewer
		}
	}
	err = w.findSolid(ctx, manyPatches, span(tell, atLevel[lastLevel], 1))
	return w, err
}

// refineTo halves the open cells until they have been halved so many times in
// all, and takes how far the last halving moved the answer for its error.
func (w *Wall) refineTo(ctx context.Context, level int, area float64, tell func(float64)) error {
	o := w.octree
	for o.level < level && len(o.open) > 0 && len(o.open)*8+len(o.settled) < mostCells {
		before := w.Profile
		if err := o.refine(ctx, span(tell, atLevel[o.level], atLevel[o.level+1])); err != nil {
			return err
		}
		w.Profile = profileOf(o.reach(), o.settled, o.open)
		w.Profile.anchor(area, thinnest*o.long)
		w.Profile.Error = w.Profile.apart(&before, thinnest*o.long)
	}
	return nil
}

// span tells a part of the work as a share of the whole.
func span(tell func(float64), from, to float64) func(float64) {
	return func(share float64) { tell(from + (to-from)*share) }
}

// anchor makes walls that are thin beside a cell come out as area × wall, which
// is what they tend to; from the given thickness on nothing changes.
func (p *Profile) anchor(area, thin float64) {
	p.Area = area
	first := p.at(0.02*thin) / (0.02 * thin)
	if !(first > 0) || math.Abs(area/first-1) > 0.1 {
		return // the skin is folded or counted twice: the cells know better
	}
	for i := 1; i < knots; i++ {
		t := p.depth(i)
		if t >= thin {
			break
		}
		p.within[i] *= float32(1 + (area/first-1)*(1-t/thin)*(1-t/thin))
	}
	p.smooth()
}

// depth of a knot.
func (p *Profile) depth(i int) float64 {
	return p.Reach * float64(i*i) / ((knots - 1) * (knots - 1))
}

// apart is the greatest share by which two profiles differ, for walls from the
// given thickness up.
func (p *Profile) apart(o *Profile, from float64) float64 {
	worst := 0.0
	for i := 1; i < knots; i++ {
		if t := p.depth(i); t >= from && p.within[i] > 0 {
			worst = max(worst, math.Abs(o.at(t)/float64(p.within[i])-1))
		}
	}
	return worst
}

func (w *Wall) findSolid(ctx context.Context, n int, tell func(float64)) error {
	if len(w.skin.nodes) == 0 || !(w.Profile.Reach > 0) {
		return ctx.Err()
	}
	solid, err := solidWalls(ctx, w.skin, n, w.Profile.Reach, tell)
	if err != nil {
		return err
	}
	w.solid = solid
	w.Profile.fillSolid(solid, w.octree.settled, w.octree.open)
	return nil
}

// Solid tells which triangles of the mesh have solid metal under them, at a
// scale and a wall in metres.
func (w *Wall) Solid(scale, wall float64) []bool {
	out := make([]bool, len(w.Skin.Mesh.Triangles))
	if w.solid == nil || !(scale > 0) {
		return out
	}
	for place, i := range w.skin.order {
		out[i] = float64(w.solid.wall[w.solid.of(place)]) < wall/scale
	}
	return out
}
