package proposal

import (
	"slices"
	"strings"
	"time"

	"meltwright/internal/drawing"
	"meltwright/internal/estimate"
	"meltwright/internal/lead"
	"meltwright/internal/money"
	"meltwright/internal/options"
	"meltwright/internal/quantity"
)

// size is one option of a commission as a committee sees it.
type size struct {
	options.Result
	name  string // in the proposal's language
	facts *facts // what the proposal would say of it
	weeks float64
}

// mostSizes is how many options stand side by side; more are set below them.
const mostSizes = 5

// The room of what is on the page, in points. The pictures are as high as lets all
// of it go on one page, within bounds.
const (
	sizeLabel                 = 118 // the names of the table's rows
	leastPicture, mostPicture = 132, 190
	leastCurve, mostCurve     = 96, 190
	pictureFoot               = 12 // of the drawing, that the table lies over
)

// options sets the options of a commission: the drawing of them, a table under
// it, which one is recommended and why, and the price over the height. A
// commission without options has no such section. Options that cannot be made
// are told as the proposal's faults.
func (o *offer) options(key string) []strip {
	c := o.paper.Quote.Commission
	if len(c.Options) == 0 {
		return nil
	}
	results := options.Compare(c, o.paper.Shop)
	if err := options.Faults(results).Err(); err != nil {
		if o.words.err == nil {
			o.words.err = err
		}
		return nil
	}
	var sizes []size
	for i, r := range results {
		sizes = append(sizes, o.size(r, c.Options[i]))
	}
	rule := estimate.RuleOf(c, o.paper.Shop)
	words, advice := o.running(o.blocksOf(key), bodyStyle), o.advised(sizes)
	var tables [][]strip
	rest := o.sheet.high() - tall(words) - tall(advice)
	for group := range slices.Chunk(sizes, mostSizes) {
		t := o.compared(group, sizes, rule)
		tables, rest = append(tables, t), rest-tall(t)-pictureGap
	}
	strips := words
	rest -= tall(o.heading(o.label("options-curve"), 1)) + curveGap
	high := max(leastPicture, min(rest*0.58, mostPicture))
	rest -= high
	for i, t := range tables {
		pic, slack := o.sizesPicture(sizes[i*mostSizes:min((i+1)*mostSizes, len(sizes))], high)
		strips = append(append(strips, pic), t...)
		rest += slack
	}
	curve := o.priceOver(sizes, rule, max(leastCurve, min(rest-1, mostCurve)))
	strips[0].fresh = true // all of it on a page that is its own
	return append(append(strips, advice...), curve...)
}

// size gathers what is said of an option: as if it were the commission.
func (o *offer) size(r options.Result, x estimate.Option) size {
	as := *o
	as.paper.Quote.Commission, as.paper.Estimate = r.Commission, r.Estimate
	as.facts = as.gather()
	o.lost = as.lost
	s := size{Result: r, facts: as.facts, name: strings.TrimSpace(x.Name)}
	if s.name == "" {
		s.name = o.measure(float64(r.Height))
		if scale, ok := options.ScaleOf(estimate.RuleOf(r.Commission, o.paper.Shop)); ok {
			s.name = o.label("scale-" + scale.Key)
		}
	}
	if start, ok := o.begins(); ok {
		if p, err := lead.Plan(r.Commission, r.Estimate, o.paper.Shop, start, o.paper.Booked); err == nil {
			s.weeks = p.Weeks
		}
	}
	return s
}

// begins is the day that the work is reckoned to begin on: the one that was
// written for it, else that of the paper.
func (o *offer) begins() (time.Time, bool) {
	for _, iso := range []string{o.paper.Start, o.own["start"]} {
		if t, ok := day(strings.TrimSpace(iso)); ok {
			return t, true
		}
	}
	return day(o.paper.Date)
}

// measure prints a height, all of them in metres or in feet and inches, so that
// they can be compared.
func (o *offer) measure(v float64) string {
	if o.paper.Estimate.System == quantity.InchPound {
		return o.language.length(quantity.Length(v), quantity.InchPound)
	}
	return o.language.fixed(money.Round(v, 2).StringFixed(2) + " m")
}

// sum prints an amount, without decimals where it has none.
func (o *offer) sum(a money.Amount) string {
	c := o.paper.Estimate.Currency
	if c.Decimal(a).IsInteger() {
		return c.Whole(a, o.language.locale)
	}
	return o.language.amount(c, a)
}

// sizesPicture is the drawing of a few options, over their table, and how much of
// the height it does not need.
func (o *offer) sizesPicture(group []size, high float64) (strip, float64) {
	l := o.sizesLineUp(group, high+pictureFoot)
	slack := l.Slack()
	l.Height, high = l.Height-slack, high-slack
	pic := picture(o.language.spoken(l.Scene()), pictureGap)
	// What is recommended stands in a frame that the table goes on with: the
	// table lies over where the drawing would close it.
	pic.height, pic.keep = high, true
	return pic, slack
}

// The space above the drawing of options, and above the curve.
const pictureGap, curveGap = 8, 6

// sizeWide is how wide each of n columns of options is.
func (o *offer) sizeWide(n int) float64 { return (o.wide - sizeLabel) / float64(n) }

// compared sets the table of a few options, with the rows that all of them have.
func (o *offer) compared(group, all []size, rule estimate.Rule) []strip {
	wide := o.sizeWide(len(group))
	tb := table{size: rowStyle, whole: true, columns: []column{{wide: sizeLabel}}}
	head := []cell{{}}
	for _, s := range group {
		tb.columns = append(tb.columns, column{wide: wide - 6, gutter: 6, anchor: drawing.Middle})
		head = append(head, cell{words: s.name})
	}
	tb.rows = append(tb.rows, row{cells: head, style: rowStyle.in(drawing.SansSemiBold), rule: drawing.Ink, weight: 1, pad: 3})
	for _, r := range o.sizeRows(all, rule) {
		cells := []cell{{words: r.label, style: ptr(rowStyle.tinted(drawing.Muted))}}
		for i := range group {
			c := cell{words: r.say(&group[i])}
			if group[i].Recommended {
				c.style = ptr(rowStyle.in(drawing.SansSemiBold))
			}
			cells = append(cells, c)
		}
		tb.rows = append(tb.rows, row{cells: cells, style: rowStyle, rule: drawing.Rule, pad: 3})
	}
	strips := o.table(tb)
	for i := range group {
		if group[i].Recommended {
			grounds(strips, sizeLabel+wide*float64(i), wide, i == len(group)-1)
		}
	}
	return strips
}

// grounds marks a column of a table by its ground and its edges, where the
// drawing above it does; the drawing keeps a point free at its right end.
func grounds(strips []strip, x, wide float64, last bool) {
	if last {
		x, wide = x+1, wide-2
	}
	const line = 0.75
	for i, st := range strips {
		mark := []drawing.Item{
			drawing.Shape{Path: drawing.Rect(x, 0, wide, st.height), Fill: drawing.Wash},
			drawing.Shape{Path: drawing.Rect(x-line/2, 0, line, st.height), Fill: drawing.Accent},
			drawing.Shape{Path: drawing.Rect(x+wide-line/2, 0, line, st.height), Fill: drawing.Accent},
		}
		if i == len(strips)-1 {
			mark = append(mark, drawing.Shape{Path: drawing.Rect(x-line/2, st.height-line, wide+line, line), Fill: drawing.Accent})
		}
		strips[i].items = append(mark, st.items...)
	}
}

// sizesLineUp is the drawing of options, each in the middle of its column. Their
// names are in the table.
func (o *offer) sizesLineUp(group []size, high float64) drawing.LineUp {
	wide := o.sizeWide(len(group))
	l := drawing.LineUp{
		Frame:  drawing.Frame{Width: o.wide, Height: high, Text: 9.5},
		Person: o.words.say("visitor", o.facts), Recommended: o.label("options-mark"),
	}
	if o.paper.Estimate.System == quantity.InchPound {
		l.Units = drawing.FeetInches
	}
	for i, s := range group {
		l.Figures = append(l.Figures, s.figure())
		l.Centres = append(l.Centres, sizeLabel+wide*(float64(i)+0.5))
	}
	return l
}

// figure is an option as it is drawn, all its pieces side by side.
func (s size) figure() drawing.Figure {
	f := drawing.Figure{Recommended: s.Recommended}
	for i, p := range s.facts.Pieces {
		if i == 0 {
			f.Height, f.Plinth, f.Drawing = p.height, p.plinth, p.drawing
			continue
		}
		f.Beside = append(f.Beside, drawing.Piece{Height: p.height, Plinth: p.plinth, Drawing: p.drawing})
	}
	return f
}

// advised says which option is recommended, and why.
func (o *offer) advised(sizes []size) []strip {
	at := slices.IndexFunc(sizes, func(s size) bool { return s.Recommended })
	if at < 0 {
		return nil
	}
	strips := o.heading(o.words.say("options-recommended", sizes[at].name), 1)
	why := o.running(blocks(ownWords(sizes[at].Why)), bodyStyle)
	if len(why) == 0 {
		strips[len(strips)-1].keep = false
	}
	return append(strips, why...)
}
