package proposal

import (
	"math"
	"slices"
	"strings"

	"meltwright/internal/estimate"
	"meltwright/internal/quantity"
)

// sizeRow is one thing that is said of every option.
type sizeRow struct {
	label string
	say   func(s *size) string
}

// sizeRows are the rows of the table: what every option has, what only some of
// these have, and what is made otherwise in some.
func (o *offer) sizeRows(all []size, rule estimate.Rule) (rows []sizeRow) {
	first := func(f func(p *piece) string) func(*size) string {
		return func(s *size) string { return f(&s.facts.Pieces[0]) }
	}
	rows = []sizeRow{
		{o.label("work-height"), first(func(p *piece) string { return o.measure(p.height) })},
		{o.label("work-standing"), first(func(p *piece) string {
			if p.plinth == 0 {
				return ""
			}
			return o.measure(p.height + p.plinth)
		})},
		{o.label("work-weight"), o.sizeWeight},
		{o.label("price-before-tax"), func(s *size) string { return o.sum(s.Estimate.Price) }},
		{o.label("options-with-tax"), func(s *size) string {
			if len(s.Estimate.Taxes) == 0 {
				return ""
			}
			return o.sum(s.Estimate.Total)
		}},
		{o.words.say("options-budget", o.budgetFact(rule)), o.sizeBudget},
		{o.label("options-ready"), o.sizeWeeks},
		{o.label("options-lift"), o.sizeLift},
	}
	rows = slices.DeleteFunc(rows, func(r sizeRow) bool { return !slices.ContainsFunc(all, func(s size) bool { return r.say(&s) != "" }) })
	return append(rows, o.otherwise(all)...)
}

// otherwise are rows of what is made otherwise in some option: of each piece, and
// by whom.
func (o *offer) otherwise(all []size) (rows []sizeRow) {
	add := func(label string, say func(*size) string) {
		for i := range all {
			if say(&all[i]) != say(&all[0]) {
				rows = append(rows, sizeRow{label, say})
				return
			}
		}
	}
	for i, p := range all[0].facts.Pieces {
		for _, w := range workRows {
			switch w.key {
			case "height", "standing", "weight": // said already
				continue
			}
			label := o.label("work-" + w.key)
			if len(all[0].facts.Pieces) > 1 {
				label += ", " + p.Name
			}
			add(label, func(s *size) string {
				as := *o
				as.facts = s.facts
				return w.words(&as, &s.facts.Pieces[i])
			})
		}
	}
	add(o.label("options-others"), func(s *size) string {
		var said []string
		for _, x := range s.facts.Others {
			said = append(said, x.What)
		}
		return strings.Join(said, "; ")
	})
	return rows
}

// sizeWeight is the weight of all the bronze in an option.
func (o *offer) sizeWeight(s *size) string {
	kg := 0.0
	for _, p := range s.Estimate.Pieces {
		kg += float64(p.Finished) * float64(p.Casts)
	}
	return o.words.say("about", o.language.size(quantity.KindMass, kg, s.Estimate.System))
}

// sizeBudget says whether an option is within the budget, and by how much not.
func (o *offer) sizeBudget(s *size) string {
	switch {
	case !s.Budgeted:
		return ""
	case s.Left < 0:
		return o.words.say("options-over", s.Estimate.Currency.Whole(-s.Left, o.language.locale))
	}
	return o.label("options-within")
}

// budgetFact is what templates say of the budget.
type budgetFact struct {
	Amount    string
	BeforeTax bool
}

func (o *offer) budgetFact(rule estimate.Rule) budgetFact {
	return budgetFact{o.sum(rule.Budget), rule.BeforeTax}
}

// sizeWeeks is how long an option takes, in whole weeks.
func (o *offer) sizeWeeks(s *size) string {
	if s.weeks <= 0 {
		return ""
	}
	return o.words.say("options-weeks", o.language.count(int(math.Ceil(s.weeks-1e-9))))
}

// sizeLift says what lifts the heaviest part of an option.
func (o *offer) sizeLift(s *size) string {
	switch by := s.Estimate.Lift.By; by {
	case "hands":
		return o.label("options-by-hand")
	case "hoist":
		return o.label("options-hoist")
	default:
		return o.term(by)
	}
}
