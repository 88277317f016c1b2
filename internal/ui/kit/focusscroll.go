package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// FocusScroll scrolls its content up and down, keeps the focused field in view,
// and tells long tables inside which of their rows can be seen, so that they
// make no others.
type FocusScroll struct {
	widget.BaseWidget
	scroll *container.Scroll
	holder *fyne.Container // around the content, to hear of its changes of size
}

// windowed is a long part that draws only the stretch that can be seen.
type windowed interface {
	fyne.CanvasObject
	showBand(top, bottom float32)
}

// NewFocusScroll makes a scroll around content.
func NewFocusScroll(content fyne.CanvasObject) *FocusScroll {
	s := &FocusScroll{}
	s.holder = &fyne.Container{Layout: hearing{s}, Objects: []fyne.CanvasObject{content}}
	s.scroll = container.NewVScroll(s.holder)
	s.scroll.OnScrolled = func(fyne.Position) { s.tell() }
	s.ExtendBaseWidget(s)
	return s
}

// SetContent shows other content, from its top.
func (s *FocusScroll) SetContent(content fyne.CanvasObject) {
	s.holder.Objects = []fyne.CanvasObject{content}
	s.scroll.Offset = fyne.Position{}
	s.Refresh()
}

// Content is what scrolls.
func (s *FocusScroll) Content() fyne.CanvasObject { return s.holder.Objects[0] }

// ScrollToTop goes back to the beginning.
func (s *FocusScroll) ScrollToTop() {
	s.scroll.ScrollToTop()
	s.tell()
}

// Offset is how far down the content is scrolled.
func (s *FocusScroll) Offset() float32 { return s.scroll.Offset.Y }

// Held implements Holder.
func (s *FocusScroll) Held() []fyne.CanvasObject { return []fyne.CanvasObject{s.scroll} }

// CreateRenderer implements fyne.Widget.
func (s *FocusScroll) CreateRenderer() fyne.WidgetRenderer {
	return face{
		objects: just(s.scroll),
		layout: func(size fyne.Size) {
			s.scroll.Resize(size)
			s.tell()
		},
		min: s.scroll.MinSize,
		refresh: func() {
			s.scroll.Refresh()
			s.tell()
		},
	}
}

// tell says to each long table in the content which stretch of it can be seen,
// and a little around, against what moves between one telling and the next.
func (s *FocusScroll) tell() {
	const around = 60
	view := s.scroll.Size().Height
	if view <= 0 {
		return
	}
	visit(s.Content(), fyne.NewPos(0, -s.scroll.Offset.Y), func(o fyne.CanvasObject, at fyne.Position) bool {
		if w, ok := o.(windowed); ok {
			w.showBand(-at.Y-around, view-at.Y+around)
			return false
		}
		return true
	})
}

// hearing gives its one object all the room, and tells the scroll that it moved.
type hearing struct{ scroll *FocusScroll }

func (h hearing) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	put(objects[0], 0, 0, s.Width, s.Height)
	h.scroll.tell()
}

func (h hearing) MinSize(objects []fyne.CanvasObject) fyne.Size { return objects[0].MinSize() }
