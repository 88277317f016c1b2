package desk

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"meltwright/internal/fault"
	"meltwright/internal/parcel"
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
