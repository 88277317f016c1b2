package ui

import (
	"fyne.io/fyne/v2"

	"meltwright/internal/estimate"
	"meltwright/internal/ui/kit"
)

// workPage is the page of a stage: its inputs, its lines, the working of the
// chosen one, and the user's own lines.
type workPage struct {
	q            *quoteScreen
	st           *estimate.Stage
	body         *page
	pieces       *pieceTabs
	choices      *entryGrid
	hours, rates *foldedEntries
	lines        *stageLines
	own          *ownLines
}

func newWorkPage(q *quoteScreen, st *estimate.Stage) *workPage {
	p := &workPage{q: q, st: st}
	parts := p.inputs()
	p.lines = newStageLines(q, st)
	p.own = newOwnLines(q, st)
	parts = append(parts, p.lines.table, p.lines.working)
	parts = append(parts, p.hours.fold.parts()...)
	parts = append(parts, p.rates.fold.parts()...)
	parts = append(parts, p.own.parts()...)
	p.body = newPage(parts...)
	return p
}

// inputs makes the head of the page and its inputs, and gives those that stand
// first.
func (p *workPage) inputs() []fyne.CanvasObject {
	p.pieces = newPieceTabs(p.q)
	p.choices = newEntryGrid(p.q, p.st, estimate.Choices)
	p.hours = p.folded("Hours and use", estimate.Hours)
	p.rates = p.folded("Rates", estimate.Rates)
	return []fyne.CanvasObject{kit.NewHeading(p.st.Name, p.st.Does), p.pieces.tabs, p.choices.grid}
}

// foldedEntries are inputs that are folded away. Where only they are of a piece,
// they have the pieces' names over them.
type foldedEntries struct {
	fold   *fold
	grid   *entryGrid
	pieces *pieceTabs
}

func (p *workPage) folded(name string, group estimate.Group) *foldedEntries {
	f := &foldedEntries{grid: newEntryGrid(p.q, p.st, group), pieces: newPieceTabs(p.q)}
	f.fold = newFold(p.q.w, name, kit.NewColumn(10, f.pieces.tabs, f.grid.grid), func() {
		if p.body != nil {
			p.body.relay()
		}
	})
	return f
}

func (f *foldedEntries) show(entries []estimate.Entry, chosen bool) {
	f.pieces.show(f.grid.ofPiece && !chosen)
	f.fold.say(f.grid.show(entries))
}

func (p *workPage) page() *page { return p.body }

func (p *workPage) show() {
	p.showInputs()
	p.lines.byPiece = p.choices.ofPiece
	p.lines.show()
	p.own.show()
}

// showInputs shows the stage's inputs, and gives them.
func (p *workPage) showInputs() []estimate.Entry {
	p.pieces.show(p.choices.ofPiece)
	entries := p.q.entries(p.st)
	n, _, _ := p.choices.show(entries)
	show(p.choices.grid, n > 0)
	p.hours.show(entries, p.choices.ofPiece)
	p.rates.show(entries, p.choices.ofPiece)
	return entries
}

func (p *workPage) focus() {
	p.q.w.focusFirst(p.choices.grid, p.hours.grid.grid, p.rates.grid.grid)
}

// entries are the inputs of a stage: of the chosen piece and of the whole.
func (q *quoteScreen) entries(st *estimate.Stage) []estimate.Entry {
	var out []estimate.Entry
	if len(st.Fields(true)) > 0 && len(q.pieces()) > 0 {
		out = q.sheet.Entries(st, q.piece)
	}
	return append(out, q.sheet.Entries(st, estimate.Whole)...)
}
