package drawing

import (
	"image"
	"image/color"
)

// Scene is a picture of Width by Height points.
type Scene struct {
	Width, Height float64
	Ground        Role // what it is drawn on; None lets what is below show
	Items         []Item
}

// Item is something in a scene: a Shape, a Text, a Picture or a Group.
type Item interface {
	draw(d *pen, m Matrix)
}

// Shape is a path that is filled, drawn along, or both.
type Shape struct {
	Path   Path
	Fill   Role
	Stroke Role
	Width  float64   // of the stroke, in points
	Dash   []float64 // lengths on and off along the stroke, in points; none is a full line
}

// Anchor is which part of a text lies at its place.
type Anchor uint8

// Where a text's place is.
const (
	Start Anchor = iota
	Middle
	End
)

// Text is one line of letters whose baseline is at At.
type Text struct {
	At     Point
	Words  string
	Face   Face
	Size   float64 // in points
	Anchor Anchor
	Colour Role
}

// Width is how wide t is, in points.
func (t Text) Width() float64 { return t.Face.Measure(t.Words, t.Size) }

// Box is what t covers, from the foot of its descenders to the top of its
// capitals.
func (t Text) Box() Box {
	left, width := t.left(), t.Width()
	return Box{
		Min: Point{left, t.At.Y - t.Face.Ascent(t.Size)},
		Max: Point{left + width, t.At.Y + t.Size*0.24},
	}
}

// left is where t begins.
func (t Text) left() float64 {
	switch t.Anchor {
	case Middle:
		return t.At.X - t.Width()/2
	case End:
		return t.At.X - t.Width()
	default:
		return t.At.X
	}
}

// Group is items moved together. Its text grows and shrinks with it but stays
// upright.
type Group struct {
	Matrix Matrix
	Items  []Item
}

// Canvas is what a scene can be drawn on. Places are points from the top left.
type Canvas interface {
	// FillPath fills p by the non-zero winding rule.
	FillPath(p Path, c color.NRGBA)
	// StrokePath draws along p with mitred corners and cut ends, width points
	// wide, in dashes if there are any.
	StrokePath(p Path, width float64, dash []float64, c color.NRGBA)
	// DrawText writes words so that their baseline begins at the place given.
	DrawText(words string, f Face, size float64, at Point, c color.NRGBA)
	// DrawPicture draws an image, upright, so that it fills b.
	DrawPicture(img image.Image, b Box)
}

// Draw draws s on c, its roles in p's colours.
func (s Scene) Draw(c Canvas, p Palette) {
	d := &pen{canvas: c, palette: p}
	if s.Ground != None {
		c.FillPath(Rect(0, 0, s.Width, s.Height), p.Colour(s.Ground))
	}
	Group{Items: s.Items}.draw(d, Identity)
}

// Texts lists the texts of s where they are in the whole scene.
func (s Scene) Texts() []Text {
	var found []Text
	d := &pen{canvas: blank{}, saw: func(t Text) { found = append(found, t) }}
	Group{Items: s.Items}.draw(d, Identity)
	return found
}

// pen is what items are drawn with.
type pen struct {
	canvas  Canvas
	palette Palette
	saw     func(Text)
}

func (s Shape) draw(d *pen, m Matrix) {
	path := s.Path
	if m != Identity {
		path = path.Transform(m)
	}
	if s.Fill != None {
		d.canvas.FillPath(path, d.palette.Colour(s.Fill))
	}
	if s.Stroke == None || !(s.Width > 0) {
		return
	}
	factor := m.Factor()
	dash := make([]float64, len(s.Dash))
	for i, length := range s.Dash {
		dash[i] = length * factor
	}
	d.canvas.StrokePath(path, s.Width*factor, dash, d.palette.Colour(s.Stroke))
}

func (t Text) draw(d *pen, m Matrix) {
	if t.Words == "" || t.Colour == None {
		return
	}
	t.At, t.Size = m.Apply(t.At), t.Size*m.Factor()
	if d.saw != nil {
		d.saw(t)
	}
	d.canvas.DrawText(t.Words, t.Face, t.Size, Point{t.left(), t.At.Y}, d.palette.Colour(t.Colour))
}

func (g Group) draw(d *pen, m Matrix) {
	m = g.Matrix.Then(m)
	for _, item := range g.Items {
		item.draw(d, m)
	}
}

// blank is a canvas that shows nothing.
type blank struct{}

// FillPath shows nothing.
func (blank) FillPath(Path, color.NRGBA) {}

// StrokePath shows nothing.
func (blank) StrokePath(Path, float64, []float64, color.NRGBA) {}

// DrawText shows nothing.
func (blank) DrawText(string, Face, float64, Point, color.NRGBA) {}
