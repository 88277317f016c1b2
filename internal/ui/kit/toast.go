package kit

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"meltwright/internal/ui/look"
)

// Toast is a bar that comes up at the bottom of a window: what was done, and a
// way back. Put it over the screen with OverAll. A toast with a way back stays
// until it is used, closed or replaced; one without goes by itself.
type Toast struct {
	widget.BaseWidget
	// After calls f on the window's goroutine when d has passed; replaced in tests.
	After func(d time.Duration, f func())

	ground *canvas.Rectangle
	text   *ink
	act    *Button
	closer *Button
	count  int // of what was shown, so that a timer takes away only its own
}

// lasting is how long a toast without a way back stays.
const lasting = 6 * time.Second

// NewToast makes a toast that is not to be seen yet.
func NewToast() *Toast {
	t := &Toast{ground: &canvas.Rectangle{}, text: newInk(theme.SizeNameText, look.OnBar, plain)}
	t.After = func(d time.Duration, f func()) { time.AfterFunc(d, func() { fyne.Do(f) }) }
	t.act = NewButton("", Primary, nil).forBar()
	t.closer = NewButton("", Plain, t.Hide).forBar().WithIcon(theme.IconNameCancel)
	t.act.OnEscape, t.closer.OnEscape = t.Hide, t.Hide
	t.ExtendBaseWidget(t)
	t.BaseWidget.Hide()
	return t
}

// Say shows a text for a while.
func (t *Toast) Say(text string) {
	t.display(text, "", nil)
	mine := t.count
	t.After(lasting, func() {
		if t.count == mine {
			t.Hide()
		}
	})
}

// Offer shows what was done with a way back: Offer("Deleted Ferry Pilot", "Undo", undo).
func (t *Toast) Offer(text, action string, do func()) { t.display(text, action, do) }

func (t *Toast) display(text, action string, do func()) {
	t.count++
	t.text.say(text)
	t.act.SetText(action)
	t.act.OnTapped = func() {
		t.Hide()
		do()
	}
	show(t.act, do != nil)
	t.Show()
	t.Refresh()
}

// Said is the text that is shown, "" while none is.
func (t *Toast) Said() string {
	if !t.Visible() {
		return ""
	}
	return t.text.full
}

// Held implements Holder.
func (t *Toast) Held() []fyne.CanvasObject { return []fyne.CanvasObject{t.act, t.closer} }

// CreateRenderer implements fyne.Widget.
func (t *Toast) CreateRenderer() fyne.WidgetRenderer {
	dress := func() {
		t.ground.CornerRadius = gap(6)
		fill(t.ground, look.Bar)
		outline(t.ground, look.OnBarLow, 1)
		t.text.dress()
	}
	dress()
	return face{
		objects: just(t.ground, t.text.Text, t.act, t.closer),
		layout:  t.lay,
		min:     t.least,
		refresh: func() {
			dress()
			t.act.Refresh()
			t.closer.Refresh()
			t.lay(t.Size())
			canvas.Refresh(t)
		},
	}
}

func (t *Toast) least() fyne.Size {
	w := gap(18) + t.text.natural() + gap(14) + t.closer.MinSize().Width + gap(8)
	if t.act.Visible() {
		w += t.act.MinSize().Width + gap(8)
	}
	return fyne.NewSize(w, t.closer.MinSize().Height+2*gap(7))
}

func (t *Toast) lay(s fyne.Size) {
	put(t.ground, 0, 0, s.Width, s.Height)
	x := s.Width - gap(8)
	place := func(b *Button) {
		size := b.MinSize()
		x -= size.Width
		put(b, x, (s.Height-size.Height)/2, size.Width, size.Height)
		x -= gap(8)
	}
	place(t.closer)
	if t.act.Visible() {
		place(t.act)
	}
	t.text.place(gap(18), 0, x-gap(18), s.Height)
}

// OverAll lays a toast over a screen, in the middle of its lower edge.
func OverAll(screen fyne.CanvasObject, toast *Toast) *fyne.Container {
	return &fyne.Container{Layout: overAll{}, Objects: []fyne.CanvasObject{screen, toast}}
}

type overAll struct{}

func (overAll) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	put(objects[0], 0, 0, s.Width, s.Height)
	size := objects[1].MinSize()
	w := min(size.Width, s.Width-2*gap(20))
	put(objects[1], (s.Width-w)/2, s.Height-size.Height-gap(20), w, size.Height)
}

func (overAll) MinSize(objects []fyne.CanvasObject) fyne.Size { return objects[0].MinSize() }
