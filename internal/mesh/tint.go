package mesh

// ramps are the colours of each tint from dark to light, in 256 steps. Those of
// the sections differ in lightness too, not in hue alone.
var ramps = [int(firstSection) + sectionTints][256][3]uint8{
	shades([3]float64{38, 22, 12}, [3]float64{158, 96, 40}, [3]float64{250, 224, 178}),
	shades([3]float64{52, 16, 12}, [3]float64{178, 62, 44}, [3]float64{252, 206, 190}),
	shades([3]float64{40, 40, 40}, [3]float64{128, 126, 120}, [3]float64{228, 226, 220}),
	shades([3]float64{44, 26, 14}, [3]float64{178, 112, 52}, [3]float64{252, 230, 190}),
	shades([3]float64{14, 32, 28}, [3]float64{62, 124, 111}, [3]float64{204, 236, 226}),
	shades([3]float64{60, 54, 40}, [3]float64{206, 190, 150}, [3]float64{255, 250, 232}),
	shades([3]float64{34, 18, 22}, [3]float64{122, 66, 78}, [3]float64{236, 204, 210}),
	shades([3]float64{26, 32, 42}, [3]float64{96, 116, 144}, [3]float64{220, 230, 242}),
	shades([3]float64{34, 34, 16}, [3]float64{120, 122, 58}, [3]float64{234, 234, 196}),
}

func shades(dark, middle, light [3]float64) (out [256][3]uint8) {
	for i := range out {
		f := float64(i) / 255
		for k := range 3 {
			if f < 0.55 {
				out[i][k] = uint8(dark[k] + (middle[k]-dark[k])*f/0.55)
			} else {
				out[i][k] = uint8(middle[k] + (light[k]-middle[k])*(f-0.55)/0.45)
			}
		}
	}
	return out
}

// Tints colours every triangle of the plan's Form by its section; sections that
// are welded together differ.
func (p *Plan) Tints() []Tint {
	tints := make([]Tint, len(p.Faces))
	for i, s := range p.Faces {
		tints[i] = firstSection + Tint(int(p.colours[s])%sectionTints)
	}
	return tints
}

// colour gives each section the first colour that none beside it has, and the
// less used of those.
func (p *Plan) colour(meets [][2]uint32) {
	beside := make([][]uint32, len(p.Sections))
	for _, m := range meets {
		beside[m[0]] = append(beside[m[0]], m[1])
		beside[m[1]] = append(beside[m[1]], m[0])
	}
	p.colours = make([]uint8, len(p.Sections))
	var used [sectionTints]int
	for i := range p.Sections {
		var taken [sectionTints]bool
		for _, j := range beside[i] {
			if int(j) < i {
				taken[p.colours[j]] = true
			}
		}
		best := -1
		for c := range sectionTints {
			if !taken[c] && (best < 0 || used[c] < used[best]) {
				best = c
			}
		}
		best = max(best, 0) // more than six around one: two will look alike
		p.colours[i] = uint8(best)
		used[best]++
	}
}
