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

// scanSections shows what each section of the plan holds, and which are more
// than the shop can pour or dip.
type scanSections struct {
	p      *scanPlanes
	table  *kit.LineTable
	about  *kit.Prose
	over   *kit.CautionBox
	chosen int
}

func newScanSections(p *scanPlanes) *scanSections {
	v := &scanSections{p: p, table: kit.NewLineTable(), about: kit.NewProse("")}
	v.over = kit.NewCautionBox(kit.Caution{Kind: kit.CautionWarn})
	v.table.SetHeads("Sections, from the top", "Surface", "Finished", "Poured")
	v.table.OnSelect = p.s.w.guardedText(func(id string) {
		v.chosen, _ = strconv.Atoi(id)
		p.s.tint()
		p.s.show()
	})
	return v
}

func (v *scanSections) parts() []fyne.CanvasObject {
	return []fyne.CanvasObject{v.table, v.about, v.over}
}

func (v *scanSections) show() {
	n := v.p.s.numbers
	scale, wall, ok := n.size()
	ready := ok && v.p.good && len(v.p.plan.Sections) > 0
	show(v.table, ready)
	show(v.over, false)
	if !ready {
		v.about.Say("")
		if len(v.p.list) > 0 && n.s.wall != nil && n.s.err == nil && n.tried.err == nil {
			v.about.Say("The sections are being weighed …")
		}
		return
	}
	v.chosen = max(0, min(v.chosen, len(v.p.plan.Sections)-1))
	v.showTable(scale, wall)
	v.about.Say(v.words(scale, wall))
	if text := v.tooMuch(scale, wall); text != "" {
		v.over.Set(kit.Caution{Kind: kit.CautionWarn, Text: text})
		show(v.over, true)
	}
}

// fromTop are the sections' numbers in the order in which they are listed.
func (v *scanSections) fromTop() []int {
	list := v.p.plan.Sections
	order := make([]int, len(list))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		x, y := list[a].Min[2]+list[a].Max[2], list[b].Min[2]+list[b].Max[2]
		switch {
		case x > y:
			return -1
		case x < y:
			return 1
		}
		return 0
	})
	return order
}

// weights are what section i weighs, finished and poured, in kg.
func (v *scanSections) weights(at mesh.SectionAt, whole float64) (finished, poured float64) {
	r := v.p.s.numbers.tried.piece
	share := at.Metal / max(whole, 1e-300)
	return float64(r.Finished) * share, float64(r.Poured) * share
}

func (v *scanSections) showTable(scale, wall float64) {
	sys, profile := v.p.system(), &v.p.s.wall.Profile
	whole := profile.Metal(scale, wall)
	var lines []kit.Line
	var area, finished, poured float64
	for k, i := range v.fromTop() {
		at := v.p.plan.Sections[i].At(profile, scale, wall)
		f, p := v.weights(at, whole)
		area, finished, poured = area+at.Area, finished+f, poured+p
		lines = append(lines, weighed(strconv.Itoa(i), fmt.Sprintf("Section %d", k+1), at.Area, f, p, sys))
	}
	total := weighed("all", "All sections", area, finished, poured, sys)
	total.Kind = kit.LineTotal
	v.table.SetLines(append(lines, total))
	v.table.Select(strconv.Itoa(v.chosen))
}

func weighed(id, name string, area, finished, poured float64, sys quantity.System) kit.Line {
	l := kit.Line{ID: id, Name: name, Cost: quantity.Print(quantity.KindMass, poured, sys)}
	l.Quantity, l.Unit, _ = strings.Cut(quantity.Print(quantity.KindArea, area, sys), " ")
	l.Rate, l.Per, _ = strings.Cut(quantity.Print(quantity.KindMass, finished, sys), " ")
	return l
}

// words say the size of the chosen section, its seams and those of all.
func (v *scanSections) words(scale, wall float64) string {
	sys := v.p.system()
	length := func(x float64) string { return quantity.Print(quantity.KindLength, x, sys) }
	at := v.p.plan.Sections[v.chosen].At(&v.p.s.wall.Profile, scale, wall)
	text := fmt.Sprintf("Section %d is %s wide, %s deep and %s high.", slices.Index(v.fromTop(), v.chosen)+1, length(at.Box[0]), length(at.Box[1]), length(at.Box[2]))
	if at.Weld > 0 {
		text += fmt.Sprintf(" It is welded along %s; all seams together are %s.", length(2*at.Weld), length(v.p.plan.Weld*scale))
	}
	return text
}

// tooMuch names the sections that are more than the crucible pours, or than tank
// or kiln take.
func (v *scanSections) tooMuch(scale, wall float64) string {
	n := v.p.s.numbers
	sys, profile, limits := v.p.system(), &v.p.s.wall.Profile, n.limits()
	whole := profile.Metal(scale, wall)
	var said []string
	for k, i := range v.fromTop() {
		at := v.p.plan.Sections[i].At(profile, scale, wall)
		_, poured := v.weights(at, whole)
		if usable := float64(n.tried.estimate.Usable); limits.Metal > 0 && at.Metal > limits.Metal*(1+1e-9) {
			said = append(said, fmt.Sprintf("Section %d takes %s of metal, and the crucible pours %s.", k+1, quantity.Print(quantity.KindMass, poured, sys), quantity.Print(quantity.KindMass, usable, sys)))
		}
		if limits.Area > 0 && at.Area > limits.Area*(1+1e-9) {
			said = append(said, fmt.Sprintf("Section %d has %s of surface, and the shell tank takes %s.", k+1, quantity.Print(quantity.KindArea, at.Area, sys), quantity.Print(quantity.KindArea, limits.Area, sys)))
		}
		if !limits.HasRoom(at.Box) {
			said = append(said, fmt.Sprintf("Section %d does not go into slurry tank and kiln.", k+1))
		}
	}
	if len(said) == 0 {
		return ""
	}
	const most = 6
	if more := len(said) - most; more > 0 {
		said = append(said[:most], fmt.Sprintf("And %d more.", more))
	}
	return strings.Join(said, " ") + " The estimate splits such sections further; propose planes, or move them."
}
