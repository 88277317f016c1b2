package main

import (
	"context"
	"fmt"
	"io"
	"strings"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/field"
	"meltwright/internal/mesh"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

type (
	scanJSON struct {
		File         string        `json:"file"`
		Format       mesh.Format   `json:"format"`
		SHA256       string        `json:"sha256"`
		Unit         string        `json:"unit"`
		Up           mesh.Axis     `json:"up"`
		OpenFoot     bool          `json:"open_foot"`
		Triangles    int           `json:"triangles"`
		Closed       bool          `json:"closed"`
		OpenEdges    int           `json:"open_edges"`
		Shared       int           `json:"shared_edges"`
		Turned       int           `json:"turned_edges"`
		Shells       int           `json:"shells"`
		AreaM2       float64       `json:"area_m2"`
		VolumeM3     float64       `json:"volume_m3"`
		BoxM         [3]float64    `json:"box_m"`
		HeightM      float64       `json:"height_m"`
		Scale        float64       `json:"scale"`
		WallMm       float64       `json:"wall_mm"`
		WallMetal    float64       `json:"wall_metal_m3"`
		AreaByWall   float64       `json:"area_times_wall_m3"`
		MetalError   float64       `json:"wall_metal_error"`
		FinishedKg   float64       `json:"finished_kg"`   // with as-cast thickening
		ThickerShare float64       `json:"thicker_share"` // as cast, than modelled
		SolidShare   float64       `json:"solid_share"`
		TipDegrees   float64       `json:"tip_degrees"`
		WeldM        float64       `json:"weld_m"`
		Sections     []sectionJSON `json:"sections"`
		Notes        []string      `json:"notes"`
	}
	sectionJSON struct {
		AreaM2     float64    `json:"area_m2"`
		FinishedKg float64    `json:"finished_kg"`
		PouredKg   float64    `json:"poured_kg"`
		WeldM      float64    `json:"weld_m"`
		BoxM       [3]float64 `json:"box_m"`
		TooLarge   bool       `json:"too_large"` // for the crucible, tank or kiln of the shop book
	}
)

// scanAsk is what a scan is measured for.
type scanAsk struct {
	height, wall float64 // metres; height 0 is as scanned
	alloy        shop.Alloy
	limits       mesh.Limits
	gating       float64
	thicker      float64 // as cast, than modelled
}

// runScan measures a scan file.
func runScan(ctx context.Context, out io.Writer, args []string) error {
	rest, opt, err := parseOptions(args, []string{"--unit", "--up", "--height", "--wall", "--alloy", "--db"}, []string{"--json", "--open-foot", "--closed-foot"})
	if err != nil {
		return err
	}
	if len(rest) != 1 {
		return usageError("it takes one scan file")
	}
	ask, err := askOf(ctx, opt)
	if err != nil {
		return err
	}
	s, err := stood(ctx, rest[0], opt, ask.height)
	if err != nil {
		return err
	}
	k, err := measured(ctx, s, ask)
	if err != nil {
		return err
	}
	j := scanned(k, ask)
	if opt["--json"] != "" {
		return writeJSON(out, j)
	}
	return printScan(out, j)
}

// askOf reads height, wall and alloy.
func askOf(ctx context.Context, opt map[string]string) (scanAsk, error) {
	var ask scanAsk
	var faults fault.List
	length := func(flag, label string) float64 {
		if opt[flag] == "" {
			return 0
		}
		d := field.Def{Label: label, Kind: quantity.KindLength, Bounds: field.AboveZero}
		if flag == "--wall" {
			d.Bare = [2]string{"mm", "in"}
		}
		v, err := d.Read(opt[flag], field.Context{})
		faults = append(faults, fault.All(err)...)
		return v.Num
	}
	ask.height, ask.wall = length("--height", "Height"), length("--wall", "Wall thickness")
	s, err := bookOf(ctx, opt["--db"])
	if err != nil {
		return ask, err
	}
	if ask.wall == 0 {
		ask.wall = s.Num(shop.Wall)
	}
	ask.alloy = s.Alloys[0]
	if name := opt["--alloy"]; name != "" {
		var found bool
		if ask.alloy, found = alloyNamed(s, name); !found {
			faults = append(faults, fault.Fault{Field: "Alloy", Value: name, Problem: "is not in the shop book", Remedy: "give one such as " + s.Alloys[0].Name})
		}
	}
	ask.gating, ask.thicker = s.Num(shop.GatingShare), s.Num(shop.Thickening)
	c := estimate.Commission{Pieces: []estimate.Piece{{Inputs: map[string]string{"form.alloy": ask.alloy.Name}}}}
	ask.limits = estimate.SectionLimits(c, s, 0)
	return ask, faults.Err()
}

// alloyNamed finds an alloy by its name or by the beginning of it.
func alloyNamed(s *shop.Shop, name string) (shop.Alloy, bool) {
	for _, a := range s.Alloys {
		if strings.HasPrefix(strings.ToLower(a.Name), strings.ToLower(name)) {
			return a, true
		}
	}
	return shop.Alloy{}, false
}

// stood opens a scan and stands it, by what was answered or else proposed.
func stood(ctx context.Context, path string, opt map[string]string, height float64) (*mesh.Standing, error) {
	o, err := mesh.OpenScan(ctx, path, nil)
	if err != nil {
		return nil, err
	}
	answer := estimate.ScanFile{Unit: opt["--unit"], Up: opt["--up"]}
	if opt["--open-foot"] != "" || opt["--closed-foot"] != "" {
		open := opt["--open-foot"] != ""
		answer.OpenFoot = &open
	}
	how, err := answer.Answer(o.Propose(height))
	if err != nil {
		return nil, err
	}
	return o.Stand(ctx, how)
}

// measured measures the wall and plans the sections.
func measured(ctx context.Context, s *mesh.Standing, ask scanAsk) (*mesh.Scan, error) {
	if err := s.Measure(ctx, nil, nil); err != nil {
		return nil, err
	}
	scale := 1.0
	if high := mesh.Measure(s.Skin.Mesh).Box()[2]; ask.height > 0 && high > 0 {
		scale = ask.height / high
	}
	plan, err := s.Wall.Plan(ctx, scale, ask.wall, ask.limits)
	if err != nil {
		return nil, err
	}
	ladder, err := s.Wall.Ladder(ctx, plan)
	if err != nil {
		return nil, err
	}
	return s.Keep(plan, ladder), nil
}

func scanned(k *mesh.Scan, ask scanAsk) scanJSON {
	scale := 1.0
	if ask.height > 0 {
		scale = ask.height / k.Height()
	}
	metal, plan := k.Profile.Metal(scale, ask.wall), k.PlanAt(scale, ask.wall, ask.limits)
	perCubicMetre := float64(ask.alloy.Density) * (1 + ask.thicker) // as the estimate has it
	j := scanJSON{
		File: k.File, Format: k.Format, SHA256: k.SHA256, Unit: k.Stance.Unit.Symbol, Up: k.Stance.Up, OpenFoot: k.Stance.OpenFoot,
		Triangles: k.Triangles, Closed: k.Closed, OpenEdges: k.Open, Shared: k.Shared, Turned: k.Turned, Shells: k.Shells,
		AreaM2: tidy(k.Area * scale * scale), VolumeM3: tidy(k.Volume * scale * scale * scale), HeightM: tidy(k.Height() * scale), Scale: tidy(scale),
		WallMm: tidy(ask.wall * 1000), WallMetal: tidy(metal), AreaByWall: tidy(k.Profile.Area * scale * scale * ask.wall), MetalError: tidy(k.Profile.Error),
		FinishedKg: tidy(metal * perCubicMetre), ThickerShare: ask.thicker, SolidShare: tidy(k.Profile.SolidShare(scale, ask.wall)),
		TipDegrees: tidy(k.Balance.Tip), WeldM: tidy(plan.Weld), Sections: []sectionJSON{}, Notes: k.Notes,
	}
	if j.Notes == nil {
		j.Notes = []string{}
	}
	for i := range 3 {
		j.BoxM[i] = tidy(k.Box[i] * scale)
	}
	for i, s := range plan.Sections {
		kg := s.Metal * perCubicMetre
		j.Sections = append(j.Sections, sectionJSON{tidy(s.Area), tidy(kg), tidy(kg * (1 + ask.gating)), tidy(s.Weld), [3]float64{tidy(s.Box[0]), tidy(s.Box[1]), tidy(s.Box[2])}, plan.Over[i]})
	}
	return j
}

func printScan(w io.Writer, j scanJSON) error {
	p := &printer{w: w}
	p.f("%s: %s, %s, %s, %s; unit %s, %s up\n", j.File, j.Format, counted(j.Triangles, "triangle"), closedWords(j), counted(j.Shells, "shell"), j.Unit, j.Up)
	for _, n := range j.Notes {
		p.f("  %s\n", n)
	}
	p.f("%.3f m high, surface %.4g m², encloses %.4g m³\n", j.HeightM, j.AreaM2, j.VolumeM3)
	p.f("wall %.4g mm: %.4g L of metal (surface × wall would give %.4g L), %.4g kg finished, %.3g %% thicker as cast than modelled; %.1f %% casts solid\n", j.WallMm, j.WallMetal*1000, j.AreaByWall*1000, j.FinishedKg, j.ThickerShare*100, j.SolidShare*100)
	p.f("%s, %.3g m of weld\n", counted(len(j.Sections), "section"), j.WeldM)
	for i, s := range j.Sections {
		remark := ""
		if s.TooLarge {
			remark = "  too large for the shop"
		}
		p.f("  %2d  %6.3f m²  %7.2f kg finished  %7.2f kg poured  %.2f m of weld%s\n", i+1, s.AreaM2, s.FinishedKg, s.PouredKg, s.WeldM, remark)
	}
	if j.TipDegrees > 0 {
		p.f("leans %.0f degrees before it tips on its own foot", j.TipDegrees)
	} else {
		p.f("tips by itself on its own foot")
	}
	p.f(": the frame and anchors need an engineer\n")
	return p.err
}

func closedWords(j scanJSON) string {
	if j.Closed {
		return "closed"
	}
	return fmt.Sprintf("%d open edges, %d shared, %d turned", j.OpenEdges, j.Shared, j.Turned)
}

// bookOf is the shop book of the store that --db names, or the starting one.
func bookOf(ctx context.Context, db string) (*shop.Shop, error) {
	if db == "" {
		return shop.Read(shop.Start())
	}
	var s *shop.Shop
	err := atExisting(ctx, db, func(d *desk.Desk) error { s = d.Shop(); return nil })
	return s, err
}
