package main

import (
	"bytes"
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestASkippedTestFailsWhereEveryReferenceIsThere(t *testing.T) {
	ran := tally{passed: 3, skipped: 1, skips: []string{"meltwright/internal/mesh TestSolid"}}
	assert.ErrorContains(t, judge(ran, nil, true), "meltwright/internal/mesh TestSolid")
	assert.NoError(t, judge(ran, nil, false))
}

func TestARunIsJudgedByItsTestsAndItsExit(t *testing.T) {
	assert.NoError(t, judge(tally{passed: 3}, nil, true))
	assert.ErrorIs(t, judge(tally{passed: 3, failed: 2}, errors.New("exit status 1"), true), errTests)
	assert.ErrorContains(t, judge(tally{passed: 3}, errors.New("exit status 1"), true), "exit status 1")
	assert.ErrorContains(t, judge(tally{}, nil, false), "no test ran")
}

func TestTheTestsAreToldWhatIsRequired(t *testing.T) {
	assert.Contains(t, testSettings("x,y", true), "MELTWRIGHT_TOOLS=required")
	assert.NotContains(t, testSettings("x,y", false), "MELTWRIGHT_TOOLS=required")
	assert.Contains(t, testSettings("x,y", false), "MELTWRIGHT_TAGS=x,y")
	assert.Contains(t, testSettings("x,y", false), "LANG=en_US.UTF-8")
}

func TestTestsHearTheirSettings(t *testing.T) {
	h := smallHouse(t, map[string]string{"a/a_test.go": `package a

import ("os"; "testing")

func TestHeard(t *testing.T) {
	if os.Getenv("MELTWRIGHT_TOOLS") != "required" || os.Getenv("MELTWRIGHT_TAGS") != plain { t.Fail() }
}
`, "a/tag.go": "//go:build no_emoji\n\npackage a\n\nconst plain = \"no_emoji,no_metadata\"\n"})
	r := testRun{house: h, ci: true}
	require.NoError(t, r.tests(report{details: h.out, results: &r.last}, plainTags, "./..."), h.out)
	assert.Equal(t, tally{passed: 1}, r.tally)
}

// The lines are what the toolkit printed when a goroutine set a label's text.
func TestACallFromTheWrongGoroutineFailsTheRunThoughItsTestsPass(t *testing.T) {
	h := smallHouse(t, map[string]string{"cmd/meltwright/w_test.go": testFile(`
func TestWindow(t *testing.T) {
	t.Log("2026/01/02 03:04:05 *** Error in Fyne call thread, this should have been called in fyne.Do[AndWait] ***")
	t.Log("2026/01/02 03:04:05   From: /src/cmd/meltwright/main.go:22")
}`)})
	r := testRun{house: h}
	err := r.windowThread()
	assert.ErrorContains(t, err, "1 calls from the wrong goroutine:\n/src/cmd/meltwright/main.go:22")
	assert.NotErrorIs(t, err, errTests, "counts beside the tests")
	assert.Contains(t, r.last.String(), "ok  \tmeltwright/cmd/meltwright")
}

func TestAQuietWindowPasses(t *testing.T) {
	h := smallHouse(t, map[string]string{"cmd/meltwright/w_test.go": testFile(`func TestWindow(t *testing.T) {}`)})
	r := testRun{house: h}
	assert.NoError(t, r.windowThread())
}

func TestFilesThatAreNotFormattedAreNamed(t *testing.T) {
	h := smallHouse(t, map[string]string{
		"cmd/a/a.go": "package a\nvar  x = 1\n", "internal/b/b.go": "package b\n",
	})
	r := testRun{house: h}
	err := r.formatted()
	require.Error(t, err)
	assert.Contains(t, err.Error(), "cmd/a/a.go\n")
	assert.NotContains(t, err.Error(), "b.go")
}

func TestTheStepsEndWithTheTests(t *testing.T) {
	r := testRun{house: house{out: new(bytes.Buffer)}}
	var names []string
	for _, s := range r.steps() {
		names = append(names, s.name)
	}
	assert.Equal(t, []string{"packages", "gofmt", "go vet", "build meltwright-cli", "build meltwright", "staticcheck", "gofumpt", "go test", "window thread"}, names)
}
