package risk

import (
	"context"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
	"meltwright/internal/shop"
)

// Ask is how a range is drawn.
type Ask struct {
	Trials int    // 0 is 10,000
	Seed   uint64 // 0 is 1
	// Cores is how many goroutines draw; 0 is all. The result does not depend
	// on it.
	Cores    int
	Progress func(done float64)
	Factors  []Factor // nil takes the shop book's
}

// Range is where cost and price come to lie.
type Range struct {
	Trials int
	Seed   uint64
	// Cost is what the work costs the shop: direct cost and overhead. Price is
	// what would have had to be asked for it.
	Cost, Price Spread
	// LossChance is the chance that the work costs more than the quoted price
	// leaves for it, with nothing left for margin.
	LossChance float64
	// ContingencyFor80 is the share of contingency, on direct cost and overhead,
	// with which the work stays within it eight times in ten.
	ContingencyFor80 float64
	// RecastChance is the chance of at least one casting to be made again;
	// Recasts how many are to be expected; RecastCost what they cost on average.
	RecastChance, Recasts float64
	Drivers               []Driver
}

// Spread is a drawn amount: eight in ten lie within P10 and P90.
type Spread struct {
	P10, P50, P80, P90 money.Amount
	Mean, Deviation    float64 // in minor units
}

// Driver is how far one input alone swings the price, from its tenth to its
// ninetieth part in a hundred.
type Driver struct {
	Name      string
	Low, High money.Amount // change of price
}

// Swing is the whole width of the swing.
func (d Driver) Swing() money.Amount { return max(d.High-d.Low, d.Low-d.High) }

// Draw draws a commission's range. It stops early only when ctx ends.
func Draw(ctx context.Context, c estimate.Commission, s *shop.Shop, ask Ask) (Range, error) {
	m, err := estimate.NewModel(c, s)
	if err != nil {
		return Range{}, err
	}
	quoted, err := estimate.Of(c, s)
	if err != nil {
		return Range{}, err
	}
	d := newDrawer(m, s, ask)
	trials, err := d.all(ctx)
	if err != nil {
		return Range{}, err
	}
	r := Range{Trials: d.ask.Trials, Seed: d.ask.Seed}
	r.sum(trials, quoted, m)
	r.Drivers = d.drivers()
	return r, nil
}

// drawer draws trials of one commission.
type drawer struct {
	model   *estimate.Model
	factors []Factor
	tables  []*quantiles
	shared  float64 // correlation of hours
	ask     Ask
}

func newDrawer(m *estimate.Model, s *shop.Shop, ask Ask) *drawer {
	if ask.Trials == 0 {
		ask.Trials = 10000
	}
	if ask.Seed == 0 {
		ask.Seed = 1
	}
	if ask.Cores == 0 {
		ask.Cores = runtime.GOMAXPROCS(0)
	}
	d := &drawer{model: m, factors: ask.Factors, shared: s.Num(shop.HoursCorrelation), ask: ask}
	if d.factors == nil {
		d.factors = Factors(m, s)
	}
	for _, f := range d.factors {
		d.tables = append(d.tables, f.Points.quantiles())
	}
	return d
}

// chunk is how many trials a goroutine takes at a time.
const chunk = 64

// all draws every trial. Each has a generator of its own, seeded by its number,
// so that it does not matter which core draws it.
func (d *drawer) all(ctx context.Context) ([]estimate.Outcome, error) {
	out := make([]estimate.Outcome, d.ask.Trials)
	var next, done atomic.Int64
	var wg sync.WaitGroup
	for range d.ask.Cores {
		wg.Go(func() {
			v := estimate.Still(d.model.Pieces())
			for ctx.Err() == nil {
				from := int(next.Add(chunk)) - chunk
				if from >= len(out) {
					return
				}
				to := min(from+chunk, len(out))
				for i := from; i < to; i++ {
					d.vary(&v, i)
					out[i] = d.model.Try(&v)
				}
				if n := done.Add(int64(to - from)); d.ask.Progress != nil {
					d.ask.Progress(float64(n) / float64(len(out)))
				}
			}
		})
	}
	wg.Wait()
	return out, ctx.Err()
}

// vary draws the factors and the failures of trial i. Hours are drawn about one
// factor of the shop's, by a Gaussian copula: z = √ρ z₀ + √(1−ρ) zᵢ.
func (d *drawer) vary(v *estimate.Variation, i int) {
	rng := rand.New(rand.NewPCG(d.ask.Seed, uint64(i)))
	common := rng.NormFloat64()
	for k, f := range d.factors {
		z := rng.NormFloat64()
		if f.Shared {
			z = math.Sqrt(d.shared)*common + math.Sqrt(1-d.shared)*z
		}
		f.apply(v, d.tables[k].of(normalCDF(z)))
	}
	for p, n := range d.model.Sections(v) {
		v.Recasts[p] = failures(rng, n, d.model.Yield())
	}
}

// failures draws how many castings fail before n are good, each good with
// probability y: a sum of geometric numbers.
func failures(rng *rand.Rand, n int, y float64) int {
	if y >= 1 {
		return 0
	}
	total := 0
	scale := 1 / math.Log1p(-y)
	for range n {
		total += int(math.Log(1-rng.Float64()) * scale)
	}
	return total
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
		squares += (float64(x) - mean) * (float64(x) - mean)
	}
	at := func(q float64) money.Amount { return a[min(int(q*float64(len(a))), len(a)-1)] }
	return Spread{at(0.1), at(0.5), at(0.8), at(0.9), mean, math.Sqrt(squares / math.Max(1, float64(len(a)-1)))}
}

// drivers swings each input alone between its tenth and ninetieth part in a
// hundred, all others as estimated, and sorts by the width of the swing.
func (d *drawer) drivers() []Driver {
	still := estimate.Still(d.model.Pieces())
	base := d.model.Try(&still).Price
	var out []Driver
	for k, f := range d.factors {
		v := estimate.Still(d.model.Pieces())
		f.apply(&v, d.tables[k].of(0.1))
		low := d.model.Try(&v).Price
		f.apply(&v, d.tables[k].of(0.9))
		out = append(out, Driver{f.Name, low - base, d.model.Try(&v).Price - base})
	}
	out = append(out, d.failureDriver(base))
	slices.SortStableFunc(out, func(a, b Driver) int { return int(min(max(b.Swing()-a.Swing(), -1), 1)) })
	return out
}

// failureDriver swings the failures: none, against the ninetieth in a hundred.
func (d *drawer) failureDriver(base money.Amount) Driver {
	v := estimate.Still(d.model.Pieces())
	many := estimate.Still(d.model.Pieces())
	for p, n := range d.model.Sections(&v) {
		v.Recasts[p] = 0
		mean, y := float64(n), d.model.Yield()
		many.Recasts[p] = int(math.Ceil(mean*(1/y-1) + 1.2816*math.Sqrt(mean*(1-y))/y))
	}
	return Driver{"Failed castings", d.model.Try(&v).Price - base, d.model.Try(&many).Price - base}
}
