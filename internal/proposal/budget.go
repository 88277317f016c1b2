package proposal

import (
	"meltwright/internal/drawing"
	"meltwright/internal/estimate"
	"meltwright/internal/money"
)

// budgetKeys are the lines that public calls ask a budget to have, in their usual
// order: the calls of Phoenix, Barnsley and Aberdeen.
var budgetKeys = []string{
	"fee", "engineering", "materials", "fabrication", "transport", "installation", "travel", "site", "insurance", "documentation", "contingency",
}

// ownBudgetLines are the steps of the price that a budget shows by themselves.
var ownBudgetLines = map[string]string{feeLine: "fee", "Insurance": "insurance", "Bond": "insurance", "Contingency": "contingency"}

// budgetItems are the lines of the estimate that do not go where the rest of
// their stage goes. What lifts the work goes to the installation, too.
var budgetItems = map[string]string{
	itemEngineer: "engineering", itemFooting: "site", itemSiteWorks: "site", itemPermits: "site", itemRecords: "documentation",
	itemCrates: "transport", "Freight by weight": "transport", "Freight by distance": "transport",
	"Travel of the crew": "travel", "Lodging and meals": "travel",
}

// budgetKey is the line of a budget that a line of the estimate belongs to.
func budgetKey(l estimate.Line) string {
	switch key, ok := budgetItems[l.Item]; {
	case ok:
		return key
	case l.Stage == "delivery":
		return "installation"
	case l.Class == estimate.Material:
		return "materials"
	}
	return "fabrication"
}

// budget puts the price into the lines that public calls ask for, so that they
// add to it exactly: fee, insurance and contingency are what they are, and the
// rest of the price goes with the direct cost of each. Lines of nothing are left
// out.
func budget(e *estimate.Estimate) (out []partPrice) {
	amounts := map[string]money.Amount{}
	rest := e.Price
	for _, l := range e.PriceLines {
		if key, ok := ownBudgetLines[l.Name]; ok {
			amounts[key] += l.Amount
			rest -= l.Amount
		}
	}
	direct := map[string]money.Amount{}
	for _, l := range e.Lines {
		direct[budgetKey(l)] += l.Amount
	}
	weights := make([]money.Decimal, len(budgetKeys))
	for i, key := range budgetKeys {
		weights[i] = e.Currency.Decimal(direct[key])
	}
	split := money.Split(rest, weights)
	for i := range split {
		amounts[budgetKeys[i]] += split[i]
	}
	if split == nil {
		amounts["fabrication"] += rest
	}
	for _, key := range budgetKeys {
		if amounts[key] != 0 {
			out = append(out, partPrice{key: key, amount: amounts[key]})
		}
	}
	return out
}

// budget sets the budget form: the same total as the price, in a call's lines.
func (o *offer) budget(key string) []strip {
	e, l := o.paper.Estimate, o.language
	tb := table{
		size: rowStyle, before: 10, whole: true,
		columns: []column{{}, {wide: 120, anchor: drawing.End, gutter: 12}},
		head:    []string{o.label("budget-line"), o.words.say("price-amount", o.facts)},
	}
	add := func(name, amount string) {
		tb.rows = append(tb.rows, row{style: rowStyle, rule: drawing.Rule, pad: 5, cells: []cell{{words: name}, {words: amount}}})
	}
	for _, b := range budget(e) {
		add(o.label("budget-"+b.key), l.amount(e.Currency, b.amount))
	}
	for _, t := range o.facts.Taxes {
		add(o.words.say("tax", t), t.Amount)
	}
	tb.rows = append(tb.rows, row{style: totalStyle, ground: drawing.Wash, pad: 8, cells: []cell{{words: o.words.say("total", o.facts), across: true}, {words: o.facts.Total}}})
	return o.around(o.blocksOf(key), o.table(tb))
}
