package risk

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"meltwright/internal/money"
)

func TestARangeIsToldInWordsAClientCanRead(t *testing.T) {
	cad := money.Currency{Code: "CAD", Digits: 2}
	r := Range{Price: Spread{P10: 11820040, P90: 13949960}, LossChance: 0.123, ContingencyFor80: 0.094, Castings: 11, RecastChance: 0.431, Recasts: 0.579, RecastCost: 124000}
	assert.Equal(t, "Eight in ten within $118,200 to $139,500.", r.Words(cad, "en-CA"))
	assert.Equal(t, "At the quoted price, 12 in 100 that the work costs more than it brings. A contingency of 9 % would be enough eight times in ten.", r.LossWords())
	assert.Equal(t, "43 in 100 that at least one of 11 castings is made again; 0.6 to be expected, for $1,240 of direct cost.", r.RecastWords(cad, "en-CA"))
	assert.Equal(t, "No casting is expected to fail.", Range{}.RecastWords(cad, "en-CA"))
}

func TestAChanceIsNeverSaidToBeNoneOrCertainWhenItIsNot(t *testing.T) {
	for p, words := range map[float64]string{0: "0 in 100", 0.001: "less than 1 in 100", 0.005: "1 in 100", 0.5: "50 in 100", 0.994: "99 in 100", 0.999: "more than 99 in 100", 1: "100 in 100"} {
		assert.Equal(t, words, inHundred(p))
	}
}
