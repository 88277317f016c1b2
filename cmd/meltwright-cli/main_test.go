package main

import (
	"os"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"meltwright-cli": func() { os.Exit(run(os.Stdout, os.Stderr, os.Args[1:])) },
	})
}

func TestStories(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "../../testdata/cli",
		Setup: func(e *testscript.Env) error {
			e.Setenv("YEAR", time.Now().Format("2006")) // quotes are numbered by it
			e.Setenv("TODAY", time.Now().Format(time.DateOnly))
			return nil
		},
	})
}
