package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/options"
	"meltwright/internal/quantity"
	"meltwright/internal/ui/kit"
)

// optionPanel is what stands beside the comparison: the budget and what it
// holds, a place to add heights, and the chosen option to be changed.
type optionPanel struct {
	o    *optionsScreen
	body *page

	budget, budgetIs *kit.Field
	largest          *kit.CautionBox
	another          *kit.Field

	head        *kit.Heading
	wrong       *kit.CautionBox
	height      *kit.Field
	heightGrid  *kit.FieldGrid
	slider      *heightSlider
	name        *kit.Field
	recommended *kit.Field
	why         *kit.Field
	about       *kit.FieldGrid
	artist      *kit.CautionBox
	quote       *kit.Button
	buttons     *fyne.Container
	left, right *kit.Button
	differs     *optionDiffers
}

func newOptionPanel(o *optionsScreen) *optionPanel {
	p := &optionPanel{o: o, largest: kit.NewCautionBox(kit.Caution{}), wrong: kit.NewCautionBox(kit.Caution{}), artist: kit.NewCautionBox(kit.Caution{})}
	p.head = kit.NewHeading("", "")
	p.differs = newOptionDiffers(o, p.relay)
	parts := append(p.budgetParts(), p.optionParts()...)
	p.body = newSidePage(parts...)
	return p
}

// newSidePage is a page beside another, with less of a margin.
func newSidePage(parts ...fyne.CanvasObject) *page {
	column := kit.NewColumn(10, parts...)
	return &page{scroll: kit.NewFocusScroll(kit.NewPadded(16, 14, column)), column: column}
}

func (p *optionPanel) relay() { p.body.relay() }

// budgetParts are the budget, what it holds, and a place to add heights.
func (p *optionPanel) budgetParts() []fyne.CanvasObject {
	o := p.o
	set := func(path string) func(string) {
		return o.w.guardedText(func(text string) { o.edit(func() { o.sheet.Set(estimate.Whole, path, text) }) })
	}
	p.budget = kit.NewField(kit.FieldSpec{ID: "price.budget", Label: "Budget of the call", OnChanged: set("price.budget"), Understand: p.understand("price.budget", false)})
	p.budgetIs = kit.NewField(kit.FieldSpec{ID: "price.budget_is", Kind: kit.ChoiceField, Label: "That budget is", OnChanged: set("price.budget_is")})
	p.another = kit.NewField(kit.FieldSpec{ID: "option.add", Label: "Another height", Hint: "2.4 m, 7'10\", or life size, life and a half …"})
	add := kit.NewButton(addHeight, kit.Plain, o.w.guarded(p.add)).WithIcon(theme.IconNameContentAdd)
	return []fyne.CanvasObject{kit.NewFieldGrid(p.budget, p.budgetIs), p.largest, kit.NewFieldGrid(p.another), leading(add)}
}

// understand reads a text as the input at a path.
func (p *optionPanel) understand(path string, ofPiece bool) func(string) (string, string) {
	f, _ := estimate.FieldByPath(path, ofPiece)
	return func(text string) (string, string) { return understand(f.Def, text, p.o.q.context()) }
}

// optionParts are what is to be said of the chosen option.
func (p *optionPanel) optionParts() []fyne.CanvasObject {
	o := p.o
	change := func(do func(i int, text string)) func(string) {
		return o.w.guardedText(func(text string) { o.edit(func() { do(o.chosen, text) }) })
	}
	p.height = kit.NewField(kit.FieldSpec{ID: "option.height", Label: "Height", OnChanged: change(o.sheet.SetOptionHeight), Understand: p.understand(estimate.HeightPath(), true)})
	p.heightGrid = kit.NewFieldGrid(p.height)
	p.slider = newHeightSlider(func(h quantity.Length) {
		o.w.try(func() {
			o.edit(func() { o.sheet.SetOptionHeight(o.chosen, options.HeightText(h, o.weighing.Rule().System)) })
		})
	}, o.sheet.EndTyping)
	p.name = kit.NewField(kit.FieldSpec{ID: "option.name", Label: "Name", Wide: true, OnChanged: change(o.sheet.NameOption)})
	p.recommended = kit.NewField(kit.FieldSpec{ID: "option.recommended", Kind: kit.CheckField, Label: "Advice", Caption: "We recommend this one", OnChanged: change(func(i int, text string) { o.sheet.Recommend(i, text == kit.Yes) })})
	p.why = kit.NewField(kit.FieldSpec{ID: "option.why", Kind: kit.NotesField, Label: "Why", Lines: 3, OnChanged: change(o.sheet.ExplainOption)})
	p.about = kit.NewFieldGrid(p.name, p.recommended, p.why)
	button := func(text string, icon fyne.ThemeIconName, do func()) *kit.Button {
		return kit.NewButton(text, kit.Quiet, o.w.guarded(do)).WithIcon(icon)
	}
	p.quote = kit.NewButton("Make it the quote", kit.Primary, o.w.guarded(o.makeQuote))
	p.left = button("To the left", theme.IconNameNavigateBack, func() { o.move(-1) })
	p.right = button("To the right", theme.IconNameNavigateNext, func() { o.move(1) })
	p.buttons = leading(
		button("Duplicate", theme.IconNameContentCopy, o.copyOption), p.left, p.right,
		button("Remove", theme.IconNameDelete, func() { o.remove(o.chosen) }),
	)
	parts := []fyne.CanvasObject{p.head, p.wrong, p.heightGrid, p.slider, p.artist, p.about, leading(p.quote)}
	return append(append(parts, p.differs.parts()...), p.buttons)
}

// show shows the budget and the chosen option.
func (p *optionPanel) show() {
	p.showBudget()
	p.showOption()
	p.relay()
}

func (p *optionPanel) showBudget() {
	c := p.o.sheet.Commission()
	p.budget.SetText(c.Inputs["price.budget"])
	is, _ := estimate.FieldByPath("price.budget_is", false)
	p.budgetIs.SetOptions(is.Choices)
	p.budgetIs.SetDefault(is.Start, "")
	p.budgetIs.SetText(c.Inputs["price.budget_is"])
	says, ok := p.o.largestSays()
	show(p.largest, ok)
	if ok {
		p.largest.Set(says)
	}
}

func (p *optionPanel) showOption() {
	o, own := p.o, p.o.own()
	for _, part := range []fyne.CanvasObject{p.heightGrid, p.slider, p.about, p.quote, p.buttons} {
		show(part, own)
	}
	p.differs.show(own)
	p.showHead(own)
	p.showArtist()
	if !own {
		return
	}
	x, now := o.sheet.Commission().Options[o.chosen], o.now()
	rule := o.weighing.Rule()
	if quoted := options.HeightText(rule.Height, rule.System); bare(quoted) == bare(x.Height) {
		p.height.SetDefault("", "")
	} else {
		p.height.SetDefault(quoted, "as the quote")
	}
	p.height.SetText(x.Height)
	_, high := o.heights()
	show(p.slider, now.Height > 0)
	p.slider.put(o.chosen, max(now.Height, 0.001), max(o.found.smallest, 0.01), max(high*1.25, rule.Life*2), rule.System)
	p.name.SetDefault(nameless(now.Name, x.Name), "by its scale or height")
	p.name.SetText(x.Name)
	p.recommended.SetText(map[bool]string{true: kit.Yes, false: kit.No}[x.Recommended])
	p.why.SetText(x.Why)
	p.why.SetVisible(x.Recommended || x.Why != "")
	if now.IsQuote || len(now.Faults) > 0 {
		p.quote.Disable()
	} else {
		p.quote.Enable()
	}
}

// nameless is the name an option has by itself, where it has none of its own.
func nameless(shown, own string) string {
	if own != "" {
		return ""
	}
	return shown
}

// showHead says which option it is and what is wrong with it.
func (p *optionPanel) showHead(own bool) {
	o := p.o
	if !own {
		p.head.Set("As quoted", "Add a height to compare it with.")
		p.wrong.Hide()
		return
	}
	now := o.now()
	name := now.Name
	if name == "" {
		name = fmt.Sprintf("Option %d", o.chosen+1)
	}
	line := fmt.Sprintf("Option %d of %d", o.chosen+1, len(o.list))
	if now.IsQuote {
		line += ", and the quote as it stands"
	}
	p.head.Set(name, line)
	show(p.wrong, len(now.Faults) > 0)
	if len(now.Faults) > 0 {
		p.wrong.Set(kit.Caution{Kind: kit.CautionWarn, Text: sentence(now.Faults.Err())})
	}
}

// showArtist says what the budget leaves for the artist.
func (p *optionPanel) showArtist() {
	o := p.o
	now, rule := o.now(), o.weighing.Rule()
	show(p.artist, rule.Budget > 0 && len(now.Faults) == 0)
	if !p.artist.Visible() {
		return
	}
	a, err := o.weighing.Artist(now)
	switch {
	case err != nil:
		p.artist.Set(kit.Caution{Kind: kit.CautionWarn, Text: sentence(err)})
	case a.Short > 0:
		p.artist.Set(kit.Caution{Kind: kit.CautionWarn, Text: "Nothing is left for the artist: without a fee it is " + rule.Currency.Whole(a.Short, locale) + " over the budget."})
	default:
		share := quantity.Number(a.Share.InexactFloat64()*100, 1)
		p.artist.Set(kit.Caution{Text: "Left for the artist: " + rule.Currency.Whole(a.Fee, locale) + ", " + share + " % of the " + map[bool]string{true: "cost", false: "price"}[a.Way == estimate.FeeCost] + "."})
	}
}

// add adds the height that was typed.
func (p *optionPanel) add() {
	text := p.another.Text()
	if text == "" {
		p.another.SetFault("is empty; give a height such as 2.4 m")
		p.focusAdd()
		return
	}
	if err := p.o.add(text); err != nil {
		p.another.SetFault(fault.All(err)[0].Short())
		p.focusAdd()
		return
	}
	p.another.SetText("")
	p.another.SetFault("")
	p.relay()
}

func (p *optionPanel) focusAdd() { p.another.Focus() }

// focusFirst puts the keyboard into the chosen option's height, or into the place
// to add one.
func (p *optionPanel) focusFirst() {
	if p.o.own() {
		p.height.Focus()
	} else {
		p.focusAdd()
	}
}
