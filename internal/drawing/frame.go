package drawing

// Frame is the room that a picture has: its size and the size of its text, in
// points. A text of 0 is 10 points.
type Frame struct{ Width, Height, Text float64 }

// sane is f with sizes that can be drawn.
func (f Frame) sane() Frame {
	f.Width, f.Height, f.Text = within(f.Width, 1, 1e5), within(f.Height, 1, 1e5), positive(f.Text)
	if f.Text == 0 {
		f.Text = 10
	}
	f.Text = min(f.Text, 1e3)
	return f
}

// scene is an empty picture of f's size on the sheet.
func (f Frame) scene() Scene { return Scene{Width: f.Width, Height: f.Height, Ground: Sheet} }

// small is the size of lesser text.
func (f Frame) small() float64 { return f.Text * 0.86 }

// Widths of lines, in points at a text of 10.
const (
	hairline = 0.75
	firm     = 1.5
)

// line is a straight stroke.
func line(x1, y1, x2, y2, width float64, r Role) Shape {
	return Shape{Path: Polyline(Point{x1, y1}, Point{x2, y2}), Stroke: r, Width: width}
}
