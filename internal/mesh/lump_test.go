package mesh

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAnOpenBoxIsPlannedByFewerCellsThanItsMetalIsMeasuredBy(t *testing.T) {
	open := without(cube(1, 1), func(i int) bool { return i < 2 })
	w, err := MeasureWall(t.Context(), &Skin{Mesh: open}, nil, nil)
	require.NoError(t, err)
	assert.Greater(t, w.octree.cells(), plannedCells)
	assert.LessOrEqual(t, len(w.whole().cells), plannedCells)
	all := 0.0
	for _, s := range evaluate(t, w, level(0.5)).Sections {
		all += s.At(&w.Profile, 1, 0.005).Metal
	}
	assert.InEpsilon(t, w.Profile.Metal(1, 0.005), all, 1e-6)
}
