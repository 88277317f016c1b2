package proposal

import (
	"cmp"
	"slices"
	"strings"

	"meltwright/internal/drawing"
	"meltwright/internal/fault"
	"meltwright/internal/lead"
	"meltwright/internal/quote"
)

// offer is a proposal being set.
type offer struct {
	setter
	paper    quote.Paper
	sheet    sheet
	language language
	words    *wording
	own      map[string]string // what the user wrote, by part
	facts    *facts
	images   images
	schedule *lead.Schedule // nil without a day to begin on
	seen     bool           // its pages are shown on a screen
}

// section is one part of a proposal. Its key names its template, and the user's
// own words for it.
type section struct {
	key string
	set func(o *offer, key string) []strip
	// asked is true for a section that is there only where it is chosen.
	asked bool
}

// sections are those of a proposal, in their usual order. The cover comes before
// them.
var sections = []section{
	{key: "idea", set: (*offer).written},
	{key: "recommendation", set: (*offer).written},
	{key: "work", set: (*offer).work},
	{key: "pictures", set: (*offer).pictures},
	{key: "options", set: (*offer).options},
	{key: "included", set: (*offer).text},
	{key: "rests", set: (*offer).text},
	{key: "timeline", set: (*offer).timeline},
	{key: "price", set: (*offer).price},
	{key: "range", set: (*offer).sure, asked: true},
	{key: "budget", set: (*offer).budget, asked: true},
	{key: "payments", set: (*offer).payments},
	{key: "terms", set: (*offer).text},
	{key: "care", set: (*offer).text},
	{key: "rights", set: (*offer).text},
	{key: "insurance", set: (*offer).text},
	{key: "cautions", set: (*offer).text},
	{key: "signatures", set: (*offer).signatures},
}

// Sections lists the parts that a proposal can have, in their usual order. A
// quote chooses and orders them in its words "sections", separated by commas.
func Sections() []string {
	var keys []string
	for _, s := range sections {
		keys = append(keys, s.key)
	}
	return keys
}

// proposal sets the proposal of a paper.
func (m Maker) proposal(p quote.Paper) (*document, error) { return m.offered(p, false) }

// offered sets the proposal of a paper, to be printed or to be seen.
func (m Maker) offered(p quote.Paper, seen bool) (*document, error) {
	own := p.Quote.Words
	code := own["language"]
	if code == "" {
		code = m.Language
	}
	l := languageOf(code, p.Estimate.Currency)
	words, err := wordingOf(l.code, m.Wording)
	if err != nil {
		return nil, err
	}
	chosen, err := chosenSections(own["sections"])
	if err != nil {
		return nil, err
	}
	size, err := sheetFor(p)
	if err != nil {
		return nil, err
	}
	o := &offer{paper: p, sheet: size, language: l, words: words, own: own, seen: seen}
	o.wide = o.sheet.wide()
	o.facts = o.gather()
	if err := o.takePictures(); err != nil {
		return nil, err
	}
	if err := o.plan(); err != nil {
		return nil, err
	}
	var strips []strip
	for _, s := range chosen {
		strips = append(strips, s.set(o, s.key)...)
	}
	if len(strips) > 0 {
		strips[0].fresh = true
	}
	return o.bind(strips)
}

// bind puts cover and strips together.
func (o *offer) bind(strips []strip) (*document, error) {
	inner, marks := o.sheet.compose(strips)
	pages := append([]folio{o.cover()}, inner...)
	for i := range marks {
		marks[i].page++
	}
	d := &document{sheet: o.sheet, title: o.title(), author: o.author(), language: o.language.code, date: o.paper.Date}
	d.marks = append([]mark{{words: o.title()}}, marks...)
	d.finish(pages, o.furniture)
	d.lost = o.lost
	for _, s := range o.images.all() {
		d.plates = append(d.plates, s.plate)
	}
	return d, o.words.err
}

// chosenSections reads the user's choice of sections; without one, all but those
// that must be asked for.
func chosenSections(text string) (chosen []section, err error) {
	if strings.TrimSpace(text) == "" {
		return slices.DeleteFunc(slices.Clone(sections), func(s section) bool { return s.asked }), nil
	}
	for _, key := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == '\n' || r == ' ' || r == ';' }) {
		at := slices.IndexFunc(sections, func(s section) bool { return s.key == strings.ToLower(key) })
		if at < 0 {
			return nil, fault.Fault{
				Where: "words.sections", Field: "Sections", Value: key, Problem: "is none",
				Remedy: "choose among " + strings.Join(Sections(), ", "),
			}
		}
		chosen = append(chosen, sections[at])
	}
	return chosen, nil
}

// text sets a section that is words alone: the user's own, or the template's.
func (o *offer) text(key string) []strip { return o.running(o.blocksOf(key), bodyStyle) }

// blocksOf gives the blocks of a section. The user's own words keep the title of
// the template.
func (o *offer) blocksOf(key string) []block {
	all := blocks(o.words.say(key, o.facts))
	own := o.own[key]
	if strings.TrimSpace(own) == "" {
		return all
	}
	mine := blocks(ownWords(own))
	if len(all) > 0 && all[0].kind == '#' {
		mine = append([]block{all[0]}, mine...)
	}
	return mine
}

// written sets what the user wrote for a section, and nothing where there is
// nothing.
func (o *offer) written(key string) []strip {
	if strings.TrimSpace(o.own[key]) == "" {
		return nil
	}
	first := leadStyle
	if len(o.own[key]) > longLead {
		first = bodyStyle
	}
	return o.running(o.blocksOf(key), first)
}

// longLead is from how many bytes on the artist's words are set as plain text.
const longLead = 900

// label gives words of the language that need no data.
func (o *offer) label(name string) string { return o.words.label(name) }

// title is that of the work.
func (o *offer) title() string {
	if t := strings.TrimSpace(o.facts.Title); t != "" {
		return t
	}
	return o.label("untitled")
}

// author is whose paper it is: the shop's by its name, and where the shop book
// has none yet, the foundry's.
func (o *offer) author() string {
	return cmp.Or(strings.TrimSpace(o.facts.Shop), o.label("the-foundry"))
}

// date spells out an ISO date; what is no date stays as it is.
func (o *offer) date(iso string) string {
	t, ok := day(iso)
	if !ok {
		return iso
	}
	months := strings.Fields(o.label("months"))
	if len(months) != 12 {
		return iso
	}
	return o.words.say("date", map[string]any{"Day": t.Day(), "Month": months[t.Month()-1], "Year": t.Year()})
}

// furniture is what stands at the foot of every page but the cover.
func (o *offer) furniture(number, count int) []drawing.Item {
	if number == 1 {
		return nil
	}
	s := smallStyle.in(drawing.Sans)
	s.size = 8
	y := o.sheet.height - o.sheet.bottom + 30
	right := o.sheet.width - o.sheet.right
	left := o.words.say("foot", o.facts)
	page := o.words.say("page", map[string]int{"Page": number, "Pages": count})
	lines, ls := o.lines(s, left, o.wide-80)
	return []drawing.Item{
		drawing.Shape{Path: drawing.Rect(o.sheet.left, y-8, o.wide, 0.6), Fill: drawing.Rule},
		ls.line(lines[0], o.sheet.left, y, drawing.Start),
		s.line(page, right, y, drawing.End),
	}
}
