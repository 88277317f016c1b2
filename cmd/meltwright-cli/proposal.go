package main

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"

	"meltwright/internal/desk"
	"meltwright/internal/fault"
	"meltwright/internal/proposal"
	"meltwright/internal/quote"
)

// runProposal writes a proposal in the language, on the paper and with the
// pictures that are asked for.
func runProposal(ctx context.Context, out io.Writer, args []string) error {
	args, named := takeAll(args, "--picture")
	rest, opt, err := parseOptions(args, append(paperOptions, "--language", "--start", "--logo"), nil)
	if err != nil {
		return err
	}
	pictures, err := readPictures(opt["--logo"], named)
	if err != nil {
		return err
	}
	write := func(s *desk.Sheet, w io.Writer) error {
		for option, word := range map[string]string{"--language": "language", "--start": desk.Start} {
			if opt[option] != "" {
				s.SetWords(word, opt[option])
			}
		}
		p, err := s.Paper()
		if err != nil {
			return err
		}
		p.Pictures = append(pictures, p.Pictures...)
		missing, err := papers.Missing(p)
		if err != nil {
			return err
		}
		warn(ctx, desk.LostLetters(p, missing))
		return papers.Proposal(w, p)
	}
	return writePaper(ctx, out, rest, opt, map[string]func(*desk.Sheet, io.Writer) error{".pdf": write})
}

// takeAll takes an option that may be given many times out of arguments.
func takeAll(args []string, option string) (rest, values []string) {
	for i := 0; i < len(args); i++ {
		name, value, has := strings.Cut(args[i], "=")
		switch {
		case name == option && has:
			values = append(values, value)
		case name == option && i+1 < len(args):
			i++
			values = append(values, args[i])
		default:
			rest = append(rest, args[i])
		}
	}
	return rest, values
}

// readPictures reads the logo, where there is one, the cover, which is the first
// of the pictures named, and the others. The name of a file, without its ending,
// is the caption of the others.
func readPictures(logo string, named []string) (all []quote.Picture, err error) {
	read := func(name, file, caption string) error {
		data, err := os.ReadFile(file)
		if err != nil {
			return fault.Fault{Field: "Picture", Value: file, Problem: "cannot be read", Remedy: "check its name: " + err.Error()}
		}
		slim, err := proposal.Slim(quote.Picture{Name: name, Data: data, Caption: caption})
		all = append(all, slim)
		return err
	}
	if logo != "" {
		if err := read(quote.Logo, logo, ""); err != nil {
			return nil, err
		}
	}
	for i, file := range named {
		base := filepath.Base(file)
		name, caption := base, strings.TrimSuffix(base, filepath.Ext(base))
		if i == 0 {
			name, caption = quote.Cover, ""
		}
		if err := read(name, file, caption); err != nil {
			return nil, err
		}
	}
	return all, nil
}
