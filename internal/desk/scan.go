package desk

import (
	"context"
	"path/filepath"

	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/mesh"
)

// SetScan makes a scan the form of a piece, in one step of undo. The piece is to
// be made at the height it has, or as scanned where none was typed.
func (s *Sheet) SetScan(piece int, k *mesh.Scan) {
	s.Change("", func(c *estimate.Commission) {
		p := &c.Pieces[piece]
		p.Scan = k
		if p.Inputs == nil {
			p.Inputs = map[string]string{}
		}
		p.Inputs["form.known_by"] = "scan"
		delete(p.Inputs, "form.sections")
		delete(p.Inputs, "form.weld")
	})
}

// OpenScans takes the scans that a commission names by their files: each is
// opened beside dir, stood as the file says or else as proposed, measured, cut
// into sections that the shop can pour at the height the piece is made at, and
// becomes the form of its piece. tell, if not nil, hears the share that is done.
func (d *Desk) OpenScans(ctx context.Context, c estimate.Commission, dir string, tell func(share float64)) (estimate.Commission, error) {
	out := c.Clone()
	var faults fault.List
	for i := range out.Pieces {
		f := out.Pieces[i].ScanFile
		if f == nil || out.Pieces[i].Scan != nil {
			continue
		}
		k, err := d.openScan(ctx, out, i, dir, tell)
		if ctx.Err() != nil {
			return c, ctx.Err()
		}
		if err != nil {
			for _, x := range fault.All(err) {
				x.Where = estimate.WhereOf(i, "scan_file")
				faults = append(faults, x)
			}
			continue
		}
		out.Pieces[i].Scan, out.Pieces[i].ScanFile = k, nil
	}
	return out, faults.Err()
}

func (d *Desk) openScan(ctx context.Context, c estimate.Commission, piece int, dir string, tell func(share float64)) (*mesh.Scan, error) {
	f := *c.Pieces[piece].ScanFile
	path := f.Path
	if !filepath.IsAbs(path) {
		path = filepath.Join(dir, path)
	}
	o, err := mesh.OpenScan(ctx, path, nil)
	if err != nil {
		return nil, err
	}
	how, err := f.Answer(o.Propose(0))
	if err != nil {
		return nil, err
	}
	s, err := o.Stand(ctx, how)
	if err != nil {
		return nil, err
	}
	if err := s.Measure(ctx, nil, tell); err != nil {
		return nil, err
	}
	plan, err := d.PlanSections(ctx, c, piece, s)
	if err != nil {
		return nil, err
	}
	ladder, err := s.Wall.Ladder(ctx, plan)
	if err != nil {
		return nil, err
	}
	return s.Keep(plan, ladder), nil
}

// PlanSections cuts a measured scan into sections that the shop can pour at the
// height and wall of the piece it is for, with as little weld as it finds.
func (d *Desk) PlanSections(ctx context.Context, c estimate.Commission, piece int, s *mesh.Standing) (mesh.Plan, error) {
	one := estimate.SizeOf(c, d.shop, piece)
	scale := 1.0
	if high := mesh.Measure(s.Skin.Mesh).Box()[2]; one.Height > 0 && high > 0 {
		scale = float64(one.Height) / high
	}
	return s.Wall.Plan(ctx, scale, float64(one.Wall), estimate.SectionLimits(c, d.shop, piece))
}
