package kit

import (
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/ui/look"
)

// factRow shows one fact above a hairline.
type factRow struct {
	label, value *ink
	rule         *canvas.Rectangle
}

func newFactRow() *factRow {
	r := &factRow{rule: &canvas.Rectangle{}}
	r.label = newInk(theme.SizeNameText, look.Ink, plain)
	r.value = newInk(theme.SizeNameText, look.Ink, bold).trailing()
	r.dress()
	return r
}

func (r *factRow) say(f Fact) {
	r.label.say(f.Label)
	r.value.say(f.Value)
}

func (r *factRow) dress() {
	r.label.dress()
	r.value.dress()
	fill(r.rule, look.Trough)
}

// place puts label and value on one line, or where that is too narrow the value
// below, and gives the height.
func (r *factRow) place(x, y, w float32) float32 {
	line := lineHeight(theme.SizeNameText)
	label, value := r.label.natural(), r.value.natural()
	over := gap(7)
	if label+value+gap(8) <= w {
		r.label.place(x, y+over, w-value-gap(8), line)
		r.value.place(x+w-value, y+over, value, line)
	} else {
		r.label.place(x, y+over, w, line)
		r.value.place(x, y+over+line, w, line)
		line *= 2
	}
	put(r.rule, x, y+line+2*over, w, 1)
	return line + 2*over + 1
}
