package drawing

import (
	"math"
	"strconv"
)

// Units is how heights are read off.
type Units uint8

// Metres, or feet and inches.
const (
	Metric Units = iota
	FeetInches
)

// inch is an inch in metres, exactly: NIST SP 811, appendix B (from memory).
const inch = 0.0254

// Tick is a value on a scale, with what is written there.
type Tick struct {
	Value float64
	Label string
}

// steps are the distances between ticks that read well, smallest first, in metres.
var steps = map[Units][]float64{
	Metric: {0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100},
	FeetInches: {
		inch, 2 * inch, 3 * inch, 6 * inch, 12 * inch, 24 * inch, 60 * inch, 120 * inch,
		240 * inch, 600 * inch, 1200 * inch, 2400 * inch,
	},
}

// HeightTicks are the round heights from 0 to at least top metres that lie no
// more than most to the whole; most is at least 1.
func (u Units) HeightTicks(top float64, most int) []Tick {
	top, most = positive(top), max(most, 1)
	all := steps[u]
	step := all[len(all)-1]
	for _, s := range all {
		if top/s <= float64(most)+1e-9 {
			step = s
			break
		}
	}
	n := within(math.Ceil(top/step-1e-9), 0, 1000)
	ticks := make([]Tick, 0, int(n)+1)
	for i := 0.0; i <= n; i++ {
		ticks = append(ticks, Tick{Value: i * step, Label: u.label(i*step, step)})
	}
	return ticks
}

// label is how a height is written on a scale that counts in step.
func (u Units) label(height, step float64) string {
	if u == FeetInches {
		if step >= 12*inch {
			return strconv.FormatFloat(math.Round(height/(12*inch)), 'f', -1, 64) + " ft"
		}
		return feetAndInches(math.Round(height / inch))
	}
	if step < 0.1 {
		return strconv.FormatFloat(math.Round(height*100), 'f', -1, 64) + " cm"
	}
	places := 0
	if step < 1 && height > 0 {
		places = 1
	}
	return strconv.FormatFloat(height, 'f', places, 64) + " m"
}

// feetAndInches is a whole number of inches as 3 in, 1 ft or 1 ft 6 in.
func feetAndInches(inches float64) string {
	feet, rest := math.Floor(inches/12), math.Mod(inches, 12)
	whole := func(v float64) string { return strconv.FormatFloat(v, 'f', 0, 64) }
	switch {
	case feet == 0:
		return whole(rest) + " in"
	case rest == 0:
		return whole(feet) + " ft"
	default:
		return whole(feet) + " ft " + whole(rest) + " in"
	}
}
