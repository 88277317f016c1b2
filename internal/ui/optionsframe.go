package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"meltwright/internal/ui/look"
)

// optionFrame is the screen's frame: the bar over it, the comparison, and the
// chosen option at its right, or below where there is too little width.
type optionFrame struct {
	widget.BaseWidget
	bar, main, side fyne.CanvasObject
	onMain          func(height float32) // told how high the comparison is seen
	sheet, aside    *canvas.Rectangle
	edge            *canvas.Rectangle
}

func newOptionFrame(bar, main, side fyne.CanvasObject, onMain func(float32)) *optionFrame {
	f := &optionFrame{onMain: onMain, bar: bar, main: main, side: side, sheet: &canvas.Rectangle{}, aside: &canvas.Rectangle{}, edge: &canvas.Rectangle{}}
	f.ExtendBaseWidget(f)
	return f
}

// Held implements kit.Holder.
func (f *optionFrame) Held() []fyne.CanvasObject { return []fyne.CanvasObject{f.bar, f.main, f.side} }

// CreateRenderer implements fyne.Widget.
func (f *optionFrame) CreateRenderer() fyne.WidgetRenderer {
	r := optionFrameFace{f}
	r.dress()
	return r
}

type optionFrameFace struct{ f *optionFrame }

func (r optionFrameFace) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.f.sheet, r.f.aside, r.f.edge, r.f.bar, r.f.main, r.f.side}
}

// Layout implements fyne.WidgetRenderer.
func (r optionFrameFace) Layout(s fyne.Size) {
	f, unit := r.f, theme.TextSize()/look.Text
	put := func(o fyne.CanvasObject, x, y, w, h float32) {
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(w, h))
	}
	top := f.bar.MinSize().Height
	put(f.bar, 0, 0, s.Width, top)
	h, side := s.Height-top, max(300*unit, min(340*unit, s.Width*0.27))
	if s.Width-side >= 600*unit {
		put(f.main, 0, top, s.Width-side, h)
		put(f.side, s.Width-side, top, side, h)
		put(f.edge, s.Width-side, top, 1, h)
	} else {
		upper := float32(int(h * 0.56))
		put(f.main, 0, top, s.Width, upper)
		put(f.side, 0, top+upper, s.Width, h-upper)
		put(f.edge, 0, top+upper, s.Width, 1)
	}
	f.onMain(f.main.Size().Height)
	put(f.sheet, 0, top, s.Width, h)
	f.aside.Move(f.side.Position())
	f.aside.Resize(f.side.Size())
}

func (r optionFrameFace) MinSize() fyne.Size { return fyne.NewSize(640, 400) }
func (r optionFrameFace) Destroy()           {}

func (r optionFrameFace) dress() {
	r.f.sheet.FillColor, r.f.aside.FillColor, r.f.edge.FillColor = theme.Color(look.Sheet), theme.Color(look.Side), theme.Color(look.Trough)
	for _, o := range []*canvas.Rectangle{r.f.sheet, r.f.aside, r.f.edge} {
		o.Refresh()
	}
}

func (r optionFrameFace) Refresh() {
	r.dress()
	for _, o := range r.f.Held() {
		o.Refresh()
	}
	r.Layout(r.f.Size())
	canvas.Refresh(r.f)
}
