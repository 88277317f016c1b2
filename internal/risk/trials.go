package risk

import (
	"context"
	"math"
	"math/rand/v2"
	"runtime"
	"sync"
	"sync/atomic"

	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/quantity"
	"meltwright/internal/shop"
)

// Ask is how a range is drawn.
type Ask struct {
	Trials int    // 0 is 10,000
	Seed   uint64 // 0 is 1
	// Cores is how many goroutines draw; 0 is all. The result does not depend
	// on it.
	Cores int
	// Progress is told the share done, from 0 up to 1, never from two goroutines
	// at once.
	Progress func(done float64)
}

// MostTrials is how many trials a range may have.
const MostTrials = 1_000_000

func (a Ask) filled() (Ask, error) {
	if a.Trials < 0 || a.Trials > MostTrials {
		return a, fault.Fault{Where: "trials", Field: "Trials", Value: quantity.Number(float64(a.Trials), 0), Problem: "are not a number of trials", Remedy: "give from 1 up to 1,000,000; 10,000 is usual"}
	}
	if a.Trials == 0 {
		a.Trials = 10000
	}
	if a.Seed == 0 {
		a.Seed = 1
	}
	if a.Cores <= 0 {
		a.Cores = runtime.GOMAXPROCS(0)
	}
	return a, nil
}

// Trials are the drawn variations of a commission, numbered from 0. Trial i of a
// seed is the same on any machine, whatever was drawn before it, so that a price
// and a date can come from the same trials.
type Trials struct {
	model   *estimate.Model
	factors []Factor
	tables  []*quantiles
	// Hours are drawn about one factor of the shop's, by a Gaussian copula:
	// z = √ρ z₀ + √(1−ρ) zᵢ; their rank correlation is 6/π · asin(ρ/2).
	common, own float64 // √ρ and √(1−ρ)
	ask         Ask
}

// NewTrials prepares the trials of a commission. Errors are faults, as of
// Factors, and of ask.
func NewTrials(c estimate.Commission, s *shop.Shop, ask Ask) (*Trials, error) {
	m, err := estimate.NewModel(c, s)
	if err != nil {
		return nil, err
	}
	list, err := factors(m, c, s)
	if err != nil {
		return nil, err
	}
	if ask, err = ask.filled(); err != nil {
		return nil, err
	}
	rho := s.Num(shop.HoursCorrelation)
	t := &Trials{model: m, factors: list, common: math.Sqrt(rho), own: math.Sqrt(1 - rho), ask: ask}
	t.tables = tables(list)
	return t, nil
}

// tables tabulates the quantiles of each factor, those of the same points once.
func tables(list []Factor) []*quantiles {
	seen := map[Points]*quantiles{}
	var each sync.WaitGroup
	out := make([]*quantiles, len(list))
	for i, f := range list {
		q := seen[f.Points]
		if q == nil {
			q = &quantiles{}
			seen[f.Points] = q
			each.Go(func() { q.tabulate(f.Points) })
		}
		out[i] = q
	}
	each.Wait()
	return out
}

// Count is how many trials there are, Seed what they are drawn from.
func (t *Trials) Count() int { return t.ask.Trials }

// Seed is what the trials are drawn from.
func (t *Trials) Seed() uint64 { return t.ask.Seed }

// Vary sets v, made by estimate.Still, to trial i: its factors and, by piece,
// its failed castings.
func (t *Trials) Vary(i int, v *estimate.Variation) {
	rng := rand.New(t.source(i))
	t.vary(rng, v)
	v.Fail = nil
	for p, n := range t.model.Sections(v) {
		v.Recasts[p] = failures(rng, n, t.model.Yield())
	}
}

// source is the generator of trial i.
func (t *Trials) source(i int) *rand.PCG { return rand.NewPCG(t.ask.Seed, scattered(i)) }

// scattered spreads the numbers of trials over all 64 bits, so that generators
// of neighbours have nothing in common (the finaliser of SplitMix64: Steele, Lea
// & Flood, OOPSLA 2014).
func scattered(i int) uint64 {
	z := (uint64(i) + 1) * 0x9e3779b97f4a7c15
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// vary draws the factors of a trial.
func (t *Trials) vary(rng *rand.Rand, v *estimate.Variation) {
	common := float64(t.common * rng.NormFloat64())
	for k := range t.factors {
		f := &t.factors[k]
		z := rng.NormFloat64()
		if f.Shared {
			z = common + float64(t.own*z)
		}
		f.apply(v, t.tables[k].at(z))
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

// chunk is how many trials a goroutine takes at a time.
const chunk = 64

// all estimates every trial. It does not matter which core draws which.
func (t *Trials) all(ctx context.Context) ([]estimate.Outcome, error) {
	out := make([]estimate.Outcome, t.ask.Trials)
	var next atomic.Int64
	tell := t.teller(len(out))
	var wg sync.WaitGroup
	for range min(t.ask.Cores, (len(out)+chunk-1)/chunk) {
		wg.Go(func() {
			pcg := rand.NewPCG(0, 0)
			rng := rand.New(pcg)
			v := estimate.Still(t.model.Pieces())
			v.Fail = func(_, sections int) int { return failures(rng, sections, t.model.Yield()) }
			for ctx.Err() == nil {
				from := int(next.Add(chunk)) - chunk
				if from >= len(out) {
					return
				}
				to := min(from+chunk, len(out))
				for i := from; i < to; i++ {
					pcg.Seed(t.ask.Seed, scattered(i))
					t.vary(rng, &v)
					out[i] = t.model.Try(&v)
				}
				tell(to - from)
			}
		})
	}
	wg.Wait()
	return out, ctx.Err()
}

// teller counts trials done and tells of them one at a time.
func (t *Trials) teller(of int) func(n int) {
	var lock sync.Mutex
	done := 0
	return func(n int) {
		if t.ask.Progress == nil {
			return
		}
		lock.Lock()
		defer lock.Unlock()
		done += n
		t.ask.Progress(float64(done) / float64(of))
	}
}
