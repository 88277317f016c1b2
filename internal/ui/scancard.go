package ui

import (
	"bytes"
	"fmt"
	"image"
	"image/png"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	scaling "golang.org/x/image/draw"

	"meltwright/internal/mesh"
	"meltwright/internal/quantity"
	"meltwright/internal/ui/kit"
)

// scanCard shows the scan that is the form of the chosen piece, on the page of
// the form, and opens it again or another.
type scanCard struct {
	q       *quoteScreen
	picture *kit.SceneView
	words   *kit.Prose
	open    *kit.Button
	other   *kit.Button
	save    *kit.Button
	buttons *fyne.Container

	of     *mesh.Scan  // whose picture is decoded
	pixels image.Image // nil where there is none
}

func newScanCard(q *quoteScreen) *scanCard {
	c := &scanCard{q: q, words: kit.NewProse("")}
	c.picture = kit.NewSceneView(c.draw)
	c.picture.SetLeast(240, 240)
	c.open = kit.NewButton("Open a scan …", kit.Plain, q.w.guarded(q.openScan)).WithIcon(theme.IconNameFolderOpen)
	c.other = kit.NewButton("Another scan …", kit.Quiet, q.w.guarded(func() { q.askScan("") }))
	c.save = kit.NewButton("Save its file as …", kit.Quiet, q.w.guarded(func() { q.files.save(q.pieces()[q.piece].Scan) }))
	c.buttons = leading(c.open, c.other, c.save)
	return c
}

func (c *scanCard) parts() []fyne.CanvasObject {
	return []fyne.CanvasObject{c.buttons, c.words, c.picture}
}

// show shows the chosen piece's scan, where its form is known by one.
func (c *scanCard) show() {
	p := c.q.pieces()[c.q.piece]
	on := p.Inputs["form.known_by"] == "scan"
	k := p.Scan
	show(c.buttons, on)
	show(c.picture, on && k != nil && len(k.Picture) > 0)
	show(c.other, k != nil)
	show(c.save, k != nil && c.q.files.has(k.SHA256))
	if !on || k == nil {
		c.words.Say("")
		c.open.SetText("Open a scan …")
		return
	}
	c.q.files.look(c.q.show)
	c.open.SetText("Open this scan again …")
	c.words.Say(c.about(k))
	if k != c.of {
		c.of, c.pixels = k, nil
		if img, err := png.Decode(bytes.NewReader(k.Picture)); err == nil {
			c.pixels = img
		}
		c.picture.Redraw()
	}
}

// about says what is kept of a scan.
func (c *scanCard) about(k *mesh.Scan) string {
	sys := c.q.context().System
	text := fmt.Sprintf("%s, %s, %s: as scanned %s high, with %s of surface and %s enclosed.",
		k.File, k.Format, counted(k.Triangles, "triangle"),
		quantity.Print(quantity.KindLength, k.Height(), sys), quantity.Print(quantity.KindArea, k.Profile.Area, sys), quantity.Print(quantity.KindVolume, k.Volume, sys))
	if n := len(k.Plan.Sections); n > 1 {
		text += fmt.Sprintf(" Its plan cuts it into %s with %s.", counted(n, "section"), counted(len(k.Plan.Cuts), "plane"))
	}
	if !k.Closed {
		text += " Its surface is not closed."
	}
	switch {
	case c.q.files.has(k.SHA256):
		text += " Its file is kept with the quote."
	case c.q.w.scanPath(k) == "":
		text += " Its file is not where it was opened, and nothing here needs it."
	}
	return text
}

// draw fits the picture into w × h pixels, at the left.
func (c *scanCard) draw(w, h int) image.Image {
	if c.pixels == nil {
		return nil
	}
	b := c.pixels.Bounds()
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	side := min(float64(w)/float64(b.Dx()), float64(h)/float64(b.Dy()))
	at := image.Rect(0, 0, int(float64(b.Dx())*side), int(float64(b.Dy())*side))
	scaling.CatmullRom.Scale(out, at, c.pixels, b, scaling.Over, nil)
	return out
}
