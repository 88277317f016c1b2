package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/proposal"
)

// papers makes the documents, with the user's own wording where there is some.
var papers = proposal.Maker{Wording: proposal.WordingIn(ownWording())}

// paperOptions are those of every paper.
var paperOptions = []string{"--db", "--paper"}

func runCostSheet(ctx context.Context, out io.Writer, args []string) error {
	return runPaper(ctx, out, args, map[string]func(*desk.Sheet, io.Writer) error{".pdf": warning(ctx, desk.CostSheet, (*desk.Sheet).WriteCostSheet), ".xlsx": (*desk.Sheet).WriteWorkbook})
}

// runPaper writes a paper of a commission file, in the form that the ending of
// the name asks for.
func runPaper(ctx context.Context, out io.Writer, args []string, forms map[string]func(*desk.Sheet, io.Writer) error, more ...string) error {
	rest, opt, err := parseOptions(args, append(more, paperOptions...), nil)
	if err != nil {
		return err
	}
	return writePaper(ctx, out, rest, opt, forms)
}

// writePaper writes the paper that the arguments left over ask for.
func writePaper(ctx context.Context, out io.Writer, rest []string, opt map[string]string, forms map[string]func(*desk.Sheet, io.Writer) error) error {
	if len(rest) != 2 {
		return usageError("it takes a commission file and the name of the paper")
	}
	for option, allowed := range map[string][]string{"--language": proposal.Languages(), "--paper": proposal.Sizes()} {
		if v, given := opt[option]; given && !slices.Contains(allowed, v) {
			return usageError(option + " is one of " + strings.Join(allowed, ", "))
		}
	}
	write, ok := forms[strings.ToLower(filepath.Ext(rest[1]))]
	if !ok {
		return usageError("it does not write files that end in “" + filepath.Ext(rest[1]) + "”")
	}
	return quoteAndDesk(ctx, rest[0], opt["--db"], func(c estimate.Commission, words map[string]string, d *desk.Desk) error {
		s := d.Lay(c)
		for part, text := range words {
			s.SetWords(part, text)
		}
		for option, word := range map[string]string{"--paper": "paper", "--language": "shop language"} {
			if opt[option] != "" {
				s.SetWords(word, opt[option])
			}
		}
		var b bytes.Buffer
		if err := write(s, &b); err != nil {
			return err
		}
		if err := replaceFile(rest[1], b.Bytes()); err != nil {
			return err
		}
		_, err := fmt.Fprintln(out, rest[1])
		return err
	})
}

// replaceFile puts data at path, whole or not at all.
func replaceFile(path string, data []byte) error {
	f, err := os.CreateTemp(filepath.Dir(path), ".meltwright-*")
	if err != nil {
		return cannotWrite(path, err)
	}
	_, err = f.Write(data)
	if e := f.Sync(); err == nil {
		err = e
	}
	if e := f.Close(); err == nil {
		err = e
	}
	if err == nil {
		err = os.Chmod(f.Name(), 0o644)
	}
	if err == nil {
		err = os.Rename(f.Name(), path)
	}
	if err != nil {
		_ = os.Remove(f.Name())
		return cannotWrite(path, err)
	}
	return nil
}

func cannotWrite(path string, err error) error {
	return fault.Fault{Field: "Paper", Value: path, Problem: "cannot be written: " + err.Error(), Remedy: "choose a folder you may write to"}
}
