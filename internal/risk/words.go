package risk

import (
	"fmt"

	"meltwright/internal/money"
	"meltwright/internal/quantity"
)

// Words says in a sentence that a client can read where the price comes to lie:
// "Eight in ten within $118,200 to $139,500."
func (r Range) Words(c money.Currency, locale string) string {
	return "Eight in ten within " + c.Whole(r.Price.P10, locale) + " to " + c.Whole(r.Price.P90, locale) + "."
}

// LossWords says how likely the work is to cost more than the quoted price leaves
// for it, and the contingency that would hold eight times in ten.
func (r Range) LossWords() string {
	return "At the quoted price, " + inHundred(r.LossChance) + " that the work costs more than it brings. A contingency of " +
		quantity.Number(r.ContingencyFor80*100, 0) + " % would be enough eight times in ten."
}

// RecastWords says what failed castings are to be expected, and what they cost:
// "43 in 100 that at least one of 11 castings is made again; 0.6 to be expected,
// for $1,240 of direct cost."
func (r Range) RecastWords(c money.Currency, locale string) string {
	if r.Recasts == 0 {
		return "No casting is expected to fail."
	}
	return fmt.Sprintf("%s that at least one of %d castings is made again; %s to be expected, for %s of direct cost.",
		inHundred(r.RecastChance), r.Castings, quantity.Number(r.Recasts, 1), c.Whole(r.RecastCost, locale))
}

// inHundred says a chance in hundredths: "43 in 100", "less than 1 in 100".
func inHundred(p float64) string {
	switch {
	case p > 0 && p < 0.005:
		return "less than 1 in 100"
	case p < 1 && p >= 0.995:
		return "more than 99 in 100"
	}
	return quantity.Number(p*100, 0) + " in 100"
}
