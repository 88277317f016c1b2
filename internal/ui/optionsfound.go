package ui

import (
	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/options"
	"meltwright/internal/quantity"
	"meltwright/internal/ui/kit"
)

// curvePoints is at how many heights the price is reckoned for the curve, steps
// between them not counted.
const curvePoints = 40

// seek looks for the largest height and for the curve, where the quote itself or
// the range of its options has changed.
func (o *optionsScreen) seek() {
	from, to := o.heights()
	if o.found.turn > 0 && o.weighing.SameQuote(o.found.of) && from >= o.found.from && to <= o.found.to {
		return
	}
	o.found.turn++
	o.found.of = o.weighing
	from, to = from*0.8, to*1.15
	turn, w := o.found.turn, o.weighing
	o.w.aside(func() func() {
		f := findFor(w, from, to)
		return func() {
			if turn == o.found.turn {
				f.turn, f.of = turn, o.found.of
				o.found = f
				o.paint()
			}
		}
	})
	o.found.from, o.found.to = from, to
}

// findFor looks for the largest height and the curve of a weighing.
func findFor(w desk.Weighing, from, to quantity.Length) optionsFound {
	f := optionsFound{from: from, to: to}
	// Their faults are told where they were typed.
	f.smallest, _ = w.Smallest()
	f.fit, _ = w.Largest()
	if f.fit.Height > 0 {
		to = max(to, f.fit.Height*1.05)
	}
	f.curve, _ = w.Curve(from, to, curvePoints)
	return f
}

// heights are the smallest and the tallest of the options.
func (o *optionsScreen) heights() (low, high quantity.Length) {
	for _, x := range o.list {
		if x.Height > 0 && (low == 0 || x.Height < low) {
			low = x.Height
		}
		high = max(high, x.Height)
	}
	if low == 0 {
		low, high = 1, 2
	}
	return low, high
}

// largestSays says what the budget holds, in a sentence or two.
func (o *optionsScreen) largestSays() (kit.Caution, bool) {
	f, rule := o.found.fit, o.weighing.Rule()
	if rule.Budget <= 0 || f.Smallest == 0 {
		return kit.Caution{}, false
	}
	height := func(h quantity.Length) string { return quantity.Print(quantity.KindLength, float64(h), rule.System) }
	if f.Height == 0 {
		return kit.Caution{Kind: kit.CautionWarn, Text: "No height fits. The smallest whose walls fit the form, " + height(f.Smallest) + ", takes " + rule.Currency.Print(f.Least, locale) + "."}, true
	}
	takes := rule.Currency.Print(f.Total, locale) + " with tax"
	if rule.BeforeTax || f.Total == f.Price {
		takes = rule.Currency.Print(f.Price, locale)
	}
	text := "Up to " + height(f.Height) + " fits: " + takes + ". " + o.whatComes(f, rule)
	return kit.Caution{Text: text + " No smaller than " + height(f.Smallest) + ", where the walls fill the form."}, true
}

// whatComes says what is in the way of the next millimetre.
func (o *optionsScreen) whatComes(f options.Fit, rule estimate.Rule) string {
	next := f.NextStep.Words(o.pieceNames(), rule.System)
	switch {
	case len(f.Stop) > 0:
		return "Taller it cannot be made: " + f.Stop[0].Error() + "."
	case next == "":
		return ""
	case f.Blocked():
		return "In the way: " + next + ", " + jumpText(rule, f.NextStep) + "."
	}
	return "There the budget ends. Next: " + next + "."
}

// jumpText is the jump of a step: "+2,310".
func jumpText(rule estimate.Rule, s options.Step) string {
	if s.Jump < 0 {
		return "−" + rule.Currency.Whole(-s.Jump, locale)
	}
	return "+" + rule.Currency.Whole(s.Jump, locale)
}

func (o *optionsScreen) pieceNames() []string {
	var names []string
	for _, p := range o.sheet.Latest().Pieces {
		names = append(names, p.Name)
	}
	return names
}
