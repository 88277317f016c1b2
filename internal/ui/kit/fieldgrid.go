package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// FieldGrid shows fields one below another: labels right-aligned in a first
// column, what is filled in in a second, notes in a third. With less width the
// notes go below, and with still less the labels above.
type FieldGrid struct {
	widget.BaseWidget
	fields []*Field
	width  float32
	height float32
}

// NewFieldGrid makes a grid of fields, in the order that Tab goes through them.
func NewFieldGrid(fields ...*Field) *FieldGrid {
	g := &FieldGrid{fields: fields}
	for _, f := range fields {
		f.grid = g
	}
	g.ExtendBaseWidget(g)
	return g
}

// Field is the field of that ID, nil if the grid has none such.
func (g *FieldGrid) Field(id string) *Field {
	for _, f := range g.fields {
		if f.spec.ID == id {
			return f
		}
	}
	return nil
}

// Fields are the grid's fields in order.
func (g *FieldGrid) Fields() []*Field { return g.fields }

// Held implements Holder.
func (g *FieldGrid) Held() []fyne.CanvasObject {
	var held []fyne.CanvasObject
	for _, f := range g.shown() {
		if f.box != nil {
			held = append(held, f.box)
		}
	}
	return held
}

// heightFor is the height the grid takes in that width.
func (g *FieldGrid) heightFor(width float32) float32 {
	if width != g.width {
		g.width = width
		g.relay()
	}
	return g.height
}

// CreateRenderer implements fyne.Widget.
func (g *FieldGrid) CreateRenderer() fyne.WidgetRenderer {
	return face{
		objects: g.objects,
		layout: func(s fyne.Size) {
			g.width = s.Width
			g.relay()
		},
		min: func() fyne.Size {
			if g.width == 0 {
				g.heightFor(px(600))
			}
			return fyne.NewSize(px(200), g.height)
		},
		refresh: func() {
			for _, f := range g.fields {
				f.dress()
			}
			g.relay()
			canvas.Refresh(g)
		},
	}
}

func (g *FieldGrid) shown() []*Field {
	kept := make([]*Field, 0, len(g.fields))
	for _, f := range g.fields {
		if !f.hidden {
			kept = append(kept, f)
		}
	}
	return kept
}

func (g *FieldGrid) objects() []fyne.CanvasObject {
	var objects []fyne.CanvasObject
	for _, f := range g.shown() {
		objects = append(objects, f.label.Text)
		if f.box == nil {
			continue
		}
		objects = append(objects, f.box, f.frame.Rectangle, f.note, f.mark.Image)
		if f.cross != nil {
			objects = append(objects, f.cross)
		}
	}
	return objects
}

// plan is how the grid divides its width.
type plan struct {
	above  bool // labels stand above the boxes
	below  bool // notes stand below the boxes
	label  float32
	box    float32 // a plain box's width
	boxX   float32
	noteX  float32 // beside
	whole  float32
	across float32 // the gap between columns
}

// divide plans for the widest label among the shown fields.
func (g *FieldGrid) divide(fields []*Field) plan {
	p := plan{whole: g.width, across: gap(14), box: px(160)}
	for _, f := range fields {
		if f.box != nil {
			p.label = max(p.label, f.label.natural())
		}
	}
	p.label = min(p.label, px(230))
	p.below = g.width < p.label+p.box+2*p.across+px(170)
	p.above = g.width < p.label+p.box+p.across+px(30)
	if p.above {
		p.label, p.below = 0, true
	} else {
		p.boxX = p.label + p.across
	}
	p.box = min(p.box, g.width-p.boxX)
	p.noteX = p.boxX + p.box + p.across
	return p
}

// relay places every field for the grid's width.
func (g *FieldGrid) relay() {
	fields := g.shown()
	p := g.divide(fields)
	var y float32
	for i, f := range fields {
		if f.spec.Kind == HeadingField {
			y += f.layHeading(p, y, i == 0)
			continue
		}
		y += f.lay(p, y) + gap(9)
	}
	g.height = max(y-gap(9), 0)
}

// layHeading places a heading and gives its height.
func (f *Field) layHeading(p plan, y float32, first bool) float32 {
	over := gap(12)
	if first {
		over = 0
	}
	h := lineHeight(theme.SizeNameText)
	f.label.Alignment = fyne.TextAlignLeading
	f.label.place(0, y+over, p.whole, h)
	return over + h + gap(8)
}

// lay places label, box and note from y down, and gives their height.
func (f *Field) lay(p plan, y float32) float32 {
	top, h := y, f.box.MinSize().Height
	f.label.Alignment = fyne.TextAlignTrailing
	if p.above {
		f.label.Alignment = fyne.TextAlignLeading
		line := lineHeight(theme.SizeNameText)
		f.label.place(0, y, p.whole, line)
		y += line + gap(2)
	} else {
		f.label.place(0, y, p.label, min(h, lineHeight(theme.SizeNameText)+2*theme.InnerPadding()))
	}
	w := f.boxWidth(p)
	put(f.box, p.boxX, y, w, h)
	put(f.frame, p.boxX, y, w, h)
	if f.cross != nil {
		side := f.cross.MinSize()
		put(f.cross, p.boxX+f.box.MinSize().Width, y, side.Width, h)
	}
	return y - top + f.layNote(p, y, w, h)
}

// boxWidth is how wide the field's box is: choices are wider than numbers, and
// notes take what there is.
func (f *Field) boxWidth(p plan) float32 {
	room := p.whole - p.boxX
	switch {
	case f.spec.Kind == NotesField || f.spec.Wide:
		return min(room, px(560))
	case f.spec.Kind == ChoiceField && p.below:
		return min(room, px(230))
	case f.spec.Kind == ChoiceField:
		return max(p.box, min(room-p.across-px(140), px(230)))
	case f.spec.Kind == CheckField:
		return min(room, max(p.box, f.box.MinSize().Width))
	}
	return p.box
}

// layNote places the note beside the box or below it, and gives the height of
// both.
func (f *Field) layNote(p plan, y, w, h float32) float32 {
	f.note.Hidden = f.note.empty()
	if f.note.empty() {
		return h
	}
	var indent float32
	if f.mark.Visible() {
		indent = px(20)
	}
	x := max(p.noteX, p.boxX+w+p.across)
	if f.cross != nil {
		x = max(x, p.boxX+f.box.MinSize().Width+f.cross.MinSize().Width+gap(6))
	}
	room := p.whole - x - indent
	if p.below || room < px(140) {
		x = p.boxX
		room = p.whole - x - indent
		tall := f.note.heightFor(room)
		f.placeNote(x, y+h+gap(3), indent, room, tall)
		return h + gap(3) + tall + gap(2)
	}
	tall := f.note.heightFor(room)
	f.placeNote(x, y+max((h-tall)/2, 0), indent, room, tall)
	return max(h, tall)
}

func (f *Field) placeNote(x, y, indent, w, h float32) {
	put(f.note, x+indent, y, w, h)
	side := px(16)
	put(f.mark, x, y+(lineHeight(theme.SizeNameCaptionText)-side)/2, side, side)
}
