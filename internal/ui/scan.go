package ui

import (
	"image"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/mesh"
	"meltwright/internal/ui/kit"
	"meltwright/internal/ui/look"
)

// scanScreen makes a scan the form of a piece: it asks what the file cannot say,
// shows the form, measures it, and cuts it into sections.
type scanScreen struct {
	w     *Window
	q     *quoteScreen // whose piece it is, and where the way back leads
	piece int
	was   *mesh.Scan // what the piece had before; nil for nothing
	path  string     // of the file
	keep  bool       // the file itself is to be kept with the quote

	bar     *kit.TopBar
	picture *turntable
	marks   *kit.Field
	panel   *page
	sides   *scanSides
	frame   *kit.Sheet

	opened  *mesh.Opened
	how     mesh.Stance
	ask     *scanAsk
	numbers *scanNumbers
	planes  *scanPlanes

	standing *mesh.Standing
	box      mesh.Size  // of the standing form
	wall     *mesh.Wall // the best there is of this stance; nil until it is measured
	refined  bool       // and there will be no better one
	share    float64    // of the measuring that is done
	wanted   bool       // it is to be used as soon as it is measured
	waits    *kit.Progress
	err      error // why it cannot stand or be measured

	stands, outlines, plans, uses errand
	timers                        []func() // calls off what will begin after a moment
}

// newScanScreen shows a scan that was opened and stands as proposed.
func newScanScreen(q *quoteScreen, path string, o *mesh.Opened, standing *mesh.Standing) *scanScreen {
	s := &scanScreen{w: q.w, q: q, piece: q.piece, was: q.pieces()[q.piece].Scan, path: path, opened: o, how: standing.Stance}
	s.keep = q.files.has(o.SHA256)
	s.bar = kit.NewTopBar()
	s.bar.SetBack(s.w.guarded(s.goBack))
	s.bar.SetActions(
		kit.Action{Text: "Another file …", Do: s.w.guarded(func() { s.q.askScan(o.Report.Name) })},
		kit.Action{Text: useScan, Icon: theme.IconNameConfirm, Primary: true, Do: s.w.guarded(s.use)},
	)
	s.picture = newTurntable(func(d time.Duration, f func()) func() { return s.w.after(d, s.w.guarded(f)) }, s.paint)
	s.marks = kit.NewField(kit.FieldSpec{ID: "scan.marks", Kind: kit.ChoiceField, Label: "Show", Options: scanMarks, Default: scanMarks[0], OnChanged: s.w.guardedText(func(string) { s.tint() })})
	s.ask, s.numbers = newScanAsk(s), newScanNumbers(s)
	s.planes = newScanPlanes(s)
	parts := append(s.ask.parts(), s.numbers.parts()...)
	s.panel = newPage(append(parts, s.planes.parts()...)...)
	s.sides = newScanSides(s.picture, kit.NewPadded(14, 6, kit.NewFieldGrid(s.marks)), s.under(), s.panel.scroll)
	s.frame = kit.NewSheet(s.bar, nil, s.sides.holder, nil)
	s.planes.take(s.was, o)
	s.stood(standing)
	return s
}

// useScan is what the chief button says.
const useScan = "Use this scan"

// under are the ways to look at the form, below its picture.
func (s *scanScreen) under() fyne.CanvasObject {
	button := func(text string, do func()) *kit.Button { return kit.NewButton(text, kit.Quiet, s.w.guarded(do)) }
	from := func(text string, yaw, pitch float64) *kit.Button {
		return button(text, func() { s.picture.look(yaw, pitch) })
	}
	return kit.NewPadded(14, 6, kit.NewColumn(6,
		leading(
			from("Front", 0, 0), from("Left", 90, 0), from("Back", 180, 0), from("Right", 270, 0), from("Above", 0, 90), from("Below", 0, -90),
			button("Nearer", func() { s.picture.near(1.25, 0.5, 0.5) }), button("Farther", func() { s.picture.near(1/1.25, 0.5, 0.5) }),
		),
		kit.NewProse("Drag or the arrow keys turn it, the wheel or + and − bring it nearer, Home shows all of it again."),
	))
}

func (s *scanScreen) content() fyne.CanvasObject { return s.frame }

func (s *scanScreen) arrive() {
	s.show()
	s.w.focusFirst(s.ask.grid)
}

func (s *scanScreen) leave() {
	for _, e := range []*errand{&s.stands, &s.outlines, &s.plans, &s.uses} {
		e.stop()
	}
	s.settle()
	s.stopWaiting()
	s.q.kept.now()
}

// settle calls off what would begin after a moment.
func (s *scanScreen) settle() {
	for _, cancel := range s.timers {
		cancel()
	}
	s.timers = nil
}

// soon does something after the last of several answers.
func (s *scanScreen) soon(f func()) {
	s.settle()
	s.timers = append(s.timers, s.w.after(rest, s.w.guarded(f)))
}

func (s *scanScreen) offers() offers {
	return offers{
		undo:   func() { s.step(s.q.sheet.Undo, "There is nothing to undo.") },
		redo:   func() { s.step(s.q.sheet.Redo, "There is nothing to redo.") },
		toPart: s.otherPart,
	}
}

func (s *scanScreen) step(way func() bool, none string) {
	s.q.step(way, none)
	s.show()
}

// otherPart puts the keyboard to the picture, or from there back to the answers.
func (s *scanScreen) otherPart() {
	if c := s.w.win.Canvas(); c.Focused() == fyne.Focusable(s.picture) {
		s.w.focusFirst(s.ask.grid)
	} else {
		c.Focus(s.picture)
	}
}

// restyle shows everything anew in the look that is worn now.
func (s *scanScreen) restyle() { s.show() }

// goBack goes back to the quote without the scan.
func (s *scanScreen) goBack() { s.w.show(s.q) }

// show shows everything as it stands. A piece that was undone away takes the
// screen with it.
func (s *scanScreen) show() {
	if s.piece >= len(s.q.pieces()) {
		s.goBack()
		return
	}
	s.bar.SetTitle("Scan of "+s.q.pieceNames()[s.piece], s.opened.Report.Name)
	s.ask.show()
	s.numbers.show()
	s.planes.show()
	s.panel.relay()
	s.picture.redraw()
}

// edit changes the quote, and shows what comes of it here too.
func (s *scanScreen) edit(change func()) {
	s.q.edit(change)
	s.show()
}

// paint draws the form, with the planes that cut it and what is open.
func (s *scanScreen) paint(view mesh.View, w, h int) *image.RGBA {
	if s.standing == nil {
		return image.NewRGBA(image.Rect(0, 0, w, h))
	}
	img := s.standing.Viewer.Draw(view, w, h)
	e := eyeOf(s.box, view, w, h)
	pixel := max(float64(min(w, h))/500, 0.8)
	for i, p := range s.planes.list {
		width := 1.3 * pixel
		if i == s.planes.rows.chosen {
			width = 2.6 * pixel
		}
		e.loops(img, p.cut().Plane.Normal, p.cutLoops(), width, theme.Color(look.Ink))
	}
	for _, edge := range s.ask.openEdges() {
		e.line(img, edge[0], edge[1], 2*pixel, 1, theme.Color(look.Bad))
	}
	return img
}

// What can be marked on the picture.
var scanMarks = []string{"the bronze", "where it casts solid", "open edges", "the chosen section"}

// tint marks what is asked for on the picture.
func (s *scanScreen) tint() {
	if s.standing == nil {
		return
	}
	s.standing.Viewer.Tints = nil
	n := len(s.standing.Skin.Mesh.Triangles)
	switch s.marks.Text() {
	case scanMarks[1]:
		if scale, wall, ok := s.numbers.size(); ok {
			s.standing.Viewer.Tints = tints(n, s.wall.Solid(scale, wall), mesh.Bronze)
		}
	case scanMarks[3]:
		s.standing.Viewer.Tints = s.planes.tints(n)
	}
	s.picture.redraw()
}

// tints marks the triangles that are said to be so.
func tints(n int, marked []bool, others mesh.Tint) []mesh.Tint {
	out := make([]mesh.Tint, n)
	for i := range out {
		out[i] = others
		if i < len(marked) && marked[i] {
			out[i] = mesh.Marked
		}
	}
	return out
}

// scanSides puts the picture with what is below it beside the panel, or above it
// where there is too little width; there the keys must do for the buttons.
type scanSides struct {
	picture, marks, under, panel fyne.CanvasObject
	holder                       *fyne.Container
}

func newScanSides(picture, marks, under, panel fyne.CanvasObject) *scanSides {
	s := &scanSides{picture: picture, marks: marks, under: under, panel: panel}
	s.holder = &fyne.Container{Layout: s, Objects: []fyne.CanvasObject{panel, picture, marks, under}}
	return s
}

// Layout implements fyne.Layout.
func (s *scanSides) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	put := func(o fyne.CanvasObject, x, y, w, h float32) {
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(w, h))
	}
	unit := theme.TextSize() / look.Text
	left := max(330*unit, min(size.Width*0.46, 640*unit))
	mark := s.marks.MinSize().Height
	if size.Width-left < 430*unit {
		top := size.Height*0.45 - mark
		put(s.picture, 0, 0, size.Width, top)
		put(s.marks, 0, top, size.Width, mark)
		put(s.panel, 0, top+mark, size.Width, size.Height-top-mark)
		s.under.Hide()
		return
	}
	s.under.Show()
	put(s.under, 0, 0, left, s.under.MinSize().Height) // told its width first
	low := s.under.MinSize().Height
	put(s.under, 0, size.Height-low, left, low)
	put(s.marks, 0, size.Height-low-mark, left, mark)
	put(s.picture, 0, 0, left, size.Height-low-mark)
	put(s.panel, left, 0, size.Width-left, size.Height)
}

// MinSize implements fyne.Layout.
func (s *scanSides) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(400, 300) }
