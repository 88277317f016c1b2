package risk

import (
	"context"
	"math"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
	"meltwright/internal/shop"
)

func drawn(t must, c estimate.Commission, s *shop.Shop, a Ask) Range {
	t.Helper()
	r, err := Draw(context.Background(), c, s, a)
	require.NoError(t, err)
	return r
}

// 1 − yⁿ: eleven sections at 95 % are 43 %, twenty-four 71 %.
func TestTheChanceOfARecastIsTheBinomials(t *testing.T) {
	s := bookWith(t)
	for n, want := range map[string]float64{"11": 0.43, "24": 0.71} {
		r := drawn(t, sections(n), s, Ask{})
		count := float64(r.Castings)
		p := 1 - math.Pow(0.95, count)
		assert.InDelta(t, want, p, 0.005)
		assert.InDelta(t, p, r.RecastChance, 4*math.Sqrt(p*(1-p)/10000), n)
		assert.InDelta(t, count*0.05/0.95, r.Recasts, 4*math.Sqrt(count*0.05/10000)/0.95)
		assert.Positive(t, r.RecastCost)
	}
}

// linear is a commission whose cost is a sum of lines, each with a factor of its
// own: nothing fails, and surface and wall are known.
func linear(t must, together string) (estimate.Commission, *shop.Shop) {
	c := figure()
	c.Inputs["pour.yield"] = "100 %"
	for i := range c.Pieces {
		c.Pieces[i].Ranges = map[string]string{"area": "1", "wall": "1"}
	}
	return c, bookWith(t, "range.hours_together", together)
}

// factorOf is the range on a line's amount, by what the shop book says.
func factorOf(l estimate.Line) Points {
	hours, material, metal := Points{0.85, 1, 1.4}, Points{0.95, 1, 1.15}, Points{0.9, 1, 1.25}
	freight, site := Points{0.9, 1, 1.3}, Points{0.9, 1, 1.6}
	switch {
	case l.Class == estimate.Labour && l.Stage == "delivery":
		// The crew's hours vary, and what the site makes of them.
		return Points{}
	case l.Class == estimate.Labour:
		return hours
	case l.Stage == "pour" && l.Unit == "kg":
		return metal
	case l.Stage == "delivery" && (l.Unit == "m²" || l.Unit == "kg" || l.Unit == "km"):
		return freight
	case l.Stage == "delivery", l.Stage == "base" && l.Class == estimate.Bought:
		return site
	}
	return material
}

// closed is the mean cost of a linear commission, and its deviation where no
// hours move together, with overhead of 22 %.
func closed(t must, c estimate.Commission, s *shop.Shop) (mean, deviation float64) {
	e, err := estimate.Of(c, s)
	require.NoError(t, err)
	byFactor := map[string]float64{} // amounts that one factor is on
	points := map[string]Points{}
	crew := 0.0
	for _, l := range e.Lines {
		p := factorOf(l)
		if p == (Points{}) {
			crew += float64(l.Amount)
			continue
		}
		key := l.Class.String()
		switch {
		case l.Class == estimate.Labour:
			key += l.Stage
		default:
			key = map[Points]string{{0.9, 1, 1.25}: "metal", {0.9, 1, 1.3}: "freight", {0.9, 1, 1.6}: "site"}[p]
		}
		byFactor[key] += float64(l.Amount)
		points[key] = p
	}
	variance := func(p Points) float64 { return (p.Mean() - p.Low) * (p.High - p.Mean()) / 7 }
	hours, site := Points{0.85, 1, 1.4}, Points{0.9, 1, 1.6}
	own := byFactor["site"]
	delete(byFactor, "site")
	for key, amount := range byFactor {
		mean += amount * points[key].Mean()
		deviation += amount * amount * variance(points[key])
	}
	// Site and crew: own × s + crew × h × s, s and h apart.
	mean += own*site.Mean() + crew*hours.Mean()*site.Mean()
	inner := own + crew*hours.Mean()
	deviation += inner*inner*variance(site) + crew*crew*variance(hours)*(variance(site)+site.Mean()*site.Mean())
	return 1.22 * mean, 1.22 * math.Sqrt(deviation)
}

func TestALinearCommissionComesToItsClosedForm(t *testing.T) {
	c, apart := linear(t, "0 %")
	mean, deviation := closed(t, c, apart)
	r := drawn(t, c, apart, Ask{Trials: 20000})
	se := r.Cost.Deviation / math.Sqrt(20000)
	assert.InDelta(t, mean, r.Cost.Mean, 4*se)
	assert.InEpsilon(t, deviation, r.Cost.Deviation, 0.03)

	// Moving together, the mean stays and the range widens: apart is the toy.
	_, together := linear(t, "60 %")
	w := drawn(t, c, together, Ask{Trials: 20000})
	assert.InDelta(t, mean, w.Cost.Mean, 4*w.Cost.Deviation/math.Sqrt(20000))
	assert.Greater(t, w.Cost.Deviation, 1.25*r.Cost.Deviation)
	assert.Equal(t, 0.6, w.Together)
}

func TestTheSameSeedGivesTheSameNumbersOnAnyCores(t *testing.T) {
	s := bookWith(t)
	one := drawn(t, figure(), s, Ask{Trials: 700, Seed: 7, Cores: 1})
	for _, cores := range []int{2, 3, 8} {
		assert.Equal(t, one, drawn(t, figure(), s, Ask{Trials: 700, Seed: 7, Cores: cores}))
	}
	assert.Equal(t, one, drawn(t, figure(), s, Ask{Trials: 700, Seed: 7}))
	other := drawn(t, figure(), s, Ask{Trials: 700, Seed: 8})
	assert.NotEqual(t, one.Price.Mean, other.Price.Mean)
	assert.InEpsilon(t, one.Price.Mean, other.Price.Mean, 0.02)
}

// The numbers of a seed, so that a change of machine or of the program shows.
func TestTheNumbersOfSeedOneAreKnown(t *testing.T) {
	tr := trialsOf(t, figure(), bookWith(t), Ask{})
	v := estimate.Still(2)
	tr.Vary(0, &v)
	assert.Equal(t, []float64{0.967691856, 0.942978706, 0.989248883}, []float64{v.Area[0], v.Hours[3], v.Material})
}

func TestProgressRisesToOneAndIsToldOneAtATime(t *testing.T) {
	var lock sync.Mutex
	var told []float64
	drawn(t, figure(), bookWith(t), Ask{Trials: 1000, Progress: func(done float64) {
		require.True(t, lock.TryLock())
		defer lock.Unlock()
		told = append(told, done)
	}})
	require.NotEmpty(t, told)
	for i := range told[1:] {
		assert.Greater(t, told[i+1], told[i])
	}
	assert.Equal(t, 1.0, told[len(told)-1])
}

func TestDrawingEndsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	_, err := Draw(ctx, figure(), bookWith(t), Ask{Trials: MostTrials, Progress: func(float64) { cancel() }})
	assert.ErrorIs(t, err, context.Canceled)
}

func TestPartsOfARangeAreInOrderAndSayWhatTheyMean(t *testing.T) {
	s := bookWith(t)
	r := drawn(t, figure(), s, Ask{Trials: 2000})
	for _, x := range []Spread{r.Cost, r.Price} {
		assert.True(t, x.P10 < x.P50 && x.P50 < x.P80 && x.P80 < x.P90)
		assert.InDelta(t, x.Mean, float64(x.P50), x.Deviation)
	}
	m, err := estimate.NewModel(figure(), s)
	require.NoError(t, err)
	e, err := estimate.Of(figure(), s)
	require.NoError(t, err)
	assert.Equal(t, e.Price, r.Quoted)
	assert.InDelta(t, float64(r.Cost.P80), float64(m.CostOf(e))*(1+r.ContingencyFor80), 1)

	// The share of trials over the room is what LossChance says.
	tr := trialsOf(t, figure(), s, Ask{Trials: 2000})
	all, err := tr.all(t.Context())
	require.NoError(t, err)
	lost := 0.0
	for _, o := range all {
		if o.Cost > m.CostRoom(e) {
			lost++
		}
	}
	assert.Equal(t, lost/2000, r.LossChance)
}

func TestAThinMarginLosesMoreOften(t *testing.T) {
	s := bookWith(t)
	thin, fat := figure().With(estimate.Whole, "price.profit", "1 %"), figure().With(estimate.Whole, "price.profit", "40 %")
	a, b := drawn(t, thin, s, Ask{Trials: 2000}), drawn(t, fat, s, Ask{Trials: 2000})
	assert.Greater(t, a.LossChance, 0.1)
	assert.Less(t, b.LossChance, a.LossChance)
	assert.Equal(t, a.ContingencyFor80, b.ContingencyFor80, "what the work costs does not depend on the margin")
}

func TestDriversAreSortedAndTheSurfaceDrivesABronze(t *testing.T) {
	r := drawn(t, figure(), bookWith(t), Ask{Trials: 100})
	for i := range r.Drivers[1:] {
		assert.GreaterOrEqual(t, r.Drivers[i].Swing(), r.Drivers[i+1].Swing())
	}
	assert.Equal(t, "Surface of Figure", r.Drivers[0].Name)
	names := map[string]bool{}
	for _, d := range r.Drivers {
		names[d.Name] = true
		assert.LessOrEqual(t, d.Low, d.High, d.Name)
	}
	assert.True(t, names["Failed castings"])
	assert.False(t, names["Hours, Form"], "nobody works on the form")
	certain := figure()
	certain.Ranges = map[string]string{"metal": "1"}
	for _, d := range drawn(t, certain, bookWith(t), Ask{Trials: 100}).Drivers {
		if d.Key == MetalKey {
			assert.Zero(t, d.Swing(), "what is certain drives nothing")
		}
	}
}

func TestACommissionWithFaultsHasNoRange(t *testing.T) {
	s := bookWith(t)
	_, err := Draw(t.Context(), figure().With(0, "form.wall", "-1"), s, Ask{})
	assert.ErrorContains(t, err, "Figure, wall thickness “-1” is below zero")
	for _, n := range []int{-1, MostTrials + 1} {
		_, err = Draw(t.Context(), figure(), s, Ask{Trials: n})
		assert.ErrorContains(t, err, "are not a number of trials; give from 1 up to 1,000,000")
	}
}
