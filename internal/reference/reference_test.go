package reference

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// ended is a test that notes how it was ended.
type ended struct {
	testing.TB
	how string
}

func (e *ended) Helper()                      {}
func (e *ended) Fatalf(form string, a ...any) { e.how += "failed: " + fmt.Sprintf(form, a...) }
func (e *ended) Skipf(form string, a ...any)  { e.how += "left out: " + fmt.Sprintf(form, a...) }

func TestAProgramIsFoundByItsNameAndAFileByItsPath(t *testing.T) {
	assert.Contains(t, Tool(t, "go", "version"), "go")
	file := filepath.Join(t.TempDir(), "figure.off")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	assert.Equal(t, file, Tool(t, file))
}

func TestWhatIsMissingLeavesATestOutAndFailsItWhereAllIsRequired(t *testing.T) {
	nowhere := filepath.Join(t.TempDir(), "none")
	for required, how := range map[string]string{"": "left out: ", "required": "failed: "} {
		t.Setenv("MELTWRIGHT_TOOLS", required)
		for name, probe := range map[string][]string{"no-such-program": nil, nowhere: nil, "go": {"no-such-command"}} {
			e := &ended{TB: t}
			Tool(e, name, probe...)
			assert.Contains(t, e.how, how, "%s on %s", name, runtime.GOOS)
			assert.Contains(t, e.how, name)
		}
	}
}
