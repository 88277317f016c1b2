package options

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"meltwright/internal/estimate"
	"meltwright/internal/money"
)

func TestAPieceIsDrawnAsItsNameAndItsFormSay(t *testing.T) {
	for want, p := range map[string]estimate.Piece{
		"standing": {Name: "Weir keeper"},
		"seated":   {Name: "Old man, seated"},
		"bust":     {Name: "Bust of a pilot"},
		"dog":      {Name: "Rex", Inputs: map[string]string{"form.known_by": "animal", "form.animal": "Dog"}},
		"cat":      {Name: "Kitten", Inputs: map[string]string{"form.known_by": "animal"}},
		"bird":     {Name: "A raven", Inputs: map[string]string{"form.known_by": "typed area"}},
		"striding": {Name: "Runner"},
		"horse":    {Name: "The pony", Inputs: map[string]string{"form.known_by": "animal", "form.animal": "Other animal"}},
		"block":    {Name: "Marker", Inputs: map[string]string{"form.known_by": "solids"}},
		"bench":    {Name: "A bench", Inputs: map[string]string{"form.known_by": "solids"}},
		"head":     {Name: "Head", Inputs: map[string]string{"form.known_by": "typed area"}},
	} {
		assert.Equal(t, want, Silhouette(p))
	}
	assert.Equal(t, "block", Silhouette(estimate.Piece{Name: "Fish", Inputs: map[string]string{"form.known_by": "animal", "form.animal": "Other animal"}}))
	assert.Equal(t, "standing", Silhouette(estimate.Piece{Name: "Catherine"}), "no cat")
}

func TestTicksAreRoundAndGoUpToTheTop(t *testing.T) {
	cad := money.Currency{Code: "CAD", Digits: 2}
	assert.Equal(t, []money.Amount{0, 5_000_000, 10_000_000, 15_000_000}, Ticks(cad, 17_140_000, 5))
	assert.Equal(t, []money.Amount{0, 100, 200, 300}, Ticks(cad, 300, 4))
	yen := money.Currency{Code: "JPY"}
	assert.Equal(t, []money.Amount{0, 5_000_000, 10_000_000}, Ticks(yen, 11_000_000, 4))
	rapid.Check(t, func(t *rapid.T) {
		most := money.Amount(rapid.Int64Range(1, 1e14).Draw(t, "most"))
		n := rapid.IntRange(2, 9).Draw(t, "n")
		ticks := Ticks(cad, most, n)
		last := ticks[len(ticks)-1]
		require.LessOrEqual(t, last, most)
		require.LessOrEqual(t, len(ticks), n+1)
		if len(ticks) > 1 {
			require.Greater(t, last+ticks[1], most, "no tick is missing at the top")
		}
	})
}
