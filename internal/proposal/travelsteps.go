package proposal

import (
	"strings"

	"meltwright/internal/drawing"
	"meltwright/internal/estimate"
	"meltwright/internal/quantity"
)

// steps sets a stage of a section: its steps with boxes, the hours to aim at, and
// room for who did it and when; below them, what can hurt.
func (c *costs) steps(s casting, st *estimate.Stage) []strip {
	tb := table{
		size: costRow, before: 1,
		columns: []column{{titles: true}, {wide: 64, anchor: drawing.End, gutter: 8}, {wide: 92, gutter: 16}, {wide: 84, gutter: 10}},
		head:    []string{c.term(st.Name), c.say("travel-hours", nil), c.say("travel-by", nil), c.say("travel-date", nil)},
	}
	add := func(words, hours string) {
		tb.rows = append(tb.rows, row{style: costRow, rule: drawing.Rule, pad: 2.6, cells: []cell{{boxes: min(s.many(), mostBoxes), words: words}, {words: hours}}})
	}
	if st.ID == "shell" {
		tb.rows = append(tb.rows, c.coatRows(s)...)
	}
	for _, l := range c.e.Lines {
		if l.Stage == st.ID && l.Class == estimate.Labour && (l.Piece == s.piece || l.Piece == estimate.Whole) {
			add(c.term(l.Item), c.hoursEach(l, s))
		}
	}
	if len(tb.rows) == 0 {
		return nil
	}
	strips := c.table(tb)
	strips[0].before = 5
	for i := range strips {
		strips[i].keep = true
	}
	warned := c.warnings(s, st)
	if len(warned) == 0 {
		strips[len(strips)-1].keep = false
	}
	return append(strips, warned...)
}

// mostBoxes is how many boxes go beside the words of a step.
const mostBoxes = 12

// hoursEach is what a step may take of the hours of the whole line, for one page.
func (c *costs) hoursEach(l estimate.Line, s casting) string {
	n := c.e.Sections
	if l.Piece != estimate.Whole {
		n = c.e.Pieces[s.piece].Sections * c.e.Pieces[s.piece].Casts
	}
	if n == 0 {
		return ""
	}
	return c.language.number(quantity.Number(l.Hours/float64(n)*float64(s.many()), 1)) + " h"
}

// coatRows are the coats of the shell, a box each, by their kinds.
func (c *costs) coatRows(s casting) (rows []row) {
	count := func(path string) int { return int(exactInput(c.paper, s.piece, path).Num + 0.5) }
	fine, medium, seal := count("shell.fine"), count("shell.medium"), count("shell.seal")
	coats := []struct {
		kind string
		n    int
	}{{"fine", fine}, {"medium", medium}, {"coarse", c.e.Pieces[s.piece].Coats - fine - medium - seal}, {"seal", seal}}
	for _, k := range coats {
		for left := k.n; left > 0; left -= mostBoxes {
			n := min(left, mostBoxes)
			rows = append(rows, row{style: costRow, rule: drawing.Rule, pad: 2.6, keep: true, cells: []cell{{boxes: n, words: c.say("travel-"+k.kind, nil)}}})
		}
	}
	return rows
}

// warnings are the cautions of a stage that concern a section.
func (c *costs) warnings(s casting, st *estimate.Stage) (strips []strip) {
	name := c.e.Pieces[s.piece].Name
	for _, x := range c.e.Cautions {
		const ofOne = "A section of "
		another := strings.HasPrefix(x.Text, ofOne) && !strings.HasPrefix(x.Text, ofOne+name+" ")
		if x.Stage != st.ID || another {
			continue
		}
		words, look := c.caution(x), costNote.tinted(drawing.Ink)
		if x.Level == estimate.Danger {
			words, look = c.say("shop-danger", nil)+" "+words, look.in(drawing.SansSemiBold).tinted(drawing.Bad)
		}
		lines, look := c.lines(look, words, c.wide)
		for i, l := range lines {
			st := strip{height: look.lead, keep: i < len(lines)-1, items: []drawing.Item{look.line(l, 0, 0, drawing.Start)}}
			if i == 0 {
				st.before = 2.5
			}
			strips = append(strips, st)
		}
	}
	return strips
}
