package estimate_test

import (
	"cmp"
	"math"
	"slices"
)

// The second reckoning: the whole estimate once more, by plain arithmetic, from
// the trade's formulas and the starting values alone. It shares no code with the
// program. Heights are in metres, surfaces in square metres, walls in
// millimetres, densities in grams a cubic centimetre, weights in kilograms: a
// square metre of one millimetre is a litre, and a litre weighs its density.

// plainPiece is a piece written down as numbers.
type plainPiece struct {
	name             string
	reference, area  float64 // as measured
	room             float64 // litres displaced, 0 where nobody knows
	metal, inside    float64 // litres and m² at the made size, where the form gives them
	wide, deep       float64 // as measured, where the form gives them
	height           float64 // to make
	clay             bool    // that height is the clay's
	wall, thickening float64
	shrinkage        float64
	alloy            plainAlloy
	lugs             float64
	casts            float64
	repeat           float64 // hours of a cast in the run, of the first's
	difficulty       float64
	sections, weld   float64 // where somebody set them
	start            int     // 0 nothing, 1 their original, 2 their mould, 3 their wax
	milled           bool    // the original is milled from a file of theirs
	undercuts        float64
	rubber           string // price of a kilogram
	rubberDensity    float64
	layers, colours  float64
	patinaByOthers   bool
	baseByOthers     bool
	stone            plainStone
	footing          bool
}

type plainAlloy struct {
	name    string
	density float64
	price   string
}

// plainStone is a plinth: its solid content in m³ and its worked surface.
type plainStone struct {
	name, price          string
	density, room, faces float64
	width, depth         float64 // of its foot
}

// The metals of the trade's table, at their pound densities.
var (
	siliconBronze = plainAlloy{"C87300 silicon bronze 95-1-4", 0.302 * 27.679904710, "17.80"}
	redBrass      = plainAlloy{"C83600 leaded red brass 85-5-5-5", 0.318 * 27.679904710, "14.60"}
	gunmetal      = plainAlloy{"C90500 gunmetal 88-10-0-2", 0.315 * 27.679904710, "22.10"}
)

// standing is a piece with the trade's starting values.
func standing(name string, reference, area float64) plainPiece {
	return plainPiece{
		name: name, reference: reference, area: area, height: reference, wall: 3.0 / 16 * 25.4, thickening: 0.05,
		shrinkage: 0.035, alloy: siliconBronze, casts: 1, repeat: 1, difficulty: 1, undercuts: 1.15,
		rubber: "24.50", rubberDensity: 27.679904710 / 23.7, layers: 3, colours: 1,
	}
}

// bodySurface is the surface of a nude body (Du Bois & Du Bois, 1916).
func bodySurface(cm, kg float64) float64 {
	return 0.007184 * math.Exp(0.725*math.Log(cm)+0.425*math.Log(kg))
}

// weighed is what a piece comes to, one cast.
type weighed struct {
	plainPiece
	high, clayHigh, scale     float64
	skin, claySkin            float64
	litres, finished, poured  float64
	n, seam                   float64
	within, dipped            float64
	coarse, coats             float64
	charged, lost             float64
	steel                     float64
	stoneKg                   float64
	failures                  float64
	crate, crateRoom, carrier float64
	across, through           float64
}

// plainShop is what the whole commission has.
type plainShop struct {
	usable  float64 // kilograms a heat
	weekly  float64
	yield   float64
	loss    float64
	gating  float64
	days    float64 // on site
	km      float64
	trips   float64
	nights  float64
	permits string
	deliver bool
	// In inch-pound units, and in other money than the shop book's.
	inchPound bool
	exchange  string
}

func startingPlainShop() plainShop {
	return plainShop{
		usable: 90 * 0.45359237 * 0.9, weekly: 450 * 0.45359237, yield: 0.95, loss: 0.02, gating: 0.40,
		days: 1, trips: 1, permits: "0", deliver: true, exchange: "1",
	}
}

func (s plainShop) weigh(p plainPiece) weighed {
	w := weighed{plainPiece: p, high: p.height}
	if p.clay {
		w.high = p.height * (1 - p.shrinkage)
	}
	w.clayHigh = w.high / (1 - p.shrinkage)
	w.scale = w.high / p.reference
	w.skin = p.area * w.scale * w.scale
	w.claySkin = w.skin / ((1 - p.shrinkage) * (1 - p.shrinkage))
	w.litres = w.skin * p.wall
	if room := p.room * w.scale * w.scale * w.scale; p.room > 0 && w.litres > room {
		w.litres = room
	}
	w.within = 0.95 * w.skin
	if p.metal > 0 {
		w.litres, w.within = p.metal, p.inside
	}
	w.finished = p.alloy.density*w.litres*(1+p.thickening) + p.lugs
	w.poured = w.finished * (1 + s.gating)
	w.charged = w.poured / (1 - s.loss)
	w.lost = s.loss * w.charged
	w.n = math.Max(math.Ceil(w.poured/s.usable), math.Ceil(w.skin/0.35))
	if p.sections > 0 {
		w.n = p.sections
	}
	w.seam = 2 * math.Sqrt(w.skin) * (math.Sqrt(w.n) - 1)
	if p.weld > 0 {
		w.seam = p.weld
	}
	w.dipped = w.skin + w.within + 0.2*w.skin
	switch {
	case w.finished <= 10:
		w.coarse = 3
	case w.finished < 60:
		w.coarse = 5
	default:
		w.coarse = 7
	}
	w.coats = 2 + 2 + w.coarse + 1
	w.failures = w.n * p.casts * (1/s.yield - 1)
	if w.high >= 1.2 && !p.baseByOthers {
		w.steel = 0.12 * w.finished
	}
	if !p.baseByOthers {
		w.stoneKg = p.stone.room * p.stone.density
	}
	w.across, w.through = 0.45*w.high, 0.45*w.high
	if p.wide > 0 {
		w.across, w.through = p.wide*w.scale, p.deep*w.scale
	}
	a, b, tall := w.across+0.24, w.through+0.24, w.high+0.24
	w.crate = 2*a*b + 2*a*tall + 2*b*tall
	w.crateRoom = a * b * tall
	w.carrier = math.Max((w.finished+w.steel)*1.15, w.crateRoom*200) + w.stoneKg
	return w
}

// loads packs parts of the given weights into as few loads as there are: every
// way to fill a load with what is left, and the shortest row of loads that leaves
// nothing. It gives the weight of each.
func loads(weights []float64, counts []int, load float64) (filled []float64) {
	type left [3]int
	start := left{}
	copy(start[:], counts)
	now, from := map[left]bool{start: true}, map[left]left{start: start}
	for !now[left{}] {
		next := map[left]bool{}
		for state := range now {
			var fill func(at int, rest left, room float64)
			fill = func(at int, rest left, room float64) {
				if at == len(weights) {
					if _, seen := from[rest]; !seen {
						from[rest], next[rest] = state, true
					}
					return
				}
				for n := 0; n <= state[at] && float64(n)*weights[at] <= room*(1+1e-12); n++ {
					taken := rest
					taken[at] -= n
					fill(at+1, taken, room-float64(n)*weights[at])
				}
			}
			fill(0, state, load)
		}
		now = next
	}
	for at := (left{}); at != start; at = from[at] {
		kg := 0.0
		for i, w := range weights {
			kg += float64(from[at][i]-at[i]) * w
		}
		filled = append(filled, kg)
	}
	return filled
}

// daysOf puts sections, the largest first, each into the first day that has room.
func daysOf(loads []float64, most float64) float64 {
	slices.SortFunc(loads, func(a, b float64) int { return cmp.Compare(b, a) })
	var days []float64
	for _, kg := range loads {
		at := slices.IndexFunc(days, func(full float64) bool { return full+kg <= most*(1+1e-12) })
		if at < 0 {
			at = len(days)
			days = append(days, 0)
		}
		days[at] += kg
	}
	return float64(len(days))
}
