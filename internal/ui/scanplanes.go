package ui

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/fault"
	"meltwright/internal/mesh"
	"meltwright/internal/quantity"
	"meltwright/internal/ui/kit"
)

// scanPlanes is the section plan: the planes that cut the form, to be proposed,
// added, moved and dropped, and what each section holds.
type scanPlanes struct {
	s      *scanScreen
	head   *kit.Heading
	bar    *fyne.Container
	state  *kit.Prose
	rows   *rowsEditor
	fields map[string]*kit.Field
	near   *kit.Field
	shown  *scanSections

	list   []*scanPlane
	own    bool // somebody placed, moved or dropped planes; else they are proposed
	plan   mesh.Plan
	good   bool        // plan is that of the planes as they are
	ladder mesh.Ladder // the same at every other size
	whole  bool        // ladder is that of plan
	busy   bool        // planes are being sought
}

func newScanPlanes(s *scanScreen) *scanPlanes {
	p := &scanPlanes{s: s, state: kit.NewProse(""), fields: map[string]*kit.Field{}}
	p.head = kit.NewHeading("", "Section plan: the planes that cut the piece into castings")
	p.bar = leading(
		kit.NewButton("Propose planes", kit.Plain, s.w.guarded(s.propose)).WithIcon(theme.IconNameContentCut),
		kit.NewButton("Drop all planes", kit.Quiet, s.w.guarded(func() { p.change(func() { p.set(nil) }) })),
	)
	for _, f := range []struct{ key, label, hint string }{
		{planeHeight, "Height of the plane", "above the foot, on the upright through the middle"},
		{planeTilt, "Tilted by", "0° lies level, 90° stands upright"},
		{planeTowards, "Tilted towards", "0° is the right as seen from the front, 90° the back, 180° the left"},
		{planeShift, "Moved across by", "the way that it faces"},
	} {
		p.fields[f.key] = p.newField(f.key, f.label, f.hint)
	}
	p.near = kit.NewField(kit.FieldSpec{ID: "plane.near", Kind: kit.ChoiceField, Label: "It cuts", OnChanged: s.w.guardedText(p.giveNear)})
	grid := kit.NewFieldGrid(p.fields[planeHeight], p.fields[planeTilt], p.fields[planeTowards], p.fields[planeShift], p.near)
	p.rows = newRowsEditor(s.w, grid, rowActions{
		add: p.add, addText: "Add a plane",
		remove: func(i int) { p.list = slices.Delete(p.list, i, i+1) }, removeText: "Drop this plane",
	}, p.change, s.show)
	p.rows.table.SetHeads("Planes", "Height", "Weld", "")
	p.shown = newScanSections(p)
	return p
}

func (p *scanPlanes) newField(key, label, hint string) *kit.Field {
	return kit.NewField(kit.FieldSpec{
		ID: "plane." + key, Label: label, Hint: hint,
		Understand: func(text string) (string, string) {
			if _, err := readPart(key, text, p.system()); err != nil {
				return "", fault.All(err)[0].Short()
			}
			return "", ""
		},
		OnChanged: p.s.w.guardedText(func(text string) {
			p.move(func() { p.chosen().give(key, text, p.scale(), p.system()) })
		}),
	})
}

func (p *scanPlanes) parts() []fyne.CanvasObject {
	parts := []fyne.CanvasObject{p.head, p.bar, p.state}
	parts = append(parts, p.rows.parts()...)
	return append(parts, p.shown.parts()...)
}

func (p *scanPlanes) system() quantity.System { return p.s.q.context().System }

// scale is that of the piece, or that of the file while nothing is measured.
func (p *scanPlanes) scale() float64 {
	if scale, _, ok := p.s.numbers.size(); ok {
		return scale
	}
	return 1
}

func (p *scanPlanes) chosen() *scanPlane { return p.list[p.rows.chosen] }

// take begins with the planes that the same scan was kept with.
func (p *scanPlanes) take(was *mesh.Scan, o *mesh.Opened) {
	if was != nil && was.SHA256 == o.SHA256 {
		p.set(was.Plan.Cuts)
		p.own = !was.Plan.Proposed
	}
}

// set puts other planes in the place of those there are.
func (p *scanPlanes) set(cuts []mesh.Cut) {
	p.list = nil
	for _, c := range cuts {
		p.list = append(p.list, planeOf(c))
	}
	slices.SortStableFunc(p.list, func(a, b *scanPlane) int {
		switch {
		case a.height > b.height:
			return -1
		case a.height < b.height:
			return 1
		}
		return 0
	})
	p.unweigh()
}

// unweigh forgets what was weighed along other planes.
func (p *scanPlanes) unweigh() {
	p.good, p.whole, p.ladder = false, false, mesh.Ladder{}
}

// add puts a level plane into the middle of the tallest stretch without one.
func (p *scanPlanes) add() int {
	levels := []float64{0, p.s.box.Box()[2]}
	for _, x := range p.list {
		if x.tilt < 45 {
			levels = append(levels, x.height)
		}
	}
	slices.Sort(levels)
	height, most := 0.0, 0.0
	for i := range len(levels) - 1 {
		if gap := levels[i+1] - levels[i]; gap > most {
			height, most = levels[i]+gap/2, gap
		}
	}
	p.list = append(p.list, newScanPlane(height))
	return len(p.list) - 1
}

// change adds or drops planes, and has the sections weighed.
func (p *scanPlanes) change(f func()) {
	f()
	p.again()
	p.s.plan()
}

// move moves a plane; the sections are weighed when it stays where it is.
func (p *scanPlanes) move(f func()) {
	f()
	p.again()
	if p.s.wall != nil {
		p.s.soon(p.s.plan)
	}
}

// again shows the planes as somebody wants them now.
func (p *scanPlanes) again() {
	p.own = true
	p.unweigh()
	p.s.plans.stop()
	p.busy = false
	p.s.trace()
	p.s.show()
}

// restand takes the planes along when the form is that much larger than before;
// near says whether it stands as it did.
func (p *scanPlanes) restand(grown float64, near bool) {
	p.plan = mesh.Plan{}
	p.unweigh()
	if !(grown > 0) || math.IsInf(grown, 0) {
		return
	}
	for _, x := range p.list {
		x.height, x.shift = x.height*grown, x.shift*grown
		x.loops, x.texts = nil, map[string]typedAt{}
		if !near {
			x.near = nil
		}
		for i := range x.near {
			x.near[i] = x.near[i].Mul(grown)
		}
	}
}

// cuts are the planes as they cut.
func (p *scanPlanes) cuts() []mesh.Cut {
	var cuts []mesh.Cut
	for _, x := range p.list {
		cuts = append(cuts, x.cut())
	}
	return cuts
}

// weighed takes the sections along the planes as they are now.
func (p *scanPlanes) weighed(plan mesh.Plan) {
	other := len(plan.Sections) != len(p.plan.Sections)
	p.unweigh()
	p.plan, p.good = plan, true
	if order := p.shown.fromTop(); other && len(order) > 0 {
		p.shown.chosen = order[0]
	}
}

// traced takes the outlines of the planes, the longest of each first.
func (p *scanPlanes) traced(loops [][]mesh.Loop) {
	for i, x := range p.list {
		if i < len(loops) {
			slices.SortStableFunc(loops[i], func(a, b mesh.Loop) int {
				switch {
				case a.Length > b.Length:
					return -1
				case a.Length < b.Length:
					return 1
				}
				return 0
			})
			x.loops = loops[i]
		}
	}
}

// tints shows the chosen section in bronze and the others dull.
func (p *scanPlanes) tints(n int) []mesh.Tint {
	if !p.good {
		return nil
	}
	out := make([]mesh.Tint, n)
	for i := range out {
		if i >= len(p.plan.Faces) || int(p.plan.Faces[i]) != p.shown.chosen {
			out[i] = mesh.Dull
		}
	}
	return out
}

func (p *scanPlanes) show() {
	switch {
	case p.busy:
		p.state.Say("Planes are being sought …")
	case len(p.list) == 0:
		p.state.Say("Without planes the estimate splits the piece into equal patches, by crucible and shell tank.")
	default:
		p.state.Say("")
	}
	var lines []kit.Line
	for i, x := range p.list {
		lines = append(lines, p.line(i, x))
	}
	if p.rows.show(lines) {
		p.showChosen()
	}
	p.shown.show()
}

func (p *scanPlanes) line(i int, x *scanPlane) kit.Line {
	name := fmt.Sprintf("Plane %d, level", i+1)
	if x.tilt != 0 {
		name = fmt.Sprintf("Plane %d, tilted %s°", i+1, quantity.Significant(x.tilt, 3))
	}
	if len(x.near) > 0 {
		name += ", a part of what it meets"
	}
	number, unit, _ := strings.Cut(quantity.Print(quantity.KindLength, x.height*p.scale(), p.system()), " ")
	line := kit.Line{Name: name, Quantity: number, Unit: unit}
	if x.tilt == 90 {
		line.Quantity, line.Unit = "", "" // it stands upright: it crosses at no height
	}
	if length := x.weld(); length > 0 {
		line.Rate, line.Per, _ = strings.Cut(quantity.Print(quantity.KindLength, length*p.scale(), p.system()), " ")
	}
	return line
}

func (p *scanPlanes) showChosen() {
	x := p.chosen()
	for key, f := range p.fields {
		f.SetText(x.text(key, p.scale(), p.system()))
		f.SetVisible(x.tilt != 0 || key == planeHeight || key == planeTilt)
	}
	words := p.nearWords(x)
	p.near.SetOptions(words)
	p.near.SetText(words[0])
	if picked := x.picked(); len(picked) == 1 {
		p.near.SetText(words[picked[0]+1])
	} else if len(picked) > 1 {
		p.near.SetText(fmt.Sprintf("%d of its outlines", len(picked)))
	}
	p.near.SetVisible(len(x.loops) > 1 || len(x.near) > 0)
}

// nearWords are what a plane may cut: everything, or one of its outlines.
func (p *scanPlanes) nearWords(x *scanPlane) []string {
	words := []string{"everything it meets"}
	for i, l := range x.loops {
		words = append(words, fmt.Sprintf("outline %d, %s round", i+1, quantity.Print(quantity.KindLength, l.Length*p.scale(), p.system())))
	}
	return words
}

func (p *scanPlanes) giveNear(text string) {
	x := p.chosen()
	at := slices.Index(p.nearWords(x), text)
	p.change(func() {
		x.near = nil
		if at > 0 {
			x.near = x.loops[at-1].Points[:1]
		}
	})
}
