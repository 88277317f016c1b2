package proposal

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"meltwright/internal/fault"
	"meltwright/templates"
)

// WordingIn is the wording in a folder, as a Maker takes it; nil for no folder.
// What is changed there is in the next paper.
func WordingIn(folder string) fs.FS {
	if folder == "" {
		return nil
	}
	return os.DirFS(folder)
}

// WriteWording writes the program's own wording into a folder, for somebody to
// change there, and gives the names of the files written. What is there already
// is left alone.
func WriteWording(folder string) (written []string, err error) {
	err = fs.WalkDir(templates.Wording, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		path := filepath.Join(folder, filepath.FromSlash(name))
		if entry.IsDir() {
			return os.MkdirAll(path, 0o755)
		}
		made, err := writeNew(path, name)
		if made {
			written = append(written, path)
		}
		return err
	})
	if err != nil {
		return written, fault.Fault{Field: "Folder", Value: folder, Problem: "cannot be written to: " + err.Error(), Remedy: "choose a folder you may write to"}
	}
	return written, nil
}

// writeNew writes a file of ours where there is none, and tells whether it did.
func writeNew(path, name string) (bool, error) {
	words, err := fs.ReadFile(templates.Wording, name)
	if err != nil {
		return false, err
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	_, err = f.Write(words)
	if closed := f.Close(); err == nil {
		err = closed
	}
	return err == nil, err
}
