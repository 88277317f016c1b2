package main

import (
	"context"
	"errors"
	"io"

	"meltwright/internal/desk"
	"meltwright/internal/fault"
)

// runShop prints the shop book of a store, or changes one value of it, dated
// today as in the window.
func runShop(ctx context.Context, out io.Writer, args []string) error {
	rest, opt, err := parseOptions(args, []string{"--db"}, nil)
	if err != nil {
		return err
	}
	set := len(rest) == 3 && rest[0] == "set"
	if len(rest) > 0 && !set {
		return usageError("it takes nothing, or set with a key and a value")
	}
	if !set {
		return somewhere(ctx, opt["--db"], func(d *desk.Desk) error { return writeJSON(out, d.Book()) })
	}
	return atDesk(ctx, opt["--db"], func(d *desk.Desk) error {
		b, err := d.Book().Set(rest[1], rest[2], d.Today())
		if err != nil {
			return err
		}
		err = d.SetBook(ctx, b)
		var others fault.List
		if err != nil && !errors.As(err, &others) {
			return err
		}
		p := &printer{w: out}
		p.f("%s: %s\n", rest[1], rest[2])
		for _, f := range others { // they were so before, and the book is kept with them
			p.f("still wrong: %s\n", f.Error())
		}
		return p.err
	})
}
