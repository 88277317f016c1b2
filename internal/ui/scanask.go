package ui

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"meltwright/internal/mesh"
	"meltwright/internal/quantity"
	"meltwright/internal/ui/kit"
)

// scanAsk asks what a scan file cannot say.
type scanAsk struct {
	s      *scanScreen
	head   *kit.Heading
	found  *kit.Prose
	amiss  *kit.CautionBox
	grid   *kit.FieldGrid
	unit   *kit.Field
	up     *kit.Field
	front  *kit.Field
	foot   *kit.Field
	shells *kit.LineTable
	keep   *fyne.Container

	keepFile *kit.Field

	units []mesh.Proposal
	edges [][2]mesh.Vec // open ones of the standing form
}

// ups are the words for which way is up.
var ups = []struct {
	words string
	axis  mesh.Axis
}{
	{"z up", mesh.ZUp},
	{"y up", mesh.YUp},
	{"x up", mesh.XUp},
	{"z down", mesh.ZDown},
	{"y down", mesh.YDown},
	{"x down", mesh.XDown},
}

// fronts are the words for quarter turns.
var fronts = []string{"as it stands", "a quarter turn left", "half a turn", "a quarter turn right"}

func newScanAsk(s *scanScreen) *scanAsk {
	a := &scanAsk{s: s, head: kit.NewHeading("", ""), found: kit.NewProse("")}
	a.amiss = kit.NewCautionBox(kit.Caution{Kind: kit.CautionWarn})
	choice := func(id, label, hint string, given func(text string)) *kit.Field {
		return kit.NewField(kit.FieldSpec{ID: id, Kind: kit.ChoiceField, Label: label, Hint: hint, OnChanged: s.w.guardedText(given)})
	}
	a.unit = choice("scan.unit", "Unit of the file", "", a.giveUnit)
	a.up = choice("scan.up", "Which way is up", "of the file’s axes", a.giveUp)
	a.front = choice("scan.front", "Front turned by", "seen in the picture’s front view", a.giveFront)
	a.foot = kit.NewField(kit.FieldSpec{
		ID: "scan.foot", Kind: kit.CheckField, Label: "Foot", Caption: "open: no metal under it", Default: kit.No,
		OnChanged: s.w.guardedText(func(text string) {
			how := s.how
			how.OpenFoot = text == kit.Yes
			s.answer(how)
		}),
	})
	a.keepFile = a.newKeepField()
	a.grid = kit.NewFieldGrid(a.unit, a.up, a.front, a.foot, a.keepFile)
	a.newShells()
	return a
}

// newShells makes the table of shells, of which each may be kept or left out.
func (a *scanAsk) newShells() {
	a.shells = kit.NewLineTable()
	a.shells.SetHeads("Separate shells", "Triangles", "Surface", "")
	a.shells.OnOpen = a.s.w.guardedText(func(id string) {
		if i, err := strconv.Atoi(id); err == nil {
			a.toggle(i)
		}
	})
	button := func(text string, do func()) *kit.Button { return kit.NewButton(text, kit.Quiet, a.s.w.guarded(do)) }
	a.keep = leading(
		button("Keep it or leave it out", func() {
			if i, err := strconv.Atoi(a.shells.Selected()); err == nil {
				a.toggle(i)
			}
		}),
		button("Keep the largest only", func() { a.giveKeep([]int{0}) }),
		button("Keep all", func() { a.giveKeep(nil) }),
	)
}

func (a *scanAsk) parts() []fyne.CanvasObject {
	return []fyne.CanvasObject{a.head, a.found, a.amiss, a.grid, a.shells, a.keep}
}

func (a *scanAsk) giveUnit(text string) {
	for i, p := range a.units {
		if a.unitWords(i) == text {
			how := a.s.how
			how.Unit = p.Unit
			a.s.answer(how)
			return
		}
	}
}

func (a *scanAsk) giveUp(text string) {
	for _, u := range ups {
		if u.words == text {
			how := a.s.how
			how.Up = u.axis
			a.s.answer(how)
			return
		}
	}
}

func (a *scanAsk) giveFront(text string) {
	how := a.s.how
	how.Turn = max(slices.Index(fronts, text), 0)
	a.s.answer(how)
}

func (a *scanAsk) giveKeep(keep []int) {
	how := a.s.how
	how.Keep = keep
	a.s.answer(how)
}

// toggle keeps a shell that was left out, or leaves it out; the last one stays.
func (a *scanAsk) toggle(i int) {
	var keep []int
	for k := range a.s.opened.Shells.List {
		if a.keeps(k) != (k == i) {
			keep = append(keep, k)
		}
	}
	if len(keep) == 0 {
		a.s.w.say("Something has to be kept.")
		return
	}
	if len(keep) == len(a.s.opened.Shells.List) {
		keep = nil
	}
	a.giveKeep(keep)
}

func (a *scanAsk) keeps(shell int) bool {
	return len(a.s.how.Keep) == 0 || slices.Contains(a.s.how.Keep, shell)
}

// stood takes the heights that units give, and what is open, from the form as it
// stands now.
func (a *scanAsk) stood() {
	s := a.s
	high := s.box.Box()[2] / s.standing.Stance.Unit.Metres
	a.units = mesh.ProposeUnits(high, s.q.targetHeight())
	known := slices.ContainsFunc(a.units, func(p mesh.Proposal) bool { return p.Unit == s.how.Unit })
	if !known {
		a.units = append(a.units, mesh.Proposal{Unit: s.how.Unit, Height: high * s.how.Unit.Metres})
	}
	m := s.standing.Skin.Mesh
	a.edges = nil
	for _, e := range mesh.OpenEdges(m) {
		a.edges = append(a.edges, [2]mesh.Vec{m.Points[e[0]].Vec(), m.Points[e[1]].Vec()})
	}
}

// openEdges are those to be drawn.
func (a *scanAsk) openEdges() [][2]mesh.Vec {
	if a.s.marks.Text() == scanMarks[2] {
		return a.edges
	}
	return nil
}

// unitWords is one unit with the height that the form has in it.
func (a *scanAsk) unitWords(i int) string {
	p := a.units[i]
	return p.Unit.Symbol + ": " + quantity.Print(quantity.KindLength, p.Height, a.s.q.context().System) + " high"
}

func (a *scanAsk) show() {
	s, r := a.s, &a.s.opened.Report
	a.head.Set("What the file cannot say", r.Name+" · "+string(r.Format)+" · "+counted(len(s.opened.Mesh.Triangles), "triangle"))
	a.found.Say(strings.Join(r.Notes, " "))
	amiss := a.amissWords()
	a.amiss.Set(kit.Caution{Kind: kit.CautionWarn, Text: amiss})
	show(a.amiss, amiss != "")
	var words []string
	now := ""
	for i, p := range a.units {
		words = append(words, a.unitWords(i))
		if p.Unit == s.how.Unit {
			now = a.unitWords(i)
		}
	}
	a.unit.SetOptions(words)
	a.unit.SetText(now)
	a.unit.SetHint(a.unitHint())
	var axes []string
	for _, u := range ups {
		axes = append(axes, u.words)
		if u.axis == s.how.Up {
			a.up.SetText(u.words)
		}
	}
	a.up.SetOptions(axes)
	a.front.SetOptions(fronts)
	a.front.SetText(fronts[(s.how.Turn%4+4)%4])
	a.foot.SetText(yesOrNo(s.how.OpenFoot))
	a.showKeep()
	a.showShells()
}

func (a *scanAsk) unitHint() string {
	if a.s.opened.Report.Unit == a.s.how.Unit {
		return "as the file says"
	}
	return "the file does not say; proposed by the height"
}

func yesOrNo(yes bool) string {
	if yes {
		return kit.Yes
	}
	return kit.No
}

// amissWords says what is wrong with the surface, or why it cannot stand.
func (a *scanAsk) amissWords() string {
	if a.s.err != nil {
		return sentence(a.s.err)
	}
	seams := a.s.opened.Seams
	var wrong []string
	for _, x := range []struct {
		n    int
		one  string
		many string
	}{
		{seams.Open, "1 edge is open, the rim of a hole", "%s edges are open, the rims of holes"},
		{seams.Shared, "1 edge is shared by more than two triangles", "%s edges are shared by more than two triangles"},
		{seams.Turned, "1 edge has its faces turned against each other", "%s edges have their faces turned against each other"},
	} {
		switch {
		case x.n == 1:
			wrong = append(wrong, x.one)
		case x.n > 1:
			wrong = append(wrong, fmt.Sprintf(x.many, quantity.Number(float64(x.n), 0)))
		}
	}
	if len(wrong) == 0 {
		return ""
	}
	return "The surface is not closed: " + strings.Join(wrong, "; ") + ". What is inside is told by how far the surface winds round a point, so that the volume holds in spite of it; small holes do no harm, large ones do."
}

// showShells lists the separate shells, as many as anybody looks at.
func (a *scanAsk) showShells() {
	const most = 40
	list := a.s.opened.Shells.List
	several := len(list) > 1
	show(a.shells, several)
	show(a.keep, several)
	if !several {
		return
	}
	unit := a.s.how.Unit.Metres
	var lines []kit.Line
	for i, sh := range list[:min(len(list), most)] {
		name := fmt.Sprintf("Shell %d, %s", i+1, sh.Nesting)
		kept := "kept"
		if !a.keeps(i) {
			kept = "left out"
		}
		area, areaUnit, _ := strings.Cut(quantity.Print(quantity.KindArea, sh.Size.Area*unit*unit, a.s.q.context().System), " ")
		lines = append(lines, kit.Line{ID: strconv.Itoa(i), Name: name, Quantity: quantity.Number(float64(sh.Triangles), 0), Rate: area, Per: areaUnit, Cost: kept})
	}
	if rest := len(list) - most; rest > 0 {
		lines = append(lines, kit.Line{ID: "rest", Kind: kit.LineSubtotal, Name: counted(rest, "smaller shell") + " more"})
	}
	a.shells.SetLines(lines)
	if a.shells.Selected() == "" {
		a.shells.Select("0")
	}
}
