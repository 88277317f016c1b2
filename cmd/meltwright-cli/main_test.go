package main

import (
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"meltwright-cli": func() { os.Exit(run(os.Stdout, os.Stderr, os.Args[1:])) },
	})
}

func TestStories(t *testing.T) {
	testscript.Run(t, testscript.Params{Dir: "../../testdata/cli"})
}
