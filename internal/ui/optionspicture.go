package ui

import (
	"image"
	"image/color"
	"image/draw"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"meltwright/internal/desk"
	"meltwright/internal/drawing"
	"meltwright/internal/estimate"
	"meltwright/internal/mesh"
	"meltwright/internal/money"
	"meltwright/internal/options"
	"meltwright/internal/quantity"
	"meltwright/internal/ui/look"
)

// palette is that of drawings in the look that is worn.
func palette() drawing.Palette {
	if c := color.GrayModel.Convert(theme.Color(look.Sheet)).(color.Gray); c.Y < 0x80 {
		return drawing.Dark()
	}
	return drawing.Light()
}

// paintScene draws a scene whose points are the window's own units: pixels of them
// to one point.
func paintScene(s drawing.Scene, pixels float64, w, h int) image.Image {
	drawn := drawing.Raster(s, palette(), pixels)
	if b := drawn.Bounds(); s.Ground == drawing.Sheet && b.Dx() == w && b.Dy() >= h {
		return drawn.SubImage(image.Rect(0, 0, w, h)) // whole rows, which need no copy
	}
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(img, img.Bounds(), image.NewUniform(theme.Color(look.Sheet)), image.Point{}, draw.Src)
	draw.Draw(img, img.Bounds(), drawn, image.Point{}, draw.Src)
	return img
}

// frameOf is the room of a view of w by h pixels, in the window's units, and how
// many pixels are one of them.
func frameOf(v fyne.CanvasObject, w, h int) (drawing.Frame, float64) {
	pixels := float64(w) / max(float64(v.Size().Width), 1)
	return drawing.Frame{Width: float64(w) / pixels, Height: float64(h) / pixels, Text: float64(theme.TextSize()) * 0.9}, pixels
}

func unitsOf(sys quantity.System) drawing.Units {
	if sys == quantity.InchPound {
		return drawing.FeetInches
	}
	return drawing.Metric
}

// drawPicture draws the options that the table shows, each over its column.
func (o *optionsScreen) drawPicture(w, h int) image.Image {
	frame, pixels := frameOf(o.picture, w, h)
	// What is recommended stands in a frame that the table goes on with: the
	// picture ends before that frame does.
	frame.Height += frame.Text
	l := o.lineUp(frame)
	return paintScene(l.Scene(), pixels, w, h)
}

// lineUp is the drawing of the options shown.
func (o *optionsScreen) lineUp(frame drawing.Frame) drawing.LineUp {
	rule, p := o.weighing.Rule(), o.table.plan
	l := drawing.LineUp{
		Frame: frame, Units: unitsOf(rule.System), Recommended: "recommended",
		Person: "visitor, " + quantity.Print(quantity.KindLength, drawing.PersonHeight, rule.System),
	}
	for i := range p.n {
		if p.first+i < len(o.list) {
			l.Figures = append(l.Figures, o.figure(o.list[p.first+i]))
			l.Centres = append(l.Centres, float64(p.centre(i)))
		}
	}
	return l
}

// figure is one option as it is drawn: all its pieces side by side.
func (o *optionsScreen) figure(x desk.Option) drawing.Figure {
	f := drawing.Figure{Recommended: x.Recommended, Height: float64(x.Height), Drawing: o.silhouette(x, 0)}
	if x.Estimate == nil {
		return f
	}
	for i, p := range x.Estimate.Pieces {
		height, plinth := float64(p.Height), float64(p.Standing-p.Height)
		if i == 0 {
			f.Height, f.Plinth = height, plinth
			continue
		}
		f.Beside = append(f.Beside, drawing.Piece{Height: height, Plinth: plinth, Drawing: o.silhouette(x, i)})
	}
	return f
}

// silhouette is the drawing of a piece: the one chosen for it, else the outline
// of its scan, else one of ours that its name or its form suggests.
func (o *optionsScreen) silhouette(x desk.Option, i int) drawing.Silhouette {
	var p estimate.Piece
	if i < len(x.Commission.Pieces) {
		p = x.Commission.Pieces[i]
	}
	var front mesh.Outline
	if p.Scan != nil {
		front = p.Scan.Front
	}
	return drawing.SilhouetteOf(o.sheet.Quote().Words["drawing."+strconv.Itoa(i)], front, options.Silhouette(p))
}

// drawBars draws what each option is made of, with the names of the colours
// below.
func (o *optionsScreen) drawBars(w, h int) image.Image {
	frame, pixels := frameOf(o.bars, w, h)
	b := drawing.Bars{Frame: drawing.Frame{Width: frame.Width, Text: frame.Text}}
	for _, x := range o.list {
		b.Options = append(b.Options, barOf(x))
	}
	s := b.Scene()
	key, tall := barKey(frame, s.Height+frame.Text*0.6)
	s.Items, s.Height = append(s.Items, key...), s.Height+tall
	return paintScene(s, pixels, w, h)
}

func barOf(x desk.Option) drawing.Option {
	bar := drawing.Option{Name: x.Name, Recommended: x.Recommended, Total: "—"}
	if len(x.Faults) > 0 {
		return bar
	}
	bar.Total = headline(x.Estimate)
	for _, s := range x.Estimate.Stages {
		bar.Parts = append(bar.Parts, drawing.Share{Stage: s.ID, Value: float64(s.Amount), ByOthers: s.ByOthers})
	}
	return bar
}

// barKey says which colour is which stage, line after line from y down, and how
// high that is.
func barKey(frame drawing.Frame, y float64) ([]drawing.Item, float64) {
	var items []drawing.Item
	size := frame.Text * 0.86
	x, top := 0.0, y
	for _, st := range estimate.Stages {
		if st.ID == "form" {
			continue
		}
		name := st.Name
		if st.ID == "price" {
			name = "Over the direct cost"
		}
		wide := size*1.5 + drawing.Sans.Measure(name, size)
		if x > 0 && x+wide > frame.Width {
			x, y = 0, y+size*1.7
		}
		items = append(items,
			drawing.Shape{Path: drawing.Rect(x, y, size*0.9, size*0.9), Fill: drawing.Stage(st.ID)},
			drawing.Text{At: drawing.Point{X: x + size*1.4, Y: y + size*0.8}, Words: name, Face: drawing.Sans, Size: size, Colour: drawing.Muted})
		x += wide + size*1.3
	}
	return items, y - top + size*2.2
}

// barsHeight is how high the bars and their key are, at plain text size.
func (o *optionsScreen) barsHeight() float32 {
	unit := theme.TextSize() / look.Text
	wide := max(float64(o.bars.Size().Width), 300)
	text := float64(theme.TextSize()) * 0.9
	_, key := barKey(drawing.Frame{Width: wide, Text: text}, 0)
	return float32(text*2*float64(len(o.list))+text*0.6+key) / unit
}

// drawCurve draws the price over the height, with the budget and the options.
func (o *optionsScreen) drawCurve(w, h int) image.Image {
	frame, pixels := frameOf(o.curve, w, h)
	return paintScene(o.priceCurve(frame).Scene(), pixels, w, h)
}

func (o *optionsScreen) priceCurve(frame drawing.Frame) drawing.Curve {
	rule := o.weighing.Rule()
	units := func(a money.Amount) float64 { return rule.Currency.Decimal(a).InexactFloat64() }
	c := drawing.Curve{Frame: frame, Units: unitsOf(rule.System), Axis: "height in bronze", Budget: units(rule.Budget)}
	if rule.Budget > 0 {
		c.BudgetLabel = "budget " + rule.Currency.Whole(rule.Budget, locale) + " " + budgetIs(rule)
	}
	dearest := rule.Budget
	for _, p := range o.found.curve.Points {
		c.Points = append(c.Points, drawing.At{Height: float64(p.Height), Price: units(p.Asked)})
		dearest = max(dearest, p.Asked)
	}
	for _, x := range o.list {
		if len(x.Faults) == 0 {
			a := o.asked(x.Estimate)
			c.Options = append(c.Options, drawing.OptionAt{At: drawing.At{Height: float64(x.Height), Price: units(a)}, Label: x.Name, Recommended: x.Recommended})
			dearest = max(dearest, a)
		}
	}
	for _, a := range options.Ticks(rule.Currency, dearest, 5) {
		c.Prices = append(c.Prices, drawing.Tick{Value: units(a), Label: rule.Currency.Whole(a, locale)})
	}
	return c
}
