package sqlite

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/fault"
	"meltwright/internal/quote"
)

// maquette is a scan file of three million bytes.
func maquette() ([]byte, quote.ScanFile) {
	data := make([]byte, 3_000_000)
	chance := rand.New(rand.NewPCG(1, 2))
	for i := range data {
		data[i] = byte(chance.UintN(16))
	}
	sum := sha256.Sum256(data)
	return data, quote.ScanFile{SHA256: hex.EncodeToString(sum[:]), Name: "maquette.stl", Size: int64(len(data))}
}

func TestAScanFileComesBackAsItWas(t *testing.T) {
	s := newStore(t)
	q := saved(t, s, "Otter", at(1))
	data, f := maquette()
	require.NoError(t, s.KeepScanFile(t.Context(), q.ID, f, bytes.NewReader(data)))
	require.NoError(t, s.KeepScanFile(t.Context(), q.ID, f, bytes.NewReader(data)), "twice is once")
	list, err := s.KeptScanFiles(t.Context(), q.ID)
	require.NoError(t, err)
	assert.Equal(t, []quote.ScanFile{f}, list)
	var back bytes.Buffer
	require.NoError(t, s.WriteScanFile(t.Context(), q.ID, f.SHA256, &back))
	assert.True(t, bytes.Equal(data, back.Bytes()))
	var squeezed int
	require.NoError(t, s.db.QueryRow(`SELECT length(data) FROM scan_files`).Scan(&squeezed))
	assert.Less(t, squeezed, len(data)*3/4)

	require.NoError(t, s.DropScanFile(t.Context(), q.ID, f.SHA256))
	require.NoError(t, s.DropScanFile(t.Context(), q.ID, f.SHA256))
	assert.ErrorIs(t, s.WriteScanFile(t.Context(), q.ID, f.SHA256, &back), quote.ErrNotFound)
}

func TestAFileThatHasChangedSinceIsNotKept(t *testing.T) {
	s := newStore(t)
	q := saved(t, s, "Otter", at(1))
	data, f := maquette()
	data[7]++
	err := s.KeepScanFile(t.Context(), q.ID, f, bytes.NewReader(data))
	require.Error(t, err)
	assert.Contains(t, fault.All(err)[0].Error(), "is not the one that was measured any more")
	list, err := s.KeptScanFiles(t.Context(), q.ID)
	require.NoError(t, err)
	assert.Empty(t, list)
}

func TestAScanFileGoesWithItsQuoteAndWithNoOther(t *testing.T) {
	s := newStore(t)
	one, other := saved(t, s, "Otter", at(1)), saved(t, s, "Owl", at(2))
	data, f := maquette()
	for _, q := range []quote.Quote{one, other} {
		require.NoError(t, s.KeepScanFile(t.Context(), q.ID, f, bytes.NewReader(data)))
	}
	require.NoError(t, s.Delete(t.Context(), one.ID, at(3)))
	_, err := s.Empty(t.Context(), at(4))
	require.NoError(t, err)
	var n int
	require.NoError(t, s.db.QueryRow(`SELECT count(*) FROM scan_files`).Scan(&n))
	assert.Equal(t, 1, n)
	assert.Error(t, s.KeepScanFile(t.Context(), one.ID, f, bytes.NewReader(data)), "it is gone")
}

func TestADamagedScanFileIsToldAsSuch(t *testing.T) {
	s := newStore(t)
	q := saved(t, s, "Otter", at(1))
	data, f := maquette()
	require.NoError(t, s.KeepScanFile(t.Context(), q.ID, f, bytes.NewReader(data)))
	for _, harm := range []string{`substr(data, 1, 5000)`, `x'00'`, `(SELECT x'1f8b08000000000000ff010000ffff0000000000000000')`} {
		_, err := s.db.Exec(`UPDATE scan_files SET data = ` + harm)
		require.NoError(t, err)
		var back bytes.Buffer
		assert.ErrorIs(t, s.WriteScanFile(t.Context(), q.ID, f.SHA256, &back), quote.ErrDamaged)
	}
}
