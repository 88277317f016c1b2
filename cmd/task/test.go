package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"runtime"
	"slices"
	"strings"
	"time"
)

// wrongThread begins what the toolkit prints when a widget is touched from a
// goroutine that is not the window's. Source: fyne/v2/internal/async.
const wrongThread = "*** Error in Fyne call thread"

// test sets the machine up and runs every check, the dearest last.
func test(h house, _ []string) error {
	r := testRun{house: h, ci: os.Getenv("CI") == "true"}
	began := time.Now()
	faults := h.take(r.steps(), time.Now)
	h.say("\nAll checks together: %.1f s", time.Since(began).Seconds())
	for _, f := range faults {
		h.say("FAILED: %s", f.step)
	}
	fmt.Fprint(h.out, r.last.String())
	h.say("%s", closing(r.tally, faults))
	if len(faults) > 0 {
		return errTold
	}
	return nil
}

// testRun is one run of the checks.
type testRun struct {
	house
	ci       bool // a missing reference is a failure
	complete bool // all references are there
	tally    tally
	last     bytes.Buffer // closing lines of the last go test, kept for the end
}

func (r *testRun) steps() []step {
	return []step{
		{name: "packages", run: r.packages, vital: true},
		{name: "gofmt", run: r.formatted},
		{name: "go vet", run: func() error { return r.show(nil, "go", "vet", "-tags", tags, "./...") }},
		{name: "build meltwright-cli", run: r.buildCLI},
		{name: "build meltwright", run: r.buildWindow},
		{name: "staticcheck", run: r.static},
		{name: "gofumpt", run: r.fumpted},
		{name: "go test", run: r.goTest},
		{name: "window thread", run: r.windowThread},
	}
}

// packages installs what the tests need. A person on a machine where that
// cannot be done is told, and gets the tests that can run there.
func (r *testRun) packages() error {
	err := r.provide(append(windowParts(runtime.GOOS), references...))
	r.complete = err == nil
	if err != nil && !r.ci {
		r.say("%v\nGoing on without; tests that need them are left out.", err)
		return nil
	}
	return err
}

func (r *testRun) formatted() error {
	gofmt, err := r.gofmt()
	if err != nil {
		return err
	}
	return r.lists(gofmt, "gofmt -w")
}

func (r *testRun) fumpted() error {
	path, err := r.tool(gofumpt)
	if err != nil {
		return err
	}
	return r.lists(path, "gofumpt -w")
}

// lists fails if the formatter names any file of ours.
func (r *testRun) lists(formatter, remedy string) error {
	named, err := r.read(nil, formatter, "-l", ".")
	if err == nil && named != "" {
		err = fmt.Errorf("%sformat these with %s", named, remedy)
	}
	return err
}

func (r *testRun) static() error {
	path, err := r.tool(staticcheck)
	if err != nil {
		return err
	}
	return r.show(nil, path, "-tags", tags, "./...")
}

// goTest runs every test as the program is built for people.
func (r *testRun) goTest() error {
	return r.tests(report{details: r.out, results: r.out}, tags, "./...")
}

// windowThread runs the tests of the real window once without the tag that
// silences the toolkit, and fails if it complains that a widget was touched
// from the wrong goroutine. Its driver for tests without a window never
// complains, so the other packages' tests would prove nothing here.
func (r *testRun) windowThread() error {
	var calls complaints
	err := r.tests(report{details: r.out, results: &r.last, watch: calls.listen}, plainTags, "./cmd/meltwright")
	if calls.count > 0 {
		return fmt.Errorf("%d calls from the wrong goroutine:\n%s", calls.count, strings.Join(calls.places, "\n"))
	}
	return err
}

// complaints are the toolkit's reports of calls from the wrong goroutine: a
// line that says so, and a line that says where from.
type complaints struct {
	count  int
	places []string // "file:line", each once
}

func (c *complaints) listen(output string) {
	if strings.Contains(output, wrongThread) {
		c.count++
	}
	_, place, found := strings.Cut(output, "  From: ")
	place = strings.TrimSpace(place)
	if found && c.count > 0 && !slices.Contains(c.places, place) {
		c.places = append(c.places, place)
	}
}

// tests runs go test on the packages, prints by the report and adds to the tally.
func (r *testRun) tests(rep report, tags string, packages ...string) error {
	required := r.ci || r.complete
	args := append([]string{"test", "-json", "-count=1", "-vet=off", "-tags", tags}, packages...)
	c := r.command(testSettings(tags, required), "go", args...)
	c.Stderr = r.out
	events, err := c.StdoutPipe()
	if err != nil {
		return err
	}
	if err := c.Start(); err != nil {
		return err
	}
	err = errors.Join(rep.read(events), c.Wait())
	r.tally = r.tally.add(rep.tally)
	return judge(rep.tally, err, required)
}

// testSettings is the environment of the tests. A test that needs a reference
// program fails without it, rather than being skipped, if MELTWRIGHT_TOOLS is
// "required"; one that builds the window builds it with MELTWRIGHT_TAGS.
func testSettings(tags string, required bool) []string {
	settings := []string{"LANG=en_US.UTF-8", "CGO_ENABLED=1", "MELTWRIGHT_TAGS=" + tags}
	if required {
		settings = append(settings, "MELTWRIGHT_TOOLS=required")
	}
	return settings
}

// judge says whether a run of go test was good. Where every reference is
// there, a test that was skipped is a test that did not look.
func judge(t tally, err error, required bool) error {
	switch {
	case t.failed > 0:
		return fmt.Errorf("%w: %d", errTests, t.failed)
	case err != nil:
		return fmt.Errorf("go test: %w", err)
	case required && t.skipped > 0:
		return fmt.Errorf("%d tests were skipped though all they need is here:\n%s", t.skipped, strings.Join(t.skips, "\n"))
	case t.passed == 0:
		return errors.New("no test ran")
	}
	return nil
}
