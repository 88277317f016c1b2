package mesh

import (
	"math"
	order "slices"
)

// Balance says how a form stands on its own foot. It is a flag for the engineer
// who designs the frame and the anchors, and no design: nothing here knows of
// wind, of people who climb, or of what the ground bears.
type Balance struct {
	Centre Vec     // of mass, above the foot's plane
	Foot   []Flat  // outline of what touches the ground, as far as it bulges
	Inside float64 // how far the centre lies within that outline, in the form's unit; below 0 it tips by itself
	Tip    float64 // by how many degrees it may lean before it tips; below 0 it tips by itself
}

// touchShare is the lowest part of a form that counts as touching the ground.
const touchShare = 0.01

// BalanceOf sets a centre of mass over the foot of a mesh that stands with z up.
func BalanceOf(m *Mesh, centre Vec) Balance {
	low, high := box(m.Points)
	limit := low[2] + touchShare*(high[2]-low[2])
	var touching []Flat
	for _, p := range m.Points {
		if float64(p[2]) <= limit {
			touching = append(touching, Flat{float64(p[0]), float64(p[1])})
		}
	}
	b := Balance{Centre: Vec{centre[0], centre[1], centre[2] - low[2]}, Foot: hull(touching)}
	b.Inside = within(b.Foot, Flat{centre[0], centre[1]})
	b.Tip = math.Atan2(b.Inside, b.Centre[2]) * 180 / math.Pi
	return b
}

// hull is the convex hull, turning left (A. M. Andrew, Information Processing
// Letters 9(5), 1979).
func hull(points []Flat) []Flat {
	order.SortFunc(points, func(a, b Flat) int {
		switch {
		case a[0] != b[0] && a[0] < b[0], a[0] == b[0] && a[1] < b[1]:
			return -1
		case a == b:
			return 0
		}
		return 1
	})
	points = order.Compact(points)
	if len(points) < 3 {
		return points
	}
	half := func(in []Flat) (out []Flat) {
		for _, p := range in {
			for len(out) > 1 && turn(out[len(out)-2], out[len(out)-1], p) <= 0 {
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		return out[:len(out)-1]
	}
	lower := half(points)
	order.Reverse(points)
	return append(lower, half(points)...)
}

// within is how far p lies inside a hull: the distance to its nearest edge, below
// zero outside.
func within(h []Flat, p Flat) float64 {
	if len(h) == 0 {
		return math.Inf(-1)
	}
	near, inside := math.Inf(1), len(h) > 2
	for i, a := range h {
		b := h[(i+1)%len(h)]
		near = min(near, offLine(p, a, b))
		if len(h) > 2 && turn(a, b, p) < 0 {
			inside = false
		}
	}
	if !inside {
		return -near
	}
	return near
}
