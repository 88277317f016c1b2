package mesh

import (
	"bytes"
	"context"
	"image/png"
	"slices"
)

// Scan is all that is kept of a scan file: what was found in it, what was
// answered about it, and what was measured, at the size of the file. An estimate
// never needs the file again. A Scan is not changed once it is made.
type Scan struct {
	File      string   `json:"file"`   // its name, without folders
	SHA256    string   `json:"sha256"` // of the file, in hexadecimal
	Format    Format   `json:"format"`
	Stance    Stance   `json:"stance"`
	Triangles int      `json:"triangles"`
	Closed    bool     `json:"closed"`
	Open      int      `json:"open_edges"`
	Shared    int      `json:"shared_edges"`
	Turned    int      `json:"turned_edges"`
	Shells    int      `json:"shells"`
	Area      float64  `json:"area_m2"`
	Volume    float64  `json:"volume_m3"` // by winding number where the surface is not closed
	Box       Vec      `json:"box_m"`
	Centre    Vec      `json:"centre_m"` // of mass, solid, above the middle of the foot
	Notes     []string `json:"notes,omitempty"`
	Profile   Profile  `json:"profile"`
	Front     Outline  `json:"front"`
	Flank     Outline  `json:"flank"`
	Balance   Balance  `json:"balance"`
	Plan      Plan     `json:"plan"`
	Ladder    Ladder   `json:"ladder"`            // the plan at every other size
	Picture   []byte   `json:"picture,omitempty"` // PNG
}

// Height is how high the form stands at the size of the file, in metres.
func (s *Scan) Height() float64 { return s.Box[2] }

// Opened is a scan file that was read, with its faces agreeing, before anybody
// said what the file cannot say.
type Opened struct {
	Mesh   *Mesh // in the file's own unit and axes
	Report Report
	Shells *Shells
	Seams  Seams // as the file has them
	SHA256 string
}

// Prepare makes the faces of a mesh that was read agree, and tells its shells
// apart. It ends with ctx, whose error it gives.
func Prepare(ctx context.Context, m *Mesh, r Report, sum string) (o *Opened, err error) {
	o = &Opened{Report: r, Seams: CountSeams(m), SHA256: sum}
	o.Mesh, o.Shells, _, err = Orient(ctx, m)
	return o, err
}

// Propose guesses what the file cannot say: its unit, from the height that is
// wanted (0 if it is not known yet), which way is up, and whether the foot is
// open.
func (o *Opened) Propose(target float64) Stance {
	how := Stance{Unit: o.Report.Unit, Up: ProposeUp(o.Mesh, o.Report.Up)}
	if how.Unit.Metres == 0 {
		one := how
		one.Unit = Metre
		if m, err := Stand(o.Mesh, o.Shells, one); err == nil {
			_, high := box(m.Points)
			how.Unit = ProposeUnits(high[2], target)[0].Unit
		}
	}
	if m, err := Stand(o.Mesh, o.Shells, how); err == nil {
		how.OpenFoot = HasOpenFoot(m)
	}
	return how
}

// Standing is a scan that stands in metres, ready for its wall to be measured and
// cut, and for pictures of any side.
type Standing struct {
	Opened *Opened
	Stance Stance
	Skin   *Skin
	Viewer *Viewer
	Ground Ground
	Wall   *Wall // nil until it is measured
}

// Stand stands the form as somebody answered. It ends with ctx: shells that
// overlap take a while.
func (o *Opened) Stand(ctx context.Context, how Stance) (*Standing, error) {
	m, err := Stand(o.Mesh, o.Shells, how)
	if err != nil {
		return nil, err
	}
	s := &Standing{Opened: o, Stance: how, Viewer: NewViewer(m)}
	if s.Skin, err = skinOf(ctx, m, how.OpenFoot); err != nil {
		return nil, err
	}
	s.Ground = GroundOf(s.Skin.Mesh)
	s.Viewer.Closed = o.Seams.Closed()
	return s, nil
}

// skinOf gets a standing mesh ready: an open foot is closed, and neither that nor
// a foot that is to be left open carries metal; nor does a face buried in another
// shell. Shells that overlap, and a skin and its hollow, are cast as one.
func skinOf(ctx context.Context, m *Mesh, openFoot bool) (*Skin, error) {
	size := Measure(m)
	s := &Skin{Mesh: m}
	bare := make([]bool, len(m.Triangles))
	if openFoot {
		bare = footFaces(m, size.Max[2])
	}
	if HasOpenFoot(m) {
		s.Mesh = closeFoot(m)
		for range len(s.Mesh.Triangles) - len(m.Triangles) {
			bare = append(bare, openFoot)
		}
	}
	shells := FindShells(s.Mesh)
	shells.Nest(ctx, s.Mesh)
	if len(shells.List) > 1 {
		s.Body = shells.Bodies()
	}
	if s.Overlap = shells.Overlaps(); s.Overlap {
		buried, err := buriedFaces(ctx, s.Mesh, size.Long())
		if err != nil {
			return nil, err
		}
		for i, b := range buried {
			bare[i] = bare[i] || b
		}
	}
	if slices.Contains(bare, true) {
		s.Bare = bare
	}
	return s, ctx.Err()
}

// Measure measures the wall. first, if not nil, hears a good answer as soon as
// there is one; tell the share of the work done.
func (s *Standing) Measure(ctx context.Context, first func(*Wall), tell func(share float64)) error {
	w, err := MeasureWall(ctx, s.Skin, first, tell)
	if err != nil {
		return err
	}
	s.Wall = w
	return nil
}

// Enclosed is the volume of the form and its centre, both at the size of the
// file, of which size is what was summed: as the profile has them where the signed
// sum cannot be trusted, in a surface that is not closed and in shells that overlap.
func (s *Standing) Enclosed(size Size, p *Profile) (volume float64, centre Vec) {
	if (!s.Opened.Seams.Closed() || s.Skin.Overlap) && p.Volume > 0 {
		return p.Volume, p.Centre(1, p.Reach)
	}
	return size.Volume, size.Centre
}

// Keep gives what is kept of the scan, with the section plan and its ladder. The
// wall must have been measured.
func (s *Standing) Keep(plan Plan, ladder Ladder) *Scan {
	m := s.Skin.Mesh
	size := Measure(m)
	volume, centre := s.Enclosed(size, &s.Wall.Profile)
	notes := s.Opened.Report.Notes
	if s.Skin.Overlap {
		notes = append(slices.Clone(notes), "Shells overlap: the surface is that of the file, of which what is buried in another shell takes no metal; the volume is that of all together.")
	}
	k := &Scan{
		File: s.Opened.Report.Name, SHA256: s.Opened.SHA256, Format: s.Opened.Report.Format, Stance: s.Stance,
		Triangles: len(s.Opened.Mesh.Triangles), Closed: s.Opened.Seams.Closed(),
		Open: s.Opened.Seams.Open, Shared: s.Opened.Seams.Shared, Turned: s.Opened.Seams.Turned,
		Shells: len(s.Opened.Shells.List), Area: size.Area, Volume: volume, Box: size.Box(), Centre: centre,
		Notes: notes, Profile: s.Wall.Profile, Plan: plan, Ladder: ladder,
		Front: OutlineOf(m, Front), Flank: OutlineOf(m, Flank), Balance: s.Ground.Balance(centre),
	}
	var picture bytes.Buffer
	if png.Encode(&picture, s.Viewer.Draw(View{Yaw: 25, Pitch: 8}, 640, 640)) == nil {
		k.Picture = picture.Bytes()
	}
	return k
}
