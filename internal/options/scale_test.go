package options

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
	"meltwright/internal/quantity"
)

func TestSizesOfWhatLivesAreNamedByLife(t *testing.T) {
	s := startingShop(t)
	for height, name := range map[string]string{
		"1.75 m": "Life size", "1.76 m": "Life size", "1.8 m": "1.8 m", "0.875 m": "Half life size", "58.3 cm": "One-third life size",
		"2.1875 m": "Life and a quarter", "3.5 m": "Twice life size", "0.3 m": "30 cm",
	} {
		assert.Equal(t, name, ScaleName(estimate.RuleOf(figure(height), s)), height)
	}
	dog := estimate.Commission{Pieces: []estimate.Piece{{Inputs: map[string]string{"form.known_by": "animal", "form.measured_height": "60 cm", "form.height": "90 cm"}}}}
	assert.Equal(t, "Life and a half", ScaleName(estimate.RuleOf(dog, s)))
	ball := estimate.Commission{Units: "inch-pound", Pieces: []estimate.Piece{{Inputs: map[string]string{"form.known_by": "solids", "form.measured_height": "60 in", "form.height": "90 in"}}}}
	assert.Equal(t, `7'6"`, ScaleName(estimate.RuleOf(ball, s)), "a ball has no life size")
}

func TestAHeightIsTypedOrSaidInTheTradesWords(t *testing.T) {
	s := startingShop(t)
	rule := estimate.RuleOf(figure("2 m"), s)
	for typed, kept := range map[string]string{
		" 1.2 m ": "1.2 m", "life and a quarter": "2.1875 m", "Half life size": "0.875 m", "6'2\"": "6'2\"",
	} {
		text, err := HeightOf(rule, typed)
		require.NoError(t, err, typed)
		assert.Equal(t, kept, text)
	}
	_, err := HeightOf(rule, "huge")
	assert.ErrorContains(t, err, "a word such as life and a half")
	_, err = HeightOf(rule, "-2 m")
	assert.ErrorContains(t, err, "below zero")

	ball := estimate.RuleOf(estimate.Commission{Pieces: []estimate.Piece{{Inputs: map[string]string{"form.known_by": "solids"}}}}, s)
	_, err = HeightOf(ball, "life size")
	assert.ErrorContains(t, err, "is said of people and animals")
}

func TestEveryWordIsReadAndGivesItsOwnName(t *testing.T) {
	for _, units := range []string{"metric", "inch-pound"} {
		c := figure("2 m")
		c.Units = units
		for _, scale := range Scales {
			text, err := HeightOf(estimate.RuleOf(c, startingShop(t)), scale.Name)
			require.NoError(t, err)
			d := c.With(0, "form.height", text)
			assert.Equal(t, scale.Name, ScaleName(estimate.RuleOf(d, startingShop(t))), text)
		}
	}
}

func TestAHeightIsTypedBackInItsUnits(t *testing.T) {
	assert.Equal(t, "2.1875 m", HeightText(2.1875, quantity.Metric))
	assert.Equal(t, `7'2 1/8"`, HeightText(2.1875, quantity.InchPound))
}
