package estimate

import (
	"meltwright/internal/field"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

// Rule is a commission read for scaling: its heights, and its budget.
type Rule struct {
	Height    quantity.Length // of the first piece, as it is to be made
	Life      quantity.Length // the height it was measured at: life size, for a figure
	Figure    bool            // the first piece is a human figure
	Budget    money.Amount    // 0 where there is none
	BeforeTax bool            // the budget is before tax
	heights   []quantity.Length
	along     []bool
}

// RuleOf reads what scaling a commission needs to know. Faults are the
// estimate's to tell.
func RuleOf(c Commission, s *shop.Shop) Rule {
	r := read(c, s)
	r.bare = true
	rule := Rule{BeforeTax: r.whole.word(budgetIsField) == "before tax", Budget: r.currency.Of(r.whole.value(budgetField).Dec)}
	for i, p := range r.pieces {
		ref := p.in.num(measuredField)
		if p.in.word(wayField) == wayFigure {
			ref = p.in.num(bodyHeightField)
		}
		h := ref
		if p.in.has(heightField) {
			h = p.in.num(heightField)
		}
		rule.heights = append(rule.heights, quantity.Length(h))
		rule.along = append(rule.along, i == 0 || p.in.word(alongField) == alongField.Choices[0])
		if i == 0 {
			rule.Height, rule.Life, rule.Figure = quantity.Length(h), quantity.Length(ref), p.in.word(wayField) == wayFigure
		}
	}
	return rule
}

// At gives the commission with its first piece at height h, and every piece that
// scales along in proportion.
func (rule Rule) At(c Commission, h quantity.Length) Commission {
	d := c.Clone()
	for i := range d.Pieces {
		if !rule.along[i] || rule.Height == 0 {
			continue
		}
		if d.Pieces[i].Inputs == nil {
			d.Pieces[i].Inputs = map[string]string{}
		}
		d.Pieces[i].Inputs[heightField.Path()] = metres(rule.heights[i] * h / rule.Height)
	}
	return d
}

// metres prints a length so that reading it gives the same to a micrometre.
func metres(l quantity.Length) string {
	return money.Round(float64(l), 6).String() + " m"
}

// Apply gives the commission as an option has it.
func (o Option) Apply(c Commission, s *shop.Shop) (Commission, error) {
	d := c.Clone()
	for path, text := range o.Inputs {
		d = d.With(Whole, path, text)
	}
	for i, in := range o.Pieces {
		for path, text := range in {
			if i < len(d.Pieces) {
				d = d.With(i, path, text)
			}
		}
	}
	d.Options = nil
	if o.Height == "" || len(d.Pieces) == 0 {
		return d, nil
	}
	sys := s.System
	if c.Units != "" {
		sys, _ = quantity.ParseSystem(c.Units)
	}
	v, err := heightField.Read(o.Height, field.Context{System: sys})
	if err != nil {
		return d, err
	}
	return RuleOf(d, s).At(d, quantity.Length(v.Num)), nil
}
