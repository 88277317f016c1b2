package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/ui/kit"
)

// pieceTabs chooses the piece whose inputs a page shows.
type pieceTabs struct {
	q    *quoteScreen
	tabs *tabs
}

func newPieceTabs(q *quoteScreen) *pieceTabs {
	t := &pieceTabs{q: q}
	t.tabs = newTabs(q.w.guardedNumber(q.choosePiece))
	return t
}

// show shows the pieces; where there is but one, or the page has no inputs of a
// piece, there is nothing to choose.
func (t *pieceTabs) show(ofPiece bool) {
	names := t.q.pieceNames()
	t.tabs.show(names, t.q.piece)
	show(t.tabs, ofPiece && len(names) > 1)
}

// pieceNames are the pieces' names; one without has its number.
func (q *quoteScreen) pieceNames() []string {
	var names []string
	for i, p := range q.pieces() {
		name := p.Name
		if name == "" {
			name = fmt.Sprintf("Piece %d", i+1)
		}
		names = append(names, name)
	}
	return names
}

// pieceEditor names, adds, copies, moves and takes away pieces.
type pieceEditor struct {
	q             *quoteScreen
	name          *kit.Field
	grid          *kit.FieldGrid
	remove        *kit.Button
	sooner, later *kit.Button
	buttons       *fyne.Container
}

func newPieceEditor(q *quoteScreen) *pieceEditor {
	e := &pieceEditor{q: q}
	e.name = kit.NewField(kit.FieldSpec{
		ID: "piece.name", Label: "Name of the piece", Hint: "as the proposal calls it",
		OnChanged: q.w.guardedText(func(s string) { q.edit(func() { q.sheet.NamePiece(q.piece, s) }) }),
	})
	e.grid = kit.NewFieldGrid(e.name)
	button := func(text string, icon fyne.ThemeIconName, do func()) *kit.Button {
		return kit.NewButton(text, kit.Quiet, q.w.guarded(func() { q.edit(do) })).WithIcon(icon)
	}
	add := button("Add a piece", theme.IconNameContentAdd, func() { q.piece = q.sheet.AddPiece() })
	double := button("Duplicate", theme.IconNameContentCopy, func() { q.piece = q.sheet.CopyPiece(q.piece) })
	e.sooner = button("Earlier", theme.IconNameNavigateBack, func() { q.piece = q.sheet.MovePiece(q.piece, -1) })
	e.later = button("Later", theme.IconNameNavigateNext, func() { q.piece = q.sheet.MovePiece(q.piece, 1) })
	e.remove = button("Remove", theme.IconNameDelete, func() { q.removePiece() })
	e.buttons = leading(add, double, e.sooner, e.later, e.remove)
	return e
}

// removePiece takes the chosen piece away and tells the way back.
func (q *quoteScreen) removePiece() {
	name := q.pieceNames()[q.piece]
	q.sheet.RemovePiece(q.piece)
	q.w.say(fmt.Sprintf("“%s” is taken out of the commission; Undo brings it back.", name))
}

func (e *pieceEditor) show() {
	several := len(e.q.pieces()) > 1
	e.name.SetText(e.q.pieces()[e.q.piece].Name)
	show(e.remove, several)
	show(e.sooner, several)
	show(e.later, several)
}
