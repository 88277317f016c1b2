package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// Beside puts two objects beside each other where there is room for both at
// their text size, and else the second over the first. Apart keeps them so at
// any width.
type Beside struct {
	widget.BaseWidget
	left, right fyne.CanvasObject
	share       float32 // of the width, for the left one
	apart       bool
}

// NewBeside makes it of two columns; share is the part of the width that the
// left one has.
func NewBeside(left, right fyne.CanvasObject, share float32) *Beside {
	b := &Beside{left: left, right: right, share: share}
	b.ExtendBaseWidget(b)
	return b
}

// SetApart keeps the two over each other, or lets them stand beside each other.
func (b *Beside) SetApart(on bool) {
	b.apart = on
	b.lay(b.Size().Width)
	canvas.Refresh(b)
}

// Held implements Holder.
func (b *Beside) Held() []fyne.CanvasObject { return []fyne.CanvasObject{b.left, b.right} }

func (b *Beside) heightFor(width float32) float32 { return b.lay(width) }

// lay places both in a width, and gives the height they take. An object is given
// its width before it is asked for its height.
func (b *Beside) lay(width float32) float32 {
	fit := func(o fyne.CanvasObject, x, y, w float32) float32 {
		put(o, x, y, w, o.Size().Height)
		h := heightIn(o, w)
		put(o, x, y, w, h)
		return h
	}
	if b.apart || width < px(620) {
		top := fit(b.right, 0, 0, width)
		return top + gap(16) + fit(b.left, 0, top+gap(16), width)
	}
	left := width*b.share - gap(12)
	return max(fit(b.left, 0, 0, left), fit(b.right, left+gap(24), 0, width-left-gap(24)))
}

// CreateRenderer implements fyne.Widget.
func (b *Beside) CreateRenderer() fyne.WidgetRenderer {
	return face{
		objects: just(b.left, b.right),
		layout:  func(s fyne.Size) { b.lay(s.Width) },
		min: func() fyne.Size {
			return fyne.NewSize(px(120), b.lay(max(b.Size().Width, px(120))))
		},
		refresh: func() {
			b.left.Refresh()
			b.right.Refresh()
			b.lay(b.Size().Width)
			canvas.Refresh(b)
		},
	}
}
