package desk_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/mesh"
)

func TestAScansFileIsKeptWithItsQuoteAndWrittenOutAgain(t *testing.T) {
	d := foundry(t)
	s, err := d.Create(t.Context())
	require.NoError(t, err)
	id := s.Quote().ID
	data := []byte("solid maquette")
	path := filepath.Join(t.TempDir(), "maquette.stl")
	require.NoError(t, os.WriteFile(path, data, 0o600))
	sum := sha256.Sum256(data)
	k := &mesh.Scan{File: "maquette.stl", SHA256: hex.EncodeToString(sum[:])}

	require.NoError(t, d.KeepScanFile(t.Context(), id, k, path))
	require.NoError(t, os.Remove(path), "nothing needs it there any more")
	list, err := d.KeptScanFiles(t.Context(), id)
	require.NoError(t, err)
	require.Len(t, list, 1)
	assert.Equal(t, "maquette.stl", list[0].Name)
	var back bytes.Buffer
	require.NoError(t, d.WriteScanFile(t.Context(), id, k.SHA256, &back))
	assert.Equal(t, data, back.Bytes())

	err = d.KeepScanFile(t.Context(), id, k, path)
	require.Error(t, err)
	assert.Contains(t, err.Error(), "open it again from where it lies now")
	require.NoError(t, d.DropScanFile(t.Context(), id, k.SHA256))
	list, err = d.KeptScanFiles(t.Context(), id)
	require.NoError(t, err)
	assert.Empty(t, list)
}
