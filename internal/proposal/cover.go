package proposal

import (
	"math"
	"strings"

	"meltwright/internal/drawing"
)

var (
	coverTitle = style{drawing.SerifBold, 40, 46, drawing.Ink}
	coverUnder = style{drawing.Serif, 15, 22, drawing.Muted}
	coverShop  = style{drawing.SansSemiBold, 10.5, 15, drawing.Bronze}
	coverFact  = style{drawing.Sans, 10, 15, drawing.Ink}
)

// cover sets the first page: whose it is, the title, the work beside a person,
// and for whom, under which number and how long it stands.
func (o *offer) cover() folio {
	s := o.sheet
	var items []drawing.Item
	y := s.top
	room := s.wide()
	put := func(st style, words string, most int) {
		lines, st := o.lines(st, words, room)
		for _, l := range st.clamp(lines, most, room) {
			items = append(items, st.line(l, s.left, y, drawing.Start))
			y += st.lead
		}
	}
	if logo := o.images.logo; logo != nil {
		items = append(items, logo.at(s.width-s.right-logo.wide, s.top))
		room -= logo.wide + 20
	}
	if o.facts.Shop != "" {
		put(coverShop, o.facts.Shop, 2)
	}
	for _, line := range o.letterhead() {
		put(smallStyle, line, 2)
	}
	room = s.wide()
	y = max(y+34, s.top+96)
	put(o.titleStyle(), o.title(), 4)
	y += 6
	put(coverUnder, o.words.say("under-title", o.facts), 3)
	facts, height := o.coverFacts()
	foot := s.height - s.bottom - height
	if o.images.cover != nil {
		items = append(items, o.coverPicture(y+24, foot-26)...)
	} else {
		items = append(items, o.group(y+24, foot-34)...)
	}
	items = append(items, drawing.Group{Matrix: drawing.Move(s.left, foot), Items: facts})
	return folio{items: items}
}

// letterhead is what stands below the shop's name: its address as it was typed,
// how to reach it, and its registration.
func (o *offer) letterhead() (lines []string) {
	f := o.facts
	for line := range strings.Lines(f.Address) {
		lines = append(lines, strings.TrimSpace(line))
	}
	if reach := joinSome([]string{f.Phone, f.Email, f.Web}, "  ·  "); reach != "" {
		lines = append(lines, reach)
	}
	if f.Registration != "" {
		lines = append(lines, f.Registration)
	}
	return lines
}

// coverPicture shows the picture of the cover between two heights of the page,
// as large as it goes there.
func (o *offer) coverPicture(top, foot float64) []drawing.Item {
	s := o.images.cover
	_, caption := o.caption(s, 0, 0, o.wide)
	if foot-top-caption < 40 {
		return nil
	}
	s.fit(o.sheet.wide(), foot-top-caption)
	words, _ := o.caption(s, o.sheet.left, top+s.high+4, o.wide)
	return append([]drawing.Item{s.at(o.sheet.left, top)}, words...)
}

// titleStyle is smaller for long titles.
func (o *offer) titleStyle() style {
	st := coverTitle
	for st.size > 22 && len(st.wrap(o.title(), o.sheet.wide())) > 2 {
		st.size, st.lead = st.size-2, st.lead-2.2
	}
	return st
}

// coverFacts are the particulars at the foot of the cover, three by three.
func (o *offer) coverFacts() (items []drawing.Item, height float64) {
	f := o.facts
	pairs := [][2]string{
		{"for", f.Client},
		{"place", f.Place},
		{"number", joinSome([]string{f.Number, o.revision()}, ", ")},
		{"date", f.Date},
		{"until", f.Until},
	}
	third := o.sheet.wide() / 3
	y, x, low := 14.0, 0.0, 14.0
	items = append(items, drawing.Shape{Path: drawing.Rect(0, 0, o.sheet.wide(), 1), Fill: drawing.Ink})
	for _, p := range pairs {
		if strings.TrimSpace(p[1]) == "" {
			continue
		}
		label, ls := o.lines(smallStyle, o.words.say("cover-"+p[0], f), third-16)
		words, ws := o.lines(coverFact.in(drawing.SansSemiBold), p[1], third-16)
		items = append(items, ls.line(label[0], x, y, drawing.Start))
		end := y + ls.lead + 1
		for _, l := range ws.clamp(words, 3, third-16) {
			items = append(items, ws.line(l, x, end, drawing.Start))
			end += ws.lead
		}
		low = max(low, end)
		if x += third; x > 2.5*third {
			x, y = 0, low+9
		}
	}
	return items, low
}

// revision says which revision of the quote it is.
func (o *offer) revision() string {
	if o.facts.Revision == "" {
		return ""
	}
	return o.words.say("revision", o.facts)
}

// mostOnCover is how many pieces the cover shows; the work's own page has all.
const mostOnCover = 5

// group draws the work on its ground, beside a person of 1.75 m, between two
// heights of the page.
func (o *offer) group(top, ground float64) []drawing.Item {
	s := o.sheet
	person, _ := drawing.Named(drawing.Person)
	pieces := o.facts.Pieces[:min(len(o.facts.Pieces), mostOnCover)]
	caption := 22.0
	ground -= caption
	tallest, width := drawing.PersonHeight, person.Body.Bounds().Width()*drawing.PersonHeight
	const between = 0.3 // metres
	for _, p := range pieces {
		tallest = math.Max(tallest, p.height+p.plinth)
		width += p.drawing.Body.Bounds().Width()*p.height + between
	}
	if !(ground-top > 40) || !(width > 0) {
		return nil
	}
	scale := min((ground-top)/tallest, s.wide()*0.94/width)
	x := s.left + (s.wide()-width*scale)/2
	var items []drawing.Item
	stand := func(d drawing.Silhouette, height, plinth float64, visitor bool) {
		b := d.Body.Bounds()
		x0 := x - b.Min.X*height*scale
		foot := ground - plinth*scale
		if plinth > 0 {
			items = append(items, block3(x-0.04*scale, x+b.Width()*height*scale+0.04*scale, foot, ground)...)
		}
		if visitor {
			items = append(items, passing(d, x0, foot, height*scale))
		} else {
			items = append(items, d.Standing(x0, foot, height*scale))
		}
		x += (b.Width()*height + between) * scale
	}
	stand(person, drawing.PersonHeight, 0, true)
	for _, p := range pieces {
		stand(p.drawing, p.height, p.plinth, false)
	}
	items = append(items, drawing.Shape{Path: drawing.Rect(s.left, ground-0.7, s.wide(), 1.4), Fill: drawing.Ink})
	words, cs := o.lines(smallStyle, o.words.say("cover-picture", o.facts), s.wide())
	return append(items, cs.line(words[0], s.left, ground+7, drawing.Start))
}

// passing is a silhouette in the tones of the visitor.
func passing(d drawing.Silhouette, x, y, height float64) drawing.Group {
	return drawing.Group{
		Matrix: drawing.Scale(height, -height).Then(drawing.Move(x, y)),
		Items: []drawing.Item{
			drawing.Shape{Path: d.Body, Fill: drawing.Visitor},
			drawing.Shape{Path: d.Shade, Fill: drawing.VisitorShade},
			drawing.Shape{Path: d.Light, Fill: drawing.VisitorLight},
		},
	}
}

// block3 is a plinth in three tones: its face, its side away from the light, and
// its edge.
func block3(left, right, top, ground float64) []drawing.Item {
	wide := right - left
	edge := min((ground-top)*0.12, 5)
	return []drawing.Item{
		drawing.Shape{Path: drawing.Rect(left, top, wide, ground-top), Fill: drawing.Plinth},
		drawing.Shape{Path: drawing.Rect(right-wide*0.22, top, wide*0.22, ground-top), Fill: drawing.PlinthShade},
		drawing.Shape{Path: drawing.Rect(left-edge*0.6, top, wide+edge*1.2, edge), Fill: drawing.PlinthLight},
	}
}
