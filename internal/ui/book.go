package ui

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/desk"
	"meltwright/internal/shop"
	"meltwright/internal/ui/kit"
	"meltwright/internal/ui/look"
)

// bookScreen is the shop book: its settings by group, its tables, and the shop's
// own particulars.
type bookScreen struct {
	w      *Window
	ledger *desk.Ledger
	kept   *keeping
	back   screen // where it was opened from

	bar    *kit.TopBar
	rail   *kit.Rail
	search *kit.Entry
	middle *fyne.Container
	frame  *kit.Sheet

	part  string // the page that is shown
	found *foundPage
	pages map[string]bookPage
}

// bookPage is one page of the shop book.
type bookPage interface {
	page() *page
	show()
	focus()
}

// houseID is the page of the shop's own particulars.
const houseID = "house"

// showBook opens the shop book over what is shown now.
func (w *Window) showBook() {
	if w.desk == nil {
		return
	}
	if _, open := w.screen.(*bookScreen); !open {
		w.show(newBookScreen(w, w.screen))
	}
}

func newBookScreen(w *Window, back screen) *bookScreen {
	b := &bookScreen{w: w, ledger: w.desk.Ledger(), back: back, part: houseID, pages: map[string]bookPage{}}
	b.bar, b.rail = kit.NewTopBar(), kit.NewRail().WithoutColumn()
	b.bar.SetBack(w.guarded(b.goBack))
	b.bar.SetTitle("Shop book", "every rate, material and habit that prices are made with")
	b.search = kit.NewEntry(1)
	b.search.SetPlaceHolder("Find a setting: chase, freight, wax loss …")
	b.search.OnChanged = w.guardedText(func(string) { b.showPart() })
	b.search.OnEscape = func() { b.search.SetText("") }
	b.found = newFoundPage(b)
	b.rail.OnSelect = w.guardedText(b.choose)
	b.rail.OnEnter = w.guardedText(func(string) { b.present().focus() })
	b.middle = &fyne.Container{Layout: topAndRest{}, Objects: []fyne.CanvasObject{kit.NewPadded(28, 12, b.search), b.present().page().scroll}}
	b.frame = kit.NewSheet(b.bar, b.rail, b.middle, nil)
	b.kept = w.keep(b)
	b.show()
	return b
}

func (b *bookScreen) content() fyne.CanvasObject { return b.frame }
func (b *bookScreen) arrive()                    { b.present().focus() }
func (b *bookScreen) leave()                     { b.kept.now() }

// goBack goes to where the book was opened from; a quote is reckoned anew.
func (b *bookScreen) goBack() {
	if q, ok := b.back.(*quoteScreen); ok {
		q.sheet.Reckon()
	}
	b.w.show(b.back)
}

func (b *bookScreen) offers() offers {
	return offers{
		undo:      func() { b.step(b.ledger.Undo, "There is nothing to undo.") },
		redo:      func() { b.step(b.ledger.Redo, "There is nothing to redo.") },
		find:      func() { b.w.win.Canvas().Focus(b.search) },
		nextStage: func() { b.turn(1) }, lastStage: func() { b.turn(-1) },
		toPart: b.rail.Focus,
	}
}

func (b *bookScreen) restyle() {
	b.pages = map[string]bookPage{}
	b.found = newFoundPage(b)
	b.showPart()
}

func (b *bookScreen) step(way func() bool, none string) {
	if !way() {
		b.w.say(none)
		return
	}
	b.show()
	b.kept.changed()
}

// edit changes the book, shows what comes of it and keeps it.
func (b *bookScreen) edit(change func()) {
	change()
	b.show()
	b.kept.changed()
}

// show shows the book as it stands.
func (b *bookScreen) show() {
	b.rail.SetRows(b.railRows())
	b.rail.Select(b.part)
	p := b.present()
	p.show()
	p.page().relay()
}

// present is the page that is shown: what was found, while something is sought.
func (b *bookScreen) present() bookPage {
	if b.search.Text != "" {
		return b.found
	}
	if p, ok := b.pages[b.part]; ok {
		return p
	}
	p := b.newPage(b.part)
	b.pages[b.part] = p
	return p
}

func (b *bookScreen) newPage(id string) bookPage {
	switch id {
	case houseID:
		return newHousePage(b)
	case marksID:
		return newMarksPage(b)
	}
	for _, t := range shop.Tables() {
		if t.Key == id {
			return newTablePage(b, t)
		}
	}
	return newGroupPage(b, id)
}

// showPart puts the present page into the middle.
func (b *bookScreen) showPart() {
	p := b.present()
	p.show()
	b.middle.Objects[1] = p.page().scroll
	b.middle.Refresh()
	p.page().relay()
	p.page().scroll.ScrollToTop()
}

func (b *bookScreen) choose(id string) {
	b.ledger.EndTyping()
	b.part = id
	b.search.SetText("")
	b.showPart()
	b.rail.Select(id)
}

// turn shows the page so many after this one.
func (b *bookScreen) turn(by int) {
	rows := b.railRows()
	for i, r := range rows {
		if r.ID == b.part {
			b.choose(rows[max(0, min(i+by, len(rows)-1))].ID)
			break
		}
	}
	b.present().focus()
}

// railRows are the pages of the book: particulars, groups of settings, tables.
func (b *bookScreen) railRows() []kit.RailRow {
	wrong := b.wrongPages()
	rows := []kit.RailRow{{ID: houseID, Name: "Your shop", Detail: b.ledger.House().Name}, {ID: marksID, Name: "Logo", Detail: "on all your papers"}}
	for _, g := range groups() {
		rows = append(rows, kit.RailRow{ID: g, Name: g, Detail: b.changedIn(g), Colour: look.StageColour(groupStage[g])})
	}
	for _, t := range shop.Tables() {
		rows = append(rows, kit.RailRow{ID: t.Key, Name: t.Label, Detail: counted(len(b.ledger.Rows(t.Key)), "row")})
	}
	for i := range rows {
		if rows[i].Colour == "" {
			rows[i].Colour = look.StageColour("form")
		}
		if f, ok := wrong[rows[i].ID]; ok {
			rows[i].State, rows[i].Detail = kit.StageFault, f
		}
	}
	return rows
}

// groups are the groups of settings, in the order of the book.
func groups() (out []string) {
	for _, d := range shop.Settings() {
		if len(out) == 0 || out[len(out)-1] != d.Group {
			out = append(out, d.Group)
		}
	}
	return out
}

// groupStage is the stage whose colour a group wears.
var groupStage = map[string]string{
	"Form and metal": "form", "Original": "original", "Mould": "mould", "Wax": "wax", "Gating": "gating",
	"Shell": "shell", "Pour": "pour", "Metalwork": "metalwork", "Patina": "patina", "Base": "base",
	"Delivery and install": "delivery", "Price": "price", "Labour": "price",
}

// changedIn says how many settings of a group the shop has set itself.
func (b *bookScreen) changedIn(group string) string {
	all, set := 0, 0
	for _, d := range shop.Settings() {
		if d.Group == group {
			all++
			if b.ledger.Book().Settings[d.Key].Dated != "" {
				set++
			}
		}
	}
	if set == 0 {
		return "starting values"
	}
	return counted(set, "value") + " of yours"
}

// The book is what its keeping keeps.

func (b *bookScreen) name() string  { return "the shop book" }
func (b *bookScreen) unsaved() bool { return b.ledger.Unsaved() }
func (b *bookScreen) notKept()      { b.ledger.NotKept() }
func (b *bookScreen) copy() func(context.Context) (func(), error) {
	d, copied := b.w.desk, b.ledger.Copy()
	return func(ctx context.Context) (func(), error) {
		return func() {}, d.KeepBook(ctx, copied)
	}
}

// topAndRest puts the first object at its own height over the second.
type topAndRest struct{}

func (topAndRest) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	h := objects[0].MinSize().Height
	objects[0].Move(fyne.NewPos(0, 0))
	objects[0].Resize(fyne.NewSize(s.Width, h))
	objects[1].Move(fyne.NewPos(0, h))
	objects[1].Resize(fyne.NewSize(s.Width, s.Height-h))
}

func (topAndRest) MinSize(objects []fyne.CanvasObject) fyne.Size {
	a, b := objects[0].MinSize(), objects[1].MinSize()
	return fyne.NewSize(max(a.Width, b.Width), a.Height+b.Height+theme.Padding())
}
