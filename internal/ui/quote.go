package ui

import (
	"context"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/field"
	"meltwright/internal/money"
	"meltwright/internal/risk"
	"meltwright/internal/ui/kit"
)

// locale is how the window writes amounts.
const locale = desk.Locale

// quoteScreen is one quote being worked on: its stages at the left, the chosen
// stage in the middle, the price at the right.
type quoteScreen struct {
	w       *Window
	sheet   *desk.Sheet
	kept    *keeping
	sure    *follower[risk.Range]
	soon    *follower[desk.Soon]
	issued  *issuedRows
	preview *follower[desk.Pages]
	files   scanFiles

	bar   *kit.TopBar
	rail  *kit.Rail
	price *kit.PricePanel
	frame *kit.Sheet

	stage string               // the page that is shown: desk.Head, or a stage's ID
	piece int                  // the piece that its inputs are of
	pages map[string]stagePage // those that were shown before
	lines map[string]string    // the chosen line of each
}

// stagePage is a page in the middle of the quote screen.
type stagePage interface {
	page() *page
	// show takes everything from the sheet.
	show()
	// focus puts the keyboard into the first field.
	focus()
}

func newQuoteScreen(w *Window, s *desk.Sheet) *quoteScreen {
	q := &quoteScreen{w: w, sheet: s, stage: "form", pages: map[string]stagePage{}, lines: map[string]string{}}
	if s.Quote().ID == 0 {
		q.stage = desk.Head
	}
	q.sure, q.soon = newSureness(q), newSoonness(q)
	q.issued, q.preview = &issuedRows{q: q}, newPreviewing(q)
	q.files = scanFiles{q: q}
	q.bar, q.rail, q.price = kit.NewTopBar(), kit.NewRail(), kit.NewPricePanel()
	q.bar.SetBack(w.guarded(w.showList))
	q.bar.SetActions(
		kit.Action{Text: "Shop book", Do: w.guarded(w.showBook)},
		kit.Action{Text: "Scale options", Do: w.guarded(q.showOptions)},
		kit.Action{Text: "Cost sheet", Do: w.guarded(func() { q.write(desk.CostSheet) })},
		kit.Action{Text: "Make proposal", Icon: theme.IconNameDocumentPrint, Primary: true, Do: w.guarded(func() { q.write(desk.Proposal) })},
	)
	q.rail.OnSelect = w.guardedText(q.choose)
	q.rail.OnEnter = w.guardedText(func(string) { q.pageOf(q.stage).focus() })
	q.frame = kit.NewSheet(q.bar, q.rail, q.pageOf(q.stage).page().scroll, q.price)
	q.kept = w.keep(q)
	if s.Unsaved() {
		q.kept.now()
	}
	q.show()
	return q
}

func (q *quoteScreen) content() fyne.CanvasObject { return q.frame }

func (q *quoteScreen) leave() {
	q.kept.now()
	q.sure.stop()
	q.soon.stop()
	q.preview.stop()
}

func (q *quoteScreen) arrive() {
	q.show()
	q.pageOf(q.stage).focus()
}

func (q *quoteScreen) offers() offers {
	return offers{
		duplicate: q.duplicate, remove: q.remove,
		undo:      func() { q.step(q.sheet.Undo, "There is nothing to undo.") },
		redo:      func() { q.step(q.sheet.Redo, "There is nothing to redo.") },
		proposal:  func() { q.write(desk.Proposal) },
		costSheet: func() { q.write(desk.CostSheet) },
		workbook:  func() { q.write(desk.Workbook) },
		send:      q.send,
		write:     q.write,
		nextStage: func() { q.turn(1) }, lastStage: func() { q.turn(-1) },
		nextPiece: func() { q.choosePiece(q.piece + 1) }, lastPiece: func() { q.choosePiece(q.piece - 1) },
		toPart: q.otherPart, scales: q.showOptions,
	}
}

// showOptions shows the commission at other heights.
func (q *quoteScreen) showOptions() { q.w.show(newOptionsScreen(q)) }

// restyle throws away the pages that are not shown: they are made anew in the
// look that is worn then.
func (q *quoteScreen) restyle() {
	for id := range q.pages {
		if id != q.stage {
			delete(q.pages, id)
		}
	}
	q.pageOf(q.stage).page().relay()
}

// pieces are the commission's pieces as typed.
func (q *quoteScreen) pieces() []estimate.Piece { return q.sheet.Commission().Pieces }

// context is what numbers are read by: the quote's units and currency.
func (q *quoteScreen) context() field.Context {
	e := q.sheet.Latest()
	return field.Context{System: e.System, Currency: e.Currency}
}

// typed takes a text into the sheet and shows what comes of it.
func (q *quoteScreen) typed(f *estimate.Field, text string) {
	piece := estimate.Whole
	if f.PerPiece {
		piece = q.piece
	}
	q.edit(func() { q.sheet.Set(piece, f.Path(), text) })
}

// edit changes the sheet, shows what comes of it and keeps it.
func (q *quoteScreen) edit(change func()) {
	before := q.sheet.Quote()
	change()
	q.show()
	q.kept.changed()
	q.sayReopened(before)
}

// step undoes or redoes.
func (q *quoteScreen) step(way func() bool, none string) {
	if !way() {
		q.w.say(none)
		return
	}
	q.show()
	q.kept.changed()
}

// show shows the sheet as it stands, in every part of the screen.
func (q *quoteScreen) show() {
	q.piece = max(0, min(q.piece, len(q.pieces())-1))
	q.head()
	q.sure.follow("")
	q.issued.follow()
	q.rail.SetRows(q.railRows())
	q.rail.Select(q.stage)
	q.price.Set(q.priceShown())
	p := q.pageOf(q.stage)
	p.show()
	p.page().relay()
}

// head writes the title over the screen.
func (q *quoteScreen) head() {
	c, quoted := q.sheet.Commission(), q.sheet.Quote()
	var about []string
	for _, s := range []string{c.Client, c.Place, strings.TrimSpace(string(quoted.State) + " " + quoted.Number + quoted.Letter)} {
		if s != "" {
			about = append(about, s)
		}
	}
	q.bar.SetTitle(titleOf(c), strings.Join(about, " · "))
}

func titleOf(c estimate.Commission) string {
	if c.Title == "" {
		return "Untitled"
	}
	return c.Title
}

// pageOf gives the page of a stage, and makes it the first time.
func (q *quoteScreen) pageOf(id string) stagePage {
	if p, ok := q.pages[id]; ok {
		return p
	}
	p := q.newStagePage(id)
	q.pages[id] = p
	return p
}

func (q *quoteScreen) newStagePage(id string) stagePage {
	if p, ok := newMorePage(q, id); ok {
		return p
	}
	st, ok := estimate.StageByID(id)
	switch {
	case !ok:
		return newHeadPage(q)
	case id == "form":
		return newFormPage(q, st)
	case id == "price":
		return newPricePage(q, st)
	}
	return newWorkPage(q, st)
}

// choose shows another stage.
func (q *quoteScreen) choose(id string) {
	if id == q.stage {
		return
	}
	q.sheet.EndTyping()
	q.stage = id
	p := q.pageOf(id)
	p.show()
	q.frame.SetPrice(q.beside())
	q.frame.SetMiddle(p.page().scroll)
	p.page().relay()
	p.page().scroll.ScrollToTop()
	q.rail.Select(id)
	q.price.Set(q.priceShown())
}

// order are the pages from top to bottom.
func order() []string {
	ids := []string{desk.Head}
	for _, st := range estimate.Stages {
		ids = append(ids, st.ID)
	}
	return append(ids, moreIDs()...)
}

// turn shows the page so many after this one, and puts the keyboard into it.
func (q *quoteScreen) turn(by int) {
	ids := order()
	for i, id := range ids {
		if id == q.stage {
			q.choose(ids[max(0, min(i+by, len(ids)-1))])
			break
		}
	}
	q.pageOf(q.stage).focus()
}

// choosePiece shows the inputs of another piece.
func (q *quoteScreen) choosePiece(i int) {
	if i = max(0, min(i, len(q.pieces())-1)); i != q.piece {
		q.sheet.EndTyping()
		q.piece = i
		q.show()
	}
}

// otherPart puts the keyboard into the rail, or from there back into the page.
func (q *quoteScreen) otherPart() {
	if q.railFocused() {
		q.pageOf(q.stage).focus()
		return
	}
	q.rail.Focus()
}

// railFocused tells whether the keyboard is in the rail.
func (q *quoteScreen) railFocused() bool {
	focused := q.w.win.Canvas().Focused()
	if focused == nil {
		return false
	}
	part := focused.(fyne.CanvasObject)
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(part)
	rail := fyne.CurrentApp().Driver().AbsolutePositionForObject(q.rail)
	return at.X < rail.X+q.rail.Size().Width && at.Y+part.Size().Height > rail.Y // which may be scrolled
}

// duplicate opens a copy of the quote.
func (q *quoteScreen) duplicate() { q.w.show(newQuoteScreen(q.w, q.w.desk.PutCopy(q.sheet.Quote()))) }

// remove keeps the quote and puts it into the bin.
func (q *quoteScreen) remove() {
	q.kept.now()
	q.w.do(func() func() {
		return func() {
			if id := q.sheet.Quote().ID; id != 0 {
				q.w.removeQuote(id, titleOf(q.sheet.Commission()))
			}
		}
	})
}

// The quote is what its keeping keeps.

func (q *quoteScreen) name() string { return fmt.Sprintf("“%s”", titleOf(q.sheet.Commission())) }

func (q *quoteScreen) unsaved() bool { return q.sheet.Unsaved() }

func (q *quoteScreen) notKept() { q.sheet.NotKept() }

func (q *quoteScreen) part() {
	q.sheet.Part()
	q.show()
}

func (q *quoteScreen) copy() func(context.Context) (func(), error) {
	d, c := q.w.desk, q.sheet.Copy()
	return func(ctx context.Context) (func(), error) {
		kept, err := d.Keep(ctx, c)
		return func() {
			q.sheet.Kept(kept)
			q.head()
			q.issued.follow()
		}, err
	}
}

// amount prints money without its sign, for columns.
func amount(c money.Currency, a money.Amount) string { return c.Plain(a, locale) }
