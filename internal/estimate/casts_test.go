package estimate_test

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
)

// Nobody is quicker at the first cast for having many to come: it costs what it
// costs where nothing is saved, and the others cost less than it does.
func TestTheFirstCastOfAnEditionSavesNothing(t *testing.T) {
	edition := func(casts int, repeat string) estimate.PieceResult {
		e, err := estimate.Of(estimate.Commission{Pieces: []estimate.Piece{{Name: "Hare", Inputs: texts{
			"form.known_by": "typed area", "form.area": "0.35 m²", "form.casts": strconv.Itoa(casts), "form.repeat": repeat,
		}}}}, theShop(t))
		require.NoError(t, err)
		return e.Pieces[0]
	}
	plain := edition(12, "100 %")
	assert.InDelta(t, float64(plain.NextCast), float64(plain.PerCast)/12, 1)
	last := plain.NextCast
	for _, repeat := range []string{"95 %", "90 %", "80 %"} {
		p := edition(12, repeat)
		assert.InDelta(t, float64(plain.FirstCast), float64(p.FirstCast), 0.001*float64(plain.FirstCast), "at %s: but for the rounding of hours", repeat)
		assert.Less(t, p.NextCast, last, "at %s", repeat)
		assert.Equal(t, p.Once+p.PerCast, p.FirstCast+11*p.NextCast)
		last = p.NextCast
	}
	// The second of two on an 80 % curve takes 80 % of the first's hours.
	two := edition(2, "80 %")
	assert.Less(t, float64(two.NextCast), float64(two.FirstCast-two.Once))
	assert.Greater(t, float64(two.NextCast), 0.8*float64(two.FirstCast-two.Once), "its metal costs the same")
}
