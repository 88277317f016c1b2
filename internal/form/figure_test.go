package form

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/quantity"
)

// The formulas as published; the values are their own arithmetic to four
// places.
func TestFourFormulasGiveTheSurfaceOfFiveBodies(t *testing.T) {
	bodies := []struct{ cm, kg float64 }{{170, 70}, {175, 75}, {180, 80}, {160, 60}, {120, 22}}
	for name, want := range map[string][5]float64{
		"Du Bois":      {1.8097, 1.9031, 1.9964, 1.6221, 0.8596}, // Du Bois & Du Bois, Arch Intern Med 17:863–871, 1916
		"Mosteller":    {1.8181, 1.9094, 2.0000, 1.6330, 0.8563}, // NEJM 317:1098, 1987
		"Haycock":      {1.8257, 1.9166, 2.0066, 1.6405, 0.8533}, // J Pediatr 93:62–66, 1978
		"Gehan–George": {1.8313, 1.9208, 2.0095, 1.6489, 0.8714}, // Cancer Chemother Rep 54, 1970, from memory
	} {
		f, ok := FormulaNamed(name)
		require.True(t, ok)
		assert.NotEmpty(t, f.Source)
		for i, b := range bodies {
			got := f.Area(quantity.Length(b.cm/100), quantity.Mass(b.kg))
			assert.InDelta(t, want[i], float64(got), 0.00005, "%s of %v cm and %v kg", name, b.cm, b.kg)
		}
	}
	_, ok := FormulaNamed("nobody's")
	assert.False(t, ok)
}

// Derived: the four agree on grown bodies to two per cent or so.
func TestTheFourFormulasAgreeOnGrownBodies(t *testing.T) {
	for _, f := range Formulas {
		assert.InEpsilon(t, 1.91, float64(f.Area(1.75, 75)), 0.01, f.Name)
	}
}

// Derived: A ≈ 0.62 H² of a nude body, at any size it is made: Du Bois' powers
// add to just two for the same body grown in all directions.
func TestANudeSurfaceIsSixtyTwoHundredthsOfTheHeightSquared(t *testing.T) {
	for h := 0.25; h <= 4; h *= 2 {
		kg := 75 * math.Pow(h/1.75, 3)
		area := Formulas[0].Area(quantity.Length(h), quantity.Mass(kg))
		assert.InEpsilon(t, 0.62*h*h, float64(area), 0.005, "%.2f m", h)
	}
}

// Derived: 175 cm and 75 kg, nude, 3/16 in, 8.3593 g/cm³; and the same at 1¼.
func TestANudeLifeSizeFigureHasSeventySixKilosOfWall(t *testing.T) {
	const wall, rho = 3.0 / 16 * 0.0254, 8359.3
	nude := Surface{Outside: Formulas[0].Area(1.75, 75)}
	for scale, want := range map[float64][2]float64{1: {1.9031, 75.77}, 1.25: {2.9736, 118.4}} {
		z := Sized{nude, scale}
		metal, _ := z.Metal(wall)
		assert.InDelta(t, want[0], float64(z.Area()), 0.0001, "m² at %v", scale)
		assert.InDelta(t, want[1], float64(metal)*rho, 0.05, "kg at %v", scale)
	}
	metal, _ := Sized{nude, 1}.Metal(wall)
	assert.InDelta(t, 167.0, float64(metal)*rho/0.45359237, 0.05, "lb")
}

// Wallace 1951, from memory: the rule leaves one part in a hundred.
func TestRuleOfNinesAddsToNinetyNineParts(t *testing.T) {
	sum := 0.0
	for _, s := range Nines {
		sum += s.Part
	}
	assert.InDelta(t, 0.99, sum, 1e-12)
}

// Meeh 1879, from memory: dog 0.101, m² for kg^⅔.
func TestMeehsRuleGrowsWithTheTwoThirdsPowerOfTheMass(t *testing.T) {
	assert.InDelta(t, 0.9751, float64(Meeh(0.101, 30)), 0.0001, "a dog of 30 kg")
	assert.InDelta(t, 4*float64(Meeh(0.1, 50)), float64(Meeh(0.1, 400)), 1e-12, "eight times the mass")
	assert.Zero(t, Meeh(0.1, 0))
}

// The thicknesses are from memory.
func TestThinPartsCastSolid(t *testing.T) {
	mm := func(v float64) quantity.Length { return quantity.Length(v / 1000) }
	assert.Empty(t, SolidLimbs(1.75, mm(4.76)), "life size, 3/16 in: even the fingers are hollow")
	assert.Equal(t, []string{"fingers"}, SolidLimbs(1.75, mm(10)))
	assert.Equal(t, []string{"fingers", "wrists", "ankles"}, SolidLimbs(0.24, mm(5)), "a statuette of 24 cm")
	for _, l := range Limbs {
		assert.Contains(t, SolidLimbs(0.1, mm(5)), l.Name, fmt.Sprintf("of 10 cm the %s are solid", l.Name))
	}
}
