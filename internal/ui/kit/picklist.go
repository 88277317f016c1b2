package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"meltwright/internal/ui/look"
)

// pickList is the open list of a picker, floating over the window.
type pickList struct {
	owner  *Picker
	pop    *widget.PopUp
	filter *Entry // nil for a short list
	list   *rowList
	scroll *FocusScroll
	shown  []string
}

// openPickList opens the list below its picker, or above it where there is more
// room, with the current choice marked.
func openPickList(owner *Picker, c fyne.Canvas, current, typed string) {
	l := &pickList{owner: owner}
	l.list = newRowList(func() stripRow { return newWordRow() }, func(r stripRow, i int) {
		r.(*wordRow).show(l.shown[i], i == l.list.chosen)
	})
	l.list.onOpen = func(i int) { l.take(l.shown[i]) }
	l.list.onKey = l.key
	l.list.hasty = true
	l.scroll = NewFocusScroll(l.list)
	if len(owner.options) >= filterFrom {
		l.filter = l.newFilter(typed)
	}
	l.pop = widget.NewPopUp(l.content(), c)
	l.refine(typed)
	l.place(c)
	l.mark(current)
	if l.filter != nil {
		c.Focus(l.filter)
	} else {
		c.Focus(l.list)
	}
}

func (l *pickList) newFilter(typed string) *Entry {
	e := NewEntry(1)
	e.SetPlaceHolder("Type a part of the name")
	e.SetText(typed)
	e.CursorColumn = len([]rune(typed))
	e.OnChanged = func(s string) { l.refine(s) }
	e.OnEscape = l.close
	e.OnSubmitted = func(string) { l.take(l.marked()) }
	e.onArrow = func(k *fyne.KeyEvent) { l.list.TypedKey(k) }
	return e
}

// content lays the filter, if any, above the list.
func (l *pickList) content() fyne.CanvasObject {
	if l.filter == nil {
		return l.scroll
	}
	return &fyne.Container{Layout: topAndRest{}, Objects: []fyne.CanvasObject{l.filter, l.scroll}}
}

// refine shows only what matches, and marks the first.
func (l *pickList) refine(typed string) {
	marked := l.marked()
	l.shown = matching(l.owner.options, typed)
	l.list.setRows(len(l.shown), none)
	l.scroll.Refresh()
	l.mark(marked)
	if l.list.chosen == none && len(l.shown) > 0 {
		l.list.choose(0)
	}
}

// mark chooses the row that says text, and brings it into view.
func (l *pickList) mark(text string) {
	for i, s := range l.shown {
		if s == text {
			l.list.choose(i)
			RevealPart(l.list, float32(i)*l.list.rowHeight(), float32(i+1)*l.list.rowHeight())
			return
		}
	}
}

func (l *pickList) marked() string {
	if i := l.list.chosen; i >= 0 && i < len(l.shown) {
		return l.shown[i]
	}
	return ""
}

func (l *pickList) key(name fyne.KeyName) {
	if name == fyne.KeyEscape {
		l.close()
	}
}

// take closes the list with a choice.
func (l *pickList) take(choice string) {
	l.close()
	if choice != "" {
		l.owner.change(choice)
	}
}

// close takes the list away and gives the focus back.
func (l *pickList) close() {
	l.pop.Hide()
	l.pop.Canvas.Focus(l.owner)
}

// place shows the list where there is room for it.
func (l *pickList) place(c fyne.Canvas) {
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(l.owner)
	size := l.owner.Size()
	pad := theme.InnerPadding()
	most := px(34) * 11
	want := min(l.list.MinSize().Height, most)
	if l.filter != nil {
		want = most
	}
	below := c.Size().Height - at.Y - size.Height - 3*pad
	above := at.Y - 3*pad
	y := at.Y + size.Height
	if below < want && above > below {
		want = min(want, above)
		y = at.Y - want - 2*pad
	} else {
		want = min(want, below)
	}
	l.pop.ShowAtPosition(fyne.NewPos(at.X, y))
	l.pop.Resize(fyne.NewSize(max(size.Width, px(160)), want+pad))
}

// topAndRest puts the first object at its own height above the second.
type topAndRest struct{}

func (topAndRest) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	h := objects[0].MinSize().Height
	put(objects[0], 0, 0, s.Width, h)
	put(objects[1], 0, h+gap(4), s.Width, s.Height-h-gap(4))
}

func (topAndRest) MinSize(objects []fyne.CanvasObject) fyne.Size {
	a, b := objects[0].MinSize(), objects[1].MinSize()
	return fyne.NewSize(max(a.Width, b.Width), a.Height+gap(4)+b.Height)
}

// wordRow is a row that says one thing.
type wordRow struct{ text *ink }

func newWordRow() *wordRow { return &wordRow{newInk(theme.SizeNameText, look.Ink, plain)} }

func (r *wordRow) show(s string, chosen bool) {
	r.text.say(s)
	r.text.weigh(chosen)
}

func (r *wordRow) objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.text.Text} }
func (r *wordRow) dress()                       { r.text.dress() }
func (r *wordRow) place(y, width, height float32) {
	r.text.place(gap(10), y, width-2*gap(10), height)
}
