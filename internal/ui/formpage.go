package ui

import (
	"slices"
	"strings"

	"meltwright/internal/estimate"
	"meltwright/internal/quantity"
	"meltwright/internal/ui/kit"
)

// formPage is the page of the form: how big each piece is, how thick, in what
// metal; what that comes to; and the pieces themselves.
type formPage struct {
	workPage
	solids  *solidsEditor
	scan    *scanCard
	results *kit.LineTable
	checks  *kit.LineTable
	editor  *pieceEditor
	working *kit.Working
}

func newFormPage(q *quoteScreen, st *estimate.Stage) *formPage {
	p := &formPage{workPage: workPage{q: q, st: st}}
	parts := p.inputs()
	p.solids, p.scan = newSolidsEditor(q), newScanCard(q)
	parts = slices.Insert(parts, 2, p.scan.parts()...) // between the pieces and their inputs
	p.results, p.checks = kit.NewLineTable(), kit.NewLineTable()
	p.results.SetHeads("What it comes to, one cast", "", "", "")
	p.checks.SetHeads("Surface of a nude body, four published formulas", "", "", "")
	p.working = kit.NewWorking()
	p.own = newOwnLines(q, st)
	p.editor = newPieceEditor(q)
	p.results.OnSelect = q.w.guardedText(func(string) {
		p.showWorking()
		p.body.relay()
	})
	parts = append(parts, p.solids.rows.parts()...)
	parts = append(parts, p.hours.fold.parts()...)
	parts = append(parts, p.rates.fold.parts()...)
	parts = append(parts, p.results, p.working, p.checks, p.editor.grid, p.editor.buttons)
	parts = append(parts, p.own.parts()...)
	p.body = newPage(parts...)
	return p
}

func (p *formPage) show() {
	p.solids.show(madeOfSolids(p.showInputs()))
	p.scan.show()
	p.showResults()
	p.editor.show()
	if len(p.own.numbers()) > 0 {
		p.own.show()
	} else {
		p.own.rows.hide()
	}
}

// madeOfSolids tells whether the chosen piece's form is a list of solids.
func madeOfSolids(entries []estimate.Entry) bool {
	for _, e := range entries {
		if e.Field.Path() == "form.known_by" {
			held := e.Understood
			if held == "" {
				held = e.Start
			}
			return held == "solids"
		}
	}
	return false
}

// showResults shows what the chosen piece comes to, with the working of the
// chosen figure, and the cross-check of a human figure.
func (p *formPage) showResults() {
	r, e, ok := p.result()
	show(p.results, ok)
	show(p.checks, ok && len(r.CrossChecks) > 0)
	if !ok {
		p.working.Set(kit.Reckoning{})
		return
	}
	p.results.SetLines(resultLines(r, e.System))
	if p.results.Selected() == "" {
		p.results.Select("area")
	}
	p.checks.SetLines(checkLines(r, e.System))
	p.showWorking()
}

// result is the chosen piece of the last estimate without faults.
func (p *formPage) result() (estimate.PieceResult, *estimate.Estimate, bool) {
	e, _ := p.q.sheet.Estimate()
	if e == nil || p.q.piece >= len(e.Pieces) {
		return estimate.PieceResult{}, nil, false
	}
	return e.Pieces[p.q.piece], e, true
}

func (p *formPage) showWorking() {
	r, e, ok := p.result()
	if !ok {
		return
	}
	w, ok := e.WorkingOf(r, p.results.Selected())
	if !ok {
		p.working.Set(kit.Reckoning{})
		return
	}
	w.Item = resultNames[p.results.Selected()]
	p.working.Set(reckoning(w))
}

// resultNames are the figures of a piece that have a working, by the estimate's
// name for it.
var resultNames = map[string]string{
	"area": "Surface of the bronze", "finished": "Finished bronze", "poured": "Metal poured",
	"sections": "Sections", "weld": "Weld length",
}

func resultLines(r estimate.PieceResult, sys quantity.System) []kit.Line {
	line := func(id, name string, k quantity.Kind, v float64) kit.Line {
		number, unit, _ := strings.Cut(quantity.Print(k, v, sys), " ")
		if name == "" {
			name = resultNames[id]
		}
		return kit.Line{ID: id, Name: name, Quantity: number, Unit: unit}
	}
	lines := []kit.Line{
		line("area", "", quantity.KindArea, float64(r.Area)),
		line("finished", "", quantity.KindMass, float64(r.Finished)),
		line("poured", "", quantity.KindMass, float64(r.Poured)),
		line("sections", "", quantity.KindCount, float64(r.Sections)),
		line("weld", "", quantity.KindLength, float64(r.Weld)),
		line("original", "Height of the original", quantity.KindLength, float64(r.OriginalHeight)),
		line("bronze", "Height of the bronze", quantity.KindLength, float64(r.Height)),
		line("scale", "Scale", quantity.KindFactor, r.Scale),
	}
	if r.Standing > r.Height {
		lines = append(lines, line("standing", "With its plinth", quantity.KindLength, float64(r.Standing)))
	}
	return lines
}

// checkLines are the published formulas with their sources, the chosen one said
// to be so.
func checkLines(r estimate.PieceResult, sys quantity.System) []kit.Line {
	var lines []kit.Line
	for _, c := range r.CrossChecks {
		number, unit, _ := strings.Cut(quantity.Print(quantity.KindArea, float64(c.Area), sys), " ")
		line := kit.Line{ID: c.Name, Name: c.Name + " — " + c.Source, Quantity: number, Unit: unit}
		if c.Chosen {
			line.Kind, line.Name = kit.LineSubtotal, c.Name+", which is used — "+c.Source
		}
		lines = append(lines, line)
	}
	return lines
}
