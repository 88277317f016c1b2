package estimate_test

import (
	"math/big"
	"sort"
)

// plainTerms are the price's terms; shares are decimal text: "0.22".
type plainTerms struct {
	overhead, contingency, profit string
	onLabour, markup              bool
	feeSum, feeOfCost, feeOfPrice string
	shares                        []string // of the price: insurance, bond, agent, gallery
	step                          int64    // in cents
	taxes                         []string
	payments                      []string
}

func startingPlainTerms() plainTerms {
	return plainTerms{
		overhead: "0.22", contingency: "0.08", profit: "0.15", feeSum: "0", feeOfCost: "0", feeOfPrice: "0",
		shares: []string{"0.015"}, step: 1000, payments: []string{"30", "30", "30", "10"},
	}
}

// plainPrice is what the commission comes to, in cents.
type plainPrice struct {
	direct, overhead, contingency, fee, profit int64
	shares                                     []int64
	rounding, price                            int64
	taxes                                      []int64
	total                                      int64
	payments                                   []int64
}

// part is a share of an amount, in cents.
func part(of int64, share string) int64 {
	return cents(new(big.Rat).Mul(big.NewRat(of, 100), exactly(share)))
}

// over is an amount that still is cost when share of it is gone, in hundredths.
func over(cost int64, share *big.Rat) *big.Rat {
	return new(big.Rat).Quo(big.NewRat(cost, 100), new(big.Rat).Sub(big.NewRat(1, 1), share))
}

func (m plainTerms) price(t *plainSheet) plainPrice {
	p := plainPrice{}
	base := int64(0)
	for _, l := range t.lines {
		p.direct += l.cents
		if l.labour || !m.onLabour {
			base += l.cents
		}
	}
	p.overhead = part(base, m.overhead)
	cost := p.direct + p.overhead
	p.contingency = part(cost, m.contingency)
	cost += p.contingency
	p.fee = cents(exactly(m.feeSum)) + part(cost, m.feeOfCost)
	cost += p.fee
	if m.markup {
		p.profit = part(cost, m.profit)
	} else {
		p.profit = cents(over(cost, exactly(m.profit))) - cost
	}
	cost += p.profit
	all := append([]string{m.feeOfPrice}, m.shares...)
	gone := new(big.Rat)
	for _, s := range all {
		gone.Add(gone, exactly(s))
	}
	steps := toHalfUp(new(big.Rat).Quo(over(cost, gone), big.NewRat(m.step, 100)), 0)
	p.price = steps.Num().Int64() * m.step
	p.rounding = p.price - cost
	for _, s := range all {
		p.shares = append(p.shares, part(p.price, s))
		p.rounding -= part(p.price, s)
	}
	p.total = p.price
	for _, s := range m.taxes {
		p.taxes = append(p.taxes, part(p.price, s))
		p.total += part(p.price, s)
	}
	p.payments = byLargestRemainder(p.total, m.payments)
	return p
}

// byLargestRemainder splits cents by parts of a hundred.
func byLargestRemainder(total int64, hundredths []string) []int64 {
	type rest struct {
		at   int
		left *big.Rat
	}
	out, rests, given := make([]int64, len(hundredths)), []rest{}, int64(0)
	for i, h := range hundredths {
		whole := new(big.Rat).Mul(big.NewRat(total, 100), exactly(h))
		out[i] = new(big.Int).Quo(whole.Num(), whole.Denom()).Int64()
		given += out[i]
		rests = append(rests, rest{i, whole.Sub(whole, big.NewRat(out[i], 1))})
	}
	sort.SliceStable(rests, func(a, b int) bool { return rests[a].left.Cmp(rests[b].left) > 0 })
	for i := int64(0); i < total-given; i++ {
		out[rests[i].at]++
	}
	return out
}
