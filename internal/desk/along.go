package desk

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"meltwright/internal/fault"
	"meltwright/internal/parcel"
	"meltwright/internal/quote"
)

// Attach takes a file along: as a picture where it is one, else as a scan.
func Attach(path string) (parcel.Attachment, error) {
	f, err := os.Open(path)
	if err != nil {
		return parcel.Attachment{}, noFile(path, err)
	}
	defer f.Close()
	head := make([]byte, 8)
	n, err := io.ReadFull(f, head)
	if err != nil && !errors.Is(err, io.ErrUnexpectedEOF) && !errors.Is(err, io.EOF) {
		return parcel.Attachment{}, noFile(path, err)
	}
	kind := parcel.Scan
	if h := string(head[:n]); strings.HasPrefix(h, "\x89PNG") || strings.HasPrefix(h, "\xff\xd8\xff") {
		kind = parcel.Picture
	}
	return parcel.Attachment{Kind: kind, Name: filepath.Base(path), Open: func() (io.ReadCloser, error) { return os.Open(path) }}, nil
}

func noFile(path string, err error) error {
	return fault.Fault{Field: "File to send", Value: path, Problem: "cannot be read: " + err.Error(), Remedy: "check its name"}
}

// along are the files that go with a quote by themselves: its pictures, and the
// scan files that are kept with it.
func (d *Desk) along(ctx context.Context, q quote.Quote) (all []parcel.Attachment, err error) {
	for i, p := range q.Pictures {
		data, err := d.album.file(ctx, p.Picture)
		if err != nil {
			return nil, err
		}
		end := ".jpg"
		if strings.HasPrefix(string(data), "\x89PNG") {
			end = ".png"
		}
		a := parcel.Attach(parcel.Picture, fmt.Sprintf("picture %d%s", i+1, end), data)
		a.Caption, a.Cover = p.Caption, p.Name == quote.Cover
		all = append(all, a)
	}
	if q.ID == 0 {
		return all, nil
	}
	scans, err := d.store.KeptScanFiles(ctx, q.ID)
	for _, f := range scans {
		all = append(all, parcel.Attachment{Kind: parcel.Scan, Name: f.Name, Size: f.Size, Open: func() (io.ReadCloser, error) {
			r, w := io.Pipe()
			go func() { w.CloseWithError(d.store.WriteScanFile(ctx, q.ID, f.SHA256, w)) }()
			return r, nil
		}})
	}
	return all, err
}

// takeIn keeps the pictures of a parcel. One that cannot be used is noted and left
// out; an error is the store's.
func (d *Desk) takeIn(ctx context.Context, c *parcel.Contents) (shown []quote.Shown, err error) {
	for _, a := range c.Attached {
		if a.Kind != parcel.Picture {
			continue
		}
		data, err := all(a)
		if err != nil {
			return nil, err
		}
		p, err := d.TakePicture(ctx, a.Name, data)
		var f fault.Fault
		switch {
		case err != nil && !ofStore(err) && errors.As(err, &f):
			c.Notes = append(c.Notes, "A picture was left out: "+f.Error()+".")
			continue
		case err != nil:
			return nil, err
		}
		if p.Caption = a.Caption; a.Cover {
			p.Name = quote.Cover
		}
		shown = append(shown, p)
	}
	return shown, nil
}

// ofStore tells an error of the store from one of what it was given.
func ofStore(err error) bool {
	for _, x := range []error{quote.ErrFull, quote.ErrReadOnly, quote.ErrDisk, quote.ErrLocked, quote.ErrDamaged, quote.ErrNewer} {
		if errors.Is(err, x) {
			return true
		}
	}
	return false
}

// takeScans keeps the files of a parcel that are the scans of its pieces.
func (d *Desk) takeScans(ctx context.Context, q quote.Quote, c *parcel.Contents) error {
	of := map[string]bool{}
	for _, p := range q.Commission.Pieces {
		if p.Scan != nil {
			of[p.Scan.SHA256] = true
		}
	}
	for _, a := range c.Attached {
		if a.Kind != parcel.Scan || !of[a.SHA256] {
			continue
		}
		r, err := a.Open()
		if err != nil {
			return err
		}
		err = d.store.KeepScanFile(ctx, q.ID, quote.ScanFile{SHA256: a.SHA256, Name: a.Name, Size: a.Size}, r)
		_ = r.Close() // it was read to its end
		if err != nil {
			return err
		}
		c.Notes = append(c.Notes, "The scan “"+a.Name+"” is kept with the quote.")
	}
	return nil
}

func all(a parcel.Attachment) ([]byte, error) {
	r, err := a.Open()
	if err != nil {
		return nil, err
	}
	defer r.Close()
	return io.ReadAll(r)
}

// Unpack writes files that came with a parcel into a folder, under names that are
// free there, and says which; nothing that is there is written over.
func Unpack(folder string, files []parcel.Attachment) (paths []string, err error) {
	for _, a := range files {
		path, err := unpack(folder, a)
		if err != nil {
			return paths, err
		}
		paths = append(paths, path)
	}
	return paths, nil
}

func unpack(folder string, a parcel.Attachment) (string, error) {
	r, err := a.Open()
	if err != nil {
		return "", err
	}
	defer r.Close()
	f, err := createFree(folder, filepath.Base(a.Name))
	if err != nil {
		return "", noRoom(folder, err)
	}
	if _, err = io.Copy(f, r); err == nil {
		err = f.Sync()
	}
	if e := f.Close(); err == nil {
		err = e
	}
	if err != nil {
		_ = os.Remove(f.Name())
		return "", noRoom(folder, err)
	}
	return f.Name(), nil
}

func noRoom(folder string, err error) error {
	var f fault.Fault
	if errors.As(err, &f) {
		return f
	}
	return fault.Fault{Field: "Folder", Value: folder, Problem: "cannot be written to: " + err.Error(), Remedy: "choose one that is there and that you may write to"}
}

// createFree creates a file of that name, or with a number behind it.
func createFree(folder, name string) (*os.File, error) {
	end := filepath.Ext(name)
	stem := strings.TrimSuffix(name, end)
	for n := 2; ; n++ {
		f, err := os.OpenFile(filepath.Join(folder, name), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
		if !errors.Is(err, os.ErrExist) || n > 9999 {
			return f, err
		}
		name = fmt.Sprintf("%s (%d)%s", stem, n, end)
	}
}
