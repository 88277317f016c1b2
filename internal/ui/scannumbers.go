package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"

	"meltwright/internal/estimate"
	"meltwright/internal/mesh"
	"meltwright/internal/quantity"
	"meltwright/internal/ui/kit"
)

// scanNumbers says what the form comes to at the height and the wall that the
// piece is to have.
type scanNumbers struct {
	s      *scanScreen
	head   *kit.Heading
	inputs [2]*input
	grid   *kit.FieldGrid
	state  *kit.Prose
	table  *kit.LineTable
	stand  *kit.CautionBox

	tried tried
}

// tried is the estimate as it would be with the scan.
type tried struct {
	estimate *estimate.Estimate
	piece    estimate.PieceResult
	err      error
	ok       bool
}

func newScanNumbers(s *scanScreen) *scanNumbers {
	n := &scanNumbers{s: s, head: kit.NewHeading("", "At the height and the wall of the piece"), state: kit.NewProse(""), table: kit.NewLineTable()}
	n.stand = kit.NewCautionBox(kit.Caution{})
	for i, path := range []string{"form.height", "form.wall"} {
		n.inputs[i] = n.newInput(path)
	}
	n.grid = kit.NewFieldGrid(n.inputs[0].field, n.inputs[1].field)
	n.table.SetHeads("What it comes to, one cast", "", "", "")
	return n
}

// newInput makes a field for an input of the piece, the same as on the form page.
func (n *scanNumbers) newInput(path string) *input {
	f, _ := estimate.FieldByPath(path, true)
	in := &input{def: f}
	in.field = kit.NewField(kit.FieldSpec{
		ID: path, Label: f.Label, Hint: f.Hint,
		Understand: func(text string) (string, string) { return understand(f.Def, text, n.s.q.context()) },
		OnChanged: n.s.w.guardedText(func(text string) {
			n.s.edit(func() { n.s.q.sheet.Set(n.s.piece, path, text) })
			n.s.tint()
			n.s.resized()
		}),
	})
	return in
}

func (n *scanNumbers) parts() []fyne.CanvasObject {
	return []fyne.CanvasObject{n.head, n.grid, n.state, n.table, n.stand}
}

// try estimates the commission with the scan as it is measured so far.
func (n *scanNumbers) try() {
	s := n.s
	n.tried = tried{}
	if s.wall == nil {
		return
	}
	c := s.q.sheet.Commission().Clone()
	p := &c.Pieces[s.piece]
	p.Scan = &mesh.Scan{File: s.opened.Report.Name, Stance: s.how, Box: s.box.Box(), Profile: s.wall.Profile}
	if s.planes.good {
		p.Scan.Plan, p.Scan.Ladder = s.planes.plan, s.planes.ladder
	}
	if p.Inputs == nil {
		p.Inputs = map[string]string{}
	}
	p.Inputs["form.known_by"] = "scan"
	delete(p.Inputs, "form.sections")
	delete(p.Inputs, "form.weld")
	t := &n.tried
	t.estimate, t.err = estimate.Of(c, s.w.desk.Shop())
	if t.err == nil && s.piece < len(t.estimate.Pieces) {
		t.piece, t.ok = t.estimate.Pieces[s.piece], true
	}
}

// size is the scale and the wall that the piece is to have; false while there is
// nothing measured, or something wrong.
func (n *scanNumbers) size() (scale, wall float64, ok bool) {
	return n.tried.piece.Scale, float64(n.tried.piece.Wall), n.tried.ok && n.s.wall != nil
}

// limits are what one section may be: what the crucible pours, less its gating,
// and what tank and kiln take.
func (n *scanNumbers) limits() mesh.Limits {
	scale, wall, ok := n.size()
	if !ok {
		return mesh.Limits{}
	}
	l := estimate.SectionLimits(n.s.q.sheet.Commission(), n.s.w.desk.Shop(), n.s.piece)
	if poured := float64(n.tried.piece.Poured); poured > 0 {
		l.Metal = n.s.wall.Profile.Metal(scale, wall) * float64(n.tried.estimate.Usable) / poured
	}
	return l
}

func (n *scanNumbers) show() {
	n.try()
	n.showInputs()
	n.tell()
	show(n.table, n.tried.ok)
	show(n.stand, n.tried.ok)
	if n.tried.ok {
		n.table.SetLines(n.lines())
		n.stand.Set(n.balance())
	}
}

func (n *scanNumbers) showInputs() {
	st, _ := estimate.StageByID("form")
	for _, e := range n.s.q.sheet.Entries(st, n.s.piece) {
		for i, in := range n.inputs {
			if in.def != e.Field {
				continue
			}
			in.show(n.s.q, e)
			if i == 0 && e.Typed == "" {
				as := quantity.Print(quantity.KindLength, n.s.box.Box()[2], n.s.q.context().System)
				in.field.SetDefault(as, "as scanned")
				in.field.SetFault("")
			}
		}
	}
}

// tell says how far the measuring is, or how sure its answer.
func (n *scanNumbers) tell() {
	s := n.s
	switch {
	case s.err != nil:
		n.state.Say("Nothing could be measured.")
	case s.wall == nil:
		n.state.Say(fmt.Sprintf("Being measured … %.0f %%", 100*s.share))
	case n.tried.err != nil:
		n.state.Say("The weights wait for something to be put right: " + sentence(n.tried.err))
	case !s.refined:
		n.state.Say(fmt.Sprintf("A first answer, to within %s; being refined … %.0f %%", perCent(s.wall.Profile.Error), 100*s.share))
	default:
		n.state.Say("Measured below the skin, to within " + perCent(s.wall.Profile.Error) + ".")
	}
}

func perCent(share float64) string { return quantity.Significant(100*share, 2) + " %" }

// lines are the figures at the size of the piece.
func (n *scanNumbers) lines() []kit.Line {
	sys, p, r := n.s.q.context().System, &n.s.wall.Profile, n.tried.piece
	line := func(name string, k quantity.Kind, v float64) kit.Line {
		number, unit, _ := strings.Cut(quantity.Print(k, v, sys), " ")
		return kit.Line{ID: name, Name: name, Quantity: number, Unit: unit}
	}
	scale, wall, _ := n.size()
	volume, _ := n.s.standing.Enclosed(n.s.box, p)
	lines := []kit.Line{
		line("Height", quantity.KindLength, float64(r.Height)),
		line("Scale", quantity.KindFactor, scale),
		line("Surface", quantity.KindArea, float64(r.Area)),
		line("Volume enclosed", quantity.KindVolume, volume*scale*scale*scale),
		line("Metal in the wall", quantity.KindVolume, p.Metal(scale, wall)),
		line("Finished bronze", quantity.KindMass, float64(r.Finished)),
		line("Surface × wall would give", quantity.KindMass, n.surfaceTimesWall()),
		line("Metal poured", quantity.KindMass, float64(r.Poured)),
		line("Share of the form that casts solid", quantity.KindShare, round3(p.SolidShare(scale, wall))),
	}
	price := kit.Line{ID: "price", Kind: kit.LineSubtotal, Name: "Price of the quote with this scan", Cost: headline(n.tried.estimate)}
	return append(lines, price)
}

// surfaceTimesWall is what the finished bronze would weigh, in kg, if its metal
// were its surface times its wall.
func (n *scanNumbers) surfaceTimesWall() float64 {
	scale, wall, _ := n.size()
	metal := n.s.wall.Profile.Metal(scale, wall)
	return float64(n.tried.piece.Finished) * float64(n.tried.piece.Area) * wall / max(metal, 1e-300)
}

func round3(v float64) float64 { return float64(int(v*1000+0.5)) / 1000 }

// balance is a flag for the engineer, never a design.
func (n *scanNumbers) balance() kit.Caution {
	scale, wall, _ := n.size()
	b := n.s.standing.Ground.Balance(n.s.wall.Profile.Centre(scale, wall).Mul(1 / scale))
	high := quantity.Print(quantity.KindLength, b.Centre[2]*scale, n.s.q.context().System)
	lean := fmt.Sprintf("it tips when it leans by %.1f°", b.Tip)
	kind := kit.CautionNote
	if !(b.Inside > 0) {
		lean, kind = "that is not over its foot, and without anchors it tips by itself", kit.CautionWarn
	}
	return kit.Caution{Kind: kind, Text: "The centre of mass of the bronze lies " + high + " above the foot; " + lean +
		". The frame and the anchors need an engineer: nothing here knows of wind, of people who climb, or of what the ground bears."}
}
