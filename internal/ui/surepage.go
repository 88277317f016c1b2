package ui

import (
	"fmt"

	"fyne.io/fyne/v2"

	"meltwright/internal/drawing"
	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/risk"
	"meltwright/internal/ui/kit"
)

// sureID is the page of the range.
const sureID = "sure"

// surePage says how sure the price is: where cost and price come to lie, what
// they hang on, and what castings that fail do to them.
type surePage struct {
	q            *quoteScreen
	body         *page
	state        *kit.Prose
	bar, drivers *kit.Drawn
	where        *kit.LineTable
	hangs        *kit.Heading
	means        *kit.Prose
	recasts      *kit.Prose
	drawn        *kit.Prose
	points       *kit.Button // to the shop book's ranges
	ranges       *sureRanges
	said         *kit.Field // the tick for the proposal
	offered      *kit.FieldGrid
}

func newSurePage(q *quoteScreen) stagePage {
	p := &surePage{q: q, state: kit.NewProse(""), bar: kit.NewDrawn(nil), drivers: kit.NewDrawn(nil)}
	p.where = titled("In how many trials it stays within", "", "Cost", "Price")
	p.hangs = kit.NewHeading("", "What the price hangs on: how far each thing alone moves it, from one of its better days to one of its worse")
	p.means, p.recasts, p.drawn = kit.NewProse(""), kit.NewProse(""), kit.NewProse("")
	p.points = kit.NewButton("Ranges in the shop book", kit.Plain, q.w.guarded(p.toBook))
	p.ranges = newSureRanges(q)
	p.said = kit.NewField(kit.FieldSpec{
		ID: "sure.said", Kind: kit.CheckField, Label: "In the proposal", Caption: "say where eight in ten come to lie",
		OnChanged: q.w.guardedText(func(text string) { q.edit(func() { q.sheet.SayRange(text == kit.Yes) }) }),
	})
	p.said.SetDefault(kit.No, "")
	p.offered = kit.NewFieldGrid(p.said)
	p.body = newPage(append([]fyne.CanvasObject{
		kit.NewHeading("How sure", "The whole work estimated again and again, with hours, surfaces, prices and castings as they may turn out"),
		p.state, p.bar, p.means, p.where, p.recasts, p.offered, p.hangs, p.drivers, p.drawn,
	}, append(p.ranges.parts(), leading(p.points))...)...)
	return p
}

// drawnParts are those that show the range, and are there when it is drawn.
func (p *surePage) drawnParts() []fyne.CanvasObject {
	return []fyne.CanvasObject{p.bar, p.means, p.where, p.recasts, p.hangs, p.drivers, p.drawn}
}

func (p *surePage) page() *page { return p.body }

// focus puts the keyboard into the first thing that may be filled in: the tick for
// the proposal, else the points, or, while there are none, the button to the shop
// book.
func (p *surePage) focus() {
	switch {
	case p.offered.Visible():
		p.q.w.focusFirst(p.offered)
	case len(p.ranges.factors) > 0:
		p.q.w.focusFirst(p.ranges.grid)
	default:
		p.q.w.win.Canvas().Focus(p.points)
	}
}

// toBook opens the shop book where the ranges stand.
func (p *surePage) toBook() {
	p.q.w.showBook()
	if b, ok := p.q.w.screen.(*bookScreen); ok {
		b.choose("Ranges")
	}
}

func (p *surePage) show() {
	r, ok := p.q.sure.now()
	p.state.Say(p.waiting(ok))
	p.ranges.show()
	p.showSaid()
	for _, o := range p.drawnParts() {
		show(o, ok)
	}
	if !ok {
		return
	}
	e, _ := p.q.sheet.Estimate()
	c := e.Currency
	p.bar.SetBuild(func(width, text float64) drawing.Scene { return rangeScene(e, r, width, text) })
	p.means.Say(meaning(c, r))
	p.where.SetLines(spreadLines(c, r))
	p.recasts.Say(r.RecastWords(c, locale))
	p.drivers.SetBuild(func(width, text float64) drawing.Scene { return driversScene(e, r, width, text) })
	p.drawn.Say(fmt.Sprintf("%s trials, seed %d: the same quote and shop book draw the same range. Hours of one shop move together, by %s; the three points of each thing stand below and in the shop book, and are yours to correct from your own finished works.",
		quantity.Number(float64(r.Trials), 0), r.Seed, share(r.Together)))
}

// showSaid shows whether the proposal says the range, where there are papers to
// say it in.
func (p *surePage) showSaid() {
	show(p.offered, p.q.sheet.Preview() != nil)
	if p.q.sheet.Preview() == nil {
		return
	}
	text := ""
	if p.q.sheet.SaysRange() {
		text = kit.Yes
	}
	p.said.SetText(text)
}

// waiting says why there is no range yet.
func (p *surePage) waiting(ok bool) string {
	switch {
	case ok:
		return ""
	case p.q.sure.err != nil:
		return "No range can be drawn. " + sentence(p.q.sure.err)
	case p.q.sure.busy:
		return "Being drawn …"
	}
	return "There is no range while something is wrong; see what is marked at the left."
}

func rangeScene(e *estimate.Estimate, r risk.Range, width, text float64) drawing.Scene {
	c, shown := e.Currency, rangeShown(e, r)
	return drawing.RangeBar{
		Frame: drawing.Frame{Width: width, Height: text * 4, Text: text},
		Low:   shown.Low, High: shown.High, Mark: shown.At, From: shown.Least, To: shown.Most,
		LowLabel: whole(c, r.Price.P10), HighLabel: whole(c, r.Price.P90), MarkLabel: "quoted " + headline(e),
	}.Scene()
}

// meaning says what the range means for the shop.
func meaning(c money.Currency, r risk.Range) string {
	return r.Words(c, locale) + " One in ten comes out below and one above. " + r.LossWords()
}

func spreadLines(c money.Currency, r risk.Range) []kit.Line {
	line := func(name string, cost, price money.Amount) kit.Line {
		return kit.Line{ID: name, Name: name, Rate: wholePlain(c, cost), Cost: wholePlain(c, price)}
	}
	return []kit.Line{
		line("1 in 10 (P10)", r.Cost.P10, r.Price.P10),
		line("5 in 10 (P50)", r.Cost.P50, r.Price.P50),
		line("8 in 10 (P80)", r.Cost.P80, r.Price.P80),
		line("9 in 10 (P90)", r.Cost.P90, r.Price.P90),
	}
}

func driversScene(e *estimate.Estimate, r risk.Range, width, text float64) drawing.Scene {
	d := drawing.Drivers{Frame: drawing.Frame{Width: width, Text: text}, Base: headline(e)}
	for _, x := range r.Drivers {
		if x.Swing() == 0 {
			continue
		}
		d.Drivers = append(d.Drivers, drawing.Driver{
			Name: capital(x.Name), Low: float64(x.Low), High: float64(x.High),
			LowLabel: signed(e.Currency, x.Low), HighLabel: signed(e.Currency, x.High),
		})
	}
	return d.Scene()
}

// signed prints a change to the whole unit, with its sign.
func signed(c money.Currency, a money.Amount) string {
	if a < 0 {
		return "−" + wholePlain(c, -a)
	}
	return "+" + wholePlain(c, a)
}

// wholePlain prints an amount to the whole unit, without the currency's sign.
func wholePlain(c money.Currency, a money.Amount) string {
	plain := money.Currency{Code: c.Code}
	return plain.Plain(plain.Of(c.Decimal(a)), locale)
}
