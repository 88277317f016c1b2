package proposal

import (
	"fmt"
	"slices"
	"strings"

	"meltwright/internal/drawing"
	"meltwright/internal/estimate"
	"meltwright/internal/quantity"
	"meltwright/internal/quote"
	"meltwright/internal/shop"
)

// travelled are the stages that a section goes through with its page, in order.
var travelled = []string{"wax", "gating", "shell", "pour", "metalwork", "patina"}

// mostTravellers is how many pages of sections a traveller has. Beyond it the
// sections of a piece, which are reckoned alike, share a page, with a box for
// each at every step.
const mostTravellers = 80

// traveller sets a page for each section: what it is, what is done to it, with a
// box for every step and coat, and what can hurt.
func traveller(p quote.Paper) *document {
	c := shopPaper(p, tongueOf(p))
	c.title, c.foot = c.say("travel-title", nil), c.say("travel-foot", nil)
	var strips []strip
	for _, s := range castingsOf(c.e) {
		page := c.sectionPage(s)
		page[0].fresh = true
		strips = append(strips, page...)
	}
	if len(strips) == 0 {
		strips = append(c.titled(), c.paragraph(bodyStyle, c.say("travel-none", nil), 0, 6)...)
	}
	return c.document(strips)
}

// sectionPage is the page of one section.
func (c *costs) sectionPage(s casting) []strip {
	strips := append(c.sectionTop(s), c.weights(s))
	for _, id := range travelled {
		if st, ok := estimate.StageByID(id); ok {
			strips = append(strips, c.steps(s, st)...)
		}
	}
	return strips
}

// sectionTop is the head of a section's page: its number, and of which cast.
func (c *costs) sectionTop(s casting) []strip {
	p := c.e.Pieces[s.piece]
	said := map[string]int{"Section": (s.from-1)%p.Sections + 1, "Sections": p.Sections, "Many": 0, "Cast": (s.from-1)/p.Sections + 1, "Casts": 0}
	if s.many() > 1 {
		said["Many"] = s.many()
	}
	if p.Casts > 1 {
		said["Casts"] = p.Casts
	}
	words := c.say("travel-section", said)
	title, ts := c.lines(costTitle, words+" — "+p.Name, c.wide)
	var strips []strip
	for _, l := range ts.clamp(title, 2, c.wide) {
		strips = append(strips, strip{height: ts.lead, keep: true, items: []drawing.Item{ts.line(l, 0, 0, drawing.Start)}})
	}
	strips[0].mark = &mark{words: p.Name + ", " + lowerFirst(words)}
	return append(strips, c.paragraph(bodyStyle, joinSome([]string{c.paper.Quote.Commission.Title, c.term(p.Alloy)}, " · "), 0, 0)...)
}

// weights are the figures of one section, side by side.
func (c *costs) weights(s casting) strip {
	e, p := c.e, c.e.Pieces[s.piece]
	mass := func(m quantity.Mass) string { return c.language.size(quantity.KindMass, float64(m), e.System) }
	each := func(whole quantity.Mass) string { // a section's part of what a cast weighs
		least, most := mass(whole*quantity.Mass(s.least)), mass(whole*quantity.Mass(s.most))
		if least == most {
			return least
		}
		return least + " – " + most
	}
	poured := c.say("travel-unknown", nil)
	if len(s.heats) > 0 {
		poured = c.say("travel-heats", map[string]any{"Heats": numbers(s.heats), "Of": len(e.Heats)})
	}
	pairs := [][2]string{
		{c.say("travel-wax", nil), each(c.waxOf(s.piece))},
		{c.say("travel-finished", nil), each(p.Finished)},
		{c.say("travel-poured", nil), each(p.Poured)},
		{c.say("travel-heat", nil), poured},
		{c.say("travel-wall", nil), c.language.length(p.Wall, e.System)},
		{c.say("travel-coats", nil), c.language.count(p.Coats)},
		{c.say("travel-shell", nil), each(p.ShellMass)},
		{c.say("travel-weld", nil), c.language.length(p.Weld, e.System)},
	}
	const across, high = 4, 30.0
	var items []drawing.Item
	for i, pair := range pairs {
		x, y := float64(i%across)*c.wide/across, 8+float64(i/across)*high
		items = append(items, smallStyle.line(pair[0], x, y, drawing.Start), rowStyle.in(drawing.SansSemiBold).line(pair[1], x, y+11.5, drawing.Start))
	}
	return strip{height: 8 + 2*high, items: items}
}

// numbers lists numbers, runs of them as from–to.
func numbers(list []int) string {
	var parts []string
	for i := 0; i < len(list); {
		k := i
		for k+1 < len(list) && list[k+1] == list[k]+1 {
			k++
		}
		switch {
		case k > i:
			parts = append(parts, fmt.Sprintf("%d–%d", list[i], list[k]))
		default:
			parts = append(parts, fmt.Sprint(list[i]))
		}
		i = k + 1
	}
	return strings.Join(parts, ", ")
}

// waxOf is the wax in the walls of one cast of a piece: wax and metal fill the
// same wall, and the metal comes out thicker by the as-cast thickening.
func (c *costs) waxOf(piece int) quantity.Mass {
	alloy := slices.IndexFunc(c.paper.Shop.Alloys, func(a shop.Alloy) bool { return a.Name == c.e.Pieces[piece].Alloy })
	if alloy < 0 {
		return 0
	}
	thicker := 1 + exactInput(c.paper, piece, "form.thickening").Num
	wax := exactInput(c.paper, piece, "wax.density").Num
	return quantity.Mass(float64(c.e.Pieces[piece].Finished) / thicker * wax / float64(c.paper.Shop.Alloys[alloy].Density))
}
