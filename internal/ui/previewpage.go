package ui

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/desk"
	"meltwright/internal/drawing"
	"meltwright/internal/ui/kit"
)

// previewID is the page of the proposal.
const previewID = "preview"

// previewPage shows the proposal page by page, as it is printed, beside its
// sections and the words in them.
type previewPage struct {
	q     *quoteScreen
	body  *page
	state *kit.Prose
	lost  *kit.CautionBox

	both           *kit.Beside
	sections       *kit.LineTable
	up, down, turn *kit.Button
	words          *kit.Field
	grid           *kit.FieldGrid
	language, size *kit.Field // of the proposal

	pages *kit.PageStrip

	picture          *kit.Drawn
	back, next, zoom *kit.Button
	which            *kit.Prose
	number           int // of the page that is shown, from 0
	large            bool
	drawn            *drawing.Scene // the page in the picture
}

func newPreviewPage(q *quoteScreen) stagePage {
	p := &previewPage{q: q, state: kit.NewProse(""), lost: kit.NewCautionBox(kit.Caution{})}
	p.both = kit.NewBeside(p.wordsSide(), p.paperSide(), 0.42)
	p.body = newPage(
		kit.NewHeading("Preview", "The proposal as it is printed; it is set anew a moment after you type"),
		p.state, p.lost, p.both,
	)
	return p
}

// wordsSide makes the sections and the words of the chosen one.
func (p *previewPage) wordsSide() fyne.CanvasObject {
	q := p.q
	p.sections = titled("Sections", "", "", "")
	p.sections.OnSelect = q.w.guardedText(func(string) {
		q.sheet.EndTyping()
		p.show()
		p.body.relay()
	})
	p.sections.OnOpen = q.w.guardedText(func(string) { q.w.focusFirst(p.grid) })
	move := func(text string, icon fyne.ThemeIconName, by int) *kit.Button {
		return kit.NewButton(text, kit.Quiet, q.w.guarded(func() {
			q.edit(func() { q.sheet.Choose(moveSection(q.sheet.Chosen(), p.sections.Selected(), by)) })
		})).WithIcon(icon)
	}
	p.up, p.down = move("Earlier", theme.IconNameMoveUp, -1), move("Later", theme.IconNameMoveDown, 1)
	p.turn = kit.NewButton("Leave out", kit.Quiet, q.w.guarded(func() {
		q.edit(func() { q.sheet.Choose(turnSection(q.sheet, p.sections.Selected())) })
	}))
	p.words = kit.NewField(kit.FieldSpec{
		ID: "preview.words", Kind: kit.NotesField, Label: "Words", Lines: 6, Wide: true,
		OnChanged: q.w.guardedText(func(text string) {
			q.edit(func() { q.sheet.SetWords(p.sections.Selected(), text) })
		}),
	})
	p.language = p.choice("language", "Language", "of the proposal, with its numbers and dates", languages)
	p.size = p.choice("paper", "Paper", "", sizes)
	p.grid = kit.NewFieldGrid(p.words)
	return kit.NewColumn(10, kit.NewFieldGrid(p.language, p.size), p.grid, p.sections, leading(p.up, p.down, p.turn))
}

// paperSide makes the page and what turns it.
func (p *previewPage) paperSide() fyne.CanvasObject {
	w := p.q.w
	p.picture, p.which = kit.NewDrawn(nil).OnPaper(), kit.NewProse("")
	turn := func(text string, icon fyne.ThemeIconName, by int) *kit.Button {
		return kit.NewButton(text, kit.Plain, w.guarded(func() {
			p.number += by
			p.show()
			p.body.relay()
		})).WithIcon(icon)
	}
	p.back, p.next = turn("Previous", theme.IconNameNavigateBack, -1), turn("Next", theme.IconNameNavigateNext, 1)
	p.zoom = kit.NewButton("Larger", kit.Quiet, w.guarded(func() {
		p.large = !p.large
		p.both.SetApart(p.large)
		p.show()
		p.body.relay()
	})).WithIcon(theme.IconNameViewZoomIn)
	p.pages = kit.NewPageStrip(func(page int) {
		p.number = page
		p.show()
		p.body.relay()
	})
	return kit.NewColumn(10, leading(p.back, p.next, p.zoom), p.which, p.pages, p.picture)
}

func (p *previewPage) page() *page { return p.body }

func (p *previewPage) focus() {
	if p.q.sheet.Preview() == nil {
		p.q.rail.Focus()
		return
	}
	p.q.w.focusFirst(p.grid)
}

func (p *previewPage) show() {
	if p.q.sheet.Preview() == nil {
		p.state.Say("This program was built without papers, so there is nothing to preview.")
		p.lost.Hide()
		p.both.Hide()
		return
	}
	p.q.preview.follow("")
	p.state.Say(p.waiting())
	p.showWords()
	p.showPaper()
}

// waiting says what is wrong, or that the pages are being set for the first time.
func (p *previewPage) waiting() string {
	f := p.q.preview
	_, good := p.q.sheet.Estimate()
	switch {
	case f.err != nil:
		return "The proposal cannot be set. " + sentence(f.err)
	case !good:
		return "This is the proposal before something went wrong; see what is marked at the left."
	case f.is == nil:
		return "Being set …"
	}
	return ""
}

func (p *previewPage) showWords() {
	s := p.q.sheet
	chosen := p.sections.Selected()
	p.sections.SetLines(sectionLines(s))
	if chosen == "" {
		chosen = s.Chosen()[0]
		p.sections.Select(chosen)
	}
	at := slices.Index(s.Chosen(), chosen)
	show(p.up, at > 0)
	show(p.down, at >= 0 && at < len(s.Chosen())-1)
	p.turn.SetText("Leave out")
	if at < 0 {
		p.turn.SetText("Put in")
	}
	p.language.SetText(languages.name(s.Quote().Words["language"]))
	p.size.SetText(sizes.name(s.Quote().Words["paper"]))
	p.words.SetLabel(sectionName(chosen))
	p.words.SetText(s.Quote().Words[chosen])
	p.words.SetHint(wordsHint(chosen))
}

// wordsHint says what the words of a section do.
func wordsHint(key string) string {
	switch key {
	case "idea", "recommendation":
		return "left out of the proposal while there are none"
	case "work", "price", "range", "budget", "payments", "signatures":
		return "put in by the program from the quote; words of yours come with it where it has any"
	}
	return "stands in the place of the program's own words"
}

func (p *previewPage) showPaper() {
	pages := p.q.preview.result
	n := len(pages.Scenes)
	show(p.lost, len(pages.Missing) > 0)
	if len(pages.Missing) > 0 {
		p.lost.Set(kit.Caution{Kind: kit.CautionWarn, Text: lostWords(pages.Lost)})
	}
	show(p.picture, n > 0)
	p.number = max(0, min(p.number, n-1))
	enable(p.back, p.number > 0)
	enable(p.next, p.number < n-1)
	p.zoom.SetText("Larger")
	if p.large {
		p.zoom.SetText("Smaller")
	}
	show(p.pages, n > 0)
	p.pages.SetPages(pages.Scenes)
	p.pages.Choose(p.number)
	if n == 0 {
		p.which.Say("")
		return
	}
	p.which.Say(fmt.Sprintf("Page %d of %d", p.number+1, n))
	if now := &pages.Scenes[p.number]; now != p.drawn { // not drawn again at every key
		p.drawn = now
		p.picture.SetBuild(func(width, _ float64) drawing.Scene { return onPaper(*now, width) })
	}
}

func enable(b *kit.Button, on bool) {
	if on {
		b.Enable()
	} else {
		b.Disable()
	}
}

// lostWords say which letters cannot be printed, and what helps; nothing where
// there are none.
func lostWords(lost []string) string {
	if len(lost) == 0 {
		return ""
	}
	return strings.Join(lost, ". ") + ". Write those words in Latin, Greek or Cyrillic letters."
}

// onLost does something with what there is to say of letters of a paper that
// cannot be printed: nothing where all can. It waits for the answer, so that no
// key meant for what comes goes elsewhere; only a paper with unusual letters is
// set for it. One that cannot be set says so by itself when it is written.
func (q *quoteScreen) onLost(which desk.Print, do func(warning string)) {
	ask, err := q.sheet.Lost(which)
	if ask == nil || err != nil {
		do("")
		return
	}
	lost, _ := ask(context.Background())
	do(lostWords(lost))
}

// onPaper brings a page to a width, with an edge around it.
func onPaper(s drawing.Scene, width float64) drawing.Scene {
	k := width / s.Width
	edge := drawing.Shape{Path: drawing.Rect(0.5/k, 0.5/k, s.Width-1/k, s.Height-1/k), Stroke: drawing.Rule, Width: 1 / k}
	ground := drawing.Shape{Path: drawing.Rect(0, 0, s.Width, s.Height), Fill: drawing.Sheet}
	items := append([]drawing.Item{ground}, s.Items...)
	return drawing.Scene{Width: width, Height: s.Height * k, Items: []drawing.Item{drawing.Group{Matrix: drawing.Scale(k, k), Items: append(items, edge)}}}
}
