package proposal

import (
	"math"
	"slices"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/quote"
	"meltwright/internal/shop"
)

// order is what is ordered of one supplier.
type order struct {
	supplier string // empty where the shop book names none
	wants    []want
	cost     money.Amount
}

// want is one material of an order.
type want struct {
	name    string
	need    money.Decimal // of unit, summed over pieces
	places  int32
	unit    string
	stages  []string // what it is for, by the stages' names
	pack    shop.Pack
	packed  bool // it is sold in packs
	packs   int
	ordered money.Decimal // what the packs hold, in the pack's own unit
	each    money.Amount  // a pack, in the commission's currency
	cost    money.Amount
}

// ordersOf lists the material of an estimate by supplier: those that the shop
// book names, in the order of the work, and last what has none.
func ordersOf(p quote.Paper) (orders []order) {
	for _, w := range wantsOf(p) {
		at := slices.IndexFunc(orders, func(o order) bool { return o.supplier == w.pack.Supplier })
		if at < 0 {
			at = len(orders)
			orders = append(orders, order{supplier: w.pack.Supplier})
		}
		orders[at].wants = append(orders[at].wants, w)
		orders[at].cost += w.cost
	}
	slices.SortStableFunc(orders, func(a, b order) int { return rank(a) - rank(b) })
	return orders
}

func rank(o order) int {
	if o.supplier == "" {
		return 1
	}
	return 0
}

// wantsOf sums the material lines by what they are ordered as, and puts each
// into whole packs.
func wantsOf(p quote.Paper) (wants []want) {
	var rates []money.Decimal // of each want's first line
	for _, l := range p.Estimate.Lines {
		if l.Class != estimate.Material {
			continue
		}
		w, at := wanted(p.Shop, l), 0
		if at = slices.IndexFunc(wants, w.sameAs); at < 0 {
			at = len(wants)
			wants, rates = append(wants, w), append(rates, l.Rate)
		} else {
			wants[at].need = wants[at].need.Add(l.Quantity)
			wants[at].cost += l.Amount
		}
		if st, ok := estimate.StageByID(l.Stage); ok && !slices.Contains(wants[at].stages, st.Name) {
			wants[at].stages = append(wants[at].stages, st.Name)
		}
	}
	for i := range wants {
		if wants[i].packed {
			wants[i].fill(p, rates[i])
		}
	}
	return wants
}

// sameAs is true for what goes into one line of an order.
func (w want) sameAs(v want) bool {
	return w.name == v.name && w.unit == v.unit && w.pack.Supplier == v.pack.Supplier
}

// wanted is a line of the estimate as a want of its own.
func wanted(s *shop.Shop, l estimate.Line) want {
	w := want{name: l.Item, need: l.Quantity, places: l.Places, unit: l.Unit, cost: l.Amount}
	pack, ok := s.PackOf(l.Item)
	if !ok {
		return w
	}
	if pack.Product != "" {
		w.name = pack.Product
	}
	w.pack = pack
	_, w.packed = perPack(pack, l.Unit)
	return w
}

// perPack is how many of a line's unit a pack holds; false where the two are of
// different sorts, such as a pack in kilograms of what is counted.
func perPack(p shop.Pack, unit string) (float64, bool) {
	holds := p.Holds.InexactFloat64()
	if u, ok := quantity.ParseUnit(unit); ok && unit != "" {
		return holds * p.Unit.Size / u.Size, u.SameSort(p.Unit)
	}
	return holds, p.Unit.Symbol == "" // things
}

// fill rounds a want up to whole packs and prices them: by the pack, or where
// the shop book has no price of it by the rate of the line.
func (w *want) fill(p quote.Paper, rate money.Decimal) {
	holds, _ := perPack(w.pack, w.unit)
	const hair = 1e-9 // so that 40 kg from packs of 20 kg are two packs, however they were converted
	w.packs = int(math.Ceil(w.need.InexactFloat64()/holds - hair))
	w.ordered = w.pack.Holds.Mul(money.Round(float64(w.packs), 0))
	c := p.Estimate.Currency
	w.each = c.Times(money.Round(holds, 9), rate)
	if w.pack.Price.Dec.Sign() > 0 {
		w.each = c.Times(exchangeOf(p), w.pack.Price.Dec)
	}
	w.cost = c.Times(money.Round(float64(w.packs), 0), c.Decimal(w.each))
}

// exchangeOf is how much of the commission's money one of the shop's is.
func exchangeOf(p quote.Paper) money.Decimal {
	if p.Shop.Currency.Code == p.Estimate.Currency.Code {
		return money.Round(1, 0)
	}
	return money.Round(exactInput(p, estimate.Whole, "price.exchange").Num, 9)
}
