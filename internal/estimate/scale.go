package estimate

import (
	"fmt"
	"slices"

	"meltwright/internal/fault"
	"meltwright/internal/field"
	"meltwright/internal/money"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

// Rule is a commission read for scaling: its heights, and its budget.
type Rule struct {
	Height    quantity.Length // of the first piece, as it is to be made
	Life      quantity.Length // the height it was measured at: life size, for what lives
	Living    bool            // the first piece is a human figure or an animal
	Budget    money.Amount    // 0 where there is none
	BeforeTax bool            // the budget is before tax
	System    quantity.System
	Currency  money.Currency
	heights   []quantity.Length
	along     []bool
}

// RuleOf reads what scaling a commission needs to know. Faults are the
// estimate's to tell.
func RuleOf(c Commission, s *shop.Shop) Rule {
	r := read(c, s)
	rule := Rule{
		BeforeTax: r.whole.word(budgetIsField) == budgetIsField.Choices[1], Budget: r.currency.Of(r.whole.value(budgetField).Dec),
		System: r.system, Currency: r.currency,
	}
	for i, p := range r.pieces {
		way := p.in.word(wayField)
		ref := p.in.num(measuredField)
		switch {
		case way == wayFigure:
			ref = p.in.num(bodyHeightField)
		case p.scanned():
			ref = p.scan.Height()
		}
		h := ref
		if p.in.has(heightField) {
			h = p.in.num(heightField)
		}
		rule.heights = append(rule.heights, quantity.Length(h))
		rule.along = append(rule.along, i == 0 || p.in.word(alongField) == alongField.Choices[0])
		if i == 0 {
			rule.Height, rule.Life, rule.Living = quantity.Length(h), quantity.Length(ref), way == wayFigure || way == wayAnimal
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

// Heights are the heights of all pieces as they are to be made, printed so that
// they read back to the micrometre.
func (rule Rule) Heights() []string {
	out := make([]string, len(rule.heights))
	for i, h := range rule.heights {
		out[i] = metres(h)
	}
	return out
}

// HeightPath is the path of the input that an option's height takes the place
// of.
func HeightPath() string { return heightField.Path() }

// ReadHeight reads a height as typed for an option. The error is a fault.Fault
// of the field.
func (rule Rule) ReadHeight(text string) (quantity.Length, error) {
	v, err := heightField.Read(text, field.Context{System: rule.System, Currency: rule.Currency})
	return quantity.Length(v.Num), err
}

// Apply gives the commission as an option has it: its inputs in the place of the
// commission's, an empty one in the place of none, then its height. The error is
// a fault.Fault where the height cannot be read, or where there are inputs for a
// piece that the commission has not; inputs that no stage knows are the
// estimate's to tell.
func (o Option) Apply(c Commission, s *shop.Shop) (Commission, error) {
	d, _, err := o.Scaled(c, s)
	return d, err
}

// Scaled is Apply, and gives the rule of what comes of it.
func (o Option) Scaled(c Commission, s *shop.Shop) (Commission, Rule, error) {
	d, err := o.applied(c)
	if err != nil {
		return d, Rule{}, err
	}
	return o.scaled(d, RuleOf(d, s))
}

// ScaledBy is Scaled where the rule of c is known already: an option that says
// nothing but its height goes by it, and nothing is read again.
func (o Option) ScaledBy(rule Rule, c Commission, s *shop.Shop) (Commission, Rule, error) {
	if len(o.Inputs) > 0 || slices.ContainsFunc(o.Pieces, func(in map[string]string) bool { return len(in) > 0 }) {
		return o.Scaled(c, s)
	}
	d := c.Clone()
	d.Options = nil
	return o.scaled(d, rule)
}

// applied gives the commission with the option's inputs, at the height it has.
func (o Option) applied(c Commission) (Commission, error) {
	d := c.Clone()
	d.Options = nil
	set(&d.Inputs, o.Inputs)
	for i, in := range o.Pieces {
		switch {
		case i < len(d.Pieces):
			set(&d.Pieces[i].Inputs, in)
		case len(in) > 0:
			return d, fault.Fault{
				Where: fmt.Sprintf("pieces.%d", i), Field: fmt.Sprintf("Piece %d", i+1),
				Problem: "is not in the commission", Remedy: "take its inputs out of the option, or add the piece",
			}
		}
	}
	return d, nil
}

// scaled brings a commission, whose rule it is, to the option's height.
func (o Option) scaled(d Commission, rule Rule) (Commission, Rule, error) {
	if o.Height == "" || len(d.Pieces) == 0 {
		return d, rule, nil
	}
	h, err := rule.ReadHeight(o.Height)
	if err != nil {
		x := fault.All(err)[0]
		x.Where, x.Field = "height", "Height"
		return d, rule, x
	}
	return rule.At(d, h), rule.to(h), nil
}

// to is the rule of the commission At height h.
func (rule Rule) to(h quantity.Length) Rule {
	heights := slices.Clone(rule.heights)
	for i := range heights {
		if rule.along[i] && rule.Height != 0 {
			heights[i] = quantity.Length(micrometres(rule.heights[i] * h / rule.Height))
		}
	}
	rule.heights = heights
	if len(heights) > 0 {
		rule.Height = heights[0]
	}
	return rule
}

// set puts texts into inputs; an empty one takes the input away.
func set(in *map[string]string, texts map[string]string) {
	for path, text := range texts {
		if text == "" {
			delete(*in, path)
			continue
		}
		if *in == nil {
			*in = map[string]string{}
		}
		(*in)[path] = text
	}
}

// Says tells whether the option has an input of its own for piece, or for the
// whole commission, and what it is.
func (o Option) Says(piece int, path string) (string, bool) {
	in := o.Inputs
	if piece != Whole {
		if piece >= len(o.Pieces) {
			return "", false
		}
		in = o.Pieces[piece]
	}
	text, ok := in[path]
	return text, ok
}

// With gives a copy of o with one input set, of piece number piece or of the
// whole commission where piece is Whole. Empty text is the starting value,
// whatever the commission has; Without takes it back to the commission's own.
func (o Option) With(piece int, path, text string) Option {
	o = o.Clone()
	in := &o.Inputs
	if piece != Whole {
		for len(o.Pieces) <= piece {
			o.Pieces = append(o.Pieces, nil)
		}
		in = &o.Pieces[piece]
	}
	if *in == nil {
		*in = map[string]string{}
	}
	(*in)[path] = text
	return o
}

// Without gives a copy of o that says nothing of its own of that input.
func (o Option) Without(piece int, path string) Option {
	o = o.Clone()
	if piece == Whole {
		delete(o.Inputs, path)
		return o
	}
	if piece < len(o.Pieces) {
		delete(o.Pieces[piece], path)
	}
	for len(o.Pieces) > 0 && len(o.Pieces[len(o.Pieces)-1]) == 0 {
		o.Pieces = slices.Delete(o.Pieces, len(o.Pieces)-1, len(o.Pieces))
	}
	return o
}
