package parcel

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"hash"
	"io"

	"meltwright/internal/fault"
	"meltwright/internal/shop"
)

// Read opens a parcel. Every part is read through once, so that what is damaged
// is told now; attachments are read again when they are opened, and need r until
// then. The error is a fault.Fault, and then nothing of the parcel is given.
func Read(r io.ReaderAt, size int64) (Contents, error) {
	a, err := openArchive(r, size)
	if err != nil {
		return Contents{}, err
	}
	list, err := a.manifest()
	if err != nil {
		return Contents{}, err
	}
	c := Contents{From: list.From, Number: list.Number, Letter: list.Letter, LeftOut: list.LeftOut}
	if list.passedOver != "" {
		c.note("Its manifest speaks of “%.60s”, which this version does not know; it was passed over.", printable(list.passedOver))
	}
	for _, x := range list.Parts {
		if err := c.take(a, x); err != nil {
			return Contents{}, err
		}
	}
	c.strangers(a, list.Parts)
	if err := reasonable(&c); err != nil {
		return Contents{}, err
	}
	return c, nil
}

func (c *Contents) note(format string, args ...any) {
	c.Notes = append(c.Notes, fmt.Sprintf(format, args...))
}

// strangers notes entries that the manifest does not list.
func (c *Contents) strangers(a *archive, parts []part) {
	listed := map[string]bool{markEntry: true, manifestEntry: true}
	for _, x := range parts {
		listed[x.Entry] = true
	}
	for _, e := range a.entries {
		if !listed[e.Name] {
			c.note("The parcel also holds “%s”, which its manifest does not list; it was passed over.", printable(e.Name))
		}
	}
}

type readManifest struct {
	manifest
	passedOver string
}

// manifest reads the list of parts and looks whether it can be.
func (a *archive) manifest() (readManifest, error) {
	itself := part{Kind: "manifest", Entry: manifestEntry}
	e := a.byName[manifestEntry]
	if e == nil {
		return readManifest{}, itself.damaged("is missing")
	}
	itself.Size = int64(min(e.UncompressedSize64, mostManifest+1))
	data, err := a.all(itself, mostManifest)
	if err != nil {
		return readManifest{}, err
	}
	var m readManifest
	if m.passedOver, err = decode(data, &m.manifest); err != nil {
		return readManifest{}, itself.damaged(err.Error())
	}
	if err := a.listed(m.Parts); err != nil {
		return readManifest{}, err
	}
	return m, a.apart(m.Parts)
}

// listed tells of a list of parts that no parcel has.
func (a *archive) listed(parts []part) error {
	if len(parts) > mostEntries {
		return tooMany()
	}
	kinds, entries := map[Kind]int{}, map[string]bool{markEntry: true, manifestEntry: true}
	for _, x := range parts {
		kinds[x.Kind]++
		if !x.Kind.known() {
			continue
		}
		switch {
		case x.Kind.attached() && nameProblem(x.Kind, x.Name) != "":
			return wrong(fmt.Sprintf("holds a %s “%.60s”, which %s", x.Kind, printable(x.Name), nameProblem(x.Kind, x.Name)), "do not open it unless you know who sent it; nothing was taken from it")
		case entries[x.Entry]:
			return wrong("lists “"+printable(x.Entry)+"” twice", askAgain)
		case a.byName[x.Entry] == nil:
			return x.damaged("is missing")
		case x.Kind.written() && kinds[x.Kind] > 1:
			return x.damaged("is there twice")
		}
		entries[x.Entry] = true
	}
	if kinds[commissionPart] == 0 {
		return part{Kind: commissionPart}.damaged("is missing")
	}
	return nil
}

// take takes one part.
func (c *Contents) take(a *archive, x part) error {
	switch x.Kind {
	case commissionPart:
		return c.takeCommission(a, x)
	case wordsPart:
		return c.json(a, x, &c.Words)
	case bookPart:
		return c.takeBook(a, x)
	case Picture, Scan:
		return c.takeFile(a, x)
	}
	c.note("The parcel holds a “%.60s”, which this version does not know; it was passed over.", printable(string(x.Kind)))
	return nil
}

func (c *Contents) json(a *archive, x part, into any) error {
	data, err := a.all(x, x.Kind.most())
	if err != nil {
		return err
	}
	passedOver, err := decode(data, into)
	if err != nil {
		return x.damaged(err.Error())
	}
	if passedOver != "" {
		c.note("Its %s speaks of “%.60s”, which this version does not know; that and what else it does not know was passed over.", x.Kind, printable(passedOver))
	}
	return nil
}

// takeCommission takes the commission. A path in it would name a file of whoever
// opens the parcel.
func (c *Contents) takeCommission(a *archive, x part) error {
	if err := c.json(a, x, &c.Commission); err != nil {
		return err
	}
	if k, n := withoutPaths(c.Commission); n > 0 {
		c.Commission = k
		c.note("Its commission names a scan file on a disk, which may be any file of yours; that was passed over.")
	}
	return nil
}

// takeBook takes the sender's shop book. Settings that stayed behind have the
// program's starting values.
func (c *Contents) takeBook(a *archive, x part) error {
	var sent shop.Book
	if err := c.json(a, x, &sent); err != nil {
		return err
	}
	for _, rows := range sent.Tables {
		for i, r := range rows {
			if r == nil {
				rows[i] = shop.Row{}
			}
		}
	}
	data, err := sent.Encode()
	if err != nil {
		return x.damaged(err.Error())
	}
	b, err := shop.Decode(data)
	if err != nil {
		return x.damaged(err.Error())
	}
	c.Book = &b
	return nil
}

func (c *Contents) takeFile(a *archive, x part) error {
	if err := a.through(x); err != nil {
		return err
	}
	if x.Kind == Picture {
		r, err := a.open(x)
		if err != nil {
			return err
		}
		defer r.Close()
		if problem := pictureProblem(r); problem != "" {
			return x.damaged(problem)
		}
	}
	c.Attached = append(c.Attached, Attachment{
		Kind: x.Kind, Name: x.Name, Size: x.Size, Caption: printable(firstOf(x.Caption, mostCaption)), Cover: x.Cover, SHA256: x.SHA256,
		Open: func() (io.ReadCloser, error) { return a.open(x) },
	})
	return nil
}

// all reads a part of up to most bytes into memory.
func (a *archive) all(x part, most int64) ([]byte, error) {
	if x.Size < 0 || x.Size > most {
		return nil, x.damaged("is larger than any")
	}
	r, err := a.open(x)
	if err != nil {
		return nil, err
	}
	defer r.Close()
	data, err := io.ReadAll(r)
	return data, asFault(x, err)
}

// through reads a part through, to see that it is what was sent.
func (a *archive) through(x part) error {
	r, err := a.open(x)
	if err != nil {
		return err
	}
	defer r.Close()
	_, err = io.Copy(io.Discard, r)
	return asFault(x, err)
}

func asFault(x part, err error) error {
	var f fault.Fault
	if err == nil || errors.As(err, &f) {
		return err
	}
	return x.damaged("was damaged on the way (" + err.Error() + ")")
}

// open opens a part. Reading gives a fault where it is not what was sent.
func (a *archive) open(x part) (io.ReadCloser, error) {
	e := a.byName[x.Entry]
	switch {
	case x.Size < 0 || x.Size > x.Kind.most() || e.UncompressedSize64 > uint64(x.Kind.most()):
		return nil, x.damaged("is larger than any")
	case e.UncompressedSize64 != uint64(x.Size):
		return nil, x.damaged("is not as large as it says")
	case blownUp(x, &e.FileHeader):
		return nil, wrong("holds “"+printable(x.Entry)+"”, which is made to fill the disk when it is opened", "do not open it unless you know who sent it; nothing was taken from it")
	}
	r, err := e.Open()
	if err != nil {
		return nil, asFault(x, err)
	}
	return &sealed{r: r, part: x, left: x.Size, sum: sha256.New()}, nil
}

// sealed reads a part, counts it, and at its end looks at its sum.
type sealed struct {
	r    io.ReadCloser
	part part
	left int64
	sum  hash.Hash
}

// Read reads on.
func (s *sealed) Read(b []byte) (int, error) {
	n, err := s.r.Read(b)
	s.sum.Write(b[:n])
	if s.left -= int64(n); s.left < 0 {
		return 0, s.part.damaged("is larger than it says")
	}
	if !errors.Is(err, io.EOF) {
		return n, asFault(s.part, err)
	}
	if s.left > 0 || s.part.Kind.known() && hex.EncodeToString(s.sum.Sum(nil)) != s.part.SHA256 {
		return n, s.part.damaged("was damaged or changed on the way: its checksum is another")
	}
	return n, err
}

// Close lets go of the part.
func (s *sealed) Close() error { return s.r.Close() }
