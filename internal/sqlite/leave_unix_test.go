//go:build unix

package sqlite

import (
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// nobody is a user without any leave. An administrator's tests run a saver as
// that, because an administrator may write whatever a file says.
const nobody = 65534

func TestAFileWithoutLeaveToWriteSaysSoWhenItIsOpened(t *testing.T) {
	folder, err := os.MkdirTemp("", "meltwright-leave-")
	require.NoError(t, err)
	t.Cleanup(func() { os.RemoveAll(folder) })
	require.NoError(t, os.Chmod(folder, 0o777))
	path, program := filepath.Join(folder, "quotes.db"), filepath.Join(folder, "saver")
	s, err := Open(t.Context(), path)
	require.NoError(t, err)
	require.NoError(t, s.Close())
	require.NoError(t, os.Chmod(path, 0o444))
	require.NoError(t, copyFile(os.Args[0], program))
	require.NoError(t, os.Chmod(program, 0o755))

	c := exec.Command(program)
	c.Dir = folder
	c.Env = []string{saverFile + "=" + path}
	if os.Getuid() == 0 {
		c.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
	}
	said, err := c.CombinedOutput()
	require.Error(t, err)
	assert.Contains(t, string(said), "cannot be written to; open it to read only")
}
