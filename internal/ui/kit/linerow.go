package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/ui/look"
)

// cells are the widths that the five figures of a line take.
type cells struct{ quantity, unit, rate, per, cost float32 }

func cellsOf(l Line) cells {
	style := fyne.TextStyle{Bold: l.Kind != LineItem}
	width := func(s string) float32 { return textWidth(s, theme.TextSize(), style) }
	return cells{width(l.Quantity), width(l.Unit), width(l.Rate), width(l.Per), width(l.Cost)}
}

func (c cells) wider(d cells) cells {
	return cells{max(c.quantity, d.quantity), max(c.unit, d.unit), max(c.rate, d.rate), max(c.per, d.per), max(c.cost, d.cost)}
}

// extent is a column's place.
type extent struct{ x, w float32 }

func (e extent) end() float32 { return e.x + e.w }

// columns are the places of a table's columns. A figure ends where its unit
// begins, so that digits stand under digits.
type columns struct {
	name, quantity, unit, rate, per, cost extent
	letters                               float32
	asked                                 cells
	width                                 float32
}

// set computes the places for what the cells need; it tells whether they moved.
// When narrow the unit of the rate, which repeats that of the quantity, goes
// first, and the name is cut short.
func (c *columns) set(need cells, heads [4]*ink, width float32) bool {
	if c.asked == need && c.width == width && c.letters == theme.TextSize() {
		return false
	}
	c.asked, c.width, c.letters = need, width, theme.TextSize()
	between, aside := gap(22), px(5)
	edge := gap(10)
	need.quantity = max(need.quantity, heads[1].natural()-need.unit)
	need.rate = max(need.rate, heads[2].natural()-need.per)
	need.cost = max(need.cost, heads[3].natural())
	figures := func() float32 {
		return need.quantity + need.unit + need.rate + need.per + need.cost + 2*aside + 2*between
	}
	room := width - 2*edge
	if room-figures()-between < px(150) {
		between = gap(12)
		if room-figures()-between < px(110) {
			need.rate = max(need.rate, heads[2].natural())
			need.per = 0
		}
	}
	c.cost = extent{width - edge - need.cost, need.cost}
	c.per = extent{c.cost.x - between - need.per, need.per}
	c.rate = extent{c.per.x - aside - need.rate, need.rate}
	c.unit = extent{c.rate.x - between - need.unit, need.unit}
	c.quantity = extent{c.unit.x - aside - need.quantity, need.quantity}
	c.name = extent{edge, max(c.quantity.x-between-edge, px(40))}
	return true
}

// quantityEdge is where the head of the quantities ends: over their units.
func (c *columns) quantityEdge() float32 { return c.unit.end() }

// rateEdge is where the head of the rates ends.
func (c *columns) rateEdge() float32 { return c.per.end() }

// lineRow shows one line of a table.
type lineRow struct {
	cols                                  *columns
	name, quantity, unit, rate, per, cost *ink
	rule                                  *canvas.Rectangle
	seen                                  []fyne.CanvasObject
	kind                                  LineKind
}

func newLineRow(cols *columns) *lineRow {
	text := func(name fyne.ThemeColorName) *ink { return newInk(theme.SizeNameText, name, plain) }
	r := &lineRow{
		cols: cols, name: text(look.Ink), quantity: text(look.Ink).trailing(), unit: text(look.Muted),
		rate: text(look.Ink).trailing(), per: text(look.Muted), cost: text(look.Ink).trailing(),
		rule: &canvas.Rectangle{},
	}
	r.seen = []fyne.CanvasObject{r.rule}
	for _, t := range r.texts() {
		r.seen = append(r.seen, t.Text)
	}
	r.dress()
	return r
}

func (r *lineRow) texts() [6]*ink {
	return [6]*ink{r.name, r.quantity, r.unit, r.rate, r.per, r.cost}
}

func (r *lineRow) objects() []fyne.CanvasObject { return r.seen }

func (r *lineRow) dress() {
	for _, t := range r.texts() {
		t.dress()
	}
	fill(r.rule, r.ruleColour())
}

// ruleColour is stronger under what closes a group.
func (r *lineRow) ruleColour() fyne.ThemeColorName {
	if r.kind == LineTotal {
		return look.Ink
	}
	return look.Rule
}

func (r *lineRow) show(l Line, chosen bool) {
	r.kind = l.Kind
	for i, s := range [6]string{l.Name, l.Quantity, l.Unit, l.Rate, l.Per, l.Cost} {
		r.texts()[i].say(s)
	}
	heavy := chosen || l.Kind != LineItem
	r.name.weigh(heavy)
	r.cost.weigh(heavy)
	r.quantity.weigh(l.Kind != LineItem)
	tone := look.Ink
	if l.Kind == LineHead {
		tone = look.Bronze
	}
	r.name.tint(tone)
	fill(r.rule, r.ruleColour())
}

func (r *lineRow) place(y, width, height float32) {
	c := r.cols
	r.name.place(c.name.x, y, c.name.w, height)
	r.quantity.place(c.quantity.x, y, c.quantity.w, height)
	r.unit.place(c.unit.x, y, c.unit.w, height)
	r.rate.place(c.rate.x, y, c.rate.w, height)
	r.per.place(c.per.x, y, c.per.w, height)
	r.per.Text.Hidden = c.per.w == 0
	r.cost.place(c.cost.x, y, c.cost.w, height)
	put(r.rule, 0, y+height-1, width, 1)
}
