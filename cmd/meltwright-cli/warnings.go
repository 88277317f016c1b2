package main

import (
	"context"
	"fmt"
	"io"

	"meltwright/internal/desk"
)

// warningsKey is that of where a command's context has its warnings go.
type warningsKey struct{}

// withWarnings has the warnings of a command go to w: what a person should know
// of work that is done all the same.
func withWarnings(ctx context.Context, w io.Writer) context.Context {
	return context.WithValue(ctx, warningsKey{}, w)
}

// warn says each of the warnings on a line.
func warn(ctx context.Context, warnings []string) {
	w, ok := ctx.Value(warningsKey{}).(io.Writer)
	if !ok {
		return
	}
	for _, x := range warnings {
		fmt.Fprintln(w, "warning: "+x)
	}
}

// warning has what writes a paper say first which of its letters cannot be
// printed.
func warning(ctx context.Context, which desk.Print, write func(*desk.Sheet, io.Writer) error) func(*desk.Sheet, io.Writer) error {
	return func(s *desk.Sheet, w io.Writer) error {
		lost, err := s.Lost(which)
		if err != nil {
			return err
		}
		if lost != nil {
			said, err := lost(ctx)
			if err != nil {
				return err
			}
			warn(ctx, said)
		}
		return write(s, w)
	}
}
