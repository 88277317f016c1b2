package kit

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"meltwright/internal/ui/look"
)

// Reckoning says how a line was worked out.
type Reckoning struct {
	Name    string // of the line
	Formula string // "6.17 m² × 12 coats × 2.00 kg/m² = 148.0 kg"
	Inputs  []ReckoningInput
}

// ReckoningInput is one figure that went in.
type ReckoningInput struct {
	Name   string // "shelled area"
	Value  string // "6.17 m²"
	Origin string // "outside 2.79 + inside 2.66 + gates 0.72"
}

// Working is the panel that says how the chosen line was worked out; its button
// copies all of it as text.
type Working struct {
	widget.BaseWidget
	what          Reckoning
	caption       *ink
	formula       *para
	inputs        []*workingInput
	ground, bar   *canvas.Rectangle
	copyButton    *Button
	width, height float32
	nameW, valueW float32 // the inputs' columns
}

// NewWorking makes an empty panel; it is hidden until it has something to say.
func NewWorking() *Working {
	w := &Working{ground: &canvas.Rectangle{}, bar: &canvas.Rectangle{}}
	w.caption = newInk(theme.SizeNameCaptionText, look.Muted, plain)
	w.formula = newPara(theme.SizeNameText)
	w.copyButton = NewButton("Copy", Quiet, w.copy)
	w.ExtendBaseWidget(w)
	w.Hide()
	return w
}

// Set shows a reckoning; one without formula and inputs hides the panel.
func (w *Working) Set(r Reckoning) {
	w.what = r
	w.caption.say("How this was worked out — " + r.Name)
	w.formula.say(span{text: r.Formula, colour: look.Ink, bold: true})
	for len(w.inputs) < len(r.Inputs) {
		w.inputs = append(w.inputs, newWorkingInput())
	}
	for i, in := range r.Inputs {
		w.inputs[i].say(in)
	}
	w.copyButton.SetText("Copy")
	w.Hidden = r.Formula == "" && len(r.Inputs) == 0
	w.relay()
	canvas.Refresh(w)
}

// Text is the whole working as plain text, figures apart by tabs, so that it can
// be put into a letter or a spreadsheet.
func (w *Working) Text() string {
	var b strings.Builder
	b.WriteString(w.what.Name + "\n" + w.what.Formula + "\n")
	for _, in := range w.what.Inputs {
		b.WriteString(in.Name + "\t" + in.Value + "\t" + in.Origin + "\n")
	}
	return b.String()
}

func (w *Working) copy() {
	fyne.CurrentApp().Clipboard().SetContent(w.Text())
	w.copyButton.SetText("Copied")
	w.relay()
}

// Held implements Holder.
func (w *Working) Held() []fyne.CanvasObject { return []fyne.CanvasObject{w.copyButton} }

func (w *Working) heightFor(width float32) float32 {
	if width != w.width {
		w.width = width
		w.relay()
	}
	return w.height
}

func (w *Working) shown() []*workingInput { return w.inputs[:len(w.what.Inputs)] }

// relay places everything for the panel's width.
func (w *Working) relay() {
	side, top := gap(16), gap(11)
	inner := max(w.width-2*side, px(60))
	button := w.copyButton.MinSize()
	line := lineHeight(theme.SizeNameCaptionText)
	w.caption.place(side, top, inner-button.Width-gap(6), line)
	put(w.copyButton, w.width-button.Width-gap(6), top+(line-button.Height)/2, button.Width, button.Height)
	y := top + line + gap(4)
	if !w.formula.empty() {
		h := w.formula.heightFor(inner)
		put(w.formula, side, y, inner, h)
		y += h + gap(5)
	}
	w.measure(inner)
	for _, in := range w.shown() {
		y += in.place(side, y, inner, w.nameW, w.valueW) + gap(2)
	}
	w.height = y + top - gap(2)
	put(w.ground, 0, 0, w.width, w.height)
	put(w.bar, 0, 0, px(4), w.height)
}

// measure gives the columns of the inputs their widths.
func (w *Working) measure(inner float32) {
	w.nameW, w.valueW = 0, 0
	for _, in := range w.shown() {
		w.nameW = max(w.nameW, in.name.natural())
		w.valueW = max(w.valueW, in.value.natural())
	}
	w.nameW = min(w.nameW, inner*0.4)
}

func (w *Working) dress() {
	fill(w.ground, look.Panel)
	fill(w.bar, look.Accent)
	w.caption.dress()
	for _, in := range w.inputs {
		in.dress()
	}
}

// CreateRenderer implements fyne.Widget.
func (w *Working) CreateRenderer() fyne.WidgetRenderer {
	w.dress()
	return face{
		objects: func() []fyne.CanvasObject {
			objects := []fyne.CanvasObject{w.ground, w.bar, w.caption.Text, w.formula}
			for _, in := range w.shown() {
				objects = append(objects, in.name.Text, in.value.Text, in.origin)
			}
			return append(objects, w.copyButton)
		},
		layout: func(s fyne.Size) {
			w.width = s.Width
			w.relay()
		},
		min: func() fyne.Size { return fyne.NewSize(px(200), w.height) },
		refresh: func() {
			w.dress()
			w.formula.Refresh()
			w.copyButton.Refresh()
			w.relay()
			canvas.Refresh(w)
		},
	}
}

// workingInput is one input's line in the working.
type workingInput struct {
	name, value *ink
	origin      *para
}

func newWorkingInput() *workingInput {
	return &workingInput{
		name:   newInk(theme.SizeNameText, look.Muted, plain),
		value:  newInk(theme.SizeNameText, look.Ink, plain).trailing(),
		origin: newPara(theme.SizeNameText),
	}
}

func (in *workingInput) say(r ReckoningInput) {
	in.name.say(r.Name)
	in.value.say(r.Value)
	in.origin.say(span{text: r.Origin, colour: look.Muted})
}

func (in *workingInput) dress() {
	in.name.dress()
	in.value.dress()
	in.origin.Refresh()
}

// place puts name, value and origin side by side, or the origin below where it
// would get too little room, and gives the height.
func (in *workingInput) place(x, y, inner, nameW, valueW float32) float32 {
	line := lineHeight(theme.SizeNameText)
	in.name.place(x, y, nameW, line)
	in.value.place(x+nameW+gap(14), y, valueW, line)
	left := nameW + gap(14) + valueW + gap(16)
	if inner-left < px(130) && !in.origin.empty() {
		h := in.origin.heightFor(inner - gap(14))
		put(in.origin, x+gap(14), y+line, inner-gap(14), h)
		return line + h + gap(2)
	}
	h := in.origin.heightFor(inner - left)
	put(in.origin, x+left, y, inner-left, h)
	return max(line, h)
}
