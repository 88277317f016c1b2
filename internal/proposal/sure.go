package proposal

import (
	"meltwright/internal/drawing"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/risk"
)

// sure says where the price comes to lie eight times in ten. It is there only
// where the user asks for it, and where the range was drawn.
func (o *offer) sure(key string) []strip {
	r := o.paper.Range
	if r == nil {
		return nil
	}
	c, l := o.paper.Estimate.Currency, o.language
	o.facts.Trials = l.count(r.Trials)
	o.facts.Least, o.facts.Most = l.whole(c, r.Price.P10), l.whole(c, r.Price.P90)
	bar := picture(drawing.RangeBar{
		Frame: drawing.Frame{Width: o.wide * 0.8, Height: 44, Text: 9.5},
		Low:   float64(r.Price.P10), High: float64(r.Price.P90), Mark: float64(o.paper.Estimate.Price),
		LowLabel: o.facts.Least, HighLabel: o.facts.Most, MarkLabel: o.facts.Price,
	}.Scene(), 14)
	bar.keep = true
	return o.around(o.blocksOf(key), []strip{bar})
}

// whole prints an amount to the whole unit of its currency: a range is not known
// to the cent.
func (l language) whole(c money.Currency, a money.Amount) string {
	plain := money.Currency{Code: c.Code}
	return l.amount(plain, plain.Of(c.Decimal(a)))
}

// sure sets how sure the price is, and what it hangs on, for the shop.
func (c *costs) sure() []strip {
	r := c.paper.Range
	if r == nil {
		return nil
	}
	strips := append(c.heading("How sure", 0), c.paragraph(smallStyle, r.Words(c.e.Currency, c.language.locale)+" "+r.LossWords()+" "+r.RecastWords(c.e.Currency, c.language.locale), 0, 0)...)
	strips = append(strips, c.table(c.spreads(r))...)
	strips = append(strips, c.table(c.drivers(r))...)
	words := c.language.count(r.Trials) + " trials, seed " + c.language.number(quantity.Number(float64(r.Seed), 0)) + "; the hours of the shop's stages move together by " + quantity.Number(r.Together*100, 0) + " %."
	return append(strips, c.paragraph(costNote, words, 4, 0)...)
}

// spreads are the parts of cost and price.
func (c *costs) spreads(r *risk.Range) table {
	end := column{wide: 74, anchor: drawing.End, gutter: 6}
	tb := table{size: costRow, before: 4, whole: true, columns: []column{{}, end, end, end, end}, head: []string{"Stays within, in so many of ten", "1 (P10)", "5 (P50)", "8 (P80)", "9 (P90)"}}
	for _, x := range []struct {
		name string
		risk.Spread
	}{{"Cost: direct cost and overhead", r.Cost}, {"Price before tax", r.Price}} {
		cells := []cell{{words: x.name}}
		for _, a := range []money.Amount{x.P10, x.P50, x.P80, x.P90} {
			cells = append(cells, cell{words: c.round(a)})
		}
		tb.rows = append(tb.rows, row{style: costRow, rule: drawing.Rule, pad: 3, cells: cells})
	}
	return tb
}

// mostDrivers is how many of what a price hangs on a cost sheet lists.
const mostDrivers = 10

// drivers are what moves the price most, each alone.
func (c *costs) drivers(r *risk.Range) table {
	end := column{wide: 74, anchor: drawing.End, gutter: 6}
	tb := table{size: costRow, before: 8, columns: []column{{}, end, end}, head: []string{"What the price hangs on, each alone", "At its better", "At its worse"}}
	for _, d := range r.Drivers[:min(mostDrivers, len(r.Drivers))] {
		if d.Swing() > 0 {
			tb.rows = append(tb.rows, row{style: costRow, rule: drawing.Rule, pad: 3, cells: []cell{{words: d.Name}, {words: c.changed(d.Low)}, {words: c.changed(d.High)}}})
		}
	}
	return tb
}

// round prints an amount to the whole unit.
func (c *costs) round(a money.Amount) string {
	return c.language.whole(c.e.Currency, a)
}

// changed prints a change of price with its sign.
func (c *costs) changed(a money.Amount) string {
	if a > 0 {
		return "+" + c.round(a)
	}
	return c.round(a)
}
