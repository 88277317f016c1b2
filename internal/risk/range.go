package risk

import (
	"context"
	"math"
	"slices"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/shop"
)

// Range is where cost and price come to lie.
type Range struct {
	Trials int
	Seed   uint64
	// Together is how far the hours of the shop's stages move together: the
	// correlation of the copula they are drawn by.
	Together float64
	// Cost is what the work costs the shop: direct cost and overhead. Price is
	// what would have had to be asked for it, before tax.
	Cost, Price Spread
	Quoted      money.Amount // the price as estimated
	// LossChance is the chance that the work costs more than the quoted price
	// leaves for it, with nothing left for margin.
	LossChance float64
	// ContingencyFor80 is the share of contingency, on direct cost and overhead,
	// with which the work stays within it eight times in ten.
	ContingencyFor80 float64
	// Castings is how many sections must come out good, all casts.
	// RecastChance is the chance of at least one to be made again; Recasts how
	// many are to be expected; RecastCost what those cost, of the direct cost.
	Castings              int
	RecastChance, Recasts float64
	RecastCost            money.Amount
	Drivers               []Driver
}

// Spread is a drawn amount: eight in ten lie within P10 and P90.
type Spread struct {
	P10, P50, P80, P90 money.Amount
	Mean, Deviation    float64 // in minor units
}

// Draw draws a commission's range. It stops early only when ctx ends. Errors are
// ctx's, or faults as of NewTrials.
func Draw(ctx context.Context, c estimate.Commission, s *shop.Shop, ask Ask) (Range, error) {
	t, err := NewTrials(c, s, ask)
	if err != nil {
		return Range{}, err
	}
	quoted, err := estimate.Of(c, s)
	if err != nil {
		return Range{}, err
	}
	outcomes, err := t.all(ctx)
	if err != nil {
		return Range{}, err
	}
	r := Range{
		Trials: t.ask.Trials, Seed: t.ask.Seed, Together: s.Num(shop.HoursCorrelation),
		Quoted: quoted.Price, Castings: quoted.Sections, RecastCost: recastCost(quoted),
	}
	r.sum(outcomes, quoted, t.model)
	r.Drivers = t.drivers()
	return r, nil
}

// recastCost is what the castings expected to fail cost in all their stages.
func recastCost(e *estimate.Estimate) (sum money.Amount) {
	for _, l := range e.Lines {
		if l.Class == estimate.Recast {
			sum += l.Amount
		}
	}
	return sum
}

// sum reduces the trials to what is told.
func (r *Range) sum(trials []estimate.Outcome, quoted *estimate.Estimate, m *estimate.Model) {
	costs, prices := make([]money.Amount, len(trials)), make([]money.Amount, len(trials))
	failed, recasts, lost := 0, 0.0, 0
	room := m.CostRoom(quoted)
	for i, t := range trials {
		costs[i], prices[i] = t.Cost, t.Price
		recasts += t.Recasts
		if t.Recasts > 0 {
			failed++
		}
		if t.Cost > room {
			lost++
		}
	}
	n := float64(len(trials))
	r.Cost, r.Price = spread(costs), spread(prices)
	r.RecastChance, r.Recasts, r.LossChance = float64(failed)/n, recasts/n, float64(lost)/n
	if base := m.CostOf(quoted); base > 0 {
		r.ContingencyFor80 = math.Max(0, float64(r.Cost.P80)/float64(base)-1)
	}
}

// spread sorts amounts and reads their parts off.
func spread(a []money.Amount) Spread {
	slices.Sort(a)
	sum, squares := 0.0, 0.0
	for _, x := range a {
		sum += float64(x)
	}
	mean := sum / float64(len(a))
	for _, x := range a {
		d := float64(x) - mean
		squares += float64(d * d)
	}
	at := func(q float64) money.Amount { return a[min(int(q*float64(len(a))), len(a)-1)] }
	return Spread{at(0.1), at(0.5), at(0.8), at(0.9), mean, math.Sqrt(squares / math.Max(1, float64(len(a)-1)))}
}
