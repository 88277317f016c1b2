package main

import (
	"bytes"
	"errors"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// twoSecondsEach is a clock that moves two seconds at every look.
func twoSecondsEach() func() time.Time {
	at := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	return func() time.Time { at = at.Add(2 * time.Second); return at }
}

func TestEveryStepSaysHowLongItTook(t *testing.T) {
	var out bytes.Buffer
	faults := house{out: &out}.take([]step{
		{name: "vet", run: func() error { return errors.New("a copied lock") }},
		{name: "build", run: func() error { return nil }},
	}, twoSecondsEach())
	assert.Equal(t, "\n== vet\na copied lock\nvet: FAILED after 2.0 s\n\n== build\nbuild: 2.0 s\n", out.String())
	assert.Len(t, faults, 1)
	assert.Equal(t, "vet", faults[0].step)
}

func TestAVitalStepThatFailsEndsTheRun(t *testing.T) {
	faults := house{out: new(bytes.Buffer)}.take([]step{
		{name: "packages", run: func() error { return errors.New("no network") }, vital: true},
		{name: "build", run: func() error { t.Error("came this far"); return nil }},
	}, time.Now)
	assert.Len(t, faults, 1)
}

func TestTheLastLineCountsTestsAndTheOtherChecksThatFailed(t *testing.T) {
	assert.Equal(t, "12 passed, 0 failed", closing(tally{passed: 12}, nil))
	assert.Equal(t, "12 passed, 0 failed, 2 skipped", closing(tally{passed: 12, skipped: 2}, nil))
	assert.Equal(t, "12 passed, 4 failed", closing(tally{passed: 12, failed: 3}, []fault{
		{"vet", errors.New("a copied lock")},
		{"go test", fmt.Errorf("%w: 3", errTests)},
	}))
}
