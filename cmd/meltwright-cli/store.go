package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/user"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/quote"
	"meltwright/internal/sqlite"
)

// now is the program's clock.
var now = time.Now

// sit opens the desk at the store that --db names, or at the user's own.
func sit(ctx context.Context, db string) (*desk.Desk, error) {
	db, err := storePath(db)
	if err != nil {
		return nil, err
	}
	store, err := sqlite.Open(ctx, db)
	if err != nil {
		return nil, err
	}
	d, err := desk.New(ctx, store, papers, now)
	if err != nil {
		return nil, err
	}
	if u, err := user.Current(); err == nil {
		d.Sign(cmp.Or(u.Name, u.Username))
	}
	return d, nil
}

// atDesk does something at the desk and lets go of its store.
func atDesk(ctx context.Context, db string, do func(d *desk.Desk) error) error {
	d, err := sit(ctx, db)
	if err != nil {
		return err
	}
	if err := do(d); err != nil {
		_ = d.Close()
		return err
	}
	return d.Close()
}

// atExisting is atDesk for commands that read: they make no store where there is
// none.
func atExisting(ctx context.Context, db string, do func(d *desk.Desk) error) error {
	if err := stored(db); err != nil {
		return err
	}
	return atDesk(ctx, db, do)
}

// stored is a fault where no store is in that file.
func stored(db string) error {
	path, err := storePath(db)
	if err != nil {
		return err
	}
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		return fault.Fault{Field: "Database", Value: path, Problem: "is not there", Remedy: "check its name; “meltwright-cli import” and the program make one"}
	}
	return nil
}

func runList(ctx context.Context, out io.Writer, args []string) error {
	rest, opt, err := parseOptions(args, []string{"--db", "--state", "--by"}, []string{"--bin"})
	if err != nil {
		return err
	}
	f := quote.Filter{Words: strings.Join(rest, " "), Bin: opt["--bin"] != "", State: quote.State(opt["--state"]), Order: quote.Order(opt["--by"]), Today: now()}
	if f.State != "" && !f.State.Known() {
		return usageError(fmt.Sprintf("--state wants one of %v", quote.States()))
	}
	if !slices.Contains(quote.Orders(), f.Order) {
		return usageError(fmt.Sprintf("--by wants one of %v", quote.Orders()[1:]))
	}
	return atExisting(ctx, opt["--db"], func(d *desk.Desk) error {
		const page = 500
		p := &printer{w: out}
		for at := 0; ; at += page {
			f.Limit, f.Offset = page, at
			rows, total, err := d.List(ctx, f)
			if err != nil {
				return err
			}
			for _, r := range rows {
				p.f("%-9s %-2s %-10s %14s  %s%s\n", r.Number, r.Letter, r.State, r.Price, r.Title, after(" · ", r.Client))
			}
			if at+page >= total {
				return p.err
			}
		}
	})
}

func after(mark, s string) string {
	if s == "" {
		return ""
	}
	return mark + s
}

// byNumber opens a quote by its number, "2026-014".
func byNumber(ctx context.Context, d *desk.Desk, number string) (*desk.Sheet, error) {
	rows, _, err := d.List(ctx, quote.Filter{Words: number})
	if err != nil {
		return nil, err
	}
	for _, r := range rows {
		if r.Number == number {
			return d.Open(ctx, r.ID)
		}
	}
	return nil, fault.Fault{Field: "Quote", Value: number, Problem: "is not in the store", Remedy: "“meltwright-cli list” shows those that are"}
}

// withQuote does something with the quote that the arguments name.
func withQuote(ctx context.Context, args, bare []string, do func(s *desk.Sheet, d *desk.Desk, opt map[string]string) error) error {
	rest, opt, err := parseOptions(args, []string{"--db"}, bare)
	if err != nil {
		return err
	}
	if len(rest) != 1 {
		return usageError("it takes the number of one quote")
	}
	return atExisting(ctx, opt["--db"], func(d *desk.Desk) error {
		s, err := byNumber(ctx, d, rest[0])
		if err != nil {
			return err
		}
		return do(s, d, opt)
	})
}

func runShow(ctx context.Context, out io.Writer, args []string) error {
	return withQuote(ctx, args, []string{"--json"}, func(s *desk.Sheet, d *desk.Desk, opt map[string]string) error {
		return print(out, s.Commission(), d.Shop(), opt["--json"] != "")
	})
}

func runExport(ctx context.Context, out io.Writer, args []string) error {
	return withQuote(ctx, args, nil, func(s *desk.Sheet, _ *desk.Desk, _ map[string]string) error {
		return desk.EncodeCommission(out, s.Commission(), s.Quote().Words)
	})
}

func runImport(ctx context.Context, out io.Writer, args []string) error {
	rest, opt, err := parseOptions(args, []string{"--db"}, nil)
	if err != nil {
		return err
	}
	if len(rest) != 1 {
		return usageError("it takes one commission file")
	}
	c, words, err := readCommission(rest[0])
	if err != nil {
		return err
	}
	return atDesk(ctx, opt["--db"], func(d *desk.Desk) error {
		c, err := d.OpenScans(ctx, c, filepath.Dir(rest[0]), nil)
		if err != nil {
			return err
		}
		s, err := d.Take(ctx, quote.Quote{Commission: c, Words: words})
		if err != nil {
			return err
		}
		_, err = fmt.Fprintln(out, s.Quote().Number)
		return err
	})
}

// commissionAndDesk reads a commission file, with the scans it names, and sits
// down with the shop book it is estimated with.
func commissionAndDesk(ctx context.Context, file, db string, do func(c estimate.Commission, d *desk.Desk) error) error {
	return quoteAndDesk(ctx, file, db, func(c estimate.Commission, _ map[string]string, d *desk.Desk) error { return do(c, d) })
}

// quoteAndDesk is commissionAndDesk with the words for the papers.
func quoteAndDesk(ctx context.Context, file, db string, do func(c estimate.Commission, words map[string]string, d *desk.Desk) error) error {
	c, words, wrong := readCommission(file)
	if wrong != nil && len(c.Pieces) == 0 {
		return wrong
	}
	return somewhere(ctx, db, func(d *desk.Desk) error {
		faults := append(fault.All(wrong), d.CheckWords(words)...)
		c, err := d.OpenScans(ctx, c, filepath.Dir(file), nil)
		faults = append(faults, fault.All(err)...)
		if len(faults) == 0 {
			return do(c, words, d)
		}
		_, err = estimate.Of(c, d.Shop())
		return append(faults, fault.All(err)...).Err()
	})
}

// somewhere does something with the shop book of the store that --db names, or
// with the starting one.
func somewhere(ctx context.Context, db string, do func(d *desk.Desk) error) error {
	if db != "" {
		return atExisting(ctx, db, do)
	}
	d, err := desk.New(ctx, desk.NoStore{}, papers, now)
	if err != nil {
		return err
	}
	return do(d)
}
