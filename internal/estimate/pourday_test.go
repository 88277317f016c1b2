package estimate_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
)

// A shop that melts 200 kg a pour day pours two sections of 70 kg on it, not two and
// a half; a section is not parted.
func TestAPourDayHoldsWholeSections(t *testing.T) {
	// Five sections of about 70 kg poured, one a heat.
	c := estimate.Commission{
		Inputs: texts{"pour.holds": "100 kg", "pour.fill": "80 %", "pour.weekly": "200 kg", "pour.loss": "0 %"},
		Pieces: []estimate.Piece{{Inputs: texts{"form.known_by": "typed area", "form.area": "4 m²", "form.sections": "5", "form.lugs": "80 kg"}}},
	}
	e, err := estimate.Of(c, theShop(t))
	require.NoError(t, err)
	require.Len(t, e.Heats, 5)
	assert.Less(t, float64(e.Charged), 400.0, "two days, were it cut like butter")
	assert.Equal(t, 3, e.PourDays)
	c.Inputs["pour.weekly"] = "50 kg"
	_, err = estimate.Of(c, theShop(t))
	assert.ErrorContains(t, err, "Metal a pour day “50 kg” is less than one section takes, 69.22 kg as charged; give more metal a pour day")
}
