// Package reference finds the programs and files from outside that tests hold
// the work against. Only tests import it.
//
// A machine without them cannot run those tests, and leaves them out; one that
// sets MELTWRIGHT_TOOLS=required says that it has them all, and there a missing
// one is a failure. Command task installs them (see its packages.go).
package reference

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// Tool gives the path of a program on the PATH, or of a program or file that is
// named by its whole path. With a probe, the program must do that without an
// error.
func Tool(t testing.TB, name string, probe ...string) string {
	t.Helper()
	path, err := find(name)
	if err == nil && len(probe) > 0 {
		err = exec.Command(path, probe...).Run()
	}
	if err != nil {
		Missing(t, strings.TrimSpace(name+" "+strings.Join(probe, " ")), err)
	}
	return path
}

func find(name string) (string, error) {
	if !filepath.IsAbs(name) {
		return exec.LookPath(name)
	}
	_, err := os.Stat(name)
	return name, err
}

// Missing ends a test that lacks what it needs: left out, or failed where all is
// said to be there.
func Missing(t testing.TB, what string, err error) {
	t.Helper()
	if os.Getenv("MELTWRIGHT_TOOLS") == "required" {
		t.Fatalf("this test needs %s: %v", what, err)
	}
	t.Skipf("%s is not here: %v", what, err)
}
