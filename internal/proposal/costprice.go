package proposal

import (
	"slices"
	"strings"

	"meltwright/internal/drawing"
	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
)

// price sets the steps from the direct cost to the payments.
func (c *costs) price() []strip {
	e, l := c.e, c.language
	tb := table{
		size: costRow, before: 4, whole: true,
		columns: []column{{}, {wide: 52, anchor: drawing.End, gutter: 8}, {wide: 96, gutter: 6}, {wide: 84, anchor: drawing.End, gutter: 8}},
		head:    []string{"Step", "Share", "Of", "Amount"},
	}
	bold := costRow.in(drawing.SansBold)
	add := func(s style, name, note, share, of, amount string) {
		tb.rows = append(tb.rows, row{style: s, rule: drawing.Rule, pad: 3, cells: []cell{{words: name, note: note, across: true}, {words: share}, {words: of}, {words: amount}}})
	}
	for _, s := range e.Stages {
		if s.ID != "price" && (s.Amount != 0 || s.ByOthers) {
			note := ""
			if s.ByOthers {
				note = "by others"
			}
			add(costRow, s.Name, note, share(s.Amount, e), "of direct cost", l.amount(e.Currency, s.Amount))
		}
	}
	add(bold, "Direct cost", "", "", "", l.amount(e.Currency, e.Direct))
	for _, p := range e.PriceLines {
		of := p.Of
		if of != "" {
			of = "of " + of
		}
		add(costRow, p.Name, p.Working, l.number(p.Share), of, l.amount(e.Currency, p.Amount))
	}
	add(bold, "Price before tax", "", "", "", l.amount(e.Currency, e.Price))
	for _, t := range e.Taxes {
		add(costRow, t.Name, strings.Trim(joinSome([]string{"check the rate", t.Dated, t.Source}, "; "), "; "), l.percent(t.Rate), "of price", l.amount(e.Currency, t.Amount))
	}
	add(bold, "Total", "", "", "", l.amount(e.Currency, e.Total))
	for _, p := range e.Payments {
		add(costRow, p.When, "", l.percent(p.Share), "of total", l.amount(e.Currency, p.Amount))
	}
	return append(c.heading("Price", 0), c.table(tb)...)
}

// share is a stage's part of the direct cost.
func share(a money.Amount, e *estimate.Estimate) string {
	if e.Direct == 0 {
		return ""
	}
	return quantity.Number(float64(a)/float64(e.Direct)*100, 1) + " %"
}

// heats lists what each crucible of metal fills.
func (c *costs) heats() []strip {
	e, l := c.e, c.language
	if len(e.Heats) == 0 {
		return nil
	}
	tb := table{
		size: costRow, before: 4,
		columns: []column{{wide: 34, anchor: drawing.End}, {wide: 58, anchor: drawing.End, gutter: 8}, {wide: 150, gutter: 14}, {gutter: 10}},
		head:    []string{"Heat", "Metal", "Alloy", "Sections"},
	}
	for i, h := range e.Heats {
		var fills []string
		for _, s := range byPiece(h.Sections) {
			fills = append(fills, l.count(s.Count)+" of "+c.pieceName(s.Piece))
		}
		tb.rows = append(tb.rows, row{style: costRow, rule: drawing.Rule, pad: 2.4, cells: []cell{
			{words: l.count(i + 1)}, {words: l.size(quantity.KindMass, h.Kg, e.System)}, {words: h.Alloy}, {words: strings.Join(fills, ", ")},
		}})
	}
	strips := c.heading("Heats", 0)
	words := "A crucible pours up to " + l.size(quantity.KindMass, float64(e.Usable), e.System) + "; each section is poured from one heat. Charged in all, failures apart: " + l.size(quantity.KindMass, float64(e.Charged), e.System) + "."
	strips = append(strips, c.paragraph(smallStyle, words, 0, 0)...)
	return append(strips, c.table(tb)...)
}

// byPiece counts the sections of a heat by their pieces, whatever they weigh.
func byPiece(shares []estimate.HeatShare) (out []estimate.HeatShare) {
	for _, s := range shares {
		at := slices.IndexFunc(out, func(x estimate.HeatShare) bool { return x.Piece == s.Piece })
		if at < 0 {
			out = append(out, s)
			continue
		}
		out[at].Count += s.Count
	}
	return out
}

// casts sets what is paid once and what for each cast, where there are several.
func (c *costs) casts() []strip {
	e, l := c.e, c.language
	tb := table{
		size: costRow, before: 4,
		columns: []column{{}, {wide: 36, anchor: drawing.End}, {wide: 76, anchor: drawing.End, gutter: 6}, {wide: 76, anchor: drawing.End, gutter: 6}, {wide: 76, anchor: drawing.End, gutter: 6}, {wide: 76, anchor: drawing.End, gutter: 6}},
		head:    []string{"Piece", "Casts", "Paid once", "The first", "The next", "On average"},
	}
	for _, p := range e.Pieces {
		if p.Casts > 1 {
			tb.rows = append(tb.rows, row{style: costRow, rule: drawing.Rule, pad: 3, cells: []cell{
				{words: p.Name},
				{words: l.count(p.Casts)},
				{words: l.amount(e.Currency, p.Once)},
				{words: l.amount(e.Currency, p.FirstCast)},
				{words: l.amount(e.Currency, p.NextCast)},
				{words: l.amount(e.Currency, p.AverageCast)},
			}})
		}
	}
	if len(tb.rows) == 0 {
		return nil
	}
	strips := append(c.heading("Casts", 0), c.paragraph(smallStyle, "Direct cost, delivery apart.", 0, 0)...)
	return append(strips, c.table(tb)...)
}

// cautions lists the usual cautions, the gravest first.
func (c *costs) cautions() []strip {
	if len(c.e.Cautions) == 0 {
		return nil
	}
	strips := append(c.heading("Cautions", 0), c.paragraph(smallStyle, "Follow local codes; licensed people decide.", 0, 0)...)
	list := slices.Clone(c.e.Cautions)
	slices.SortStableFunc(list, func(a, b estimate.Caution) int { return int(b.Level - a.Level) })
	for _, x := range list {
		words := x.Text
		if x.Source != "" {
			words += " (" + x.Source + ")"
		}
		s := style{drawing.Sans, 8.5, 12.5, drawing.Ink}
		if x.Level == estimate.Danger {
			s = s.in(drawing.SansSemiBold)
			words = "Danger. " + words
		}
		strips = append(strips, c.item(s, words)...)
	}
	return strips
}
