package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// runGo runs go test -json on a module made of the given files, and reads it.
func runGo(t *testing.T, files map[string]string) (tally, string, string, string) {
	t.Helper()
	h := smallHouse(t, files)
	events, _ := h.read(nil, "go", "test", "-json", "-vet=off", "./...")
	var details, results, watched bytes.Buffer
	r := report{details: &details, results: &results, watch: func(s string) { watched.WriteString(s) }}
	require.NoError(t, r.read(strings.NewReader(events)))
	return r.tally, details.String(), results.String(), watched.String()
}

// smallHouse is a checkout with the given files and a go.mod.
func smallHouse(t *testing.T, files map[string]string) house {
	t.Helper()
	root := t.TempDir()
	for path, text := range files {
		path = filepath.Join(root, path)
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	}
	require.NoError(t, os.WriteFile(filepath.Join(root, "go.mod"), []byte("module meltwright\n\ngo 1.26\n"), 0o644))
	return house{root: root, out: new(bytes.Buffer)}
}

func testFile(body string) string {
	return "package p\n\nimport \"testing\"\n\n" + body
}

func TestPassedTestsAreCountedAndKeptQuiet(t *testing.T) {
	counted, details, results, watched := runGo(t, map[string]string{
		"a/a_test.go": testFile(`
func TestOne(t *testing.T) { t.Log("a word in passing") }
func TestTwo(t *testing.T) { t.Run("inner", func(*testing.T) {}) }`),
		"b/b.go": "package b\n",
	})
	assert.Equal(t, tally{passed: 3}, counted)
	assert.Empty(t, details)
	assert.Regexp(t, `^ok  \tmeltwright/a\t[0-9.]+s\n$`, results)
	assert.Contains(t, watched, "a word in passing")
}

func TestAFailedTestShowsAllThatItPrinted(t *testing.T) {
	counted, details, results, _ := runGo(t, map[string]string{
		"a/a_test.go": testFile(`
func TestGood(t *testing.T) { t.Log("of no interest") }
func TestBad(t *testing.T)  { t.Error("41.7 is not 41.8") }
func TestLeft(t *testing.T) { t.SkipNow() }`),
	})
	assert.Equal(t, tally{passed: 1, failed: 1, skipped: 1, skips: []string{"meltwright/a TestLeft"}}, counted)
	assert.Contains(t, details, "41.7 is not 41.8")
	assert.Contains(t, details, "--- FAIL: TestBad")
	assert.NotContains(t, details, "of no interest")
	assert.Regexp(t, `^FAIL\tmeltwright/a\t[0-9.]+s\n$`, results)
}

func TestAPackageThatDoesNotBuildCountsAsOneFailure(t *testing.T) {
	counted, details, results, _ := runGo(t, map[string]string{
		"a/a_test.go": testFile("func TestOne(t *testing.T) { undefinedName() }"),
	})
	assert.Equal(t, tally{failed: 1}, counted)
	assert.Contains(t, details, "undefined: undefinedName")
	assert.Equal(t, "FAIL\tmeltwright/a [build failed]\n", results)
}

func TestAPanicOutsideAnyTestIsShownAndCounted(t *testing.T) {
	counted, details, results, _ := runGo(t, map[string]string{
		"a/a_test.go": testFile(`func TestMain(*testing.M) { panic("before any test") }`),
	})
	assert.Equal(t, tally{failed: 1}, counted)
	assert.Contains(t, details, "before any test")
	assert.Contains(t, results, "FAIL\tmeltwright/a")
}

func TestATestThatNeverEndsIsShown(t *testing.T) {
	var lines strings.Builder
	for _, e := range []event{
		{Action: "run", Package: "p", Test: "TestLong"},
		{Action: "output", Package: "p", Test: "TestLong", Output: "pouring\n"},
		{Action: "output", Package: "p", Output: "FAIL\tp\t600s\n"},
		{Action: "fail", Package: "p"},
	} {
		line, err := json.Marshal(e)
		require.NoError(t, err)
		lines.Write(append(line, '\n'))
	}
	var details, results bytes.Buffer
	r := report{details: &details, results: &results}
	require.NoError(t, r.read(strings.NewReader(lines.String())))
	assert.Equal(t, 1, r.failed)
	assert.Equal(t, "pouring\n", details.String())
}

func TestALineThatIsNoEventIsPassedOn(t *testing.T) {
	var details bytes.Buffer
	r := report{details: &details}
	require.NoError(t, r.read(strings.NewReader("go: something is odd\n")))
	assert.Equal(t, "go: something is odd\n", details.String())
}

func TestTwoRunsAddUp(t *testing.T) {
	a := tally{passed: 2, failed: 1, skipped: 1, skips: []string{"a"}}
	b := tally{passed: 3, skipped: 1, skips: []string{"b"}}
	assert.Equal(t, tally{5, 1, 2, []string{"a", "b"}}, a.add(b))
}
