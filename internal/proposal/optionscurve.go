package proposal

import (
	"meltwright/internal/drawing"
	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/money"
	"meltwright/internal/options"
	"meltwright/internal/quantity"
)

// priceOver sets the price over the height, with its steps, the budget and the
// options on it; nothing where all options are of one height.
func (o *offer) priceOver(sizes []size, rule estimate.Rule, room float64) []strip {
	low, high := sizes[0].Height, sizes[0].Height
	for _, s := range sizes {
		low, high = min(low, s.Height), max(high, s.Height)
	}
	if high-low < 0.001 {
		return nil
	}
	over, err := options.Curve(o.paper.Quote.Commission, o.paper.Shop, low*0.85, high*1.08, 48)
	if err != nil && o.words.err == nil {
		o.words.err = fault.All(err)
	}
	strips := o.heading(o.label("options-curve"), 1)
	return append(strips, picture(o.language.spoken(o.sizesCurve(over, sizes, rule, room).Scene()), curveGap))
}

// sizesCurve is the drawing of prices over heights.
func (o *offer) sizesCurve(over options.PriceCurve, sizes []size, rule estimate.Rule, high float64) drawing.Curve {
	units := func(a money.Amount) float64 { return rule.Currency.Decimal(a).InexactFloat64() }
	c := drawing.Curve{Frame: drawing.Frame{Width: o.wide, Height: high, Text: 9.5}, Axis: o.label("options-axis"), Budget: units(rule.Budget)}
	if rule.System == quantity.InchPound {
		c.Units = drawing.FeetInches
	}
	if rule.Budget > 0 {
		c.BudgetLabel = o.words.say("options-limit", o.budgetFact(rule))
	}
	dearest := rule.Budget
	for _, p := range over.Points {
		c.Points = append(c.Points, drawing.At{Height: float64(p.Height), Price: units(p.Asked)})
		dearest = max(dearest, p.Asked)
	}
	for _, s := range sizes {
		a := s.Estimate.Total
		if rule.BeforeTax {
			a = s.Estimate.Price
		}
		name, _ := o.clean(drawing.Sans, s.name)
		c.Options = append(c.Options, drawing.OptionAt{At: drawing.At{Height: float64(s.Height), Price: units(a)}, Label: name, Recommended: s.Recommended})
		dearest = max(dearest, a)
	}
	for _, a := range options.Ticks(rule.Currency, dearest, 5) {
		c.Prices = append(c.Prices, drawing.Tick{Value: units(a), Label: rule.Currency.Whole(a, o.language.locale)})
	}
	return c
}
