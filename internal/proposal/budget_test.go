package proposal

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
)

func TestABudgetAddsToThePriceWithItsFeeInsuranceAndContingency(t *testing.T) {
	for name, q := range stories() {
		e := paperOf(t, q).Estimate
		lines := budget(e)
		assert.Equal(t, e.Price, added(lines), name)
		for _, l := range e.PriceLines {
			if key := ownBudgetLines[l.Name]; key == "fee" || key == "contingency" {
				assert.Contains(t, lines, partPrice{key: key, amount: l.Amount}, name)
			}
		}
	}
}

func TestEveryNamedLineOfABudgetIsALineOfTheEstimate(t *testing.T) {
	q := waterfront()
	q.Commission.Inputs["delivery.nights"] = "1"
	q.Commission.Pieces[0].Inputs["base.footing"] = "by us"
	e := paperOf(t, q).Estimate
	for item := range budgetItems {
		assert.True(t, slices.ContainsFunc(e.Lines, func(l estimate.Line) bool { return l.Item == item }), item)
	}
}

func TestABudgetHoldsEachKindOfWork(t *testing.T) {
	e := &estimate.Estimate{
		Currency: money.Currency{Code: "CAD", Digits: 2}, Price: 130000,
		PriceLines: []estimate.PriceLine{{Name: feeLine, Amount: 20000}, {Name: "Contingency", Amount: 8000}, {Name: "Insurance", Amount: 1500}, {Name: "Bond", Amount: 500}, {Name: "Margin", Amount: 50000}},
		Lines: []estimate.Line{
			{Stage: "shell", Item: "Dipping", Class: estimate.Labour, Amount: 10000},
			{Stage: "shell", Item: "Stucco, fine", Amount: 5000},
			{Stage: "shell", Item: "Expected recasts", Class: estimate.Recast, Amount: 5000},
			{Stage: "base", Item: itemEngineer, Class: estimate.Bought, Amount: 10000},
			{Stage: "delivery", Item: "Crates", Amount: 5000},
			{Stage: "delivery", Item: "City crane", Class: estimate.Bought, Amount: 5000},
			{Stage: "delivery", Item: "Lodging and meals", Class: estimate.Bought, Amount: 10000},
		},
	}
	assert.Equal(t, []partPrice{
		{key: "fee", amount: 20000},
		{key: "engineering", amount: 20000},
		{key: "materials", amount: 10000},
		{key: "fabrication", amount: 30000},
		{key: "transport", amount: 10000},
		{key: "installation", amount: 10000},
		{key: "travel", amount: 20000},
		{key: "insurance", amount: 2000},
		{key: "contingency", amount: 8000},
	}, budget(e))
}

func TestABudgetIsASectionForThoseWhoChooseIt(t *testing.T) {
	q := waterfront()
	assert.NotContains(t, flat(textOf(t, proposalOf(t, q))), "Design and engineering")
	q.Words = map[string]string{"sections": "budget"}
	text := flat(textOf(t, proposalOf(t, q), "-layout"))
	assert.Contains(t, text, "Design and engineering")
	assert.Contains(t, text, "Total in CAD, tax included $372,335.40")
}
