package desk

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/estimate"
	"meltwright/internal/mesh"
)

func TestACommissionFileTakesBackTheScanThatItWasWrittenWith(t *testing.T) {
	k := &mesh.Scan{
		File: "heron.stl", Stance: mesh.Stance{Unit: mesh.Millimetre, Up: mesh.ZUp}, Picture: []byte{137, 80, 78, 71},
		Balance: mesh.Balance{Tip: 12, Inside: 0.1},
	}
	c := estimate.Commission{Title: "Heron", Pieces: []estimate.Piece{{Name: "Heron", Scan: k}}}
	var file bytes.Buffer
	require.NoError(t, EncodeCommission(&file, c, nil))
	again, _, err := DecodeCommission(&file)
	require.NoError(t, err)
	assert.Equal(t, k, again.Pieces[0].Scan)
}

func TestAPictureThatIsNoTextIsTold(t *testing.T) {
	_, _, err := DecodeCommission(bytes.NewBufferString(`{"meltwright": "commission 1", "pieces": [{"scan": {"picture": true}}]}`))
	assert.ErrorContains(t, err, "give text in base 64, between quotes")
}
