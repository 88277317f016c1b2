package ui

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/desk"
	"meltwright/internal/fault"
	"meltwright/internal/quote"
	"meltwright/internal/ui/kit"
)

// picturesID is the page of a quote's pictures.
const picturesID = "pictures"

// picturesPage has the pictures that go on the papers of a quote.
type picturesPage struct {
	q       *quoteScreen
	body    *page
	add     *kit.Button
	none    *kit.Prose
	table   *kit.LineTable
	thumb   *thumbnail
	caption *kit.Field
	grid    *kit.FieldGrid
	acts    []*kit.Button // cover, up, down, remove
	row     *fyne.Container
	chosen  int
}

func newPicturesPage(q *quoteScreen) stagePage {
	p := &picturesPage{q: q, none: kit.NewProse(""), thumb: newThumbnail(q.w)}
	p.add = kit.NewButton("Add a picture …", kit.Plain, q.w.guarded(p.ask)).WithIcon(theme.IconNameContentAdd)
	p.table = titled("Picture", "", "", "Where")
	p.table.OnSelect = q.w.guardedText(func(id string) {
		_, _ = fmt.Sscan(id, &p.chosen) // an ID of ours
		p.show()
		p.body.relay()
	})
	p.table.OnOpen = q.w.guardedText(func(string) { q.w.focusFirst(p.grid) })
	p.caption = kit.NewField(kit.FieldSpec{ID: "picture.caption", Label: "Caption", Wide: true, Hint: "stands below it", OnChanged: q.w.guardedText(func(text string) {
		q.edit(func() { q.sheet.SetCaption(p.chosen, text) })
	})})
	p.grid = kit.NewFieldGrid(p.caption)
	p.acts, p.row = pictureRow(q.w, []string{"Make it the cover", "Up", "Down", "Remove this picture"},
		func() { q.edit(func() { q.sheet.SetCover(p.chosen) }) },
		func() { p.move(-1) }, func() { p.move(1) },
		func() {
			q.edit(func() { q.sheet.RemovePicture(p.chosen) })
			q.w.offer("The picture is off the quote.", "Bring back", func() { q.step(q.sheet.Undo, "") })
		},
	)
	p.body = newPage(
		kit.NewHeading("Pictures", "For the proposal: one on its cover, the others in this order. They are kept with the quote, and sent with it"),
		leading(p.add), p.none, p.table, p.thumb.box, p.grid, p.row,
	)
	return p
}

func (p *picturesPage) page() *page { return p.body }
func (p *picturesPage) focus()      { p.q.w.win.Canvas().Focus(p.add) }

// ask asks for a picture and adds it.
func (p *picturesPage) ask() {
	q := p.q
	q.w.askPicture("Which picture?", func(x quote.Shown) {
		p.chosen = len(q.sheet.Quote().Pictures)
		q.edit(func() { q.sheet.AddPicture(x) })
	})
}

func (p *picturesPage) move(by int) {
	p.q.edit(func() { p.chosen = p.q.sheet.MovePicture(p.chosen, by) })
}

func (p *picturesPage) show() {
	all := p.q.sheet.Quote().Pictures
	p.chosen = max(0, min(p.chosen, len(all)-1))
	var lines []kit.Line
	for i, x := range all {
		line := kit.Line{ID: fmt.Sprint(i), Name: fmt.Sprintf("%d  %s", i+1, nameOr(x.Caption, "without a caption")), Cost: "inside"}
		if x.Name == quote.Cover {
			line.Cost = "cover"
		}
		lines = append(lines, line)
	}
	p.table.SetLines(lines)
	p.table.Select(fmt.Sprint(p.chosen))
	any := len(all) > 0
	for _, o := range []fyne.CanvasObject{p.table, p.grid, p.row} {
		show(o, any)
	}
	show(p.acts[1], len(all) > 1)
	show(p.acts[2], len(all) > 1)
	p.none.Say("")
	if !any {
		p.none.Say("There are none yet. The first becomes the cover.")
		p.thumb.show("", nil)
		return
	}
	p.caption.SetText(all[p.chosen].Caption)
	p.acts[0].SetText("Make it the cover")
	if all[p.chosen].Name == quote.Cover {
		p.acts[0].SetText("Off the cover")
	}
	p.thumb.show(all[p.chosen].Picture, p.body.relay)
}

// picturesDetail is what the rail says of the page.
func picturesDetail(q *quoteScreen) string {
	if n := len(q.sheet.Quote().Pictures); n > 0 {
		return counted(n, "picture")
	}
	return "none yet"
}

// takePicture reads a picture's file and has it kept.
func takePicture(d *desk.Desk, path string) (quote.Shown, error) {
	if is, err := os.Stat(path); err == nil && is.Size() > 64<<20 {
		return quote.Shown{}, fault.Fault{Field: "Picture", Value: filepath.Base(path), Problem: "is larger than 64 MB", Remedy: "give a smaller one"}
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return quote.Shown{}, fault.Fault{Field: "Picture", Value: path, Problem: "cannot be read: " + err.Error(), Remedy: "choose one that is there"}
	}
	return d.TakePicture(context.Background(), filepath.Base(path), data)
}
