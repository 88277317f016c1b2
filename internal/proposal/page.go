package proposal

import (
	"strings"

	"meltwright/internal/drawing"
	"meltwright/internal/fault"
	"meltwright/internal/quantity"
	"meltwright/internal/quote"
)

// sheet is the size of a page and of what may be written on, in points.
type sheet struct {
	width, height            float64
	left, right, top, bottom float64 // margins
}

// The sizes of paper: ISO 216 A4 and the North American letter.
var (
	a4     = sheet{width: 595.28, height: 841.89, left: 68, right: 62, top: 70, bottom: 78}
	letter = sheet{width: 612, height: 792, left: 74, right: 70, top: 66, bottom: 74}
)

// printedOn are the papers that a quote may choose in its words "paper".
var printedOn = map[string]sheet{"a4": a4, "letter": letter}

// sheetOf gives the paper that people of a system of units print on.
func sheetOf(s quantity.System) sheet {
	if s == quantity.InchPound {
		return letter
	}
	return a4
}

// sheetFor gives the paper that the quote chose, or else the one of its units.
func sheetFor(p quote.Paper) (sheet, error) {
	chosen := strings.ToLower(strings.TrimSpace(p.Quote.Words["paper"]))
	if s, ok := printedOn[chosen]; ok {
		return s, nil
	}
	usual := sheetOf(p.Estimate.System)
	if chosen != "" {
		return usual, fault.Fault{Where: "words.paper", Field: "Paper", Value: chosen, Problem: "is none that is printed on here", Remedy: "choose a4 or letter"}
	}
	return usual, nil
}

// wide is how wide text and tables may be, in points.
func (s sheet) wide() float64 { return s.width - s.left - s.right }

// high is how much of a page's height may be written on, in points.
func (s sheet) high() float64 { return s.height - s.top - s.bottom }

// strip is a band of a page that is never cut: a line of a paragraph, a line of
// a table's row, a picture.
type strip struct {
	height float64
	before float64        // space above it, unless it is the first of its page
	items  []drawing.Item // placed from its own top left
	keep   bool           // stays on one page with the next strip
	head   []strip        // a table's head, repeated above it where it begins a page
	mark   *mark          // a bookmark that leads here
	fresh  bool           // begins a page
}

// mark is a bookmark.
type mark struct {
	words string
	level int
	page  int     // from 0
	y     float64 // from the top of the page
}

// folio is a page as it is filled.
type folio struct {
	items []drawing.Item
	used  float64
}

// compose puts strips on pages, from the top. Strips that stay together go to
// the next page together, unless they are longer than a page.
func (s sheet) compose(strips []strip) (pages []folio, marks []mark) {
	c := composer{sheet: s}
	for i := 0; i < len(strips); {
		end := i + 1
		for end < len(strips) && strips[end-1].keep && !strips[end].fresh {
			end++
		}
		c.chain(strips[i:end])
		i = end
	}
	return c.pages, c.marks
}

type composer struct {
	sheet sheet
	pages []folio
	marks []mark
}

// chain places strips that stay together.
func (c *composer) chain(strips []strip) {
	if len(c.pages) == 0 || strips[0].fresh || c.room() < tall(strips) {
		c.turn(strips[0])
	}
	for i, st := range strips {
		if i > 0 && c.room() < st.before+st.height {
			c.turn(st)
		}
		c.place(st)
	}
}

// tall is how high strips are that follow something on the page.
func tall(strips []strip) float64 {
	sum := 0.0
	for _, st := range strips {
		sum += st.before + st.height
	}
	return sum
}

// room is what the page has left.
func (c *composer) room() float64 { return c.sheet.high() - c.pages[len(c.pages)-1].used }

// turn begins a page for a strip, with the head of the table it belongs to.
func (c *composer) turn(st strip) {
	if n := len(c.pages); n > 0 && c.pages[n-1].used == 0 {
		return
	}
	c.pages = append(c.pages, folio{})
	for _, h := range st.head {
		c.place(h)
	}
}

func (c *composer) place(st strip) {
	p := &c.pages[len(c.pages)-1]
	if p.used > 0 {
		p.used += st.before
	}
	y := c.sheet.top + p.used
	if st.mark != nil {
		m := *st.mark
		m.page, m.y = len(c.pages)-1, y
		c.marks = append(c.marks, m)
	}
	if len(st.items) > 0 {
		p.items = append(p.items, drawing.Group{Matrix: drawing.Move(c.sheet.left, y), Items: st.items})
	}
	p.used += st.height
}
