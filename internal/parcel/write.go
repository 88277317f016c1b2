package parcel

import (
	"archive/zip"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"meltwright/internal/fault"
)

// Write writes a parcel. Without the options, the sender's shop book and all that
// tells of its prices stay behind, and the parcel says so; see Contents.LeftOut.
// The same contents give the same bytes. The error is a fault.Fault; then what
// was written so far is no parcel.
func Write(w io.Writer, c Contents, o Options) error {
	c.LeftOut = nil
	if !o.WithMargins {
		c.Commission, c.LeftOut = keepBack(c.Commission)
	}
	if k, n := withoutPaths(c.Commission); n > 0 {
		c.Commission, c.LeftOut = k, append(c.LeftOut, fmt.Sprintf("Names of scan files on the sender's disk (%d): open the scan itself.", n))
	}
	switch {
	case c.Book == nil:
	case !o.WithBook:
		c.Book, c.LeftOut = nil, append(c.LeftOut, "The shop book: rates, materials and capacities are your own.")
	case !o.WithMargins:
		b, left := priceless(*c.Book)
		c.Book, c.LeftOut = &b, append(c.LeftOut, left...)
	}
	if err := reasonable(&c); err != nil {
		return err
	}
	p := &packer{zip: zip.NewWriter(w), list: manifest{From: c.From, Number: c.Number, Letter: c.Letter, LeftOut: c.LeftOut}}
	return p.pack(c)
}

// packer packs one parcel.
type packer struct {
	zip     *zip.Writer
	list    manifest
	headers []*zip.FileHeader // of the parts, which learn their packed sizes in the end
}

func (p *packer) pack(c Contents) error {
	if err := p.plain(markEntry, []byte(fmt.Sprintf("%s%d\n", markWord, Version))); err != nil {
		return err
	}
	if err := p.json(commissionPart, c.Commission); err != nil {
		return err
	}
	if len(c.Words) > 0 {
		if err := p.json(wordsPart, c.Words); err != nil {
			return err
		}
	}
	if c.Book != nil {
		if err := p.json(bookPart, c.Book); err != nil {
			return err
		}
	}
	count := map[Kind]int{}
	for _, a := range c.Attached {
		count[a.Kind]++
		if err := p.attach(a, fmt.Sprintf("%s-%d", a.Kind, count[a.Kind])); err != nil {
			return err
		}
	}
	return p.finish()
}

// plain writes an entry as it is, so that it can be read with nothing at all.
func (p *packer) plain(entry string, data []byte) error {
	w, err := p.zip.CreateHeader(&zip.FileHeader{Name: entry, Method: zip.Store})
	if err == nil {
		_, err = w.Write(data)
	}
	return unwritten(err)
}

func (p *packer) json(k Kind, v any) error {
	data, err := encoded(v)
	if err != nil {
		return wrong("cannot be made: "+err.Error(), "look for unusual signs in the texts")
	}
	if problem := tooMuch(data); problem != "" || len(data) > mostJSON {
		return fault.Fault{Field: part{Kind: k}.called(), Problem: "is too large to send", Remedy: "make it smaller"}
	}
	return p.part(part{Kind: k, Entry: string(k) + ".json"}, zip.Deflate, bytes.NewReader(data))
}

func encoded(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	err := e.Encode(v)
	return b.Bytes(), err
}

// attach packs a file. Pictures are packed as they are: they do not get smaller.
func (p *packer) attach(a Attachment, entry string) error {
	x := part{Kind: a.Kind, Name: a.Name, Entry: entry, Caption: firstOf(a.Caption, mostCaption), Cover: a.Cover}
	r, err := a.Open()
	if err != nil {
		return x.unread(err)
	}
	defer r.Close()
	if a.Kind != Picture {
		return p.part(x, zip.Deflate, r)
	}
	data, err := io.ReadAll(io.LimitReader(r, mostPicture+1))
	if err != nil {
		return x.unread(err)
	}
	if problem := pictureProblem(bytes.NewReader(data)); problem != "" {
		return fault.Fault{Field: "Picture", Value: a.Name, Problem: problem, Remedy: "attach a PNG or JPEG picture"}
	}
	return p.part(x, zip.Store, bytes.NewReader(data))
}

// firstOf is a text, or its first so many signs.
func firstOf(text string, most int) string {
	if r := []rune(text); len(r) > most {
		return string(r[:most])
	}
	return text
}

// part packs a part and lists it with its size and sum.
func (p *packer) part(x part, method uint16, r io.Reader) error {
	h := &zip.FileHeader{Name: x.Entry, Method: method}
	w, err := p.zip.CreateHeader(h)
	if err != nil {
		return unwritten(err)
	}
	sum, from := sha256.New(), &source{r: io.LimitReader(r, x.Kind.most()+1)}
	x.Size, err = io.Copy(io.MultiWriter(w, sum), from)
	switch {
	case from.err != nil:
		return x.unread(from.err)
	case err != nil:
		return unwritten(err)
	case x.Size > x.Kind.most():
		return fault.Fault{Field: x.called(), Problem: "is larger than a parcel takes", Remedy: fmt.Sprintf("give one of up to %d MB", x.Kind.most()>>20)}
	}
	x.SHA256 = hex.EncodeToString(sum.Sum(nil))
	p.list.Parts, p.headers = append(p.list.Parts, x), append(p.headers, h)
	return nil
}

// finish writes the manifest and ends the archive.
func (p *packer) finish() error {
	data, err := encoded(p.list)
	if err != nil || len(data) > mostManifest {
		return wrong("has more to list than it can", "attach fewer files")
	}
	if err := p.plain(manifestEntry, data); err != nil {
		return err
	}
	if err := p.zip.Close(); err != nil {
		return unwritten(err)
	}
	for i, h := range p.headers {
		if x := p.list.Parts[i]; blownUp(x, h) {
			return fault.Fault{Field: x.called(), Problem: "is almost nothing but the same few signs over and over, as a damaged file is", Remedy: "look at the file"}
		}
	}
	return nil
}

// blownUp tells of a picture or scan that inflates as no true one does.
func blownUp(x part, h *zip.FileHeader) bool {
	return x.Kind.attached() && x.Size > alwaysLet && uint64(x.Size)/mostInflated > h.CompressedSize64
}

// source remembers that it was the reading that failed.
type source struct {
	r   io.Reader
	err error
}

func (s *source) Read(b []byte) (int, error) {
	n, err := s.r.Read(b)
	if err != nil && !errors.Is(err, io.EOF) {
		s.err = err
	}
	return n, err
}

func (p part) unread(err error) error {
	var f fault.Fault
	if errors.As(err, &f) {
		return f
	}
	return fault.Fault{Field: p.called(), Problem: "cannot be read: " + err.Error(), Remedy: "look whether the file is still there"}
}

func unwritten(err error) error {
	if err == nil {
		return nil
	}
	return wrong("cannot be written: "+err.Error(), "look whether the disk is full, or choose another folder")
}
