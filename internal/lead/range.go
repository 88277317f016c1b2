package lead

import (
	"context"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"
	"time"

	"meltwright/internal/estimate"
	"meltwright/internal/shop"
)

// Draws are the trials of a range, by number, so that a date and a price come
// from the same ones: a risk.Trials. Vary may be called from several goroutines.
type Draws interface {
	Count() int
	Seed() uint64
	// Vary sets v, made by estimate.Still, to trial i.
	Vary(i int, v *estimate.Variation)
}

// Finish is when the work may come to be ready.
type Finish struct {
	Trials             int
	P10, P50, P80, P90 time.Time
	// Held is the share of trials in which castings made again move the date.
	Held float64
}

// FinishRange levels an order once for each trial: its hours as drawn, larger
// surfaces with more of them, and every failed casting holding up what waits for
// it by the shop book's two weeks, again if it fails again. Failures fall on
// sections by chance, so that all ways of sharing them out are equally likely,
// as geometric numbers with one sum are. The network stays that of the estimate.
// The result does not depend on the number of cores; an error is ctx's, or a
// fault as of Plan.
func FinishRange(ctx context.Context, o Order, s *shop.Shop, booked []Booking, draws Draws) (Finish, error) {
	p, err := prepare(o, s, booked)
	if err != nil {
		return Finish{}, err
	}
	n := draws.Count()
	if n < 1 {
		return Finish{}, nil
	}
	ends, plain := make([]int32, n), make([]int32, n)
	const chunk = 32
	var next atomic.Int64
	var failed atomic.Bool
	var wg sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), (n+chunk-1)/chunk) {
		wg.Go(func() {
			tr := p.trial(draws)
			for ctx.Err() == nil && !failed.Load() {
				from := int(next.Add(chunk)) - chunk
				for i := from; i < min(from+chunk, n); i++ {
					var ok bool
					if ends[i], plain[i], ok = tr.run(i); !ok {
						failed.Store(true)
					}
				}
				if from >= n {
					return
				}
			}
		})
	}
	wg.Wait()
	switch {
	case ctx.Err() != nil:
		return Finish{}, ctx.Err()
	case failed.Load():
		return Finish{}, tooLong
	}
	return p.finish(ends, plain), nil
}

// finish reads the parts off the trials' ends.
func (p *prepared) finish(ends, plain []int32) Finish {
	held := 0
	for i := range ends {
		if ends[i] > plain[i] {
			held++
		}
	}
	n := len(ends)
	slices.Sort(ends)
	at := func(q float64) time.Time {
		return dateOf(dayOf(p.floor.ends(ends[min(int(q*float64(n)), n-1)])))
	}
	return Finish{n, at(0.1), at(0.5), at(0.8), at(0.9), float64(held) / float64(n)}
}
