package proposal

import (
	"cmp"
	"strings"

	"meltwright/internal/drawing"
)

var (
	totalStyle  = style{drawing.SansBold, 11.5, 16, drawing.Ink}
	coversStyle = style{drawing.Sans, 8.5, 13.5, drawing.Muted}
)

// price sets the price by parts of the work, the taxes and the total.
func (o *offer) price(key string) []strip {
	e, l := o.paper.Estimate, o.language
	all := o.blocksOf(key)
	tb := table{
		size: rowStyle, before: 12, whole: true,
		columns: []column{{wide: 112}, {gutter: 12}, {wide: 104, anchor: drawing.End, gutter: 12}},
		head:    []string{o.label("price-part"), o.label("price-covers"), o.words.say("price-amount", o.facts)},
	}
	for _, p := range priceByPart(e, clientParts) {
		r := row{style: rowStyle, rule: drawing.Rule, pad: 5, cells: []cell{
			{words: o.label("part-" + p.key)}, {words: o.words.say("covers-"+p.key, o.facts), style: &coversStyle}, {words: l.amount(e.Currency, p.amount)},
		}}
		if p.byOthers {
			r.cells[1].words = "" // nothing of it is covered
			r.cells[2] = cell{words: o.label("by-others"), style: ptr(rowStyle.tinted(drawing.Muted))}
		}
		tb.rows = append(tb.rows, r)
	}
	if len(e.Taxes) > 0 {
		tb.rows = append(tb.rows, row{style: rowStyle.in(drawing.SansSemiBold), rule: drawing.Ink, weight: 1, pad: 6, cells: []cell{
			{words: o.label("price-before-tax"), across: true}, {}, {words: o.facts.Price},
		}})
	}
	for _, t := range o.facts.Taxes {
		tb.rows = append(tb.rows, row{style: rowStyle, rule: drawing.Rule, pad: 5, cells: []cell{
			{words: o.words.say("tax", t), across: true}, {}, {words: t.Amount},
		}})
	}
	tb.rows = append(tb.rows, row{style: totalStyle, ground: drawing.Wash, pad: 8, cells: []cell{
		{words: o.words.say("total", o.facts), across: true}, {}, {words: o.facts.Total},
	}})
	return o.around(all, o.table(tb))
}

// around sets words with a table after the title and the first paragraph.
func (o *offer) around(all []block, table []strip) []strip {
	at := min(2, len(all))
	if at == 2 && all[1].kind != ' ' {
		at = 1
	}
	strips := o.running(all[:at], bodyStyle)
	if len(strips) > 0 {
		strips[len(strips)-1].keep = true
	}
	strips = append(strips, table...)
	return append(strips, o.running(all[at:], bodyStyle)...)
}

// payments sets the payment plan, to the cent.
func (o *offer) payments(key string) []strip {
	e, l := o.paper.Estimate, o.language
	tb := table{
		size: rowStyle, before: 10, whole: true,
		columns: []column{{}, {wide: 70, anchor: drawing.End, gutter: 12}, {wide: 120, anchor: drawing.End, gutter: 12}},
		head:    []string{o.label("payment-when"), o.label("payment-share"), o.words.say("price-amount", o.facts)},
	}
	for _, p := range e.Payments {
		tb.rows = append(tb.rows, row{style: rowStyle, rule: drawing.Rule, pad: 5, cells: []cell{
			{words: o.term(p.When)}, {words: l.percent(p.Share)}, {words: l.amount(e.Currency, p.Amount)},
		}})
	}
	tb.rows = append(tb.rows, row{style: totalStyle, ground: drawing.Wash, pad: 8, cells: []cell{
		{words: o.label("payment-total")}, {}, {words: o.facts.Total},
	}})
	return o.around(o.blocksOf(key), o.table(tb))
}

// signatures sets what is agreed and the places to sign, on one page.
func (o *offer) signatures(key string) []strip {
	strips := append(o.around(o.blocksOf(key), o.agreed()), o.signing())
	for i := range strips {
		strips[i].keep = true
	}
	return strips
}

// agreed sums up what is signed.
func (o *offer) agreed() []strip {
	f := o.facts
	pairs := [][2]string{
		{"agreed-work", o.title()},
		{"agreed-place", f.Place},
		{"agreed-paper", joinSome([]string{f.Number, o.revision(), f.Date}, ", ")},
		{"agreed-until", f.Until},
		{"agreed-price", f.Price},
	}
	tb := table{size: rowStyle, before: 10, columns: []column{{wide: 130}, {gutter: 10}}}
	add := func(name, words string) {
		if strings.TrimSpace(words) != "" {
			tb.rows = append(tb.rows, row{style: rowStyle, rule: drawing.Rule, pad: 4, cells: []cell{{words: name, style: ptr(rowStyle.tinted(drawing.Muted))}, {words: words}}})
		}
	}
	for _, p := range pairs {
		add(o.label(p[0]), p[1])
	}
	for _, t := range f.Taxes {
		add(o.words.say("tax", t), t.Amount)
	}
	tb.rows = append(tb.rows, row{style: totalStyle, ground: drawing.Wash, pad: 8, cells: []cell{{words: o.label("agreed-total")}, {words: f.Total}}})
	return o.table(tb)
}

// signing is the places to sign, side by side.
func (o *offer) signing() strip {
	half := o.wide/2 - 16
	var items []drawing.Item
	names := 0.0
	shop := cmp.Or(strings.TrimSpace(o.facts.Shop), lowerFirst(o.label("the-foundry")))
	client := cmp.Or(strings.TrimSpace(o.facts.Client), lowerFirst(o.label("the-client")))
	for i, name := range []string{o.label("sign-shop") + " " + shop, o.label("sign-client") + " " + client} {
		lines, s := o.lines(rowStyle.in(drawing.SansSemiBold), name, half)
		for k, l := range s.clamp(lines, 3, half) {
			items = append(items, s.line(l, float64(i)*(half+32), 16+float64(k)*s.lead, drawing.Start))
			names = max(names, float64(k+1)*s.lead)
		}
	}
	y := 16 + names
	for _, what := range []string{"sign-here", "sign-name", "sign-date"} {
		y += 29
		words, s := o.lines(smallStyle, o.label(what), half)
		for _, x := range []float64{0, half + 32} {
			items = append(items, drawing.Shape{Path: drawing.Rect(x, y, half, 0.8), Fill: drawing.Muted}, s.line(words[0], x, y+3, drawing.Start))
		}
		y += 14
	}
	return strip{height: y + 8, before: 14, items: items}
}
