package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"io/fs"
	"os"
	"runtime"
	"syscall"

	driver "modernc.org/sqlite"
	lib "modernc.org/sqlite/lib"

	"meltwright/internal/fault"
	"meltwright/internal/quote"
)

// trouble is an error of the store: what it means (one of quote's), the
// sentence for the user, and what the database or the system said.
type trouble struct {
	kind  error
	fault fault.Fault
	cause error
}

// Error is the sentence alone; what the database said is in Unwrap.
func (t *trouble) Error() string { return t.fault.Error() }

// Unwrap gives all that the error is.
func (t *trouble) Unwrap() []error {
	all := []error{t.fault}
	for _, err := range []error{t.kind, t.cause} {
		if err != nil {
			all = append(all, err)
		}
	}
	return all
}

// sentence is what to say of a kind of trouble with a file, and a way on.
type sentence struct{ problem, remedy string }

var sentences = map[error]sentence{
	quote.ErrDamaged:  {"is damaged", "restore one of its backups; the damaged file is set aside and stays"},
	quote.ErrNotOurs:  {"is no Meltwright file", "choose another, or give a new name to begin an empty one; if it was one, restore one of its backups"},
	quote.ErrNewer:    {"was written by a newer version of Meltwright", "install that version; nothing in the file was changed"},
	quote.ErrLocked:   {"is in use by another window or program", "finish there, or wait a little, then try again"},
	quote.ErrFull:     {"cannot grow, because the disk is full", "make room on the disk, then save again; what was saved before is safe"},
	quote.ErrReadOnly: {"cannot be written to", "open it to read only, or get leave to write to the file and to its folder"},
	quote.ErrDisk:     {"cannot be reached, because its disk does not answer as it should", "check the disk, its cable or its network, and copy the file to another"},
	fs.ErrNotExist:    {"does not exist", "look for it in another folder, or restore one of its backups"},
	errFolder:         {"is a folder", "name a file in it"},
	errMoved:          {"was moved or removed while it was open", "put it back, or open it where it is now, then save again"},
	errClosed:         {"has been closed", "open it again"},
}

var (
	errFolder = errors.New("a folder")
	errMoved  = errors.New("moved")
	errClosed = errors.New("closed")
)

// told puts an error about the file at path into a sentence. Errors that have
// one, and a context that is done, stay as they are.
func told(err error, path string) error {
	var f fault.Fault
	switch {
	case err == nil, errors.As(err, &f), errors.Is(err, context.Canceled), errors.Is(err, context.DeadlineExceeded):
		return err
	}
	kind := kindOf(err, path)
	s, ok := sentences[kind]
	if !ok {
		s = sentence{"could not be used: " + err.Error(), "try again; if it stays so, check the file and keep a copy of it"}
	}
	return &trouble{kind, fault.Fault{Field: "The quotes file", Value: path, Problem: s.problem, Remedy: s.remedy}, err}
}

// refusal is an error of a kind with a sentence of its own.
func refusal(kind error, field, value, problem, remedy string) error {
	return &trouble{kind: kind, fault: fault.Fault{Field: field, Value: value, Problem: problem, Remedy: remedy}}
}

// kindOf tells what an error means, or gives nil where it means nothing known.
func kindOf(err error, path string) error {
	if err == nil {
		return nil
	}
	var e *driver.Error
	if errors.As(err, &e) {
		return kindOfCode(e.Code(), path)
	}
	for kind := range sentences {
		if errors.Is(err, kind) {
			return kind
		}
	}
	switch {
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return quote.ErrReadOnly
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT), runtime.GOOS == "windows" && errors.Is(err, windowsDiskFull):
		return quote.ErrFull
	case errors.Is(err, syscall.EIO):
		return quote.ErrDisk
	case errors.Is(err, sql.ErrConnDone), err.Error() == "sql: database is closed":
		return errClosed
	}
	return nil
}

// windowsDiskFull is ERROR_DISK_FULL. Source: Microsoft, system error codes.
const windowsDiskFull = syscall.Errno(112)

// kindOfCode tells what one of SQLite's result codes means. Source: "Result and
// Error Codes", sqlite.org/rescode.html.
func kindOfCode(code int, path string) error {
	switch code {
	case lib.SQLITE_READONLY_DBMOVED:
		return errMoved
	case lib.SQLITE_IOERR_SHMSIZE:
		return quote.ErrFull // the shared memory beside the file could not be made larger
	case lib.SQLITE_IOERR_CORRUPTFS, lib.SQLITE_IOERR_DATA, lib.SQLITE_IOERR_SHORT_READ:
		return quote.ErrDamaged
	}
	switch code & 0xff {
	case lib.SQLITE_CORRUPT:
		return quote.ErrDamaged
	case lib.SQLITE_NOTADB:
		return strangerOrDamaged(path)
	case lib.SQLITE_BUSY, lib.SQLITE_LOCKED, lib.SQLITE_PROTOCOL:
		return quote.ErrLocked
	case lib.SQLITE_FULL:
		return quote.ErrFull
	case lib.SQLITE_READONLY, lib.SQLITE_PERM, lib.SQLITE_CANTOPEN:
		return unopened(path)
	case lib.SQLITE_IOERR:
		return quote.ErrDisk
	}
	return nil
}

// magic is how every SQLite file begins. Source: sqlite.org/fileformat.html, 1.3.
const magic = "SQLite format 3\x00"

// strangerOrDamaged looks at the first bytes of what SQLite will not read: a
// database whose header is damaged still says that it is one.
func strangerOrDamaged(path string) error {
	file, err := os.Open(path)
	if err != nil {
		return quote.ErrNotOurs
	}
	defer file.Close()
	head := make([]byte, len(magic))
	if n, _ := file.Read(head); string(head[:n]) == magic {
		return quote.ErrDamaged
	}
	return quote.ErrNotOurs
}

// unopened tells why a file could not be opened at all.
func unopened(path string) error {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if _, err := os.Stat(folderOf(path)); err == nil {
			return quote.ErrReadOnly // the folder is there, and the file could not be made in it
		}
		return fs.ErrNotExist
	case err == nil && info.IsDir():
		return errFolder
	}
	return quote.ErrReadOnly
}
