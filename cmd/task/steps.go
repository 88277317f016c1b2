package main

import (
	"errors"
	"fmt"
	"time"
)

// step is one check, with the name it is told by.
type step struct {
	name  string
	run   func() error
	vital bool // without it the steps after it make no sense
}

// fault is a step that failed.
type fault struct {
	step string
	err  error
}

// errTests is the error of a step whose failures are counted test by test.
var errTests = errors.New("tests failed")

// take runs the steps in order, says how long each took and what went wrong,
// and gives those that failed. A step that fails does not stop the next, unless
// it was vital: somebody who mends one thing wants to hear of the others.
func (h house) take(steps []step, now func() time.Time) []fault {
	var faults []fault
	for _, s := range steps {
		h.say("\n== %s", s.name)
		began := now()
		err := s.run()
		took := now().Sub(began).Seconds()
		if err == nil {
			h.say("%s: %.1f s", s.name, took)
			continue
		}
		faults = append(faults, fault{s.name, err})
		h.say("%v\n%s: FAILED after %.1f s", err, s.name, took)
		if s.vital {
			break
		}
	}
	return faults
}

// closing is the last line of a test run. A failed step counts as one failure
// beside the failed tests, unless it failed because of those.
func closing(t tally, faults []fault) string {
	failed := t.failed
	for _, f := range faults {
		if !errors.Is(f.err, errTests) {
			failed++
		}
	}
	line := fmt.Sprintf("%d passed, %d failed", t.passed, failed)
	if t.skipped > 0 {
		line += fmt.Sprintf(", %d skipped", t.skipped)
	}
	return line
}
