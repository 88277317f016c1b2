package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/ui/look"
)

// railCell is the text of one stage in a rail.
type railCell struct {
	name, detail, amount *ink
	mark                 *badge
}

func newRailCell() *railCell {
	c := &railCell{
		name:   newInk(theme.SizeNameText, look.Ink, plain),
		detail: newInk(theme.SizeNameCaptionText, look.Muted, plain),
		amount: newInk(theme.SizeNameText, look.Ink, plain).trailing(),
		mark:   newBadge(theme.IconNameError, look.Bad),
	}
	c.mark.Hide()
	return c
}

func (c *railCell) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{c.name.Text, c.detail.Text, c.amount.Text, c.mark.Image}
}

func (c *railCell) dress() {
	c.name.dress()
	c.detail.dress()
	c.amount.dress()
	c.mark.dress()
}

// show says what the row says; a fault has its sign, and what others do is paler.
// It tells whether the cell must be placed anew.
func (c *railCell) show(row RailRow, chosen bool) bool {
	named, told := c.name.say(row.Name), c.detail.full == ""
	amount := c.amount.say(row.Amount)
	c.detail.say(row.Detail)
	c.name.weigh(chosen)
	c.amount.weigh(chosen)
	name, detail := look.Ink, look.Muted
	switch row.State {
	case StageFault:
		detail = look.Bad
	case StageByOthers:
		name = look.Muted
	}
	c.name.tint(name)
	c.amount.tint(name)
	c.detail.tint(detail)
	signed := c.mark.Visible()
	show(c.mark, row.State == StageFault)
	return named || amount || told != (row.Detail == "") || signed != c.mark.Visible()
}

// sides are the margins of a cell at its left and right.
func sides(w float32) (float32, float32) {
	if w < px(200) {
		return gap(10), gap(12)
	}
	return gap(12), gap(15)
}

// crowded says that name and amount do not fit side by side.
func (c *railCell) crowded(w float32) bool {
	l, r := sides(w)
	return c.name.natural()+gap(8)+c.amount.natural() > w-l-r
}

// place puts the cell into its part of the rail: the amount beside the name or,
// stacked, beside the detail.
func (c *railCell) place(x, y, w, h float32, stacked bool) {
	l, r := sides(w)
	left, right := x+l, x+w-r
	first, second := lineHeight(theme.SizeNameText), lineHeight(theme.SizeNameCaptionText)
	top := y + (h-first-second)/2
	if c.detail.full == "" && !(stacked && c.amount.full != "") {
		top = y + (h-first)/2
	}
	amount := c.amount.natural()
	nameRoom, detailRoom, amountTop, amountHeight := right-left-amount-gap(8), right-left, top, first
	if stacked {
		nameRoom, detailRoom = right-left, right-left-amount-gap(6)
		amountTop, amountHeight = top+first, second
	}
	c.name.place(left, top, nameRoom, first)
	c.amount.place(right-amount, amountTop, amount, amountHeight)
	var indent float32
	if c.mark.Visible() {
		indent = px(18)
	}
	side := px(15)
	put(c.mark, left, top+first+(second-side)/2, side, side)
	c.detail.place(left+indent, top+first, detailRoom-indent, second)
}
