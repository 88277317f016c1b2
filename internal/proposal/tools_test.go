package proposal

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"meltwright/internal/reference"
)

// needTool gives the path of a reference program or file.
var needTool = reference.Tool

// kept writes data into a file of the test's own.
func kept(t testing.TB, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(path, data, 0o600))
	return path
}

// told runs a program and gives what it prints; the test ends if it fails.
func told(t testing.TB, tool string, args ...string) string {
	t.Helper()
	out, err := exec.Command(tool, args...).CombinedOutput()
	require.NoError(t, err, "%s %v: %s", tool, args, out)
	return string(out)
}

// textOf is the text of a PDF as poppler reads it.
func textOf(t testing.TB, pdf []byte, options ...string) string {
	t.Helper()
	return told(t, needTool(t, "pdftotext"), append(options, kept(t, "paper.pdf", pdf), "-")...)
}
