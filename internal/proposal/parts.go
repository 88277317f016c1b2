package proposal

import (
	"slices"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
)

// part is a part of the work as a client sees it: one stage, or several.
type part struct {
	key    string // of its words: "casting"
	stages []string
}

// clientParts are the parts of a proposal's price, in the order of the work.
var clientParts = []part{
	{"original", []string{"original"}},
	{"mould", []string{"mould"}},
	{"casting", []string{"wax", "gating", "shell", "pour"}},
	{"metalwork", []string{"metalwork"}},
	{"patina", []string{"patina"}},
	{"base", []string{"base"}},
	{"delivery", []string{"delivery"}},
}

// feeLine is the price line that a client sees as a part of its own.
const feeLine = "Artist's fee"

// partPrice is what a client pays for a part.
type partPrice struct {
	key      string
	amount   money.Amount
	byOthers bool // somebody else does it, and is paid for it
}

// wholeWork is the key of the one part of a price that no stage has a cost in.
const wholeWork = "whole"

// priceByPart spreads the price over the parts, so that they add to it exactly:
// overhead, contingency, margin, shares of the price and rounding go with the
// direct cost of each, and the artist's fee stands by itself. Parts that cost
// nothing are left out unless they are by others.
func priceByPart(e *estimate.Estimate, parts []part) []partPrice {
	fee := money.Amount(0)
	for _, l := range e.PriceLines {
		if l.Name == feeLine {
			fee += l.Amount
		}
	}
	rest := e.Price - fee
	var out []partPrice
	var weights []money.Decimal
	for _, p := range parts {
		direct, byOthers := partCost(e, p)
		if direct != 0 || byOthers {
			out = append(out, partPrice{key: p.key, byOthers: byOthers && direct == 0})
			weights = append(weights, e.Currency.Decimal(direct))
		}
	}
	amounts := money.Split(rest, weights)
	for i := range amounts {
		out[i].amount = amounts[i]
	}
	if amounts == nil && rest != 0 {
		out = append(out, partPrice{key: wholeWork, amount: rest})
	}
	if fee != 0 {
		out = append(out, partPrice{key: "fee", amount: fee})
	}
	return out
}

// partCost is the direct cost of a part, and whether all of it is by others.
func partCost(e *estimate.Estimate, p part) (direct money.Amount, byOthers bool) {
	byOthers = true
	for _, s := range e.Stages {
		if slices.Contains(p.stages, s.ID) {
			direct += s.Amount
			byOthers = byOthers && s.ByOthers
		}
	}
	return direct, byOthers
}
