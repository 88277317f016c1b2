package lead

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/estimate"
)

// ended is the day on which the last task of a stage ends.
func ended(p Schedule, stage string) int32 {
	last := int32(0)
	for _, x := range p.Tasks {
		if x.Stage == stage {
			last = max(last, dayOf(x.End))
		}
	}
	return last
}

func TestPaymentsFallDueWithWhatTheyPayFor(t *testing.T) {
	s := bookWith(t)
	p := planned(t, estimated(t, group(), s, monday), s)
	require.Len(t, p.Milestones, 4) // Agreement signed, Original approved, Bronze cast, Installed and accepted
	want := []int32{dayOf(monday), ended(p, "original"), ended(p, "pour"), dayOf(p.Ready)}
	sum := estimated(t, group(), s, monday).Estimate.Total
	for i, m := range p.Milestones {
		assert.Equal(t, want[i], dayOf(m.Date), m.Name)
		sum -= m.Amount
	}
	assert.Zero(t, sum, "the payments are the contract")
}

func TestWordsOfAPaymentPlanAreUnderstoodByHowTheyBegin(t *testing.T) {
	s := bookWith(t)
	p := planned(t, estimated(t, group(), s, monday), s)
	for words, want := range map[string]int32{
		"Purchase order": dayOf(monday), "Deposit": dayOf(monday), "Design approved": ended(p, "original"), "Clay model complete": dayOf(p.Ready),
		"Mold made": ended(p, "mould"), "All waxes": ended(p, "wax"), "Foundry pour": ended(p, "pour"), "Chased and welded": ended(p, "metalwork"),
		"Patina": ended(p, "patina"), "On delivery": dayOf(p.Ready),
	} {
		got, ok := p.dayOf(words, false)
		assert.True(t, ok, words)
		assert.Equal(t, want, dayOf(got), words)
	}
}

func TestAPaymentThatSpeaksOfNothingFallsDueWithTheNext(t *testing.T) {
	s := bookWith(t)
	c := head()
	c.Inputs = map[string]string{"delivery.by": "by others", "price.payments": "Part one 20; Signed 20; Original approved 20; Half way 20; Cast 10; Rest 10"}
	p := planned(t, estimated(t, c, s, monday), s)
	cast := ended(p, "pour")
	for i, want := range []int32{dayOf(monday), dayOf(monday), cast, cast, cast, dayOf(p.Ready)} {
		assert.Equal(t, want, dayOf(p.Milestones[i].Date), p.Milestones[i].Name)
	}
}

func TestMilestonesKeepTheOrderOfThePlan(t *testing.T) {
	s := bookWith(t)
	p := planned(t, estimated(t, group(), s, monday), s)
	words := []string{"Signed", "Original", "Cast", "Installed", "Patina", "Nothing known", "Wax"}
	rapid.Check(t, func(t *rapid.T) {
		var plan []estimate.Payment
		for _, w := range rapid.SliceOfN(rapid.SampledFrom(words), 1, 8).Draw(t, "plan") {
			plan = append(plan, estimate.Payment{When: w})
		}
		list := milestones(plan, p)
		for i, m := range list {
			require.False(t, m.Date.Before(p.Start) || m.Date.After(p.Ready))
			require.True(t, i == 0 || !m.Date.Before(list[i-1].Date))
		}
	})
}
