package parcel

import (
	"archive/zip"
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// archive is a parcel's zip archive, its entries by name.
type archive struct {
	first   *zip.File
	entries []*zip.File
	byName  map[string]*zip.File
}

// openArchive finds what is in the archive, and looks at none of it but the mark.
func openArchive(r io.ReaderAt, size int64) (*archive, error) {
	if head := make([]byte, 4); !begins(r, head) || string(head) != "PK\x03\x04" {
		return nil, wrong("is no parcel", "choose a file that ends in "+Ending)
	}
	frugal := &frugal{r: r, left: mostDirectory}
	z, err := zip.NewReader(frugal, size)
	switch {
	case frugal.left < 0:
		return nil, tooMany()
	case err != nil && frugal.err != nil:
		return nil, unreadable(frugal.err)
	case err != nil || len(z.File) == 0:
		return nil, wrong("is damaged or has lost its end", askAgain)
	}
	frugal.left = math.MaxInt64
	a := &archive{first: z.File[0], entries: z.File, byName: map[string]*zip.File{}}
	if err := a.readMark(); err != nil {
		return nil, err
	}
	return a, a.index()
}

func begins(r io.ReaderAt, head []byte) bool {
	n, _ := r.ReadAt(head, 0)
	return n == len(head)
}

func tooMany() error { return wrong("holds more files than any parcel", askAgain) }

func unreadable(err error) error {
	return wrong("cannot be read: "+err.Error(), "look whether the disk or the network is still there")
}

// readMark looks at what the archive says it is.
func (a *archive) readMark() error {
	none := wrong("is an archive, but no parcel", "choose a file that ends in "+Ending)
	if a.first.Name != markEntry || a.first.Method != zip.Store {
		return none
	}
	r, err := a.first.Open()
	if err != nil {
		return wrong("is damaged", askAgain)
	}
	defer r.Close()
	data, err := io.ReadAll(io.LimitReader(r, 64))
	if err != nil {
		return wrong("is damaged", askAgain)
	}
	number, ok := bytes.CutPrefix(bytes.TrimSpace(data), []byte(markWord))
	if !ok || len(number) == 0 || len(bytes.Trim(number, "0123456789")) > 0 {
		return none
	}
	if v, err := strconv.Atoi(string(number)); err != nil || v > Version {
		return wrong(fmt.Sprintf("is of version %s, newer than this program, which reads up to %d", number, Version), "bring this program up to date, or ask for a parcel written by an older one")
	} else if v < 1 {
		return none
	}
	return nil
}

// index refuses entries that no parcel has, and lists the others by name.
func (a *archive) index() error {
	if len(a.entries) > mostEntries {
		return tooMany()
	}
	for _, e := range a.entries {
		switch {
		case !plainName(e.Name) || !e.Mode().IsRegular():
			return wrong(fmt.Sprintf("holds “%.60s”, which is no plain name of a file", printable(e.Name)), "do not open it unless you know who sent it; nothing was taken from it")
		case a.byName[e.Name] != nil:
			return wrong("holds “"+e.Name+"” twice", askAgain)
		case e.Flags&1 != 0:
			return wrong("is locked with a password", "ask for it without one")
		}
		a.byName[e.Name] = e
	}
	return nil
}

// apart refuses parts that lie over one another, by which a small archive can
// inflate to a huge one.
func (a *archive) apart(list []part) error {
	type span struct{ from, to int64 }
	var spans []span
	for _, x := range list {
		e := a.byName[x.Entry]
		if e == nil || !x.Kind.known() {
			continue
		}
		from, err := e.DataOffset()
		if err != nil {
			return x.damaged("is damaged")
		}
		spans = append(spans, span{from, from + int64(e.CompressedSize64)})
	}
	slices.SortFunc(spans, func(x, y span) int { return cmp.Compare(x.from, y.from) })
	for i := 1; i < len(spans); i++ {
		if spans[i].from < spans[i-1].to {
			return wrong("has parts that lie over one another", "do not open it unless you know who sent it; nothing was taken from it")
		}
	}
	return nil
}

// frugal reads so many bytes and no more, while an archive's own list of what it
// holds is read.
type frugal struct {
	r    io.ReaderAt
	left int64
	err  error // of r, where it failed
}

var errTooMany = errors.New("too many files")

func (f *frugal) ReadAt(b []byte, at int64) (int, error) {
	if f.left == math.MaxInt64 {
		return f.r.ReadAt(b, at)
	}
	if f.left -= int64(len(b)); f.left < 0 {
		return 0, errTooMany
	}
	n, err := f.r.ReadAt(b, at)
	if err != nil && !errors.Is(err, io.EOF) {
		f.err = err
	}
	return n, err
}

// printable is a text for a sentence, without signs that could disguise it.
func printable(text string) string {
	return strings.Map(func(r rune) rune {
		if unsaid(r) || !unicode.IsPrint(r) {
			return '?'
		}
		return r
	}, text)
}
