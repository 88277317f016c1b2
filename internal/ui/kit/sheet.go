package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"meltwright/internal/ui/look"
)

// Sheet is the frame of a screen of work: a bar over it, a rail at the left, the
// work in the middle, the price at the right. With too little width for its text
// size the price becomes a strip below, which is always in view.
//
// Tab goes through it in that order. Any part may be nil.
type Sheet struct {
	widget.BaseWidget
	bar, rail, middle, price fyne.CanvasObject
	sheet, side, aside       *canvas.Rectangle // the grounds of middle, rail and price
	railEdge, priceEdge      *canvas.Rectangle
}

// NewSheet makes a frame around its parts.
func NewSheet(bar, rail, middle, price fyne.CanvasObject) *Sheet {
	s := &Sheet{bar: bar, rail: rail, middle: middle, price: price}
	for _, r := range []**canvas.Rectangle{&s.sheet, &s.side, &s.aside, &s.railEdge, &s.priceEdge} {
		*r = &canvas.Rectangle{}
	}
	s.ExtendBaseWidget(s)
	return s
}

// SetMiddle puts other work into the middle.
func (s *Sheet) SetMiddle(middle fyne.CanvasObject) {
	s.middle = middle
	s.lay(s.Size())
	canvas.Refresh(s)
}

// SetPrice puts a price at the right, or with nil leaves its room to the middle.
func (s *Sheet) SetPrice(price fyne.CanvasObject) {
	if price == s.price {
		return
	}
	s.price = price
	s.lay(s.Size())
	canvas.Refresh(s)
}

// Held implements Holder.
func (s *Sheet) Held() []fyne.CanvasObject {
	var held []fyne.CanvasObject
	for _, o := range []fyne.CanvasObject{s.bar, s.rail, s.middle, s.price} {
		if o != nil {
			held = append(held, o)
		}
	}
	return held
}

// sheetPlan is how a sheet divides what is below its bar.
type sheetPlan struct {
	rail, price float32 // widths
	strip       float32 // the height of the price below; 0 where it stands beside
}

// divide plans for a size below the bar. Of what there is beyond the least, the
// middle has the first part, until its notes stand beside its fields; then rail
// and price grow to what they like; the rest is the middle's.
func (s *Sheet) divide(w, h float32) sheetPlan {
	rail, railMost := px(210), px(290)
	price, priceMost := px(234), px(300)
	if s.rail == nil {
		rail, railMost = 0, 0
	}
	if s.price == nil {
		price, priceMost = 0, 0
	}
	if w < rail+price+px(400) {
		return s.strip(w, h)
	}
	spare := max(w-rail-price-px(572), 0)
	t := float32(1)
	if wish := railMost - rail + priceMost - price; spare < wish {
		t = spare / wish
	}
	return sheetPlan{rail: rail + (railMost-rail)*t, price: price + (priceMost-price)*t}
}

// strip plans with the price below.
func (s *Sheet) strip(w, h float32) sheetPlan {
	var p sheetPlan
	if s.rail != nil {
		p.rail = max(px(150), min(w*0.33, px(232)))
	}
	if s.price != nil {
		p.strip = min(heightIn(s.price, w), h*0.3)
	}
	return p
}

func (s *Sheet) lay(size fyne.Size) {
	var top float32
	if s.bar != nil {
		top = s.bar.MinSize().Height
		put(s.bar, 0, 0, size.Width, top)
	}
	h := size.Height - top
	p := s.divide(size.Width, h)
	upper := h - p.strip
	right := size.Width - p.price
	put(s.side, 0, top, p.rail, upper)
	put(s.sheet, p.rail, top, right-p.rail, upper)
	show(s.railEdge, s.rail != nil)
	show(s.side, s.rail != nil)
	if s.rail != nil {
		put(s.rail, 0, top, p.rail, upper)
		put(s.railEdge, p.rail-1, top, 1, upper)
	}
	if s.middle != nil {
		put(s.middle, p.rail, top, right-p.rail, upper)
	}
	s.layPrice(p, size, top)
}

func (s *Sheet) layPrice(p sheetPlan, size fyne.Size, top float32) {
	show(s.aside, s.price != nil)
	show(s.priceEdge, s.price != nil)
	if s.price == nil {
		return
	}
	x, y, w, h := size.Width-p.price, top, p.price, size.Height-top
	put(s.priceEdge, x, y, 1, h)
	if p.strip > 0 {
		x, y, w, h = 0, size.Height-p.strip, size.Width, p.strip
		put(s.priceEdge, x, y, w, 1)
	}
	put(s.aside, x, y, w, h)
	put(s.price, x, y, w, h)
}

// CreateRenderer implements fyne.Widget.
func (s *Sheet) CreateRenderer() fyne.WidgetRenderer {
	dress := func() {
		fill(s.sheet, look.Sheet)
		fill(s.side, look.Side)
		fill(s.aside, look.Side)
		fill(s.railEdge, look.Trough)
		fill(s.priceEdge, look.Trough)
	}
	dress()
	return face{
		// The rail's edge lies below the rail, so that the chosen stage opens onto
		// the sheet.
		objects: func() []fyne.CanvasObject {
			objects := []fyne.CanvasObject{s.sheet, s.side, s.railEdge}
			for _, o := range s.Held() {
				if o == s.price {
					objects = append(objects, s.aside, s.priceEdge)
				}
				objects = append(objects, o)
			}
			return objects
		},
		layout: s.lay,
		min:    func() fyne.Size { return fyne.NewSize(640, 400) },
		refresh: func() {
			dress()
			for _, o := range s.Held() {
				o.Refresh()
			}
			s.lay(s.Size())
			canvas.Refresh(s)
		},
	}
}
