package main

import (
	"bytes"
	"os"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/assert"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"meltwright-cli": func() {
			now = func() time.Time { return storyDay }
			os.Exit(run(os.Stdout, os.Stderr, os.Args[1:]))
		},
	})
}

// storyDay is the day on which all the stories take place: quotes are numbered by
// its year.
var storyDay = time.Date(2026, time.March, 14, 9, 26, 53, 0, time.Local)

func TestStories(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "../../testdata/cli",
		Setup: func(e *testscript.Env) error {
			e.Setenv("YEAR", storyDay.Format("2006"))
			e.Setenv("TODAY", storyDay.Format(time.DateOnly))
			return nil
		},
	})
}

// The exit code of everything that went wrong is 1, with the reason on standard
// error and nothing on standard output.
func TestWhateverGoesWrongEndsWithOne(t *testing.T) {
	for _, args := range [][]string{
		{"smelt"},
		{"help", "smelt"},
		{"estimate"},
		{"estimate", "--xml"},
		{"estimate", "no.json", "--db"},
		{"estimate", "no.json"},
		{"version", "now"},
		{"example", "no.json"},
		{"shop", "set"},
		{"list", "--all"},
		{"show"},
		{"proposal", "no.json"},
		{"restore"},
		{"send"},
		{"receive"},
		{"scan"},
		{"lead"},
		{"range"},
		{"options"},
	} {
		var out, errs bytes.Buffer
		assert.Equal(t, 1, run(&out, &errs, args), "%v", args)
		assert.Empty(t, out.String(), "%v", args)
		assert.NotEmpty(t, errs.String(), "%v", args)
	}
	var out, errs bytes.Buffer
	for _, c := range commands {
		assert.Zero(t, run(&out, &errs, []string{c.name, "--help"}))
	}
	assert.Empty(t, errs.String())
}
