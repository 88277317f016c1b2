package arch

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTheTopOfTheRepositoryHoldsNothingElse(t *testing.T) {
	for _, name := range strangersAtTop(committed(t)) {
		t.Errorf("%s lies at the top of the repository; internal/arch/rooms.go says what may", name)
	}
}

func TestAStrangerAtTheTopIsNamed(t *testing.T) {
	assert.Equal(t, []string{"docs", "notes.txt"},
		strangersAtTop([]string{".ci/run", ".gitignore", "cmd/task/main.go", "docs/a.md", "docs/b.md", "go.mod", "notes.txt"}))
}

func strangersAtTop(files []string) []string {
	var strangers []string
	for _, file := range files {
		name, _, _ := strings.Cut(file, "/")
		if !strings.HasPrefix(name, ".") && !slices.Contains(topLevel, name) && !slices.Contains(strangers, name) {
			strangers = append(strangers, name)
		}
	}
	return strangers
}

// betraying is what ties a text to one machine or one registry. The words are
// put together here, so that this file does not hold them.
var betraying = regexp.MustCompile(strings.Join([]string{
	"/wo" + "rk/(main|shared|[.]library)",
	"/ro" + "ot/",
	"/tmp" + "/[a-z]{1,2}/",
	"/ho" + "me/[a-z]",
	"(pro" + "xy|sum)[.]gol" + "ang[.]org",
	"(deb|security|snapshot)[.]deb" + "ian[.]org",
	"regis" + "try[.]npm" + "js[.]org",
	"//(pro" + "xy|deb|regis" + "try)[.][a-z]+[.](org|com)",
}, "|"))

func TestNoCommittedTextNamesAMachinesFolderOrARegistry(t *testing.T) {
	for _, file := range committed(t) {
		text, err := os.ReadFile(filepath.Join(top, file))
		if os.IsNotExist(err) {
			continue // removed, and not yet committed
		}
		require.NoError(t, err)
		if isText(text) {
			assert.Empty(t, betraying.FindString(string(text)), file)
		}
	}
}

func TestAMachinesFolderIsFound(t *testing.T) {
	for _, words := range [][]string{
		{"/wo", "rk/main/go.mod"},
		{"/ro", "ot/go/pkg"},
		{"https://pro", "xy.gol", "ang.org,direct"},
		{"http://deb.deb", "ian.org/debian"},
		{"https://regis", "try.npm", "js.org/"},
	} {
		assert.NotEmpty(t, betraying.FindString(strings.Join(words, "")))
	}
	assert.Empty(t, betraying.FindString("the root of the work; work/main; https://www.debian.org/"))
}

// isText is true for a file that git would show as text: no zero byte near its start.
func isText(content []byte) bool {
	return !bytes.ContainsRune(content[:min(len(content), 8000)], 0)
}
