package lead

import (
	"context"
	"math"
	"math/rand/v2"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
)

// drawn are trials of a piece of so many sections: only castings fail, or only
// hours vary.
type drawn struct {
	count, sections int
	yield           float64
	hours           func(rng *rand.Rand) float64
}

func (d drawn) Count() int   { return d.count }
func (d drawn) Seed() uint64 { return 5 }

func (d drawn) Vary(i int, v *estimate.Variation) {
	rng := rand.New(rand.NewPCG(5, uint64(i)))
	v.Recasts[0] = 0
	for range d.sections {
		for rng.Float64() >= d.yield {
			v.Recasts[0]++
		}
	}
	for s := range v.Hours {
		v.Hours[s] = 1
		if d.hours != nil {
			v.Hours[s] = d.hours(rng)
		}
	}
}

func TestWithoutFailuresAndAtTheEstimatesHoursTheFinishIsThePlan(t *testing.T) {
	s := bookWith(t)
	o := estimated(t, group(), s, monday)
	f, err := FinishRange(t.Context(), o, s, nil, drawn{count: 50, yield: 1})
	require.NoError(t, err)
	ready := dateOf(dayOf(planned(t, o, s).Ready))
	assert.Equal(t, Finish{Trials: 50, P10: ready, P50: ready, P80: ready, P90: ready}, f)
}

// A piece poured in one batch is late if any of its n sections fails, with
// chance 1 − yⁿ: eleven at 95 % are 43 %. A casting is two weeks late, and two
// more each time it fails again.
func TestElevenSectionsAt95PercentHoldTheDateUp43TimesIn100(t *testing.T) {
	s := bookWith(t, "pour.weekly", "10000 kg")
	o := estimated(t, head().With(0, "form.sections", "11"), s, monday)
	const n = 4000
	f, err := FinishRange(t.Context(), o, s, nil, drawn{count: n, sections: 11, yield: 0.95})
	require.NoError(t, err)
	p := 1 - math.Pow(0.95, 11)
	assert.InDelta(t, 0.43, p, 0.005)
	assert.InDelta(t, p, f.Held, 4*math.Sqrt(p*(1-p)/n))
	ready := dateOf(dayOf(planned(t, o, s).Ready))
	assert.Equal(t, ready, f.P10)
	assert.Equal(t, ready, f.P50)
	assert.Equal(t, ready.AddDate(0, 0, 14), f.P80, "two weeks later, on the same weekday")
}

// busy is what a pool has booked over all days.
func busy(f *floor, k skill) (minutes int32) {
	for _, left := range f.free[k] {
		minutes += f.room[k] - int32(left)
	}
	return minutes
}

// A casting made again takes the shop's hours and metal besides its two weeks.
func TestACastingMadeAgainTakesHoursOfTheShopAndAPourDay(t *testing.T) {
	s := bookWith(t)
	o := estimated(t, head(), s, monday)
	p, err := prepare(o, s, nil)
	require.NoError(t, err)
	tr := p.trial(drawn{count: 1})
	for i := range tr.varied.factor {
		tr.varied.factor[i] = 1
	}
	first, ok := tr.end()
	require.True(t, ok)
	before := map[skill]int32{}
	for _, k := range []skill{waxer, sheller, pourer, welder, kiln} {
		before[k] = busy(&tr.scratch, k)
	}
	poured := len(tr.scratch.heats)

	tr.vary.Recasts[0] = 1
	require.True(t, tr.spread(0))
	again, ok := tr.end()
	require.True(t, ok)
	assert.Greater(t, again, first)
	x := p.remake.pieces[0]
	for k, more := range map[skill]int32{waxer: x.wax, sheller: x.coats, welder: x.knock, kiln: p.remake.firing.slots * slotMinutes} {
		assert.Positive(t, more, k)
		assert.Equal(t, before[k]+more, busy(&tr.scratch, k), k)
	}
	assert.Greater(t, busy(&tr.scratch, pourer), before[pourer])
	assert.Greater(t, len(tr.scratch.heats), poured, "on another pour day")
	last := tr.scratch.metal[len(tr.scratch.metal)-1]
	assert.InDelta(t, float64(o.Estimate.Charged)/float64(o.Estimate.Sections), last, 1e-6)
}

func TestInAFullShopACastingMadeAgainWaitsForRoom(t *testing.T) {
	s := bookWith(t)
	o := estimated(t, head(), s, monday)
	p, err := prepare(o, s, nil)
	require.NoError(t, err)
	f := p.floor.copy()
	from := 20 * f.slots
	free, ok := f.castAgain(p.remake, p.crew, 0, 1, from)
	require.True(t, ok)
	assert.Equal(t, f.later(from, 14)+f.slots, free, "two weeks, at the same hour")
	f = p.floor.copy()
	var booked []Booking
	for d := range 35 {
		booked = append(booked, Booking{dateOf(f.dates[20] + int32(d)), Heats, 99})
	}
	f.book(booked)
	full, ok := f.castAgain(p.remake, p.crew, 0, 1, from)
	require.True(t, ok)
	assert.Greater(t, full, free+10*f.slots)
}

// Two failures fall on one section or on two. Of the n(n+1)/2 ways each is as
// likely, so they fall on one and the same with chance 2/(n + 1).
func TestAllWaysOfSharingFailuresOutAreEquallyLikely(t *testing.T) {
	s := bookWith(t, "pour.weekly", "10000 kg")
	p, err := prepare(estimated(t, head().With(0, "form.sections", "7"), s, monday), s, nil)
	require.NoError(t, err)
	tr := p.trial(drawn{count: 1})
	same := 0
	const n = 8000
	for i := range n {
		tr.vary.Recasts[0] = 2
		require.True(t, tr.spread(i))
		worst := int32(0)
		for _, c := range tr.counts[0] {
			worst = max(worst, c)
		}
		if worst == 2 {
			same++
		}
	}
	assert.InDelta(t, 2.0/8, float64(same)/n, 4*math.Sqrt(0.25*0.75/n))
}

func TestARecastOffThePathHoldsNothingUp(t *testing.T) {
	// The granite comes half a year after everything else.
	s := bookWith(t, "wait.stone", "60")
	o := estimated(t, group(), s, monday)
	f, err := FinishRange(t.Context(), o, s, nil, drawn{count: 200, sections: 9, yield: 0.9})
	require.NoError(t, err)
	assert.Zero(t, f.Held)
}

func TestMoreHoursFinishLater(t *testing.T) {
	s := bookWith(t)
	o := estimated(t, group(), s, monday)
	f, err := FinishRange(t.Context(), o, s, nil, drawn{count: 400, yield: 1, hours: func(r *rand.Rand) float64 { return 0.85 + 0.55*r.Float64() }})
	require.NoError(t, err)
	assert.True(t, f.P10.Before(f.P50) && f.P50.Before(f.P80) && f.P80.Before(f.P90))
	assert.Zero(t, f.Held)
}

func TestTheFinishDoesNotDependOnTheNumberOfCores(t *testing.T) {
	s := bookWith(t)
	o := estimated(t, group(), s, monday)
	d := drawn{count: 300, sections: 9, yield: 0.9, hours: func(r *rand.Rand) float64 { return 0.9 + 0.3*r.Float64() }}
	all, err := FinishRange(t.Context(), o, s, nil, d)
	require.NoError(t, err)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	one, err := FinishRange(t.Context(), o, s, nil, d)
	require.NoError(t, err)
	assert.Equal(t, one, all)
}

func TestTrialsOfTheFinishEndWithTheirContext(t *testing.T) {
	s := bookWith(t)
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, err := FinishRange(ctx, estimated(t, group(), s, monday), s, nil, drawn{count: 1000, yield: 1})
	assert.ErrorIs(t, err, context.Canceled)
	f, err := FinishRange(t.Context(), estimated(t, group(), s, monday), s, nil, drawn{})
	assert.NoError(t, err)
	assert.Zero(t, f)
}

func BenchmarkTrialOfTheFinish(b *testing.B) {
	s := bookWith(b)
	p, err := prepare(estimated(b, group(), s, monday), s, nil)
	require.NoError(b, err)
	tr := p.trial(drawn{count: 1, sections: 18, yield: 0.95})
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		tr.run(i)
		i++
	}
}
