package ui

import (
	"context"
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/options"
	"meltwright/internal/quantity"
	"meltwright/internal/ui/kit"
	"meltwright/internal/ui/look"
)

// optionsScreen compares heights of one quote: a drawing of them to one scale, a
// table under it, what each is made of, the price over height, and beside it the
// chosen option to be changed.
type optionsScreen struct {
	w     *Window
	q     *quoteScreen // whose quote it is, and where the way back leads
	sheet *desk.Sheet

	bar     *kit.TopBar
	picture *kit.SceneView
	table   *optionTable
	bars    *kit.SceneView
	curve   *kit.SceneView
	body    *page
	panel   *optionPanel
	frame   *optionFrame

	weighing desk.Weighing
	booked   desk.Booked // by accepted quotes
	list     []desk.Option
	chosen   int
	found    optionsFound
	ranges   optionRanges
}

// optionsFound is what takes longer to find than a frame of the window: it is sought
// away from the window's goroutine whenever the quote itself changes.
type optionsFound struct {
	turn     int // counted up by every search: answers to earlier ones are dropped
	of       desk.Weighing
	smallest quantity.Length
	fit      options.Fit
	curve    options.PriceCurve
	from, to quantity.Length // the heights that the curve goes over
}

// newOptionsScreen makes the screen for the quote of another.
func newOptionsScreen(q *quoteScreen) *optionsScreen {
	o := &optionsScreen{w: q.w, q: q, sheet: q.sheet}
	o.ranges.o = o
	o.bar = kit.NewTopBar()
	o.bar.SetBack(o.w.guarded(func() { o.w.show(q) }))
	o.bar.SetActions(
		kit.Action{Text: addHeight, Do: o.w.guarded(func() { o.panel.focusAdd() })},
		kit.Action{Text: addLargest, Do: o.w.guarded(o.addLargest)},
		kit.Action{Text: "Make proposal", Icon: theme.IconNameDocumentPrint, Primary: true, Do: o.w.guarded(func() { q.write(desk.Proposal) })},
	)
	o.table = newOptionTable()
	o.table.onChoose, o.table.onOpen = o.w.guardedNumber(o.choose), o.w.guardedNumber(func(int) { o.panel.focusFirst() })
	o.table.onRemove, o.table.onScroll = o.w.guardedNumber(o.remove), o.scroll
	o.picture = kit.NewSceneView(o.drawPicture)
	o.bars = kit.NewSceneView(o.drawBars)
	o.curve = kit.NewSceneView(o.drawCurve)
	o.curve.SetLeast(300, 250)
	o.panel = newOptionPanel(o)
	column := kit.NewColumn(0, o.picture, o.table, kit.NewPadded(0, 12, kit.NewColumn(10,
		kit.NewHeading("", "What each is made of"), o.bars, kit.NewHeading("", "Price over height"), o.curve)))
	o.body = &page{scroll: kit.NewFocusScroll(kit.NewPadded(24, 12, column)), column: column}
	o.frame = newOptionFrame(o.bar, o.body.scroll, o.panel.body.scroll, o.fit)
	o.list = o.sheet.Options()
	o.chosen = max(0, o.recommended())
	return o
}

// The words of the actions that are in the bar and in the panel.
const (
	addHeight  = "Add a height"
	addLargest = "Largest within the budget"
)

func (o *optionsScreen) content() fyne.CanvasObject { return o.frame }
func (o *optionsScreen) leave() {
	o.ranges.stop()
	o.q.kept.now()
}

func (o *optionsScreen) arrive() {
	o.show()
	o.w.win.Canvas().Focus(o.table)
	o.readBooked()
}

// readBooked reads what accepted quotes take of the shop, and counts the weeks
// after that. What is wrong with them is told where the schedule is.
func (o *optionsScreen) readBooked() {
	d, q, from := o.w.desk, o.sheet.Quote(), o.weighing.Start()
	o.w.do(func() func() {
		b, err := d.Booked(context.Background(), q, from)
		return func() {
			if err == nil && len(b.Bookings) > 0 {
				o.booked, o.list = b, nil
				o.show()
			}
		}
	})
}

func (o *optionsScreen) offers() offers {
	return offers{
		undo:      func() { o.step(o.sheet.Undo, "There is nothing to undo.") },
		redo:      func() { o.step(o.sheet.Redo, "There is nothing to redo.") },
		proposal:  func() { o.q.write(desk.Proposal) },
		costSheet: func() { o.q.write(desk.CostSheet) },
		workbook:  func() { o.q.write(desk.Workbook) },
		write:     o.q.write,
		toPart:    o.otherPart,
	}
}

// restyle shows everything anew in the look that is worn now.
func (o *optionsScreen) restyle() { o.show() }

// otherPart puts the keyboard into the panel, or from there back to the table.
func (o *optionsScreen) otherPart() {
	if c := o.w.win.Canvas(); c.Focused() == o.table {
		o.panel.focusFirst()
	} else {
		c.Focus(o.table)
	}
}

// own tells whether the quote has options; without any, what is shown is the
// quote itself.
func (o *optionsScreen) own() bool { return len(o.sheet.Commission().Options) > 0 }

// now is the chosen option.
func (o *optionsScreen) now() desk.Option { return o.list[o.chosen] }

// recommended is the number of the recommended option, -1 for none.
func (o *optionsScreen) recommended() int {
	for i, x := range o.list {
		if x.Recommended {
			return i
		}
	}
	return -1
}

// edit changes the sheet, shows what comes of it and keeps it.
func (o *optionsScreen) edit(change func()) {
	change()
	o.show()
	o.q.kept.changed()
}

func (o *optionsScreen) step(way func() bool, none string) {
	if !way() {
		o.w.say(none)
		return
	}
	o.show()
	o.q.kept.changed()
}

// show shows the sheet as it stands, in every part of the screen.
func (o *optionsScreen) show() {
	was := o.weighing
	o.weighing = o.sheet.Weighing().Amid(o.booked)
	o.list = o.weighing.After(was, o.list)
	o.chosen = max(0, min(o.chosen, len(o.list)-1))
	o.seek()
	o.paint()
	o.ranges.follow()
}

// paint shows what has been reckoned.
func (o *optionsScreen) paint() {
	o.head()
	o.table.set(optionRows(o.list, o.weighing), o.chosen, o.own())
	o.panel.show()
	o.picture.Redraw()
	o.bars.SetLeast(300, o.barsHeight())
	o.bars.Redraw()
	o.curve.Redraw()
	o.body.relay()
}

// pictureHeight is how high the drawing is, at plain text size.
const pictureHeight = 236

// fit makes the drawing low enough to be seen whole where the comparison is.
func (o *optionsScreen) fit(height float32) {
	o.picture.SetLeast(300, min(pictureHeight, height*0.7*look.Text/theme.TextSize()))
	o.body.relay()
}

// scroll scrolls the comparison by so much of what is seen of it.
func (o *optionsScreen) scroll(by float32) {
	s := o.body.scroll
	view := s.Size().Height
	if by > 0 {
		kit.RevealPart(s.Content(), s.Offset()+view, s.Offset()+view*(1+by))
	} else {
		kit.RevealPart(s.Content(), s.Offset()+view*by, s.Offset())
	}
}

// head writes the title over the screen.
func (o *optionsScreen) head() {
	rule := o.weighing.Rule()
	about := titleOf(o.sheet.Commission())
	if rule.Budget > 0 {
		about += " · budget " + rule.Currency.Whole(rule.Budget, locale) + " " + budgetIs(rule)
	}
	o.bar.SetTitle("Scale options", about)
	o.bar.SetDisabled(addLargest, rule.Budget <= 0)
}

func budgetIs(rule estimate.Rule) string {
	if rule.BeforeTax {
		return "before tax"
	}
	return "with tax"
}

// choose chooses another option.
func (o *optionsScreen) choose(i int) {
	if i = max(0, min(i, len(o.list)-1)); i != o.chosen {
		o.sheet.EndTyping()
		o.chosen = i
		o.paint()
	}
}

// add adds a height as typed, and tells whether it could.
func (o *optionsScreen) add(height string) error {
	i, err := o.sheet.AddOption(height)
	if err == nil {
		o.edit(func() { o.chosen = i })
	}
	return err
}

// addLargest adds the tallest height that the budget holds.
func (o *optionsScreen) addLargest() {
	i, _, err := o.sheet.AddLargest()
	if err != nil {
		o.w.tell("There is no largest height", sentence(err))
		return
	}
	o.edit(func() { o.chosen = i })
}

func (o *optionsScreen) copyOption() {
	o.edit(func() { o.chosen = o.sheet.CopyOption(o.chosen) })
}

// move moves the chosen option to the left or to the right.
func (o *optionsScreen) move(by int) {
	if o.own() {
		o.edit(func() { o.chosen = o.sheet.MoveOption(o.chosen, by) })
	}
}

// remove takes an option away, and offers the way back.
func (o *optionsScreen) remove(i int) {
	if !o.own() {
		return
	}
	name := o.list[i].Name
	if name == "" {
		name = fmt.Sprintf("Option %d", i+1)
	}
	o.edit(func() { o.sheet.RemoveOption(i) })
	o.w.offer(fmt.Sprintf("“%s” is taken away.", name), "Undo", func() { o.step(o.sheet.Undo, "") })
}

// makeQuote makes the chosen option the quote, and offers the way back.
func (o *optionsScreen) makeQuote() {
	name := o.now().Name
	if err := o.sheet.ChooseOption(o.chosen); err != nil {
		o.w.tell("This option cannot be the quote", sentence(err))
		return
	}
	o.edit(func() {})
	o.w.offer(fmt.Sprintf("“%s” is the quote now.", name), "Undo", func() { o.step(o.sheet.Undo, "") })
}

// asked is what the budget is held against in an option.
func (o *optionsScreen) asked(e *estimate.Estimate) money.Amount { return o.weighing.Asked(e) }
