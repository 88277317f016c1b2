package main

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"

	"meltwright/internal/desk"
	"meltwright/internal/fault"
	"meltwright/internal/parcel"
	"meltwright/internal/quantity"
)

// runSend packs a quote into one file for somebody else.
func runSend(ctx context.Context, out io.Writer, args []string) error {
	rest, opt, err := parseOptions(args, []string{"--db"}, []string{"--with-book", "--with-margins"})
	if err != nil {
		return err
	}
	if len(rest) < 2 {
		return usageError("it takes the number of a quote and the name of the file to send")
	}
	path := rest[1]
	if !strings.EqualFold(filepath.Ext(path), parcel.Ending) {
		return usageError("the file to send ends in “" + parcel.Ending + "”")
	}
	var along []parcel.Attachment
	for _, file := range rest[2:] {
		a, err := desk.Attach(file)
		if err != nil {
			return err
		}
		along = append(along, a)
	}
	return atExisting(ctx, opt["--db"], func(d *desk.Desk) error {
		s, err := byNumber(ctx, d, rest[0])
		if err != nil {
			return err
		}
		err = createNew(path, func(w io.Writer) error {
			return s.Send(w, opt["--with-book"] != "", opt["--with-margins"] != "", along...)
		})
		if err != nil {
			return err
		}
		c, err := lookInto(path)
		p := &printer{w: out}
		p.f("%s\n", path)
		p.told("kept back", c.LeftOut)
		if err != nil {
			return err
		}
		return p.err
	})
}

// lookInto reads a parcel back, to see that it arrived on the disk as it should.
func lookInto(path string) (c parcel.Contents, err error) {
	err = openFile(path, func(r io.ReaderAt, size int64) error {
		c, err = parcel.Read(r, size)
		return err
	})
	return c, err
}

func (p *printer) told(what string, sentences []string) {
	for _, s := range sentences {
		p.f("  %s: %s\n", what, s)
	}
}

// createNew writes a file that is not there yet, whole or not at all.
func createNew(path string, write func(w io.Writer) error) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, os.ErrExist) {
		return fault.Fault{Field: "File to send", Value: path, Problem: "is there already and is not written over", Remedy: "give another name"}
	}
	if err != nil {
		return cannotWrite(path, err)
	}
	err = write(f)
	if e := f.Sync(); err == nil && e != nil {
		err = cannotWrite(path, e)
	}
	if e := f.Close(); err == nil && e != nil {
		err = cannotWrite(path, e)
	}
	if err != nil {
		_ = os.Remove(path)
	}
	return err
}

func openFile(path string, do func(r io.ReaderAt, size int64) error) error {
	f, err := os.Open(path)
	if err != nil {
		return fault.Fault{Field: "Parcel", Value: path, Problem: "cannot be opened", Remedy: "check its name: " + err.Error()}
	}
	defer f.Close()
	at, err := f.Stat()
	if err != nil || !at.Mode().IsRegular() {
		return fault.Fault{Field: "Parcel", Value: path, Problem: "is no file", Remedy: "give the name of one that ends in " + parcel.Ending}
	}
	return do(f, at.Size())
}

// runReceive keeps what somebody else has sent as a new quote.
func runReceive(ctx context.Context, out io.Writer, args []string) error {
	rest, opt, err := parseOptions(args, []string{"--db", "--into"}, nil)
	if err != nil {
		return err
	}
	if len(rest) != 1 {
		return usageError("it takes one file that ends in “" + parcel.Ending + "”")
	}
	return openFile(rest[0], func(r io.ReaderAt, size int64) error {
		return atDesk(ctx, opt["--db"], func(d *desk.Desk) error {
			s, c, err := d.Receive(ctx, r, size)
			if err != nil {
				return err
			}
			p := &printer{w: out}
			p.f("%s\n", s.Quote().Number)
			p.arrived(c)
			if err := p.unpack(opt["--into"], c); err != nil {
				return err
			}
			for _, f := range s.Faults() {
				p.f("  to be settled: %s\n", f.Error())
			}
			return p.err
		})
	})
}

// arrived says who sent a parcel and what of theirs is not in it.
func (p *printer) arrived(c parcel.Contents) {
	if from := strings.TrimSpace(c.From + " " + c.Number + c.Letter); from != "" {
		p.f("  from: %s\n", from)
	}
	p.told("they kept back", c.LeftOut)
	p.told("note", c.Notes)
}

// unpack writes what came along into a folder; without one it says what there is.
func (p *printer) unpack(folder string, c parcel.Contents) error {
	files := c.Attached
	if c.Book != nil {
		data, err := c.Book.Encode()
		if err != nil {
			return err
		}
		files = append(files, parcel.Attach("", "shop book.json", data))
	}
	if folder == "" {
		for _, a := range files {
			p.f("  came along: %s, %s kB; --into FOLDER unpacks it\n", a.Name, quantity.Number(float64(a.Size)/1000, 1))
		}
		return nil
	}
	paths, err := desk.Unpack(folder, files)
	for _, path := range paths {
		p.f("  unpacked: %s\n", path)
	}
	return err
}
