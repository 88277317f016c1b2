package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// Holder is a widget of several parts that says what they are, as placed within
// it. Fyne keeps this to itself, and without it nobody can tell which scroll a
// focused field lies in. A screen's own composed widgets should implement it.
type Holder interface {
	fyne.CanvasObject
	Held() []fyne.CanvasObject
}

// parts are the children of an object, as far as they can be known.
func parts(o fyne.CanvasObject) []fyne.CanvasObject {
	switch o := o.(type) {
	case *fyne.Container:
		return o.Objects
	case *container.Scroll:
		return []fyne.CanvasObject{o.Content}
	case *widget.PopUp:
		return []fyne.CanvasObject{o.Content}
	case Holder:
		return o.Held()
	}
	return nil
}

// visit calls f for each object below and including o, with its place relative
// to o's parent; it goes no deeper where f says no.
func visit(o fyne.CanvasObject, at fyne.Position, f func(fyne.CanvasObject, fyne.Position) bool) {
	if o == nil || !o.Visible() {
		return
	}
	at = at.Add(o.Position())
	if !f(o, at) {
		return
	}
	for _, part := range parts(o) {
		visit(part, at, f)
	}
}

// Reveal scrolls everything that o lies in so that o can be seen. Parts of this
// package do it by themselves when they gain the focus.
func Reveal(o fyne.CanvasObject) {
	RevealPart(o, 0, o.Size().Height)
}

// RevealPart scrolls so that the stretch of o from top to bottom can be seen: one
// row of a table, say.
func RevealPart(o fyne.CanvasObject, top, bottom float32) {
	c := fyne.CurrentApp().Driver().CanvasForObject(o)
	if c == nil {
		return
	}
	root := c.Content()
	if over := c.Overlays().Top(); over != nil {
		root = over
	}
	if root != nil {
		revealBelow(root, o, top, bottom)
	}
}

// revealBelow looks for o at and below a part; once found, it scrolls what lies
// on the way up and gives the stretch in the part's own coordinates.
func revealBelow(part, o fyne.CanvasObject, top, bottom float32) (float32, float32, bool) {
	if part == o {
		return top, bottom, true
	}
	if !part.Visible() {
		return 0, 0, false
	}
	for _, child := range parts(part) {
		t, b, found := revealBelow(child, o, top, bottom)
		if !found {
			continue
		}
		if s, ok := part.(*container.Scroll); ok {
			bring(s, t, b)
		}
		y := child.Position().Y
		return t + y, b + y, true
	}
	return 0, 0, false
}

// bring scrolls s so that its content from top to bottom is in view, with a
// little around it; of what is too tall, the top.
func bring(s *container.Scroll, top, bottom float32) {
	margin := gap(12)
	view, whole := s.Size().Height, s.Content.Size().Height
	offset := s.Offset.Y
	if bottom+margin > offset+view {
		offset = bottom + margin - view
	}
	if top-margin < offset {
		offset = top - margin
	}
	offset = max(0, min(offset, whole-view))
	if offset == s.Offset.Y {
		return
	}
	s.ScrollToOffset(fyne.NewPos(s.Offset.X, offset))
	if s.OnScrolled != nil {
		s.OnScrolled(s.Offset)
	}
}
