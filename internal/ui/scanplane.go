package ui

import (
	"math"
	"slices"
	"strings"

	"meltwright/internal/fault"
	"meltwright/internal/mesh"
	"meltwright/internal/quantity"
)

// scanPlane is a plane that cuts the form, as it is typed: where it crosses the
// upright through the middle, how far it is tilted and towards where, and how far
// it is moved across. Lengths are those of the scan as it stands, in metres.
type scanPlane struct {
	height, shift float64
	tilt, towards float64    // degrees; towards 0 is the right, 90 the back
	near          []mesh.Vec // of what it cuts; none for everything
	loops         []mesh.Loop
	texts         map[string]typedAt // of what was typed last
}

// typedAt is a text with the scale that it was typed at.
type typedAt struct {
	text  string
	scale float64
	wrong bool
}

// The parts of a plane that are typed.
const (
	planeHeight  = "height"
	planeTilt    = "tilt"
	planeTowards = "towards"
	planeShift   = "shift"
)

func newScanPlane(height float64) *scanPlane {
	return &scanPlane{height: height, texts: map[string]typedAt{}}
}

// planeOf takes a cut apart into what is typed of it.
func planeOf(c mesh.Cut) *scanPlane {
	p := newScanPlane(0)
	n := c.Plane.Normal
	if l := n.Norm(); l > 0 {
		n = n.Mul(1 / l)
	}
	if n[2] < 0 {
		n = n.Mul(-1)
	}
	p.tilt = tidyDegrees(math.Acos(min(n[2], 1)))
	if p.tilt != 0 {
		p.towards = tidyDegrees(math.Atan2(n[1], n[0]))
	}
	away := c.Plane.At.Dot(n)
	if p.tilt <= 60 {
		p.height = away / n[2]
	} else {
		p.shift = away
	}
	p.near = c.Near
	return p
}

// tidyDegrees turns an angle into degrees without the dust of rounding.
func tidyDegrees(radians float64) float64 {
	return math.Round(radians*180/math.Pi*1e6) / 1e6
}

// cut is the plane as it cuts.
func (p *scanPlane) cut() mesh.Cut {
	t, d := p.tilt*math.Pi/180, p.towards*math.Pi/180
	n := mesh.Vec{math.Sin(t) * math.Cos(d), math.Sin(t) * math.Sin(d), math.Cos(t)}
	return mesh.Cut{Plane: mesh.Plane{At: mesh.Vec{0, 0, p.height}.Add(n.Mul(p.shift)), Normal: n}, Near: p.near}
}

// part is the number that is typed under a name, and what one of it is at a scale.
func (p *scanPlane) part(key string, scale float64) (v *float64, unit float64) {
	switch key {
	case planeTilt:
		return &p.tilt, 1
	case planeTowards:
		return &p.towards, 1
	case planeShift:
		return &p.shift, scale
	}
	return &p.height, scale
}

// give takes a text that was typed at a scale; what cannot be read changes
// nothing but stays.
func (p *scanPlane) give(key, text string, scale float64, sys quantity.System) {
	v, unit := p.part(key, scale)
	n, err := readPart(key, text, sys)
	p.texts[key] = typedAt{text, scale, err != nil}
	if err == nil {
		*v = n / unit
		p.loops = nil
	}
}

// text is what stands in a field: what was typed, as long as it means the same.
func (p *scanPlane) text(key string, scale float64, sys quantity.System) string {
	if t, ok := p.texts[key]; ok && (t.wrong || t.scale == scale) {
		return t.text
	}
	v, unit := p.part(key, scale)
	if key == planeTilt || key == planeTowards {
		return quantity.Significant(*v, 4) + "°"
	}
	return quantity.Print(quantity.KindLength, *v*unit, sys)
}

// readPart reads a length, or an angle in degrees.
func readPart(key, text string, sys quantity.System) (float64, error) {
	switch key {
	case planeTilt, planeTowards:
		v, err := quantity.Parse(quantity.KindFactor, strings.TrimSuffix(strings.TrimSpace(text), "°"), sys)
		if err != nil {
			return 0, fault.Fault{Problem: "is no angle", Remedy: "give degrees such as 15"}
		}
		if key == planeTilt && !(v >= 0 && v <= 90) || math.Abs(v) > 360 {
			return 0, fault.Fault{Problem: "is too far", Remedy: "give a tilt from 0 to 90 degrees, and the way it is tilted from −360 to 360"}
		}
		return v, nil
	}
	return quantity.Parse(quantity.KindLength, text, sys)
}

// picked are the outlines that a plane is kept to, by their nearest points.
func (p *scanPlane) picked() (out []int) {
	for _, q := range p.near {
		best, chosen := math.Inf(1), -1
		for i, l := range p.loops {
			for _, at := range l.Points {
				if d := at.Sub(q).Norm(); d < best {
					best, chosen = d, i
				}
			}
		}
		if chosen >= 0 && !slices.Contains(out, chosen) {
			out = append(out, chosen)
		}
	}
	return out
}

// cutLoops are the outlines that the plane cuts.
func (p *scanPlane) cutLoops() []mesh.Loop {
	if len(p.near) == 0 {
		return p.loops
	}
	var out []mesh.Loop
	for _, i := range p.picked() {
		out = append(out, p.loops[i])
	}
	return out
}

// weld is the length of the outlines that the plane cuts.
func (p *scanPlane) weld() (length float64) {
	for _, l := range p.cutLoops() {
		length += l.Length
	}
	return length
}
