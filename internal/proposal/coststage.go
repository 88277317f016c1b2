package proposal

import (
	"meltwright/internal/drawing"
	"meltwright/internal/estimate"
	"meltwright/internal/quantity"
)

// stage sets the lines of a stage, piece by piece, with their sum, and below
// them where every value in them came from.
func (c *costs) stage(st *estimate.Stage) []strip {
	e := c.e
	var lines []estimate.Line
	for _, l := range e.Lines {
		if l.Stage == st.ID {
			lines = append(lines, l)
		}
	}
	if len(lines) == 0 {
		return nil
	}
	tb := table{
		size: costRow, before: 4, mark: ".",
		columns: []column{
			{},
			{wide: 52, anchor: drawing.End, point: true, gutter: 6},
			{wide: 44, gutter: 4},
			{wide: 52, anchor: drawing.End, point: true, gutter: 4},
			{wide: 44, gutter: 4},
			{wide: 66, anchor: drawing.End, gutter: 4},
		},
		head: []string{"Line", "Quantity", "", "Rate", "", "Amount"},
	}
	piece := estimate.Whole - 1
	for _, l := range lines {
		if l.Piece != piece && len(e.Pieces) > 1 {
			tb.rows = append(tb.rows, row{style: costRow.in(drawing.SansSemiBold), pad: 3, keep: true, cells: []cell{{words: c.pieceName(l.Piece)}}})
		}
		piece = l.Piece
		tb.rows = append(tb.rows, c.line(l))
	}
	for i, s := range e.Stages {
		if s.ID == st.ID {
			tb.rows = append(tb.rows, c.sum(e.Stages[i]))
		}
	}
	strips := append(c.heading(st.Name, 0), c.table(tb)...)
	return append(strips, c.values(lines)...)
}

// pieceName is whose a line is.
func (c *costs) pieceName(i int) string {
	return pieceNameOf(c.e, i)
}

// line is a line of the estimate: quantity × rate = amount, and the figures that
// the quantity came from.
func (c *costs) line(l estimate.Line) row {
	e := c.e
	per := ""
	if l.Per != "" {
		per = "/ " + l.Per
	}
	return row{style: costRow, rule: drawing.Rule, pad: 2.4, cells: []cell{
		{words: l.Item, note: c.e.Working(l).Numbers, across: true},
		{words: l.QuantityText()},
		{words: l.Unit},
		{words: l.RateText(e.Currency.Digits)},
		{words: per},
		{words: c.language.amount(e.Currency, l.Amount)},
	}}
}

// sum is what a stage comes to.
func (c *costs) sum(s estimate.StageResult) row {
	bold := costRow.in(drawing.SansBold)
	hours := ""
	if s.Hours > 0 {
		hours = quantity.Number(float64(s.Hours), 2)
	}
	unit := ""
	if hours != "" {
		unit = "h"
	}
	return row{style: bold, ground: drawing.Wash, pad: 4, cells: []cell{
		{words: s.Name}, {words: hours}, {words: unit}, {}, {}, {words: c.language.amount(c.e.Currency, s.Amount)},
	}}
}

// values lists every value in the workings of some lines that has not been
// listed yet, with where it came from.
func (c *costs) values(lines []estimate.Line) []strip {
	tb := c.valueTable()
	for _, l := range lines {
		for _, p := range c.e.Working(l).Parts {
			name := p.Name + " " + p.Value
			if p.Local != "" {
				name += ", " + p.Local
			}
			if p.Name == "rate" {
				name = l.Item + ", " + name
			}
			from := p.Origin.String()
			if p.Numbers != "" {
				from = "= " + p.Numbers
			}
			if !c.known[name+from] {
				c.known[name+from] = true
				tb.rows = append(tb.rows, c.valueRow(name, from))
			}
		}
	}
	if len(tb.rows) == 0 {
		return nil
	}
	return append(c.heading("Where the values come from", 1), c.table(tb)...)
}
