//go:build unix

package mesh

import (
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAPipeIsNotWaitedFor(t *testing.T) {
	folder := t.TempDir()
	require.NoError(t, syscall.Mkfifo(filepath.Join(folder, "pipe"), 0o600))
	_, _, err := ReadFile(t.Context(), filepath.Join(folder, "pipe"), nil)
	assert.EqualError(t, err, "Scan file pipe is not a file; give the path of a scan that can be opened")
	_, _, _, err = openBeside(folder, "pipe")
	assert.Error(t, err)
}
