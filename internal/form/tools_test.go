package form

import (
	"errors"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"meltwright/internal/reference"
)

// needTool gives the path of a reference program or file.
var needTool = reference.Tool

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
		reference.Missing(t, "python3-scipy", err)
	}
	require.NoError(t, err, errs.String())
	return strings.Fields(string(out))
}
