package reference

import (
	"errors"
	"os/exec"
	"testing"
)

// Disk gives the folder of a small disk of its own, of a size such as "1m", which
// takes a Linux machine and its administrator. It goes when the test ends.
func Disk(t testing.TB, size string) string {
	t.Helper()
	folder := t.TempDir()
	mount, err := exec.LookPath("mount")
	if err == nil {
		var said []byte
		if said, err = exec.Command(mount, "-t", "tmpfs", "-o", "size="+size, "meltwright-test", folder).CombinedOutput(); err != nil {
			err = errors.New(string(said))
		}
	}
	if err != nil {
		Missing(t, "a disk of its own, a Linux machine and its administrator", err)
	}
	t.Cleanup(func() {
		if err := exec.Command("umount", "-l", folder).Run(); err != nil {
			t.Error(err)
		}
	})
	return folder
}
