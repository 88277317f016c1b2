// Command task is the two commands a fresh machine needs:
//
//	go run ./cmd/task start   set up, build, and open the window on a demo quote
//	go run ./cmd/task test    set up, and run every check there is
//
// It needs Go and git and brings the rest: on Debian and its kin it installs
// what is missing, elsewhere it says the command that does. It uses the
// standard library only, so that it starts in a second with nothing downloaded.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"
)

const usage = `Meltwright, from its source. Say one of:

  go run ./cmd/task start            install what is missing, build the program and open
                                     its window on a demo quote; where there is no display,
                                     make the demo quote and its proposal without a window
  go run ./cmd/task test             install what the tests need and run every check
  go run ./cmd/task bench [PATTERN]  run the benchmarks, all or those that match PATTERN
`

func main() {
	os.Exit(run(os.Args[1:], os.Stdout))
}

// run does what args say, tells out about it, and gives the exit code: 0 when
// all went well, 1 when something failed or args ask for nothing known.
func run(args []string, out io.Writer) int {
	jobs := map[string]func(house, []string) error{"start": start, "test": test, "bench": bench}
	if len(args) == 0 {
		fmt.Fprint(out, usage)
		return 0
	}
	job, known := jobs[args[0]]
	if !known {
		fmt.Fprintf(out, "There is no task “%s”.\n\n%s", args[0], usage)
		return 1
	}
	h, err := findHouse(out)
	if err == nil {
		err = job(h, args[1:])
	}
	if err == nil {
		return 0
	}
	if !errors.Is(err, errTold) {
		fmt.Fprintf(out, "\n%v\n", err)
	}
	return 1
}

// errTold is the error of a job that has said itself what went wrong.
var errTold = errors.New("already told")
