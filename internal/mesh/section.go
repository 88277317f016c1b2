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

const sharePoints = 32

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
	Weld     float64   `json:"weld_m"` // m, length of all seams
	Faces    []uint16  `json:"-"`      // the section of each triangle of the mesh; of one part of it where it is cut; not stored
}

// Evaluate cuts the form along the given planes and tells what each section
// holds. What a cut leaves connected is one section, and what it barely shaves
// off stays where it is.
func (w *Wall) Evaluate(ctx context.Context, cuts []Cut) (Plan, error) {
	c := carve(w.Skin.Mesh, cuts)
	p := findPieces(c, w.Skin, cuts)
	plan := Plan{Cuts: cuts, Sections: p.sections(cuts), Faces: make([]uint16, len(w.Skin.Mesh.Triangles))}
	for i := range plan.Faces {
		plan.Faces[i] = uint16(p.of[i])
	}
	at := p.atPoint()
	for _, s := range p.seams {
		plan.Weld += s.length
		plan.Sections[at[s.above]].Weld += s.length / 2
		plan.Sections[at[s.below]].Weld += s.length / 2
	}
	err := w.shareOut(ctx, plan.Sections, p.pieceAt)
	return plan, err
}

// shareOut tells how the metal is shared among the sections. of gives the
// section of a point on a triangle of the mesh.
func (w *Wall) shareOut(ctx context.Context, list []Section, of func(triangle uint32, at Vec) uint32) error {
	groups := [2][]cell{w.octree.settled, w.octree.open}
	var labels [2][]uint32
	for g, cells := range groups {
		labels[g] = make([]uint32, len(cells))
		err := inChunks(ctx, len(cells), 4096, func(_, from, to int) {
			for i := from; i < to; i++ {
				labels[g][i] = of(w.skin.order[cells[i].place], cells[i].foot())
			}
		})
		if err != nil {
			return err
		}
	}
	reach := w.Profile.Reach
	curves := make([]Profile, len(list))
	if !(reach > 0) {
		shareArea(list, curves)
		return ctx.Err()
	}
	err := inChunks(ctx, len(list), 1, func(k, _, _ int) {
		y := newTally(reach)
		for g, cells := range groups {
			for i := range cells {
				if labels[g][i] == uint32(k) {
					y.add(&cells[i])
				}
			}
		}
		curves[k] = y.profile()
	})
	shareArea(list, curves)
	return err
}

// foot is the point of the skin that the middle of a cell lies nearest to.
func (c *cell) foot() Vec {
	return Vec32(c.middle).Vec().Sub(Vec32(c.inwards).Vec().Mul(float64(c.depth)))
}

// shareArea turns the metal curves of all sections into shares that add up to
// one; a wall without thickness is shared as the area is.
func shareArea(list []Section, curves []Profile) {
	for i := range sharePoints {
		of := func(k int) float64 {
			if i == 0 || curves[k].Reach <= 0 {
				return list[k].Area
			}
			return curves[k].at(curves[k].Reach * float64(i*i) / ((sharePoints - 1) * (sharePoints - 1)))
		}
		sum := 0.0
		for k := range list {
			sum += of(k)
		}
		for k := range list {
			if sum > 0 {
				list[k].Shares[i] = float32(of(k) / sum)
			}
		}
	}
}
