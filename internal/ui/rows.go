package ui

import (
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/ui/kit"
)

// rowsEditor edits a short list: a table of its rows, and below it the fields of
// the chosen row, with buttons that add, take away and move rows. At any width
// and text size there is room for as many fields as a row may have.
type rowsEditor struct {
	w       *Window
	table   *kit.LineTable
	grid    *kit.FieldGrid
	buttons *fyne.Container
	remove  *kit.Button
	moves   []*kit.Button
	chosen  int
	count   int
	onShow  func() // shows everything anew after another row was chosen
}

// rowActions are what can be done to rows; move may be nil.
type rowActions struct {
	add                 func() int
	remove              func(i int)
	move                func(i, by int) int
	addText, removeText string // "Add an alloy", "Remove this alloy"
}

// newRowsEditor makes an editor of rows whose fields are in grid. Each action is
// run by change, which shows what comes of it.
func newRowsEditor(w *Window, grid *kit.FieldGrid, a rowActions, change func(func()), onShow func()) *rowsEditor {
	r := &rowsEditor{w: w, table: kit.NewLineTable(), grid: grid, onShow: onShow}
	r.table.OnSelect = w.guardedText(func(id string) {
		r.chosen, _ = strconv.Atoi(id)
		onShow()
	})
	r.table.OnOpen = w.guardedText(func(string) { w.focusFirst(grid) })
	button := func(text string, icon fyne.ThemeIconName, do func()) *kit.Button {
		return kit.NewButton(text, kit.Quiet, w.guarded(func() { change(do) })).WithIcon(icon)
	}
	add := kit.NewButton(a.addText, kit.Quiet, w.guarded(func() {
		change(func() { r.chosen = a.add() })
		w.focusFirst(grid)
	})).WithIcon(theme.IconNameContentAdd)
	objects := []fyne.CanvasObject{add}
	if a.move != nil {
		up := button("Up", theme.IconNameMoveUp, func() { r.chosen = a.move(r.chosen, -1) })
		down := button("Down", theme.IconNameMoveDown, func() { r.chosen = a.move(r.chosen, 1) })
		r.moves = []*kit.Button{up, down}
		objects = append(objects, up, down)
	}
	r.remove = button(a.removeText, theme.IconNameDelete, func() { a.remove(r.chosen) })
	r.buttons = leading(append(objects, r.remove)...)
	return r
}

// parts are what goes into a page's column.
func (r *rowsEditor) parts() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.table, r.grid, r.buttons}
}

// show shows rows, and tells whether one is chosen: its number is r.chosen.
func (r *rowsEditor) show(lines []kit.Line) bool {
	for i := range lines {
		lines[i].ID = strconv.Itoa(i)
	}
	r.count = len(lines)
	r.chosen = max(0, min(r.chosen, r.count-1))
	r.table.SetLines(lines)
	r.table.Select(strconv.Itoa(r.chosen))
	any := r.count > 0
	show(r.table, any)
	show(r.grid, any)
	show(r.remove, any)
	for _, b := range r.moves {
		show(b, r.count > 1)
	}
	return any
}

// hide takes the editor off the page.
func (r *rowsEditor) hide() {
	for _, o := range r.parts() {
		o.Hide()
	}
}
