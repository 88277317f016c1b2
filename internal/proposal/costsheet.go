package proposal

import (
	"meltwright/internal/drawing"
	"meltwright/internal/estimate"
	"meltwright/internal/quantity"
	"meltwright/internal/quote"
)

// The styles of the cost sheet: small, for it holds every line there is.
var (
	costRow   = style{drawing.Sans, 8, 11.5, drawing.Ink}
	costNote  = style{drawing.Sans, 7, 9.8, drawing.Muted}
	costTitle = style{drawing.SerifBold, 22, 28, drawing.Ink}
)

// costs is a cost sheet being set.
type costs struct {
	setter
	paper    quote.Paper
	e        *estimate.Estimate
	sheet    sheet
	language language
	words    *wording
	known    map[string]bool // values that have been listed
	title    string          // of the paper
	foot     string          // what stands below every page
}

// costSheet sets the shop's own sheet: every line of every stage, from what it
// was worked out, and how the lines become the price.
// Its workings are the estimate's own, and so it is in English.
func costSheet(p quote.Paper) *document {
	c := shopPaper(p, "en")
	c.title, c.foot = "Cost sheet", c.say("shop-common", nil)
	strips := c.top()
	strips = append(strips, c.pieces()...)
	for _, st := range estimate.Stages {
		strips = append(strips, c.stage(st)...)
	}
	strips = append(strips, c.price()...)
	strips = append(strips, c.sure()...)
	strips = append(strips, c.heats()...)
	strips = append(strips, c.casts()...)
	strips = append(strips, c.cautions()...)
	return c.document(strips)
}

// furniture says on every page whose paper it is.
func (c *costs) furniture(number, count int) []drawing.Item {
	s := smallStyle
	s.size = 7.5
	q := c.paper.Quote
	left, ls := c.lines(s, joinSome([]string{q.Commission.Title, joinSome([]string{q.Number, q.Letter}, " "), c.paper.Date}, " · "), c.wide-160)
	right := c.sheet.width - c.sheet.right
	y := c.sheet.height - c.sheet.bottom + 22
	alone := s.in(drawing.SansSemiBold).tinted(drawing.Bad)
	return []drawing.Item{
		alone.line(c.say("shop-alone", nil), right, c.sheet.top-30, drawing.End),
		ls.line(left[0], c.sheet.left, c.sheet.top-30, drawing.Start),
		s.line(c.say("shop-page", map[string]int{"Page": number, "Pages": count}), right, y, drawing.End),
		s.line(c.foot, c.sheet.left, y, drawing.Start),
	}
}

// forTheShop marks what no client is shown.
const forTheShop = "For the shop alone"

// top is the head of the sheet: what it is for, and its figures in short.
func (c *costs) top() []strip {
	e, l := c.e, c.language
	strips := c.titled()
	book := c.paper.Shop.Book
	dated := "as it starts"
	if book.Dated != "" {
		dated = "of " + book.Dated
	}
	strips = append(strips, c.paragraph(smallStyle, "Reckoned with the shop book "+dated+", on "+c.paper.Date+", in "+e.Currency.Code+".", 0, 2)...)
	pairs := [][2]string{
		{"Direct cost", l.amount(e.Currency, e.Direct)},
		{"Price before tax", l.amount(e.Currency, e.Price)},
		{"Total", l.amount(e.Currency, e.Total)},
		{"Foundry hours", l.number(quantity.Number(float64(e.Foundry), 1))},
		{"Metal used up", l.size(quantity.KindMass, float64(e.MetalUsed), e.System)},
		{"Heats, pour days", l.count(len(e.Heats)) + ", " + l.count(e.PourDays)},
		{"Wax to metal", l.number(quantity.Number(e.WaxToMetal, 1)) + " weeks"},
		{"Recasts to expect", l.number(quantity.Number(e.Recasts, 2))},
	}
	const across = 4
	var items []drawing.Item
	wide := c.wide / across
	for i, p := range pairs {
		x, y := float64(i%across)*wide, 14+float64(i/across)*34
		items = append(items, smallStyle.line(p[0], x, y, drawing.Start), rowStyle.in(drawing.SansSemiBold).line(p[1], x, y+12, drawing.Start))
	}
	return append(strips, strip{height: 14 + 34*2, items: items})
}

// pieces are the sizes and weights of each piece, of one cast.
func (c *costs) pieces() []strip {
	e, l := c.e, c.language
	end := func(w float64) column { return column{wide: w, anchor: drawing.End, gutter: 6} }
	tb := table{
		size: costRow, before: 4, columns: []column{{}, end(44), end(50), end(42), end(48), end(48), end(38), end(30), end(46), end(40)},
		head: []string{"Piece", "Height", "Surface", "Wall", "Finished", "Poured", "Sections", "Coats", "Shell", "Weld"},
	}
	mass := func(m quantity.Mass) string { return l.size(quantity.KindMass, float64(m), e.System) }
	for _, p := range e.Pieces {
		tb.rows = append(tb.rows, row{style: costRow, rule: drawing.Rule, pad: 3, cells: []cell{
			{words: p.Name, note: p.Alloy, across: true},
			{words: l.length(p.Height, e.System)},
			{words: l.size(quantity.KindArea, float64(p.Area), e.System)},
			{words: l.length(p.Wall, e.System)},
			{words: mass(p.Finished)},
			{words: mass(p.Poured)},
			{words: l.count(p.Sections)},
			{words: l.count(p.Coats)},
			{words: mass(p.ShellMass)},
			{words: l.length(p.Weld, e.System)},
		}})
	}
	strips := append(c.heading("Sizes and weights", 0), c.table(tb)...)
	for i, p := range e.Pieces {
		strips = append(strips, c.reckoned(i, p)...)
	}
	return strips
}

// reckoned is how the surface, weights, sections and welds of a piece came about.
func (c *costs) reckoned(i int, p estimate.PieceResult) []strip {
	tb := c.valueTable()
	seen := map[string]bool{}
	for _, what := range []string{"area", "finished", "poured", "sections", "weld"} {
		w, ok := c.e.WorkingOf(p, what)
		if !ok {
			continue
		}
		name := map[string]string{"area": "surface of the bronze", "finished": "finished bronze", "poured": "metal poured", "sections": "sections", "weld": "length of weld"}[what]
		tb.rows = append(tb.rows, c.valueRow(name, w.Numbers))
		seen[name] = true
	}
	for _, x := range p.CrossChecks {
		note := "a nude figure by " + x.Source
		if x.Chosen {
			note += "; used here"
		}
		tb.rows = append(tb.rows, c.valueRow(x.Name+" "+c.language.size(quantity.KindArea, float64(x.Area), c.e.System), note))
	}
	if len(tb.rows) == 0 {
		return nil
	}
	return append(c.heading(p.Name, 1), c.table(tb)...)
}

// valueTable lists values and where they come from.
func (c *costs) valueTable() table {
	return table{size: costNote, before: 2, columns: []column{{wide: c.wide * 0.36}, {gutter: 10}}}
}

func (c *costs) valueRow(name, from string) row {
	return row{style: costNote, pad: 1.2, cells: []cell{{words: name, style: ptr(costNote.tinted(drawing.Ink))}, {words: from}}}
}
