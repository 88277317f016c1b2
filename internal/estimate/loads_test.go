package estimate_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
	"meltwright/internal/mesh"
)

// A ball of 0.5 m cut a quarter of the way up is a cap and a larger rest: the
// skin of a cap is 2 π r h, so the metal is shared 1 to 3 (Archimedes).
func TestSectionsOfAPlanAreToldApartByTheirWeights(t *testing.T) {
	k := ballScan(t, mesh.Cut{Plane: mesh.Plane{At: mesh.Vec{0, 0, 0.125}, Normal: mesh.Vec{0, 0, 1}}})
	e, err := estimate.Of(scanned(k, map[string]string{"form.casts": "3", "form.wall": "2.5 mm", "form.max_section": "1 m2"}), startingShop(t))
	require.NoError(t, err)
	p := e.Pieces[0]
	require.Len(t, p.Loads, 2)
	small, large := min(p.Loads[0].Kg, p.Loads[1].Kg), max(p.Loads[0].Kg, p.Loads[1].Kg)
	assert.InEpsilon(t, float64(p.Poured), small+large, 1e-6)
	assert.InEpsilon(t, 3, large/small, 0.03)
	assert.Equal(t, [2]int{1, 1}, [2]int{p.Loads[0].Count, p.Loads[1].Count}, "of one cast")
	seen := map[float64]int{}
	for _, h := range e.Heats {
		for _, s := range h.Sections {
			seen[s.Kg] += s.Count
		}
	}
	assert.Equal(t, map[float64]int{small: 3, large: 3}, seen, "every cast's, in the heats")
}

func TestSectionsAlikeAreNotToldApart(t *testing.T) {
	e, err := estimate.Of(scanned(ballScan(t), nil), startingShop(t))
	require.NoError(t, err)
	for _, h := range e.Heats {
		for _, s := range h.Sections {
			assert.InEpsilon(t, float64(e.Pieces[0].SectionPour), s.Kg, 1e-9)
		}
	}
}
