package main

import (
	"context"
	"io"

	"meltwright/internal/desk"
	"meltwright/internal/fault"
	"meltwright/internal/quantity"
	"meltwright/internal/sqlite"
)

// storePath is the file that --db names, or the user's own.
func storePath(db string) (string, error) {
	if db != "" {
		return db, nil
	}
	path, err := desk.StorePath()
	if err != nil {
		return "", fault.Fault{Field: "Store", Problem: "has no usual place on this computer: " + err.Error(), Remedy: "name a file with --db"}
	}
	return path, nil
}

// inStore does something with the store itself.
func inStore(ctx context.Context, db string, do func(s *sqlite.Store) error) error {
	if err := stored(db); err != nil {
		return err
	}
	path, err := storePath(db)
	if err != nil {
		return err
	}
	s, err := sqlite.Open(ctx, path)
	if err != nil {
		return err
	}
	if err := do(s); err != nil {
		_ = s.Close()
		return err
	}
	return s.Close()
}

// runBackup copies the store to a file, or lists the copies there are.
func runBackup(ctx context.Context, out io.Writer, args []string) error {
	rest, opt, err := parseOptions(args, []string{"--db"}, []string{"--list"})
	if err != nil {
		return err
	}
	p := &printer{w: out}
	if opt["--list"] != "" {
		path, err := storePath(opt["--db"])
		if err != nil {
			return err
		}
		all, err := sqlite.Backups(ctx, path)
		for _, b := range all {
			p.f("%s  %-24s %6d quotes %8s kB  %s\n", b.Date, b.What, b.Quotes, quantity.Number(float64(b.Size)/1000, 0), b.Path)
			if b.Err != nil {
				p.f("    cannot be restored: %s\n", b.Err)
			}
		}
		if err != nil {
			return err
		}
		return p.err
	}
	if len(rest) != 1 {
		return usageError("it takes the name of the copy, or --list")
	}
	return inStore(ctx, opt["--db"], func(s *sqlite.Store) error {
		if err := s.Backup(ctx, rest[0]); err != nil {
			return err
		}
		p.f("%s\n", rest[0])
		return p.err
	})
}

// runRestore puts a copy in the place of the store; what was there is set aside.
func runRestore(ctx context.Context, out io.Writer, args []string) error {
	rest, opt, err := parseOptions(args, []string{"--db"}, nil)
	if err != nil {
		return err
	}
	if len(rest) != 1 {
		return usageError("it takes the name of a copy")
	}
	path, err := storePath(opt["--db"])
	if err != nil {
		return err
	}
	aside, err := sqlite.Restore(ctx, path, rest[0], now())
	if err != nil {
		return err
	}
	p := &printer{w: out}
	p.f("%s is in place\n", rest[0])
	if aside != "" {
		p.f("what was there before is kept as %s\n", aside)
	}
	return p.err
}

// runCheck reads the whole store and says what is wrong with it.
func runCheck(ctx context.Context, out io.Writer, args []string) error {
	rest, opt, err := parseOptions(args, []string{"--db"}, nil)
	if err != nil {
		return err
	}
	if len(rest) > 0 {
		return usageError("it takes no file but by --db")
	}
	return inStore(ctx, opt["--db"], func(s *sqlite.Store) error {
		r, err := s.Check(ctx)
		if err != nil {
			return err
		}
		if err := r.Wrong.Err(); err != nil {
			return err
		}
		p := &printer{w: out}
		p.f("all is well: %d quotes, %d issued revisions, %d clients, %d calls, %d pictures, %d shop books\n", r.Quotes, r.Revisions, r.Clients, r.Calls, r.Pictures, r.Books)
		return p.err
	})
}
