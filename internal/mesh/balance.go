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

const (
	// touchShare is the lowest part of a foot that counts as touching the ground.
	touchShare = 0.01
	// unevenShare is how much higher than the lowest foot another may stand: a
	// scan is seldom quite level, and feet are ground to their plinth.
	unevenShare = 0.03
)

// Ground is what a form that stands with z up touches the ground with.
type Ground struct {
	Low     float64 // its lowest point
	Outline []Flat  // round all its feet, as far as they bulge
}

// GroundOf finds the feet of a mesh: each part that hangs together in the lowest
// three hundredths of its height, and of that what is near its own lowest point.
func GroundOf(m *Mesh) Ground {
	low, high := box(m.Points)
	tall := high[2] - low[2]
	near := func(i uint32) bool { return float64(m.Points[i][2]) <= low[2]+unevenShare*tall }
	number, feet := map[uint32]uint32{}, forest{} // of the points near the ground
	foot := func(i uint32) uint32 {
		n, ok := number[i]
		if !ok {
			n = uint32(len(feet))
			number[i], feet = n, append(feet, n)
		}
		return n
	}
	for _, t := range m.Triangles {
		for k, i := range t {
			if !near(i) {
				continue
			}
			n := foot(i)
			if j := t[(k+1)%3]; near(j) {
				feet.join(n, foot(j))
			}
		}
	}
	lowest := map[uint32]float64{}
	for i, n := range number {
		f, z := feet.find(n), float64(m.Points[i][2])
		if was, ok := lowest[f]; !ok || z < was {
			lowest[f] = z
		}
	}
	var touching []Flat
	for i, n := range number {
		if p := m.Points[i]; float64(p[2]) <= lowest[feet.find(n)]+touchShare*tall {
			touching = append(touching, Flat{float64(p[0]), float64(p[1])})
		}
	}
	return Ground{Low: low[2], Outline: hull(touching)}
}

// Balance sets a centre of mass over the feet.
func (g Ground) Balance(centre Vec) Balance {
	b := Balance{Centre: Vec{centre[0], centre[1], centre[2] - g.Low}, Foot: g.Outline}
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
