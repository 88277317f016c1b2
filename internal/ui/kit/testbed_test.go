package kit

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"meltwright/internal/ui/look"
)

var bothModes = map[string]look.Mode{"light": look.Light, "dark": look.Dark}

// window opens a test window without margins around content.
func window(t *testing.T, content fyne.CanvasObject, w, h float32) fyne.Window {
	t.Helper()
	win := test.NewTempWindow(t, content)
	win.SetPadded(false)
	win.Resize(fyne.NewSize(w, h))
	return win
}

// wear puts a look on until the test ends.
func wear(t *testing.T, mode look.Mode, percent int) {
	t.Helper()
	test.NewTempApp(t)
	test.ApplyTheme(t, look.New(mode, percent))
}

// plaster puts on the light look at plain size.
func plaster(t *testing.T) {
	t.Helper()
	wear(t, look.Light, 100)
}

// master holds what build makes, in both variants, against the markup kept in
// testdata.
func master(t *testing.T, name string, w, h float32, build func() fyne.CanvasObject) {
	t.Helper()
	for variant, mode := range bothModes {
		wear(t, mode, 100)
		test.AssertRendersToMarkup(t, name+"-"+variant+".xml", window(t, build(), w, h).Canvas())
	}
}

// press gives a key to what has the focus.
func press(w fyne.Window, keys ...fyne.KeyName) {
	for _, k := range keys {
		w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k})
	}
}

// tapAt taps an object at a place within it.
func tapAt(o fyne.Tappable, x, y float32) {
	o.Tapped(&fyne.PointEvent{Position: fyne.NewPos(x, y)})
}

// hoverAt moves the mouse over an object.
func hoverAt(o desktop.Hoverable, x, y float32) {
	o.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, y)}})
}

// seen is one text on the screen: what it says, where its letters stand, and the
// room it has.
type seen struct {
	text       string
	x, y, w, h float32
	room       float32
}

// texts are all the texts that can be seen at and below an object, as placed from
// the corner of the window and cut off by the scrolls they lie in.
func texts(o fyne.CanvasObject) []seen {
	const far = 1e6
	var found []seen
	gather(o, fyne.Position{}, [4]float32{-far, -far, far, far}, &found)
	return found
}

func gather(o fyne.CanvasObject, at fyne.Position, clip [4]float32, found *[]seen) {
	if o == nil || !o.Visible() {
		return
	}
	at = at.Add(o.Position())
	switch o := o.(type) {
	case *canvas.Text:
		if s, ok := seenAt(o, at, clip); ok {
			*found = append(*found, s)
		}
	case *fyne.Container:
		for _, child := range o.Objects {
			gather(child, at, clip, found)
		}
	case fyne.Widget:
		if _, scrolls := o.(fyne.Scrollable); scrolls {
			clip = within(clip, at, o.Size())
		}
		for _, child := range test.WidgetRenderer(o).Objects() {
			gather(child, at, clip, found)
		}
	}
}

func within(clip [4]float32, at fyne.Position, size fyne.Size) [4]float32 {
	return [4]float32{max(clip[0], at.X), max(clip[1], at.Y), min(clip[2], at.X+size.Width), min(clip[3], at.Y+size.Height)}
}

func seenAt(t *canvas.Text, at fyne.Position, clip [4]float32) (seen, bool) {
	size := t.MinSize()
	s := seen{text: t.Text, x: at.X, y: at.Y, w: size.Width, h: size.Height, room: t.Size().Width}
	switch t.Alignment {
	case fyne.TextAlignTrailing:
		s.x += s.room - s.w
	case fyne.TextAlignCenter:
		s.x += (s.room - s.w) / 2
	}
	right, bottom := min(s.x+s.w, clip[2]), min(s.y+s.h, clip[3])
	s.x, s.y = max(s.x, clip[0]), max(s.y, clip[1])
	s.w, s.h = right-s.x, bottom-s.y
	return s, strings.TrimSpace(t.Text) != "" && s.w > 0 && s.h > 0
}

// says tells whether some text on the screen holds the words.
func says(o fyne.CanvasObject, words string) bool {
	var all strings.Builder
	for _, s := range texts(o) {
		all.WriteString(s.text + " ")
	}
	return strings.Contains(strings.Join(strings.Fields(all.String()), " "), words)
}
