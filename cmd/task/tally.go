package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
)

// event is one line of go test -json. Source: go doc test2json.
type event struct {
	Action, Package, Test, Output string
}

// tally counts the tests of a run, subtests too.
type tally struct {
	passed, failed, skipped int
	skips                   []string // "package Test"
}

// add puts two runs together.
func (t tally) add(u tally) tally {
	return tally{t.passed + u.passed, t.failed + u.failed, t.skipped + u.skipped, append(slices.Clone(t.skips), u.skips...)}
}

// report reads the events of a run and prints what a person wants of them:
// all that a failed test printed, and each package's closing line.
type report struct {
	details io.Writer    // what failed tests printed, as they fail
	results io.Writer    // "ok" and "FAIL" lines, a package a line
	watch   func(string) // sees every piece of output; may be nil

	tally
	printed map[string]map[string]string // package → test → output so far
	broken  map[string]int               // package → its failed tests
}

// read follows the run to its end.
func (r *report) read(from io.Reader) error {
	r.printed, r.broken = map[string]map[string]string{}, map[string]int{}
	lines := bufio.NewReader(from)
	for {
		line, err := lines.ReadString('\n')
		r.line(line)
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return err
		}
	}
}

func (r *report) line(line string) {
	var e event
	if json.Unmarshal([]byte(line), &e) != nil {
		fmt.Fprint(r.details, line)
		return
	}
	if r.watch != nil && e.Output != "" {
		r.watch(e.Output)
	}
	switch {
	case e.Action == "build-output":
		fmt.Fprint(r.details, e.Output)
	case e.Action == "output" && e.Test == "" && isResult(e.Output):
		fmt.Fprint(r.results, e.Output)
	case e.Action == "output":
		r.keep(e)
	case e.Test == "":
		r.packageEnds(e)
	default:
		r.testEnds(e)
	}
}

// isResult is true for the line that closes a package with tests.
func isResult(output string) bool {
	return strings.HasPrefix(output, "ok  \t") || strings.HasPrefix(output, "FAIL\t")
}

func (r *report) keep(e event) {
	if r.printed[e.Package] == nil {
		r.printed[e.Package] = map[string]string{}
	}
	r.printed[e.Package][e.Test] += e.Output
}

func (r *report) testEnds(e event) {
	switch e.Action {
	case "pass":
		r.passed++
	case "skip":
		r.skipped++
		r.skips = append(r.skips, e.Package+" "+e.Test)
	case "fail":
		r.failed++
		r.broken[e.Package]++
		fmt.Fprint(r.details, r.printed[e.Package][e.Test])
	default: // run, pause, cont: not an end
		return
	}
	delete(r.printed[e.Package], e.Test)
}

// packageEnds shows, for a package that failed, whatever no failed test has
// shown yet: a test that never came to an end, a panic, a failed build. One
// that failed without a failed test counts as one failure.
func (r *report) packageEnds(e event) {
	if e.Action == "fail" {
		if r.broken[e.Package] == 0 {
			r.failed++
		}
		rest := r.printed[e.Package]
		for _, test := range slices.Sorted(maps.Keys(rest)) {
			fmt.Fprint(r.details, rest[test])
		}
	}
	if e.Action == "fail" || e.Action == "pass" || e.Action == "skip" {
		delete(r.printed, e.Package)
	}
}
