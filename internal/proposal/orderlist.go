package proposal

import (
	"cmp"
	"strconv"
	"strings"

	"meltwright/internal/drawing"
	"meltwright/internal/estimate"
	"meltwright/internal/quantity"
	"meltwright/internal/quote"
)

// whole prints a whole number for a table that is read by programs.
func whole(n int) string { return strconv.Itoa(n) }

// pieceNameOf is whose a line is.
func pieceNameOf(e *estimate.Estimate, i int) string {
	if i == estimate.Whole {
		return "The whole commission"
	}
	return e.Pieces[i].Name
}

// shopPaper begins a paper that stays in the shop, in a language.
func shopPaper(p quote.Paper, code string) *costs {
	s, _ := sheetFor(p) // what is no paper is a fault of the proposal
	s.left, s.right, s.top, s.bottom = 54, 48, 62, 62
	c := &costs{paper: p, e: p.Estimate, sheet: s, language: languageOf(code, p.Estimate.Currency), known: map[string]bool{}}
	c.words, _ = wordingOf(c.language.code, nil) // the program's own words are sound: tests hold them
	c.wide = s.wide()
	return c
}

// document puts strips of a shop's paper on pages.
func (c *costs) document(strips []strip) *document {
	pages, marks := c.sheet.compose(strips)
	d := &document{sheet: c.sheet, title: c.title + ": " + c.work(), author: cmp.Or(strings.TrimSpace(c.paper.Shop.Book.Shop), c.say("the-foundry", nil)), language: c.language.code, date: c.paper.Date, marks: marks}
	d.finish(pages, c.furniture)
	d.lost = c.lost
	return d
}

// work names the commission.
func (c *costs) work() string {
	return cmp.Or(strings.TrimSpace(c.paper.Quote.Commission.Title), c.say("untitled", nil))
}

// titleOf names the commission, and authorOf the shop, for programs that list
// documents: neither is ever empty.
func titleOf(p quote.Paper) string {
	return cmp.Or(strings.TrimSpace(p.Quote.Commission.Title), "A work in bronze")
}

func authorOf(p quote.Paper) string {
	return cmp.Or(strings.TrimSpace(p.Shop.Book.Shop), "The foundry")
}

// titled is the paper's title and which commission it is of.
func (c *costs) titled() []strip {
	q := c.paper.Quote
	title, s := c.lines(costTitle, c.title, c.wide)
	strips := []strip{{height: s.lead, keep: true, items: []drawing.Item{s.line(title[0], 0, 0, drawing.Start)}, mark: &mark{words: c.title}}}
	return append(strips, c.paragraph(bodyStyle, joinSome([]string{q.Commission.Title, q.Commission.Client, q.Commission.Place}, " · "), 0, 0)...)
}

// orderList sets what is to be ordered, a table a supplier, with a box to tick
// when it has come.
func orderList(p quote.Paper) *document {
	c := shopPaper(p, tongueOf(p))
	c.title, c.foot = c.say("order-title", nil), c.say("shop-common", nil)
	orders := ordersOf(p)
	strips := append(c.titled(), c.paragraph(smallStyle, c.orderWords(), 0, 2)...)
	for _, o := range orders {
		name := o.supplier
		switch {
		case name == "" && len(orders) > 1:
			name = c.say("order-no-supplier", nil)
		case name == "":
			name = c.say("order-materials", nil)
		}
		strips = append(strips, c.heading(name, 0)...)
		strips = append(strips, c.orderTable(o)...)
	}
	return c.document(strips)
}

// orderWords say what the quantities are.
func (c *costs) orderWords() string {
	charged := ""
	if c.e.Charged > 0 {
		charged = c.language.size(quantity.KindMass, float64(c.e.Charged), c.e.System)
	}
	return c.say("order-words", map[string]string{"Currency": c.e.Currency.Code, "Charged": charged})
}

// orderTable sets the materials of one supplier.
func (c *costs) orderTable(o order) []strip {
	e, l := c.e, c.language
	tb := table{
		size: costRow, before: 4, mark: l.mark,
		columns: []column{
			{wide: 10},
			{gutter: 6},
			{wide: 46, anchor: drawing.End, point: true, gutter: 6},
			{wide: 38, gutter: 4},
			{wide: 36, gutter: 4},
			{wide: 28, anchor: drawing.End, gutter: 4},
			{wide: 42, anchor: drawing.End, gutter: 6},
			{wide: 54, anchor: drawing.End, gutter: 6},
			{wide: 62, anchor: drawing.End, gutter: 6},
		},
		head: []string{
			"", c.say("order-material", nil), c.say("order-needed", nil), "", c.say("order-pack", nil), c.say("order-packs", nil), c.say("order-comes-to", nil), c.say("order-pack-at", nil), c.say("order-cost", nil),
		},
	}
	for _, w := range o.wants {
		stages := make([]string, len(w.stages))
		for i, name := range w.stages {
			stages[i] = c.term(name)
		}
		cells := []cell{{boxes: 1}, {words: c.term(w.name), note: strings.Join(stages, ", ")}, {words: l.number(w.need.StringFixed(w.places))}, {words: c.term(w.unit)}, {}, {}, {}, {}, {words: l.amount(e.Currency, w.cost)}}
		if w.packed {
			cells[4].words, cells[5].words = l.number(w.pack.HoldsText()), l.count(w.packs)
			cells[6].words, cells[7].words = strings.TrimSpace(l.number(w.ordered.String())+" "+w.pack.Unit.Symbol), l.amount(e.Currency, w.each)
		}
		tb.rows = append(tb.rows, row{style: costRow, rule: drawing.Rule, pad: 3, cells: cells})
	}
	bold := costRow.in(drawing.SansBold)
	tb.rows = append(tb.rows, row{style: bold, ground: drawing.Wash, pad: 4, cells: []cell{{}, {words: c.say("order-in-all", nil)}, {}, {}, {}, {}, {}, {}, {words: l.amount(e.Currency, o.cost)}}})
	tb.rows[len(tb.rows)-2].keep = true
	return c.table(tb)
}
