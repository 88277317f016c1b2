package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"meltwright/internal/ui/look"
)

// Fact is a label and what stands against it.
type Fact struct{ Label, Value string }

// Price is what a PricePanel shows.
type Price struct {
	Caption  string // "Price before tax"
	Amount   string // "$128,400"
	Stale    string // why this is an earlier price: "Height cannot be read; this is the last good price"
	Range    *PriceRange
	Facts    []Fact
	Cautions []Caution
}

// PricePanel shows the price, how sure it is, the facts of the work and its
// cautions. Tall, it is one column; wide and low, as below a sheet with large
// text, it lays its parts side by side. It scrolls what does not fit.
type PricePanel struct {
	widget.BaseWidget
	scroll *FocusScroll
	body   *priceBody
}

// NewPricePanel makes an empty panel.
func NewPricePanel() *PricePanel {
	p := &PricePanel{body: newPriceBody()}
	p.scroll = NewFocusScroll(p.body)
	p.ExtendBaseWidget(p)
	return p
}

// Set shows a price.
func (p *PricePanel) Set(price Price) { p.body.set(price) }

// Held implements Holder.
func (p *PricePanel) Held() []fyne.CanvasObject { return []fyne.CanvasObject{p.scroll} }

// heightFor is the height that shows all of it in that width.
func (p *PricePanel) heightFor(width float32) float32 { return p.body.heightFor(width) }

// CreateRenderer implements fyne.Widget.
func (p *PricePanel) CreateRenderer() fyne.WidgetRenderer {
	return face{
		objects: just(p.scroll),
		layout:  func(s fyne.Size) { p.scroll.Resize(s) },
		min:     func() fyne.Size { return fyne.NewSize(px(160), px(90)) },
		refresh: func() { p.scroll.Refresh() },
	}
}

// priceBody is what scrolls in a price panel.
type priceBody struct {
	widget.BaseWidget
	price         Price
	caption       *ink
	amount        *ink
	stale         *CautionBox
	bar           *rangeBar
	facts         []*factRow
	boxes         []*CautionBox
	width, height float32
	low           bool // laid out in columns, as a low strip
}

func newPriceBody() *priceBody {
	b := &priceBody{bar: newRangeBar(), stale: NewCautionBox(Caution{})}
	b.caption = newInk(theme.SizeNameCaptionText, look.Muted, plain)
	b.amount = newInk(look.SizePrice, look.Ink, bold)
	b.amount.whole = true
	b.stale.Hide()
	b.ExtendBaseWidget(b)
	return b
}

func (b *priceBody) set(p Price) {
	shape := b.shape()
	b.price = p
	b.caption.say(p.Caption)
	b.amount.say(p.Amount)
	b.amount.tint(look.Ink)
	if p.Stale != "" {
		b.amount.tint(look.Muted)
	}
	b.stale.Set(Caution{Kind: CautionWarn, Text: p.Stale})
	for len(b.facts) < len(p.Facts) {
		b.facts = append(b.facts, newFactRow())
	}
	for i, f := range p.Facts {
		b.facts[i].say(f)
	}
	for len(b.boxes) < len(p.Cautions) {
		b.boxes = append(b.boxes, NewCautionBox(Caution{}))
	}
	for i, c := range p.Cautions {
		b.boxes[i].Set(c)
	}
	b.relay()
	if b.shape() != shape {
		canvas.Refresh(b)
	}
}

// priceShape is what decides which objects there are and how tall they stand.
type priceShape struct {
	facts, boxes int
	height       float32
	stale        bool
}

func (b *priceBody) shape() priceShape {
	return priceShape{len(b.price.Facts), len(b.price.Cautions), b.height, b.price.Stale != ""}
}

func (b *priceBody) heightFor(width float32) float32 {
	if width != b.width {
		b.width = width
		b.relay()
	}
	return b.height
}

// relay places everything for the width: below each other, or in up to three
// columns where there is room for them.
func (b *priceBody) relay() {
	if b.width <= 0 {
		return
	}
	side, top, between := gap(20), gap(16), gap(26)
	if b.width > px(460) {
		top = gap(9)
	}
	inner := b.width - 2*side
	b.low = inner >= px(210)*2+between
	if !b.low {
		y := b.layHead(side, top, inner)
		y = b.layFacts(side, y+gap(8), inner)
		b.height = b.layCautions(side, y+gap(12), inner) + top
		return
	}
	columns := 2
	if inner >= px(220)*3+2*between {
		columns = 3
	}
	wide := (inner - float32(columns-1)*between) / float32(columns)
	left, right := side, side+float32(columns-1)*(wide+between)
	head := b.layHead(left, top, wide)
	facts := b.layFacts(left+wide+between, top, wide)
	if columns == 3 {
		b.height = max(head, facts, b.layCautions(right, top, wide)) + top
		return
	}
	b.height = max(b.layCautions(left, head+gap(10), wide), facts) + top
}

// layHead places the price and what belongs to it, and says where it ends.
func (b *priceBody) layHead(x, y, w float32) float32 {
	line := lineHeight(theme.SizeNameCaptionText)
	b.caption.place(x, y, w, line)
	y += line
	b.fitAmount(w)
	h := fyne.MeasureText("$0", b.amount.TextSize, bold).Height
	b.amount.place(x, y-h*0.06, w, h)
	y += h * 0.94
	show(b.stale, b.price.Stale != "")
	if b.price.Stale != "" {
		tall := b.stale.heightFor(w)
		put(b.stale, x, y+gap(2), w, tall)
		y += tall + gap(10)
	}
	if used := b.bar.place(b.price.Range, x, y+gap(6), w); used > 0 {
		y += used + gap(6)
	}
	return y
}

// fitAmount makes the price as large as its room allows: it is never cut.
func (b *priceBody) fitAmount(w float32) {
	full := letterSize(look.SizePrice)
	if b.low {
		full *= 0.75
	}
	size := full
	if wide := textWidth(b.amount.full, full, bold); wide > w && wide > 0 {
		size = max(round(full*w/wide-0.5), theme.TextSize()) // letters come in whole sizes
	}
	if b.amount.TextSize != size {
		b.amount.TextSize = size
		b.amount.Text.Refresh()
	}
}

func (b *priceBody) layFacts(x, y, w float32) float32 {
	for i := range b.price.Facts {
		y += b.facts[i].place(x, y, w)
	}
	return y
}

func (b *priceBody) layCautions(x, y, w float32) float32 {
	for i := range b.price.Cautions {
		if i > 0 {
			y += gap(10)
		}
		h := b.boxes[i].heightFor(w)
		put(b.boxes[i], x, y, w, h)
		y += h
	}
	return y
}

func (b *priceBody) dress() {
	b.caption.dress()
	b.amount.dress()
	b.bar.dress()
	b.stale.Refresh()
	for _, f := range b.facts {
		f.dress()
	}
	for _, box := range b.boxes {
		box.Refresh()
	}
}

// CreateRenderer implements fyne.Widget.
func (b *priceBody) CreateRenderer() fyne.WidgetRenderer {
	b.dress()
	return face{
		objects: func() []fyne.CanvasObject {
			objects := append([]fyne.CanvasObject{b.caption.Text, b.amount.Text, b.stale}, b.bar.objects()...)
			for i := range b.price.Facts {
				objects = append(objects, b.facts[i].label.Text, b.facts[i].value.Text, b.facts[i].rule)
			}
			for i := range b.price.Cautions {
				objects = append(objects, b.boxes[i])
			}
			return objects
		},
		layout: func(s fyne.Size) {
			b.width = s.Width
			b.relay()
		},
		min: func() fyne.Size { return fyne.NewSize(px(150), b.height) },
		refresh: func() {
			b.dress()
			b.relay()
			canvas.Refresh(b)
		},
	}
}
