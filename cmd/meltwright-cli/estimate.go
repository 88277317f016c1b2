package main

import (
	"context"
	"io"
	"os"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/shop"
)

// runExample prints the demo's commission with everything a commission file may
// hold explained, the choices as the shop book has them.
func runExample(ctx context.Context, out io.Writer, args []string) error {
	rest, opt, err := parseOptions(args, []string{"--db"}, nil)
	if err != nil {
		return err
	}
	if len(rest) > 0 {
		return usageError("it takes no file but by --db")
	}
	return somewhere(ctx, opt["--db"], func(d *desk.Desk) error { return d.Example(out) })
}

func runEstimate(ctx context.Context, out io.Writer, args []string) error {
	rest, opt, err := parseOptions(args, []string{"--db"}, []string{"--json"})
	if err != nil {
		return err
	}
	if len(rest) != 1 {
		return usageError("it takes one commission file")
	}
	return commissionAndDesk(ctx, rest[0], opt["--db"], func(c estimate.Commission, d *desk.Desk) error {
		return print(out, c, d.Shop(), opt["--json"] != "")
	})
}

// print estimates a commission and prints the result, or gives its faults.
func print(out io.Writer, c estimate.Commission, s *shop.Shop, json bool) error {
	e, err := estimate.Of(c, s)
	if err != nil {
		return err
	}
	if json {
		return writeJSON(out, asJSON(c, e))
	}
	return summary(out, c, e)
}

// readCommission reads a commission file by name, or standard input by "-".
func readCommission(name string) (estimate.Commission, map[string]string, error) {
	if name == "-" {
		return desk.DecodeCommission(os.Stdin)
	}
	f, err := os.Open(name)
	if err != nil {
		return estimate.Commission{}, nil, fault.Fault{Field: "Commission file", Value: name, Problem: "cannot be opened", Remedy: "check its name: " + err.Error()}
	}
	defer f.Close()
	return desk.DecodeCommission(f)
}
