package form

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// needTool gives the path of a reference program. A machine without it cannot
// run the test; one that sets MELTWRIGHT_TOOLS=required says it has them all.
func needTool(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if filepath.IsAbs(name) {
		path = name
		_, err = os.Stat(name)
	}
	if err == nil {
		return path
	}
	missing(t, name, err)
	return ""
}

func missing(t *testing.T, name string, err error) {
	t.Helper()
	if os.Getenv("MELTWRIGHT_TOOLS") == "required" {
		t.Fatalf("this test needs %s: %v", name, err)
	}
	t.Skipf("%s is not installed", name)
}

// python runs a script with the system's Python, which is the one that Debian's
// SciPy belongs to, and gives the words it prints.
func python(t *testing.T, script, stdin string) []string {
	t.Helper()
	const noModule = 77
	guard := "import sys\ntry:\n import numpy, scipy\nexcept ImportError:\n sys.exit(77)\n"
	run := exec.Command(needTool(t, "/usr/bin/python3"), "-c", guard+script)
	run.Stdin = strings.NewReader(stdin)
	var errs strings.Builder
	run.Stderr = &errs
	out, err := run.Output()
	var exit *exec.ExitError
	if errors.As(err, &exit) && exit.ExitCode() == noModule {
		missing(t, "python3-scipy", err)
	}
	require.NoError(t, err, errs.String())
	return strings.Fields(string(out))
}
