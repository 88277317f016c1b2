package estimate_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"meltwright/internal/estimate"
	"meltwright/internal/quantity"
)

// A trial is the estimate by a shorter way: to the cent, whatever the commission.
func TestATrialThatChangesNothingIsTheEstimate(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		c := anyCommission(rt)
		if rapid.Bool().Draw(rt, "in other money") {
			c.Currency, c.Inputs["price.exchange"] = "JPY", "108.37"
		}
		e := made(rt, t, c)
		m, err := estimate.NewModel(c, theShop(t))
		if err != nil {
			rt.Fatal(err)
		}
		still := estimate.Still(m.Pieces())
		sameAs(rt, e, m.Try(&still))
	})
}

func sameAs(t *rapid.T, e *estimate.Estimate, o estimate.Outcome) {
	hours, kg := 0.0, 0.0
	for _, l := range e.Lines {
		if l.Class == estimate.Labour {
			hours += l.Hours
		}
	}
	for _, p := range e.Pieces {
		kg += float64(p.Finished)
	}
	if o.Direct != e.Direct || o.Price != e.Price || o.Total != e.Total || o.Heats != len(e.Heats) || o.Days != e.PourDays ||
		math.Abs(o.Recasts-e.Recasts) > 1e-9 || math.Abs(o.Hours-hours) > 0.005*float64(len(e.Lines)) || math.Abs(o.Kg-kg) > 1e-9*kg {
		t.Fatalf("direct %v %v, price %v %v, total %v %v, heats %d %d, days %d %d, hours %v %v, kg %v %v",
			o.Direct, e.Direct, o.Price, e.Price, o.Total, e.Total, o.Heats, len(e.Heats), o.Days, e.PourDays, o.Hours, hours, o.Kg, kg)
	}
}

// Trying a height is estimating the commission at that height.
func TestATrialAtAHeightIsTheEstimateAtThatHeight(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		c := anyCommission(rt)
		rule := estimate.RuleOf(c, theShop(t))
		m, err := estimate.NewModel(c, theShop(t))
		if err != nil {
			rt.Fatal(err)
		}
		h := quantity.Length(float64(rapid.IntRange(400, 3000).Draw(rt, "millimetres")) / 1000)
		e, err := estimate.Of(rule.At(c, h), theShop(t))
		o := m.TryAt(rule, h)
		if o.Holds != (err == nil) {
			rt.Fatalf("holds %v, but %v", o.Holds, err)
		}
		if err != nil {
			return
		}
		sameAs(rt, e, o.Outcome)
		stamps := 0
		for _, l := range e.Lines {
			if l.Stage == "base" && l.Per == "stamp" {
				stamps++
			}
		}
		if o.Steps.Stamps != stamps || o.Steps.Lift != e.Lift.By {
			rt.Fatalf("%d stamps and %s, %d and %s", o.Steps.Stamps, o.Steps.Lift, stamps, e.Lift.By)
		}
	})
}
