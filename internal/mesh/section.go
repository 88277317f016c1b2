package mesh

import (
	"context"
	"math"
)

// Section is one of the castings that a form is cut into. Lengths, areas and
// volumes are those at scale 1, in metres; At gives them at another.
type Section struct {
	Area   float64 `json:"area_m2"`   // of the skin that metal lies under
	Volume float64 `json:"volume_m3"` // enclosed, the cuts taken as closed; a guess where two planes cross within the form
	Min    Vec     `json:"min"`
	Max    Vec     `json:"max"`
	Weld   float64 `json:"weld_m"` // half the outline of each cut it is joined at: sections add up to the whole weld
	Shares shares  `json:"shares"` // of the form's metal, by wall
}

// shares is the part of the form's metal that a section holds, at walls of
// reach × (i/(sharePoints−1))². Metal goes with the skin it lies nearest to.
type shares [sharePoints]float32

const sharePoints = 16

// at a wall, given as a share of the reach.
func (s *shares) at(wall float64) float64 {
	x := math.Sqrt(max(wall, 0)) * (sharePoints - 1)
	if !(x < sharePoints-1) {
		return float64(s[sharePoints-1])
	}
	i := int(x)
	f := x - float64(i)
	return float64(s[i])*(1-f) + float64(s[i+1])*f
}

// SectionAt is a section at a scale and a wall.
type SectionAt struct {
	Area   float64 // m²
	Volume float64 // m³ enclosed
	Metal  float64 // m³ of finished wall; all sections add up to the form's
	Box    Vec     // m, along x, y and z
	Weld   float64 // m, its half of each seam
}

// At gives the section at a scale and a wall in metres, p being the profile of
// the whole form.
func (s *Section) At(p *Profile, scale, wall float64) SectionAt {
	at := SectionAt{
		Area:   s.Area * scale * scale,
		Volume: s.Volume * scale * scale * scale,
		Box:    s.Max.Sub(s.Min).Mul(scale),
		Weld:   s.Weld * scale,
	}
	if p.Reach > 0 && scale > 0 {
		at.Metal = p.Metal(scale, wall) * s.Shares.at(wall/scale/p.Reach)
	}
	return at
}

// Plan is a form cut into sections, all at scale 1.
type Plan struct {
	Cuts     []Cut     `json:"cuts"`
	Sections []Section `json:"sections"`
	Weld     float64   `json:"weld_m"`             // length of all seams
	Proposed bool      `json:"proposed,omitempty"` // nobody has placed the planes; another size may do without some
	Form     *Mesh     `json:"-"`                  // the form as it is cut, to be drawn
	Faces    []uint16  `json:"-"`                  // the section of each triangle of Form
	colours  []uint8   // of each section, for Tints
}

// Evaluate cuts the form along the given planes and tells what each section
// holds. What a cut leaves connected is one section, and what it barely shaves
// off stays where it is.
func (w *Wall) Evaluate(ctx context.Context, cuts []Cut) (Plan, error) {
	return w.evaluate(ctx, w.whole(), cuts)
}

func (w *Wall) evaluate(ctx context.Context, l *lump, cuts []Cut) (Plan, error) {
	p := findPieces(l, cuts)
	plan := Plan{Cuts: cuts, Sections: p.sections(cuts), Form: p.form(), Faces: make([]uint16, len(p.of))}
	for i, k := range p.of {
		plan.Faces[i] = uint16(k)
	}
	at := p.atPoint()
	meets := make([][2]uint32, 0, len(p.seams))
	for _, s := range p.seams {
		if at[s.above] != at[s.below] {
			meets = append(meets, [2]uint32{at[s.above], at[s.below]})
		}
		plan.Weld += s.length
		plan.Sections[at[s.above]].Weld += s.length / 2
		plan.Sections[at[s.below]].Weld += s.length / 2
	}
	plan.colour(meets)
	err := w.shareOut(ctx, l, plan.Sections, func(i int) uint32 {
		return p.of[p.triangleAt(l.under[i], l.cells[i].foot())]
	})
	return plan, err
}

// shareOut tells how the metal is shared among the sections; of gives the
// section of each cell of the lump.
func (w *Wall) shareOut(ctx context.Context, l *lump, list []Section, of func(cell int) uint32) error {
	label := make([]uint32, len(l.cells))
	err := inChunks(ctx, len(l.cells), 4096, func(_, from, to int) {
		for i := from; i < to; i++ {
			label[i] = of(i)
		}
	})
	if err != nil {
		return err
	}
	areas := make([]float64, len(list))
	for i := range list {
		areas[i] = list[i].Area
	}
	for i, s := range sharesOf(l.cells, label, areas, w.Profile.Reach) {
		list[i].Shares = s
	}
	return ctx.Err()
}

// foot is the point of the skin that the middle of a cell lies nearest to.
func (c *cell) foot() Vec {
	return Vec32(c.middle).Vec().Sub(Vec32(c.inwards).Vec().Mul(float64(c.depth)))
}

// sharesOf shares out the metal of cells among those that label names, of which
// there is one for each area. A wall without thickness is shared as the area is.
func sharesOf(cells []cell, label []uint32, areas []float64, reach float64) []shares {
	n := len(areas)
	start := make([]int, n+1)
	for _, k := range label {
		start[k+1]++
	}
	for k := range n {
		start[k+1] += start[k]
	}
	at, sorted := append([]int(nil), start...), make([]uint32, len(cells))
	for i, k := range label {
		sorted[at[k]] = uint32(i)
		at[k]++
	}
	metal := make([][sharePoints]float64, n)
	_ = inChunks(context.Background(), n, 1, func(k, _, _ int) {
		if start[k] == start[k+1] || !(reach > 0) {
			return
		}
		y := newTally(reach)
		for _, i := range sorted[start[k]:start[k+1]] {
			y.add(&cells[i])
		}
		curve := y.profile()
		for i := range sharePoints {
			metal[k][i] = curve.at(reach * float64(i*i) / ((sharePoints - 1) * (sharePoints - 1)))
		}
	})
	out := make([]shares, n)
	for i := range sharePoints {
		sum := 0.0
		for k := range n {
			if i == 0 {
				metal[k][0] = areas[k]
			}
			sum += metal[k][i]
		}
		for k := range n {
			if sum > 0 {
				out[k][i] = float32(metal[k][i] / sum)
			}
		}
	}
	return out
}
