package ui

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/quote"
	"meltwright/internal/ui/kit"
)

// marksID is the page of the shop's own pictures.
const marksID = "marks"

// marksPage has the pictures that are on all the shop's papers.
type marksPage struct {
	b     *bookScreen
	body  *page
	marks map[string]quote.PictureID
	rows  []*markRow
}

// markRow is one of them.
type markRow struct {
	name   string
	thumb  *thumbnail
	choose *kit.Button
	remove *kit.Button
}

// markWords are what the marks are called, and what they are for.
var markWords = map[string]string{
	quote.Logo: "beside the shop's name, on the proposal's first page",
}

func newMarksPage(b *bookScreen) *marksPage {
	p := &marksPage{b: b}
	parts := []fyne.CanvasObject{kit.NewHeading("Logo", "A picture of your own for all your papers")}
	for _, name := range quote.Marks() {
		r := &markRow{name: name, thumb: newThumbnail(b.w)}
		r.choose = kit.NewButton("Choose a file …", kit.Plain, b.w.guarded(func() { p.choose(r) })).WithIcon(theme.IconNameFolderOpen)
		r.remove = kit.NewButton("Take it away", kit.Quiet, b.w.guarded(func() { p.take(r) }))
		p.rows = append(p.rows, r)
		words := markWords[name]
		parts = append(parts, kit.NewHeading("", capital(words)), r.thumb.box, leading(r.choose, r.remove))
	}
	p.body = newPage(parts...)
	p.read()
	return p
}

func (p *marksPage) page() *page { return p.body }
func (p *marksPage) focus()      { p.b.w.win.Canvas().Focus(p.rows[0].choose) }

// read reads which there are.
func (p *marksPage) read() {
	d := p.b.w.desk
	p.b.w.do(func() func() {
		marks, err := d.Marks(context.Background())
		return func() {
			if err != nil {
				p.b.w.tell("They cannot be read", sentence(err))
				return
			}
			p.marks = marks
			p.show()
			p.body.relay()
		}
	})
}

func (p *marksPage) show() {
	for _, r := range p.rows {
		id := p.marks[r.name]
		show(r.remove, id != "")
		r.thumb.show(id, p.body.relay)
	}
}

func (p *marksPage) choose(r *markRow) {
	p.b.w.askPicture("Which picture is your "+r.name+"?", func(x quote.Shown) { p.set(r.name, x.Picture, func() {}) })
}

// take takes a mark away, with a way back.
func (p *marksPage) take(r *markRow) {
	was := p.marks[r.name]
	p.set(r.name, "", func() {
		p.b.w.offer("Your "+r.name+" is off your papers.", "Bring back", func() { p.set(r.name, was, func() {}) })
	})
}

func (p *marksPage) set(name string, id quote.PictureID, then func()) {
	w, d := p.b.w, p.b.w.desk
	w.do(func() func() {
		err := d.SetMark(context.Background(), name, id)
		return func() {
			if err != nil {
				w.tell("That was not kept", sentence(err))
				return
			}
			p.read()
			then()
		}
	})
}
