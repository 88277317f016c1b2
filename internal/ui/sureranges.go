package ui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"meltwright/internal/fault"
	"meltwright/internal/quantity"
	"meltwright/internal/risk"
	"meltwright/internal/ui/kit"
)

// sureRanges lists what varies, and takes the user's own three points for the
// one that is chosen.
type sureRanges struct {
	q       *quoteScreen
	title   *kit.Heading
	table   *kit.LineTable
	points  [3]*kit.Field // low, likely, high
	grid    *kit.FieldGrid
	usual   *kit.Button
	stray   *kit.Prose
	drop    *kit.Button
	factors []risk.Factor
	faults  fault.List
	chosen  string // the Where of the factor whose points are shown
}

func newSureRanges(q *quoteScreen) *sureRanges {
	r := &sureRanges{q: q, table: titled("What may turn out otherwise", "Low", "Likely", "High"), stray: kit.NewProse("")}
	r.title = kit.NewHeading("", "Each as a share of what is estimated. Choose a line, and open it, to give it three points of your own")
	r.table.OnSelect = q.w.guardedText(func(id string) {
		q.sheet.EndTyping()
		r.chosen = id
		r.show()
		q.pageOf(sureID).page().relay()
	})
	r.table.OnOpen = q.w.guardedText(func(string) { r.points[0].Focus() })
	for i, name := range []string{"low", "likely", "high"} {
		r.points[i] = r.point(i, name)
	}
	r.grid = kit.NewFieldGrid(r.points[:]...)
	r.usual = kit.NewButton("As in the shop book", kit.Plain, q.w.guarded(func() { r.set([3]string{}) }))
	r.drop = kit.NewButton("Take away what varies nowhere", kit.Plain, q.w.guarded(func() { q.edit(q.sheet.DropStrayRanges) }))
	return r
}

// parts are what the page shows of it, in their order.
func (r *sureRanges) parts() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.title, r.table, r.grid, leading(r.usual), r.stray, leading(r.drop)}
}

// point makes the field of one of the three points.
func (r *sureRanges) point(i int, name string) *kit.Field {
	return kit.NewField(kit.FieldSpec{
		ID: "sure." + name, Label: capital(name),
		Understand: func(text string) (echo, wrong string) {
			if bare(text) == "" {
				return "", ""
			}
			v, f := risk.ReadPoint(text)
			if f != nil {
				return "", f.Short()
			}
			return "= " + share(v) + " of the estimate", ""
		},
		OnChanged: r.q.w.guardedText(func(text string) {
			if f, ok := r.factor(); ok {
				parts := r.q.sheet.Range(f)
				parts[i] = text
				r.set(parts)
			}
		}),
	})
}

// set types the three points of the chosen factor.
func (r *sureRanges) set(parts [3]string) {
	if f, ok := r.factor(); ok {
		r.q.edit(func() { r.q.sheet.SetRange(f, parts) })
	}
}

// factor is the one that is chosen.
func (r *sureRanges) factor() (risk.Factor, bool) {
	at := slices.IndexFunc(r.factors, func(f risk.Factor) bool { return f.Where() == r.chosen })
	if at < 0 {
		return risk.Factor{}, false
	}
	return r.factors[at], true
}

// show takes everything from the sheet.
func (r *sureRanges) show() {
	r.factors, r.faults = r.q.sheet.Ranges()
	lines := make([]kit.Line, len(r.factors))
	for i, f := range r.factors {
		lines[i] = r.line(f)
	}
	r.table.SetLines(lines)
	f, ok := r.factor()
	if !ok && len(r.factors) > 0 {
		f, ok = r.factors[0], true
		r.chosen = f.Where()
	}
	r.table.Select(r.chosen)
	for _, o := range r.parts() {
		show(o, len(r.factors) > 0)
	}
	r.showStray()
	if ok {
		r.showPoints(f)
	}
}

func (r *sureRanges) line(f risk.Factor) kit.Line {
	l := kit.Line{ID: f.Where(), Name: f.Name, Quantity: share(f.Points.Low), Rate: share(f.Points.Likely), Cost: share(f.Points.High)}
	if f.Typed != "" {
		l.Name += " – yours"
	}
	if _, wrong := r.fault(f.Where()); wrong {
		l.Name = f.Name + " – see below"
	}
	return l
}

// showPoints shows the points of one factor, with what is wrong with them.
func (r *sureRanges) showPoints(f risk.Factor) {
	parts := r.q.sheet.Range(f)
	for i, v := range []float64{f.Usual.Low, f.Usual.Likely, f.Usual.High} {
		r.points[i].SetDefault(share(v), "shop book")
		r.points[i].SetText(parts[i])
		r.points[i].SetFault("")
	}
	r.points[0].SetLabel(f.Name + ", low")
	if x, wrong := r.fault(f.Where()); wrong && !slices.ContainsFunc(r.points[:], func(p *kit.Field) bool { return p.Fault() != "" }) {
		problem := x.Short()
		if strings.HasPrefix(x.Problem, "is not in order") {
			problem = "low, likely and high are not in order"
		}
		r.points[2].SetFault(problem)
	}
	show(r.usual, parts != [3]string{})
}

// fault is what is wrong with the range at a path.
func (r *sureRanges) fault(where string) (fault.Fault, bool) {
	at := slices.IndexFunc(r.faults, func(f fault.Fault) bool { return f.Where == where })
	if at < 0 {
		return fault.Fault{}, false
	}
	return r.faults[at], true
}

// showStray tells of ranges of what does not vary.
func (r *sureRanges) showStray() {
	text := ""
	for _, x := range r.faults {
		if !slices.ContainsFunc(r.factors, func(f risk.Factor) bool { return f.Where() == x.Where }) {
			text += capital(x.Error()) + ". "
		}
	}
	on := text != "" && len(r.factors) > 0
	r.stray.Say(text)
	show(r.stray, on)
	show(r.drop, on)
}

// share prints a share of the estimate.
func share(v float64) string { return quantity.Number(v*100, 1) + " %" }
