package estimate

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// holds checks that a packing puts every section into one heat, and no heat over
// its crucible.
func holds(t failer, loads []Load, capacity float64, heats []Heat) {
	counts := map[int]int{}
	kg := map[int]float64{}
	for _, l := range loads {
		counts[l.Piece], kg[l.Piece] = l.Count, l.Kg
	}
	for _, h := range heats {
		sum := 0.0
		for _, s := range h.Sections {
			if s.Count < 1 {
				t.Fatalf("a heat for %d sections of piece %d", s.Count, s.Piece)
			}
			counts[s.Piece] -= s.Count
			sum += float64(s.Count) * kg[s.Piece]
		}
		if sum > capacity*(1+2e-9) || math.Abs(sum-h.Kg) > 1e-9*capacity || len(h.Sections) == 0 {
			t.Fatalf("a heat of %v kg, it says %v, of %v", sum, h.Kg, capacity)
		}
	}
	for piece, left := range counts {
		if left != 0 {
			t.Fatalf("%d sections of piece %d are left", left, piece)
		}
	}
}

// failer is what tests and rapid's both have.
type failer interface{ Fatalf(string, ...any) }

// anyLoads draws up to four kinds of sections for a crucible of 36 kg, some of
// them of equal parts of it, which a desk would pack without a rest.
func anyLoads(t *rapid.T, most int) []Load {
	kg := rapid.OneOf(rapid.Float64Range(0.1, 36), rapid.SampledFrom([]float64{36, 18, 12, 9, 7.2, 6, 4, 3.6, 24, 27, 36.0 / 7, 0.1}))
	var loads []Load
	for i := range rapid.IntRange(1, 4).Draw(t, "kinds") {
		loads = append(loads, Load{i, kg.Draw(t, "kg"), rapid.IntRange(1, most).Draw(t, "count")})
	}
	return loads
}

func TestEverySectionIsPouredFromOneHeatThatHoldsIt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		loads := anyLoads(t, 40)
		heats := packHeats(loads, 36)
		holds(t, loads, 36, heats)
		if least := fewest(loads, 36*(1+1e-9)); len(heats) < least {
			t.Fatalf("%d heats, and there cannot be fewer than %d", len(heats), least)
		}
	})
}

// D. S. Johnson, 1973: falling sizes take at most eleven ninths of the fewest
// heats and a hair; and the search never gives more than they do.
func TestTheFirstPackingIsWithinElevenNinthsOfTheFewest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		loads := anyLoads(t, 6)
		exact := packHeats(loads, 36)
		first := bestFit(falling(loads), 36*(1+1e-9))
		holds(t, loads, 36, first)
		if len(exact) > len(first) || 9*len(first) > 11*len(exact)+6 {
			t.Fatalf("first %d, fewest %d", len(first), len(exact))
		}
	})
}

func falling(loads []Load) []Load {
	out := append([]Load(nil), loads...)
	for i := range out {
		for k := i; k > 0 && out[k].Kg > out[k-1].Kg; k-- {
			out[k], out[k-1] = out[k-1], out[k]
		}
	}
	return out
}

// Sections alike are packed together; taken one by one they fill as many heats.
func TestSectionsAlikeArePackedAsIfOneByOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		loads := falling(anyLoads(t, 30))
		limit := 36 * (1 + 1e-9)
		var fill []float64
		for _, l := range loads {
			for range l.Count {
				best := -1
				for i, kg := range fill {
					if kg+l.Kg <= limit && (best < 0 || kg > fill[best]) {
						best = i
					}
				}
				if best < 0 {
					fill, best = append(fill, 0), len(fill)
				}
				fill[best] += l.Kg
			}
		}
		if got := bestFit(loads, limit); len(got) != len(fill) {
			t.Fatalf("%d heats, one by one %d", len(got), len(fill))
		}
	})
}

func TestSectionsThatFillACrucibleExactlyTakeNoHeatMore(t *testing.T) {
	for _, n := range []int{1, 2, 3, 7, 11, 13, 49, 1000} {
		assert.Len(t, packHeats([]Load{{0, 140.0 / float64(3*n), 3 * n}}, 140.0/3), 3, "%d parts of each heat", n)
	}
}

// An edition of ten thousand is packed as a figure is.
func TestAnEditionOfTenThousandIsPacked(t *testing.T) {
	loads := []Load{{0, 23.7, 60000}, {1, 11.1, 30000}, {2, 1.4, 9999}}
	heats := packHeats(loads, 36)
	holds(t, loads, 36, heats)
	assert.Len(t, heats, 60000)
}

// Where one more section lets fewer heats hold the whole, that is found.
func TestSmallerSectionsMayTakeFewerHeats(t *testing.T) {
	assert.Len(t, packHeats([]Load{{0, 20, 3}}, 36), 3, "60 kg in three")
	assert.Len(t, packHeats([]Load{{0, 15, 4}}, 36), 2, "60 kg in four")
}

func TestPackingIsRepeatable(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 50 {
		loads := []Load{{0, 1 + 30*r.Float64(), 1 + r.IntN(9)}, {1, 1 + 30*r.Float64(), 1 + r.IntN(9)}, {2, 1 + 30*r.Float64(), 1 + r.IntN(9)}}
		assert.Equal(t, packHeats(loads, 36), packHeats(loads, 36))
	}
}
