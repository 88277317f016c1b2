package drawing

// quarter is how far a cubic's handle lies from the end of a quarter of a
// circle of radius 1: 4/3 (√2 − 1), within 0.03 % of round.
const quarter = 0.5522847498307936

// Rect is an upright rectangle.
func Rect(x, y, width, height float64) Path {
	return Polygon(Point{x, y}, Point{x + width, y}, Point{x + width, y + height}, Point{x, y + height})
}

// RoundRect is an upright rectangle with corners of radius r, at most half its
// shorter side.
func RoundRect(x, y, width, height, r float64) Path {
	r = within(r, 0, min(width, height)/2)
	if r == 0 {
		return Rect(x, y, width, height)
	}
	k := r * (1 - quarter)
	x1, y1 := x+width, y+height
	var p Path
	// A side of no length would be drawn with a spike where it joins the next.
	across, down := width-2*r > 1e-9*r, height-2*r > 1e-9*r
	side := func(is bool, x, y float64) {
		if is {
			p.Line(x, y)
		}
	}
	p.Move(x+r, y)
	side(across, x1-r, y)
	p.Cubic(x1-k, y, x1, y+k, x1, y+r)
	side(down, x1, y1-r)
	p.Cubic(x1, y1-k, x1-k, y1, x1-r, y1)
	side(across, x+r, y1)
	p.Cubic(x+k, y1, x, y1-k, x, y1-r)
	side(down, x, y+r)
	p.Cubic(x, y+k, x+k, y, x+r, y)
	p.Close()
	return p
}

// Circle is a circle of radius r about (x, y).
func Circle(x, y, r float64) Path { return RoundRect(x-r, y-r, 2*r, 2*r, r) }

// Polygon joins corners by straight lines and closes.
func Polygon(corners ...Point) Path {
	p := Polyline(corners...)
	if len(p) > 0 {
		p.Close()
	}
	return p
}

// Polyline joins points by straight lines, left open.
func Polyline(points ...Point) Path {
	var p Path
	for i, at := range points {
		if i == 0 {
			p.Move(at.X, at.Y)
		} else {
			p.Line(at.X, at.Y)
		}
	}
	return p
}

// drop is a drop of metal that hangs from (x, y) and is height tall.
func drop(x, y, height float64) Path {
	r := height * 0.34
	foot := y + height
	k := r * quarter
	var p Path
	p.Move(x, y)
	p.Cubic(x+r*0.15, y+height*0.28, x+r, foot-2*r, x+r, foot-r)
	p.Cubic(x+r, foot-r+k, x+k, foot, x, foot)
	p.Cubic(x-k, foot, x-r, foot-r+k, x-r, foot-r)
	p.Cubic(x-r, foot-2*r, x-r*0.15, y+height*0.28, x, y)
	p.Close()
	return p
}
