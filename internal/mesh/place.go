package mesh

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"meltwright/internal/fault"
)

// The other ways up, beside YUp and ZUp.
const (
	XUp   Axis = "x"
	XDown Axis = "-x"
	YDown Axis = "-y"
	ZDown Axis = "-z"
)

// Stance is what a file cannot say of a form and a person must.
type Stance struct {
	Unit     Unit  `json:"unit"`           // of the file
	Up       Axis  `json:"up"`             // which of the file's axes points up
	Turn     int   `json:"turn,omitempty"` // quarter turns to the left that bring the front to the viewer
	OpenFoot bool  `json:"open_foot"`      // the piece stands on a rim: no metal under it
	Keep     []int `json:"keep,omitempty"` // shells to keep, as FindShells lists them; empty for all
}

// rows of the turn that makes each axis the z axis; right hands stay right.
var uprights = map[Axis][3]Vec{
	ZUp:   {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
	ZDown: {{1, 0, 0}, {0, -1, 0}, {0, 0, -1}},
	YUp:   {{1, 0, 0}, {0, 0, -1}, {0, 1, 0}},
	YDown: {{1, 0, 0}, {0, 0, 1}, {0, -1, 0}},
	XUp:   {{0, 1, 0}, {0, 0, 1}, {1, 0, 0}},
	XDown: {{0, 0, 1}, {0, 1, 0}, {-1, 0, 0}},
}

// axes in the order in which they are proposed.
var axes = []Axis{ZUp, YUp, XUp, ZDown, YDown, XDown}

// ParseAxis reads which way is up: x, y or z, with a minus sign for downwards.
func ParseAxis(text string) (Axis, error) {
	a := Axis(strings.ToLower(strings.TrimPrefix(strings.TrimSpace(text), "+")))
	if _, ok := uprights[a]; !ok {
		return NoAxis, fault.Fault{
			Where: "scan.up", Field: "Up axis of the scan", Value: text,
			Problem: "is no axis", Remedy: "give x, y or z, or -x, -y or -z if the scan is upside down",
		}
	}
	return a, nil
}

// Stand is the mesh in metres, standing on z = 0 with its box about the z axis,
// its front towards −y. Shells that are not kept are left out.
func Stand(m *Mesh, s *Shells, how Stance) (*Mesh, error) {
	rows, ok := uprights[how.Up]
	if !ok {
		_, err := ParseAxis(string(how.Up))
		return nil, err
	}
	if !(how.Unit.Metres > 0) || math.IsInf(how.Unit.Metres, 0) {
		return nil, fault.Fault{
			Where: "scan.unit", Field: "Unit of the scan", Value: how.Unit.Symbol,
			Problem: "is not known", Remedy: "give mm, cm, m, in or ft",
		}
	}
	if len(how.Keep) > 0 {
		keep := make([]bool, len(s.List))
		for _, k := range how.Keep {
			if k < 0 || k >= len(keep) {
				return nil, fault.Fault{
					Where: "scan.keep", Field: "Shells to keep", Value: fmt.Sprint(k + 1),
					Problem: "is no shell of this scan", Remedy: fmt.Sprintf("give numbers from 1 to %d", len(keep)),
				}
			}
			keep[k] = true
		}
		m = s.Keep(m, keep)
	}
	for range (how.Turn%4 + 4) % 4 {
		rows[0], rows[1] = rows[1].Mul(-1), rows[0]
	}
	out := &Mesh{Points: make([]Vec32, len(m.Points)), Triangles: m.Triangles}
	low, high := box(m.Points)
	middle := low.Add(high).Mul(0.5) // first, so that a scan far from its origin keeps its digits
	for i, p := range m.Points {
		v := p.Vec().Sub(middle).Mul(how.Unit.Metres)
		out.Points[i] = Vec{rows[0].Dot(v), rows[1].Dot(v), rows[2].Dot(v)}.Vec32()
	}
	low, high = box(out.Points)
	shift := Vec{-(low[0] + high[0]) / 2, -(low[1] + high[1]) / 2, -low[2]}
	for i, p := range out.Points {
		out.Points[i] = p.Vec().Add(shift).Vec32()
	}
	return out, nil
}

// Proposal is a unit the file may be in, and how high the form is then.
type Proposal struct {
	Unit   Unit
	Height float64 // metres
}

// ProposeUnits lists the units a file may count in, the likeliest first. Most
// scans are in millimetres, and a maquette is enlarged up to tenfold; target is
// the height that is wanted, in metres, 0 if it is not known yet.
func ProposeUnits(height, target float64) []Proposal {
	if !(target > 0) {
		target = 1.8
	}
	rare := map[Unit]float64{Millimetre: 0, Metre: 0.3, Inch: 0.4, Centimetre: 0.5, Foot: 1, Micrometre: 2}
	var list []Proposal
	cost := map[Unit]float64{}
	for unit, r := range rare {
		h := height * unit.Metres
		list = append(list, Proposal{unit, h})
		enlarged := math.Log10(target / h)
		cost[unit] = r + max(0, enlarged-1, -enlarged)
	}
	sort.Slice(list, func(i, j int) bool {
		a, b := list[i].Unit, list[j].Unit
		if cost[a] != cost[b] {
			return cost[a] < cost[b]
		}
		return a.Metres < b.Metres
	})
	return list
}

// ProposeUp guesses which way is up: the way the format promises, or else onto
// the broadest flat foot, or else the longest side of the box.
func ProposeUp(m *Mesh, promised Axis) Axis {
	if promised != NoAxis {
		return promised
	}
	low, high := box(m.Points)
	size := high.Sub(low)
	best, second, up := 0.0, 0.0, ZUp
	for _, a := range axes {
		f := footArea(m, low, high, uprights[a][2])
		if f > best {
			best, second, up = f, best, a
		} else {
			second = max(second, f)
		}
	}
	if best > 2*second && best > 0.02*size[0]*size[1]*size[2]/max(largest(size), 1e-300) {
		return up
	}
	up = ZUp
	for k, a := range []Axis{XUp, YUp, ZUp} {
		if size[k] > 1.1*size[2] && size[k] >= largest(size) {
			up = a
		}
	}
	return up
}

// footArea is the area of the triangles that lie in the lowest hundredth of the
// box, up being one of the axes, and face down.
func footArea(m *Mesh, low, high, up Vec) float64 {
	bottom, top := low.Dot(up), high.Dot(up)
	if bottom > top {
		bottom, top = top, bottom
	}
	limit := bottom + 0.01*(top-bottom)
	sum := 0.0
	for i := range m.Triangles {
		a, b, c := m.Corners(i)
		if a.Dot(up) <= limit && b.Dot(up) <= limit && c.Dot(up) <= limit {
			sum += max(-b.Sub(a).Cross(c.Sub(a)).Dot(up)/2, 0)
		}
	}
	return sum
}
