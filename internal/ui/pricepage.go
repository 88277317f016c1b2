package ui

import (
	"fmt"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/ui/kit"
)

// pricePage is the page of the price: its inputs, the steps from the direct cost
// to the price, taxes, payments, and what a cast costs.
type pricePage struct {
	workPage
	steps, taxes, plan, castsTable *kit.LineTable
	working                        *kit.Working
}

func newPricePage(q *quoteScreen, st *estimate.Stage) *pricePage {
	p := &pricePage{workPage: workPage{q: q, st: st}}
	parts := p.inputs()
	p.working = kit.NewWorking()
	p.own = newOwnLines(q, st)
	p.steps = titled("From direct cost to price", "Share", "", "Amount")
	p.taxes = titled("Tax", "Rate", "", "Amount")
	p.plan = titled("Payments", "Share", "", "Amount")
	p.castsTable = titled("What a cast costs, before overhead and delivery", "Casts", "", "Direct cost")
	p.steps.OnSelect = q.w.guardedText(func(string) {
		p.showWorking()
		p.body.relay()
	})
	parts = append(parts, p.steps, p.working, p.taxes, p.plan, p.castsTable)
	parts = append(parts, p.hours.fold.parts()...)
	parts = append(parts, p.rates.fold.parts()...)
	parts = append(parts, p.own.parts()...)
	p.body = newPage(parts...)
	return p
}

func titled(heads ...string) *kit.LineTable {
	t := kit.NewLineTable()
	t.SetHeads(heads[0], heads[1], heads[2], heads[3])
	return t
}

func (p *pricePage) show() {
	p.showInputs()
	p.own.show()
	e, _ := p.q.sheet.Estimate()
	set := func(t *kit.LineTable, lines []kit.Line) {
		t.SetLines(lines)
		show(t, len(lines) > 0)
	}
	if e == nil {
		for _, t := range []*kit.LineTable{p.steps, p.taxes, p.plan, p.castsTable} {
			set(t, nil)
		}
		return
	}
	set(p.steps, stepLines(e))
	set(p.taxes, taxLines(e))
	set(p.plan, paymentLines(e))
	set(p.castsTable, castLines(e))
	p.showWorking()
}

// stepLines are the steps from the direct cost to the price.
func stepLines(e *estimate.Estimate) []kit.Line {
	c := e.Currency
	lines := []kit.Line{{ID: "direct", Name: "Direct cost of all stages", Cost: amount(c, e.Direct)}}
	for i, s := range e.PriceLines {
		line := kit.Line{ID: fmt.Sprint(i), Name: s.Name, Quantity: s.Share, Cost: amount(c, s.Amount)}
		if s.Of != "" {
			line.Unit = "of " + s.Of
		}
		lines = append(lines, line)
	}
	return append(lines, kit.Line{ID: "price", Kind: kit.LineTotal, Name: "Price before tax", Cost: amount(c, e.Price)})
}

func (p *pricePage) showWorking() {
	e, _ := p.q.sheet.Estimate()
	var chosen int
	if _, err := fmt.Sscan(p.steps.Selected(), &chosen); err != nil || e == nil || chosen >= len(e.PriceLines) {
		p.working.Set(kit.Reckoning{})
		return
	}
	s := e.PriceLines[chosen]
	p.working.Set(kit.Reckoning{Name: s.Name, Formula: s.Working})
}

func taxLines(e *estimate.Estimate) []kit.Line {
	var lines []kit.Line
	for i, t := range e.Taxes {
		name := t.Name
		if t.Dated != "" {
			name += ", in force from " + t.Dated
		}
		lines = append(lines, kit.Line{ID: fmt.Sprint(i), Name: name + "; check the rate", Quantity: percent(t.Rate), Unit: "of the price", Cost: amount(e.Currency, t.Amount)})
	}
	if len(lines) == 0 {
		return nil
	}
	return append(lines, kit.Line{ID: "total", Kind: kit.LineTotal, Name: "With tax", Cost: amount(e.Currency, e.Total)})
}

func paymentLines(e *estimate.Estimate) []kit.Line {
	var lines []kit.Line
	for i, x := range e.Payments {
		lines = append(lines, kit.Line{ID: fmt.Sprint(i), Name: x.When, Quantity: percent(x.Share), Cost: amount(e.Currency, x.Amount)})
	}
	if len(lines) == 0 {
		return nil
	}
	return append(lines, kit.Line{ID: "total", Kind: kit.LineTotal, Name: "All payments", Cost: amount(e.Currency, e.Total)})
}

// percent prints a share.
func percent(share money.Decimal) string { return share.Shift(2).String() + " %" }

// castLines say what is paid once and what per cast, of pieces with several.
func castLines(e *estimate.Estimate) []kit.Line {
	var lines []kit.Line
	for i, p := range e.Pieces {
		if p.Casts < 2 {
			continue
		}
		line := func(what, name, quantity string, a money.Amount) {
			lines = append(lines, kit.Line{ID: fmt.Sprint(i, what), Name: name, Quantity: quantity, Cost: amount(e.Currency, a)})
		}
		lines = append(lines, kit.Line{ID: fmt.Sprint(i), Kind: kit.LineHead, Name: p.Name})
		line("once", "Paid once: original and mould", "", p.Once)
		line("all", "All casts", fmt.Sprint(p.Casts), p.PerCast)
		line("first", "The first cast, with what is paid once", "1", p.FirstCast)
		line("next", "Each of the next", "1", p.NextCast)
		line("average", "A cast on average", "1", p.AverageCast)
	}
	return lines
}
