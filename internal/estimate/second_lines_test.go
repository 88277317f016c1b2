package estimate_test

import (
	"math"
	"math/big"
	"strconv"
)

// plainLine is a line of the second reckoning. Money is counted in hundredths.
type plainLine struct {
	stage    string
	piece    int // −1 for the whole commission
	item     string
	quantity *big.Rat
	cents    int64
	labour   bool
}

// plainSheet is every line of a commission.
type plainSheet struct {
	plainShop
	lines []plainLine
	heats int
	pours float64 // days
}

// pounds are the inch-pound units that lines are printed in: what of the metric
// unit makes one.
var pounds = map[string]string{"kg": "0.45359237", "m": "0.3048", "m²": "0.09290304", "m³": "0.028316846592", "km": "1.609344"}

// exactly reads decimal text.
func exactly(text string) *big.Rat {
	r, ok := new(big.Rat).SetString(text)
	if !ok {
		panic(text)
	}
	return r
}

// toHalfUp rounds r to places decimals, halves away from zero; r is not below 0.
func toHalfUp(r *big.Rat, places int) *big.Rat {
	ten := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil)
	up := new(big.Int).Add(new(big.Int).Mul(new(big.Int).Mul(r.Num(), ten), big.NewInt(2)), r.Denom())
	return new(big.Rat).SetFrac(new(big.Int).Quo(up, new(big.Int).Mul(r.Denom(), big.NewInt(2))), ten)
}

// cents rounds money to hundredths.
func cents(r *big.Rat) int64 {
	return toHalfUp(new(big.Rat).Mul(r, big.NewRat(100, 1)), 0).Num().Int64()
}

// printed is what a sheet shows of v: nine decimals keep the last bits of a
// float64 from making less than a half of a half.
func printed(v float64, places int) *big.Rat {
	return toHalfUp(exactly(strconv.FormatFloat(v, 'f', 9, 64)), places)
}

// places are the decimals that a quantity is printed with.
func places(unit string) int {
	switch unit {
	case "m³":
		return 3
	case "kWh", "km":
		return 1
	}
	return 2
}

// rate is a price of the shop book in the sheet's money, for the sheet's unit.
func (t *plainSheet) rate(unit, price string) *big.Rat {
	r := exactly(price)
	if t.inchPound && pounds[unit] != "" {
		r = toHalfUp(r.Mul(r, exactly(pounds[unit])), 4)
	}
	if t.exchange != "1" {
		r = toHalfUp(r.Mul(r, exactly(t.exchange)), 4)
	}
	return r
}

// add writes a line at a price of the shop book.
func (t *plainSheet) add(stage string, piece int, item string, v float64, unit, price string) int64 {
	return t.addAt(stage, piece, item, v, unit, t.rate(unit, price))
}

// addAt writes a line at a rate in the sheet's own money.
func (t *plainSheet) addAt(stage string, piece int, item string, v float64, unit string, rate *big.Rat) int64 {
	if !(v > 0) {
		return 0
	}
	if t.inchPound && pounds[unit] != "" {
		per, _ := exactly(pounds[unit]).Float64()
		v /= per
	}
	q := printed(v, places(unit))
	l := plainLine{stage, piece, item, q, cents(new(big.Rat).Mul(q, rate)), unit == "h"}
	t.lines = append(t.lines, l)
	return l.cents
}

// stageOf is what a stage's lines of a piece come to.
func (t *plainSheet) stageOf(stage string, piece int) (sum int64) {
	for _, l := range t.lines {
		if l.stage == stage && l.piece == piece {
			sum += l.cents
		}
	}
	return sum
}

// again adds what failed castings cost in a stage that they go through again.
func (t *plainSheet) again(stage string, i int, w weighed) {
	each := toHalfUp(big.NewRat(t.stageOf(stage, i), int64(100*w.n*w.casts)), 2)
	t.addAt(stage, i, "Expected recasts", w.failures, "section", each)
}

// sheet writes every line of the commission, in the order of the work.
func (s plainShop) sheet(pieces []weighed) *plainSheet {
	t := &plainSheet{plainShop: s}
	for i, w := range pieces {
		if w.start < 1 {
			t.original(i, w)
		}
		if w.start < 2 {
			t.mould(i, w)
		}
		if w.start < 3 {
			t.wax(i, w)
		}
		t.gates(i, w)
		t.shell(i, w)
		t.metalwork(i, w)
		t.patina(i, w)
		t.base(i, w)
	}
	t.pour(pieces)
	t.stamp(pieces)
	t.delivery(pieces)
	return t
}

// runs is what labour of the run is multiplied by.
func (w weighed) runs() float64 { return w.difficulty * w.casts * w.repeat }

func (t *plainSheet) original(i int, w weighed) {
	if w.milled {
		t.add("original", i, "Finishing the original", 20*w.claySkin*w.difficulty, "h", "72")
		t.add("original", i, "Milled foam original", w.claySkin, "m²", "980")
		return
	}
	t.add("original", i, "Sculpting in clay", 150*w.claySkin*w.difficulty, "h", "72")
	t.add("original", i, "Armature, clay and supports", w.claySkin, "m²", "320")
}

func (t *plainSheet) mould(i int, w weighed) {
	t.add("mould", i, "Mould making", 25*w.claySkin*w.difficulty, "h", "54")
	spread := w.claySkin*w.undercuts + 0.8*w.clayHigh*3*0.0254
	t.add("mould", i, "Rubber", spread*(0.375*25.4)*w.rubberDensity*1.08, "kg", w.rubber)
	glass := w.claySkin * (w.layers + 0.25*5) * 0.450 * 1.10
	t.add("mould", i, "Glass mat", glass, "kg", "6.90")
	t.add("mould", i, "Resin", 2.5*glass, "kg", "7.40")
	t.add("mould", i, "Catalyst", 0.015*2.5*glass, "kg", "24")
	t.add("mould", i, "Release, shims, bolts, brushes", w.claySkin, "m²", "45")
}

func (t *plainSheet) wax(i int, w weighed) {
	t.add("wax", i, "Brushing and slushing", 8*w.skin*w.runs(), "h", "52")
	t.add("wax", i, "Pulling and chasing", 15*w.skin*w.runs(), "h", "52")
	t.add("wax", i, "Wax lost after reclaim", w.litres*0.94*0.12*w.casts, "kg", "11.50")
	t.again("wax", i, w)
}

func (t *plainSheet) gates(i int, w weighed) {
	t.add("gating", i, "Gating the sections", (2*w.n+3*w.skin)*w.runs(), "h", "52")
	t.add("gating", i, "Gating wax lost after reclaim", w.litres*0.94*t.gating*0.12*w.casts, "kg", "11.50")
	t.add("gating", i, "Cups, vents and pins", w.n*w.casts, "section", "6.50")
	t.again("gating", i, w)
}

func (t *plainSheet) shell(i int, w weighed) {
	t.add("shell", i, "Dipping and sanding", (0.15*w.dipped+0.08*w.n)*w.coats*w.runs(), "h", "48")
	slurry := w.dipped * w.coats * 0.9 * 1.15 * w.casts
	t.add("shell", i, "Binder, colloidal silica", slurry/2.6, "kg", "4.60")
	t.add("shell", i, "Flour, fused silica", slurry*1.6/2.6, "kg", "2.90")
	coat := w.dipped * 1.2 * 1.05 * w.casts
	t.add("shell", i, "Stucco, fine", 2*coat, "kg", "3.10")
	t.add("shell", i, "Stucco, medium", 2*coat, "kg", "2.35")
	t.add("shell", i, "Stucco, coarse", w.coarse*coat, "kg", "2.20")
	t.again("shell", i, w)
}

func (t *plainSheet) pour(pieces []weighed) {
	sections, charged, failures, lost := 0.0, 0.0, 0.0, new(big.Rat)
	weights, counts := map[string][]float64{}, map[string][]int{}
	for i, w := range pieces {
		t.add("pour", i, "Bronze used up, "+w.alloy.name, (w.finished+w.lost)*w.casts, "kg", w.alloy.price)
		sections += w.n * w.casts
		charged += w.charged * w.casts
		failures += w.failures
		lost.Add(lost, t.worth(w.lost*w.casts, w.alloy.price))
		weights[w.alloy.name] = append(weights[w.alloy.name], w.poured/w.n)
		counts[w.alloy.name] = append(counts[w.alloy.name], int(w.n*w.casts))
	}
	for alloy := range weights {
		t.heats += len(loads(weights[alloy], counts[alloy], t.usable))
	}
	var sectionKg []float64 // as charged
	for _, w := range pieces {
		for range int(w.n * w.casts) {
			sectionKg = append(sectionKg, w.poured/w.n/(1-t.loss))
		}
	}
	kiln := math.Ceil(sections / 4)
	t.pours = daysOf(sectionKg, t.weekly)
	work := t.add("pour", -1, "Burn-out", 1.5*kiln, "h", "58")
	work += t.add("pour", -1, "Melting and pouring", 3*(4*t.pours+0.5*float64(t.heats)), "h", "58")
	work += t.add("pour", -1, "Fuel, burn-out", 260*kiln, "kWh", "0.055")
	degrees := (1950-32)/1.8 - 20
	work += t.add("pour", -1, "Fuel, melting", charged*(0.37*degrees+190)/(3600*0.13), "kWh", "0.055")
	work += t.add("pour", -1, "Flux, deoxidiser, crucible wear", float64(t.heats), "heat", "18")
	each := new(big.Rat).Add(big.NewRat(work, 100), lost)
	each.Quo(each, new(big.Rat).SetFloat64(sections))
	t.addAt("pour", -1, "Expected recasts", failures, "section", toHalfUp(each, 2))
}

// worth is what kilograms of metal cost, unrounded.
func (t *plainSheet) worth(kg float64, price string) *big.Rat {
	each := t.rate("kg", price)
	if t.inchPound {
		each.Quo(each, exactly(pounds["kg"]))
	}
	return each.Mul(each, new(big.Rat).SetFloat64(kg))
}

func (t *plainSheet) metalwork(i int, w weighed) {
	t.add("metalwork", i, "Knock-off and blast", (0.6*w.n+1.5*w.skin)*w.runs(), "h", "60")
	t.add("metalwork", i, "Cutting gates and fitting", 1.5*w.n*w.runs(), "h", "60")
	t.add("metalwork", i, "Welding", 1.6*w.seam*w.runs(), "h", "60")
	t.add("metalwork", i, "Chasing", (20*w.skin+3*w.seam)*w.runs(), "h", "60")
	t.add("metalwork", i, "Welding rod", w.seam*w.wall*w.wall*w.alloy.density*1.2/1000*w.casts, "kg", "42")
	t.add("metalwork", i, "Argon and tungsten", w.seam*w.casts, "m", "7.50")
	t.add("metalwork", i, "Discs, burrs and blast media", w.skin*w.casts, "m²", "48")
}

func (t *plainSheet) patina(i int, w weighed) {
	if w.patinaByOthers {
		return
	}
	t.add("patina", i, "Colouring and waxing", (4+6*w.skin)*(1+0.3*(w.colours-1))*w.runs(), "h", "64")
	t.add("patina", i, "Patina chemicals", w.skin*w.colours*w.casts, "m²", "28")
	t.add("patina", i, "Finishing wax", w.skin*w.casts, "m²", "9")
}

func (t *plainSheet) base(i int, w weighed) {
	if w.baseByOthers {
		return
	}
	plinth := w.stone.room > 0
	if plinth {
		t.add("base", i, w.stone.name+" plinth", w.stoneKg*w.casts, "kg", w.stone.price)
		t.add("base", i, "Sawing and finishing the plinth", w.stone.faces*w.casts, "m²", "310")
		t.add("base", i, "Mounting on the plinth", 4*w.runs(), "h", "58")
	}
	t.add("base", i, "Inner frame, stainless steel", w.steel*w.casts, "kg", "11")
	t.add("base", i, "Making and fitting the frame", 0.6*w.steel*w.runs(), "h", "58")
	if plinth || w.steel > 0 {
		t.add("base", i, "Anchors", 4*w.casts, "anchor", "38")
		t.add("base", i, "Drilling and setting anchors", 4*w.runs(), "h", "58")
	}
	if w.footing {
		pad := (w.stone.width + 16*0.0254) * (w.stone.depth + 16*0.0254) * 1.2
		t.add("base", i, "Footing, dug, formed and poured", pad*w.casts, "m³", "950")
	}
}

// stamp is the engineer's, where a piece of ours stands a metre and a half.
func (t *plainSheet) stamp(pieces []weighed) {
	for _, w := range pieces {
		if w.high >= 1.5 && !w.baseByOthers {
			t.add("base", -1, "Engineer's design and stamp", 1, "stamp", "2400")
			return
		}
	}
}

func (t *plainSheet) delivery(pieces []weighed) {
	if !t.deliver {
		return
	}
	boxes, carried, heaviest := 0.0, 0.0, 0.0
	for _, w := range pieces {
		boxes += w.crate * w.casts
		carried += w.carrier * w.casts
		heaviest = max(heaviest, w.finished+w.steel, w.stoneKg)
	}
	t.add("delivery", -1, "Crates", boxes, "m²", "62")
	if t.km > 0 {
		t.add("delivery", -1, "Freight by weight", carried, "kg", "1.10")
		t.add("delivery", -1, "Freight by distance", t.km, "km", "2.40")
	}
	switch {
	case heaviest <= 4*23:
	case heaviest <= 150:
		t.add("delivery", -1, "Hoist", 1, "day", "380")
	case heaviest/1000*6 <= 8:
		t.add("delivery", -1, "Truck with loader crane", 1, "day", "1150")
	default:
		t.add("delivery", -1, "City crane", 1, "day", "2300")
	}
	t.add("delivery", -1, "Installation crew", 3*8*t.days, "h", "62")
	t.add("delivery", -1, "Travel of the crew", 2*t.trips*t.km, "km", "0.72")
	t.add("delivery", -1, "Lodging and meals", 3*t.nights, "night", "210")
	if t.permits != "0" {
		t.addAt("delivery", -1, "Permits", 1, "", exactly(t.permits))
	}
}
