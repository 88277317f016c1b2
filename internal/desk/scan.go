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
// opened beside dir, stood as the file says or else as proposed, measured, and
// becomes the form of its piece. tell hears the share that is done.
func OpenScans(ctx context.Context, c estimate.Commission, dir string, plan func(*mesh.Standing) (mesh.Plan, error), tell func(share float64)) (estimate.Commission, error) {
	d := c.Clone()
	var faults fault.List
	for i := range d.Pieces {
		f := d.Pieces[i].ScanFile
		if f == nil || d.Pieces[i].Scan != nil {
			continue
		}
		k, err := openScan(ctx, *f, dir, plan, tell)
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
		d.Pieces[i].Scan, d.Pieces[i].ScanFile = k, nil
	}
	return d, faults.Err()
}

func openScan(ctx context.Context, f estimate.ScanFile, dir string, plan func(*mesh.Standing) (mesh.Plan, error), tell func(share float64)) (*mesh.Scan, error) {
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
	s, err := o.Stand(how)
	if err != nil {
		return nil, err
	}
	if err := s.Measure(ctx, nil, tell); err != nil {
		return nil, err
	}
	p, err := plan(s)
	if err != nil {
		return nil, err
	}
	return s.Keep(p), nil
}
