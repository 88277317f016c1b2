package main

import (
	"context"
	"fmt"
	"io"

	"meltwright/internal/desk"
	"meltwright/internal/proposal"
)

// ownWording is the folder of the user's own wording; empty where the computer
// has no place for it.
func ownWording() string {
	folder, err := desk.WordingPath()
	if err != nil {
		return ""
	}
	return folder
}

// runWording writes the wording of proposals into the folder where papers look for
// it, or another, for somebody to change it there.
func runWording(_ context.Context, out io.Writer, args []string) error {
	folder := ownWording()
	switch {
	case len(args) == 1:
		folder = args[0]
	case len(args) > 1 || folder == "":
		return usageError("it takes the name of a folder")
	}
	written, err := proposal.WriteWording(folder)
	if err != nil {
		return err
	}
	for _, path := range written {
		if _, err := fmt.Fprintln(out, path); err != nil {
			return err
		}
	}
	if len(written) == 0 {
		_, err = fmt.Fprintln(out, "All of it lies in", folder, "already; nothing was written over.")
	}
	return err
}
