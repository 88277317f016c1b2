package sqlite

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
)

// log and shared memory that SQLite keeps beside a file.
const (
	logSuffix    = "-wal"
	memorySuffix = "-shm"
)

func folderOf(path string) string { return filepath.Dir(path) }

// makeFolder makes a folder and those above it, for its user alone: quotes and
// clients are nobody else's business.
func makeFolder(folder string) error {
	if _, err := os.Stat(folder); err == nil {
		return nil
	}
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return err
	}
	return flushFolder(filepath.Dir(folder))
}

// flushFolder makes new names in a folder survive a power cut. Windows does
// that by itself, and cannot be asked.
func flushFolder(folder string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	d, err := os.Open(folder)
	if err != nil {
		return err
	}
	err = d.Sync()
	if errors.Is(err, errors.ErrUnsupported) || errors.Is(err, os.ErrInvalid) {
		err = nil // some network disks have no such thing
	}
	return errors.Join(err, d.Close())
}

// flushFile makes what was written to a file survive a power cut. Never for a
// database in use: closing it here would drop SQLite's locks on it.
func flushFile(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}

// putInPlace flushes a finished file and gives it its name, replacing what had it.
func putInPlace(finished, path string) error {
	if err := flushFile(finished); err != nil {
		return err
	}
	if err := os.Rename(finished, path); err != nil {
		return err
	}
	return flushFolder(filepath.Dir(path))
}

// copyFile copies a file byte for byte; what was at to is replaced.
func copyFile(from, to string) error {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o600)
	if err != nil {
		return err
	}
	_, err = io.Copy(out, in)
	return errors.Join(err, out.Close())
}

// copyWithLog copies a database that nobody writes to, with its log if it has one.
func copyWithLog(from, to string) error {
	err := copyFile(from+logSuffix, to+logSuffix)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return copyFile(from, to)
}

func there(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}

// removeIfThere removes files; those that are not there are no error.
func removeIfThere(paths ...string) (err error) {
	for _, p := range paths {
		if e := os.Remove(p); e != nil && !errors.Is(e, fs.ErrNotExist) {
			err = errors.Join(err, e)
		}
	}
	return err
}
