package ui

import (
	"fmt"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/ui/kit"
)

// priceShown is the price with what the work comes to: of what is typed, or,
// where that has faults, of the last that had none.
func (q *quoteScreen) priceShown() kit.Price {
	e, good := q.sheet.Estimate()
	p := kit.Price{Caption: "Price before tax", Amount: "—"}
	if !good {
		p.Stale = q.staleWhy(e != nil)
	}
	if e == nil {
		return p
	}
	p.Amount = headline(e)
	p.Range = q.priceRange(e)
	p.Facts = facts(e)
	p.Cautions = q.cautions(e)
	return p
}

// staleWhy says what is wrong and what the price shown is.
func (q *quoteScreen) staleWhy(earlier bool) string {
	faults := q.sheet.Faults()
	if len(faults) == 0 {
		return ""
	}
	s := capital(faults[0].Error()) + "."
	if n := len(faults) - 1; n > 0 {
		s += fmt.Sprintf(" And %d more, marked at the left.", n)
	}
	if earlier {
		return s + " This is the last good price."
	}
	return s
}

// headline is the price, without decimals where it has none.
func headline(e *estimate.Estimate) string {
	c := e.Currency
	if c.Decimal(e.Price).IsInteger() {
		return c.Whole(e.Price, locale)
	}
	return c.Print(e.Price, locale)
}

// facts are what the foundry and the client ask first.
func facts(e *estimate.Estimate) []kit.Fact {
	finished, poured := 0.0, 0.0
	for _, p := range e.Pieces {
		finished += float64(p.Finished) * float64(p.Casts)
		poured += float64(p.Poured) * float64(p.Casts)
	}
	mass := func(kg float64) string { return quantity.Print(quantity.KindMass, kg, e.System) }
	out := []kit.Fact{
		{Label: "Finished bronze", Value: mass(finished)},
		{Label: "Metal poured", Value: mass(poured)},
		{Label: "Sections", Value: quantity.Number(float64(e.Sections), 0)},
		{Label: "To be cast again", Value: recasts(e)},
		{Label: "Heats · pour days", Value: fmt.Sprintf("%d · %d", len(e.Heats), e.PourDays)},
		{Label: "Foundry hours", Value: quantity.Number(float64(e.Foundry), 0) + " h"},
		{Label: "Wax to metal", Value: weeks(e.WaxToMetal)},
		{Label: "Heaviest lift", Value: mass(e.Lift.Kg)},
	}
	if len(e.Taxes) > 0 {
		out = append(out, kit.Fact{Label: "With tax", Value: e.Currency.Print(e.Total, locale)})
	}
	if n := casts(e); n > len(e.Pieces) {
		out = append(out, kit.Fact{Label: "A cast, on average", Value: perCast(e, n)})
	}
	return out
}

// recasts says how many castings are expected to fail, and what they cost in all
// their stages; the chance of at least one stands in a caution.
func recasts(e *estimate.Estimate) string {
	if e.Recasts == 0 {
		return "none expected"
	}
	cost := money.Amount(0)
	for _, l := range e.Lines {
		if l.Class == estimate.Recast {
			cost += l.Amount
		}
	}
	return quantity.Number(e.Recasts, 1) + " · " + whole(e.Currency, cost)
}

func weeks(w float64) string {
	s := quantity.Number(w, 1)
	if s == "1" {
		return "1 week"
	}
	return s + " weeks"
}

func casts(e *estimate.Estimate) (n int) {
	for _, p := range e.Pieces {
		n += p.Casts
	}
	return n
}

// perCast is the price shared among all casts.
func perCast(e *estimate.Estimate, n int) string {
	each := e.Currency.Decimal(e.Price).DivRound(money.Round(float64(n), 0), e.Currency.Digits)
	return e.Currency.Print(e.Currency.Of(each), locale)
}

// cautions are those of the chosen stage, then those that are for the whole
// work: what may have to be cast again, what is cast solid, what is to be lifted.
func (q *quoteScreen) cautions(e *estimate.Estimate) []kit.Caution {
	var here, everywhere []kit.Caution
	for _, c := range e.Cautions {
		switch {
		case c.Stage == q.stage:
			here = append(here, cautionBox(c))
		case c.Stage == "delivery" || c.Level == estimate.Note && c.Source == "" && (c.Stage == "pour" || c.Stage == "form"):
			everywhere = append(everywhere, cautionBox(c))
		}
	}
	return append(append(here, everywhere...), kit.Caution{Text: "Follow local codes; licensed people decide."})
}

func cautionBox(c estimate.Caution) kit.Caution {
	box := kit.Caution{Text: c.Text}
	if c.Source != "" {
		box.Text += " (" + c.Source + ")"
	}
	if c.Level != estimate.Note {
		box.Kind = kit.CautionWarn
	}
	return box
}
