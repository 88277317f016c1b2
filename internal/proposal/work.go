package proposal

import (
	"meltwright/internal/drawing"
	"meltwright/internal/quantity"
)

// work sets what the work is: the pieces side by side, what is to be known of
// each, and how they are made.
func (o *offer) work(key string) []strip {
	all := o.blocksOf(key)
	at := 0 // the words up to the first paragraph come before the picture
	for at < len(all) && all[at].kind != '+' {
		at++
	}
	strips := o.running(all[:at], bodyStyle)
	if len(o.facts.Pieces) <= mostColumns {
		strips = append(strips, o.beside(o.facts.Pieces)...)
	} else {
		strips = append(strips, o.listed()...)
	}
	return append(strips, o.running(all[at:], bodyStyle)...)
}

// mostColumns is how many pieces stand side by side over a table with a column
// for each; more are a table with a row for each.
const mostColumns = 4

// labelWide is the room for the names of a table's rows.
const labelWide = 96

// beside sets pieces side by side, their figures over their columns.
func (o *offer) beside(pieces []piece) []strip {
	n := len(pieces)
	wide := (o.wide - labelWide) / float64(n)
	l := o.lineUp(pieces, 176)
	anchor := drawing.Start // of a single column
	for i := range pieces {
		if n > 1 {
			l.Centres, anchor = append(l.Centres, labelWide+wide*(float64(i)+0.5)), drawing.Middle
		}
	}
	pic := picture(o.language.spoken(l.Scene()), 10)
	pic.keep = true
	tb := table{size: rowStyle, before: 4, columns: []column{{wide: labelWide}}}
	for range pieces {
		tb.columns = append(tb.columns, column{wide: wide - 8, gutter: 8, anchor: anchor})
	}
	for _, r := range workRows {
		cells := []cell{{words: o.label("work-" + r.key), style: ptr(rowStyle.tinted(drawing.Muted))}}
		some := false
		for i := range pieces {
			words := r.words(o, &pieces[i])
			some = some || words != ""
			cells = append(cells, cell{words: words})
		}
		if some {
			tb.rows = append(tb.rows, row{cells: cells, style: rowStyle, rule: drawing.Rule, pad: 4})
		}
	}
	return append([]strip{pic}, o.table(tb)...)
}

func ptr[T any](v T) *T { return &v }

// lineUp is a picture of pieces beside a person.
func (o *offer) lineUp(pieces []piece, height float64) drawing.LineUp {
	l := drawing.LineUp{
		Frame: drawing.Frame{Width: o.wide, Height: height, Text: 9.5}, Person: o.words.say("visitor", o.facts),
	}
	if o.paper.Estimate.System == quantity.InchPound {
		l.Units = drawing.FeetInches
	}
	for _, p := range pieces {
		name, _ := o.clean(drawing.SansSemiBold, p.Name)
		l.Figures = append(l.Figures, drawing.Figure{Name: name, Height: p.height, Plinth: p.plinth, Drawing: p.drawing})
	}
	return l
}

// workRow is one thing that is said of every piece.
type workRow struct {
	key   string
	words func(o *offer, p *piece) string
}

var workRows = []workRow{
	{"height", func(_ *offer, p *piece) string { return p.Height }},
	{"standing", func(_ *offer, p *piece) string { return p.Standing }},
	{"weight", func(o *offer, p *piece) string { return o.words.say("about", p.Weight) }},
	{"casts", func(o *offer, p *piece) string {
		if !o.facts.Casts {
			return ""
		}
		return o.language.count(p.Casts)
	}},
	{"metal", func(o *offer, p *piece) string {
		if len(o.facts.Alloys) == 1 { // the words say it once
			return ""
		}
		return p.Alloy
	}},
	{"wall", func(_ *offer, p *piece) string { return p.Wall }},
	{"finish", func(o *offer, p *piece) string { return o.words.say("finish", p) }},
	{"stands-on", func(o *offer, p *piece) string { return o.words.say("stands-on", p) }},
}

// listed sets many pieces: a picture of them in rows, by number, and a table with
// a row for each.
func (o *offer) listed() []strip {
	var strips []strip
	pieces := o.facts.Pieces
	const aRow, mostRows = 8, 5
	for i := 0; i < min(len(pieces), aRow*mostRows); i += aRow {
		l := o.lineUp(pieces[i:min(i+aRow, len(pieces))], 104)
		for k := range l.Figures {
			l.Figures[k].Name = o.language.count(i + k + 1)
		}
		strips = append(strips, picture(o.language.spoken(l.Scene()), 10))
	}
	tb := table{
		size: rowStyle, before: 14,
		columns: []column{{}, {wide: 84, anchor: drawing.End, gutter: 10}, {wide: 58, anchor: drawing.End, gutter: 8}, {wide: 48, anchor: drawing.End, gutter: 8}, {wide: 54, anchor: drawing.End, gutter: 8}},
		head:    []string{o.label("work-piece"), o.label("work-height"), o.label("work-weight"), o.label("work-wall"), o.label("work-casts")},
	}
	for i := range pieces {
		p := &pieces[i]
		notes := []string{o.words.say("finish", p), o.words.say("stands-on", p)}
		if len(o.facts.Alloys) > 1 {
			notes = append(notes, p.Alloy)
		}
		tb.rows = append(tb.rows, row{style: rowStyle, rule: drawing.Rule, pad: 3.5, cells: []cell{
			{words: o.language.count(i+1) + ".\u2002" + p.Name, note: joinSome(notes, "; ")}, {words: p.Height}, {words: p.Weight}, {words: p.Wall}, {words: o.language.count(p.Casts)},
		}})
	}
	return append(strips, o.table(tb)...)
}
