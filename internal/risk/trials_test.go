package risk

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
	"meltwright/internal/shop"
)

type must interface {
	require.TestingT
	Helper()
}

func bookWith(t must, settings ...string) *shop.Shop {
	t.Helper()
	b := shop.Start()
	for i := 0; i < len(settings); i += 2 {
		b = b.With(settings[i], settings[i+1], "2026-01-01")
	}
	s, err := shop.Read(b)
	require.NoError(t, err)
	return s
}

// figure is a figure of 2.19 m with its dog, delivered and installed.
func figure() estimate.Commission {
	return estimate.Commission{
		Inputs: map[string]string{"pour.crucible": "Bilge no. 60", "delivery.distance": "140 km", "price.fee": "a share of the price"},
		Pieces: []estimate.Piece{
			{Name: "Figure", Inputs: map[string]string{"form.dress": "coat and boots", "form.height": "2.19 m", "base.plinth": "block", "base.footing": "by us"}},
			{Name: "Dog", Inputs: map[string]string{"form.known_by": "animal", "form.animal_mass": "32 kg", "form.measured_height": "0.62 m"}},
		},
	}
}

// sections is a piece of so many sections.
func sections(n string) estimate.Commission {
	return estimate.Commission{Pieces: []estimate.Piece{{Name: "Torso", Inputs: map[string]string{"form.known_by": "typed area", "form.area": "1 m²", "form.sections": n}}}}
}

func trialsOf(t must, c estimate.Commission, s *shop.Shop, a Ask) *Trials {
	t.Helper()
	out, err := NewTrials(c, s, a)
	require.NoError(t, err)
	return out
}

// ranks gives the place of each number among all.
func ranks(x []float64) []float64 {
	order := make([]int, len(x))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Compare(x[a], x[b]) })
	out := make([]float64, len(x))
	for place, i := range order {
		out[i] = float64(place)
	}
	return out
}

func correlation(x, y []float64) float64 {
	mx, my := mean(x), mean(y)
	xy, xx, yy := 0.0, 0.0, 0.0
	for i := range x {
		xy += (x[i] - mx) * (y[i] - my)
		xx += (x[i] - mx) * (x[i] - mx)
		yy += (y[i] - my) * (y[i] - my)
	}
	return xy / math.Sqrt(xx*yy)
}

func mean(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum / float64(len(x))
}

// Under a Gaussian copula of correlation ρ, rank correlation is 6/π · asin(ρ/2)
// (Kruskal, Journal of the American Statistical Association 53, 1958).
func TestHoursOfOneShopMoveTogetherAsFarAsStated(t *testing.T) {
	const n = 20000
	wax, metal := 3, 7 // in estimate.Stages
	require.Equal(t, "wax", estimate.Stages[wax].ID)
	require.Equal(t, "metalwork", estimate.Stages[metal].ID)
	for _, rho := range []string{"0 %", "60 %", "100 %"} {
		s := bookWith(t, "range.hours_together", rho)
		tr := trialsOf(t, figure(), s, Ask{Trials: n})
		var a, b, area []float64
		v := estimate.Still(2)
		for i := range n {
			tr.Vary(i, &v)
			a, b, area = append(a, v.Hours[wax]), append(b, v.Hours[metal]), append(area, v.Area[0])
		}
		want := 6 / math.Pi * math.Asin(s.Num(shop.HoursCorrelation)/2)
		assert.InDelta(t, want, correlation(ranks(a), ranks(b)), 4/math.Sqrt(n), rho)
		assert.InDelta(t, 0, correlation(ranks(a), ranks(area)), 4/math.Sqrt(n), "hours and surface are drawn apart")
		assert.InDelta(t, Points{0.85, 1, 1.4}.Mean(), mean(a), 4*0.1/math.Sqrt(n))
	}
}

// A geometric number of failures has mean (1−y)/y and variance (1−y)/y².
func TestFailuresAreSumsOfGeometricNumbers(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for _, y := range []float64{0.5, 0.8, 0.95} {
		const n, trials = 11, 40000
		none, sum := 0.0, 0.0
		for range trials {
			k := failures(rng, n, y)
			sum += float64(k)
			if k == 0 {
				none++
			}
		}
		p := math.Pow(y, n)
		assert.InDelta(t, p, none/trials, 4*math.Sqrt(p*(1-p)/trials)+1e-9, "all good: yⁿ")
		assert.InDelta(t, n*(1-y)/y, sum/trials, 4*math.Sqrt(n*(1-y)/trials)/y, "n(1−y)/y")
	}
	assert.Zero(t, failures(rng, 1000, 1))
}

func TestATrialIsTheSameWhateverWasDrawnBefore(t *testing.T) {
	s := bookWith(t)
	a, b := trialsOf(t, figure(), s, Ask{Seed: 9}), trialsOf(t, figure(), s, Ask{Seed: 9, Trials: 5})
	v, w := estimate.Still(2), estimate.Still(2)
	for i := range 20 {
		a.Vary(i, &v)
	}
	a.Vary(3, &v)
	b.Vary(3, &w)
	assert.Equal(t, w, v)
	assert.EqualValues(t, 9, b.Seed())
	assert.Equal(t, 5, b.Count())
}

// The trials that a date is drawn from are those of the price, to the cent.
func TestVaryGivesTheTrialsThatArePriced(t *testing.T) {
	tr := trialsOf(t, figure(), bookWith(t), Ask{Trials: 200})
	priced, err := tr.all(t.Context())
	require.NoError(t, err)
	v := estimate.Still(2)
	for i := range priced {
		tr.Vary(i, &v)
		require.Equal(t, priced[i], tr.model.Try(&v))
	}
}

// Neighbouring trials have nothing to do with each other.
func TestNeighboursAreIndependent(t *testing.T) {
	const n = 20000
	tr := trialsOf(t, figure(), bookWith(t), Ask{Trials: n})
	var area []float64
	v := estimate.Still(2)
	for i := range n {
		tr.Vary(i, &v)
		area = append(area, v.Area[0])
	}
	for lag := 1; lag < 5; lag++ {
		assert.InDelta(t, 0, correlation(area[lag:], area[:n-lag]), 4/math.Sqrt(n), "lag %d", lag)
	}
}
