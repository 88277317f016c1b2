// Package sqlite keeps quotes, clients and shop books in one SQLite file. It is
// the only place that knows of the database.
//
// A call that returned has been kept: every change is one transaction, written
// to a log that is flushed to the disk before the call returns. Two windows, or
// two programs, may work on one file; a save of a quote that was changed
// elsewhere since it was opened is refused, so neither loses anything unseen.
// On a disk across a network, where that cannot be made safe, one program has
// the file to itself.
//
// Every error that concerns the file is one of package quote's, with a
// fault.Fault that says in a sentence what happened and what to do.
package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"sync/atomic"
	"time"

	"meltwright/internal/quote"
)

// Store keeps quotes in a file. It may be used by several goroutines.
type Store struct {
	db       *sql.DB
	path     string
	readOnly bool
	scratch  string       // a folder to remove at the end, where a copy is read
	file     os.FileInfo  // which file it was when it was opened, to write
	book     atomic.Int64 // the version of the shop book that was given or saved last
}

var _ quote.Store = (*Store)(nil)

// Open opens the file at path to read and write, and makes it, with its folder,
// if it is not there. An older file is brought up to date after a copy of it was
// put into its backups; a newer one, one that is not ours, a damaged one and one
// that may not be written are refused with an error that says so, and are not
// changed.
func Open(ctx context.Context, path string) (*Store, error) {
	for began := time.Now(); ; {
		s, err := open(ctx, path)
		if err = told(err, path); !errors.Is(err, quote.ErrLocked) || time.Since(began) > patience {
			return s, err
		}
		// Two that make a new file at once would wait for each other for ever, so
		// SQLite has one of them fail at once, whatever its patience.
		select {
		case <-ctx.Done():
			return nil, ctx.Err()
		case <-time.After(patience / 100):
		}
	}
}

func open(ctx context.Context, path string) (*Store, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	if err := makeFolder(filepath.Dir(path)); err != nil {
		return nil, err
	}
	version, err := whatIs(ctx, path)
	if err != nil {
		return nil, err
	}
	if err := migrate(ctx, path, version); err != nil {
		return nil, err
	}
	db, err := connect(path, toWrite, settings(path)...)
	if err != nil {
		return nil, err
	}
	db.SetMaxOpenConns(3)
	db.SetMaxIdleConns(3)
	if onShare(filepath.Dir(path)) {
		db.SetMaxOpenConns(1)
	}
	s := &Store{db: db, path: path}
	if err := s.settle(ctx, version == 0); err != nil {
		return nil, errors.Join(err, db.Close())
	}
	return s, nil
}

// settle makes sure that the file answers, can be written, and, if it is new,
// that a power cut does not take its name from the folder.
func (s *Store) settle(ctx context.Context, isNew bool) error {
	if _, err := marks(ctx, s.db, s.path); err != nil {
		return err
	}
	if err := s.mayWrite(ctx); err != nil {
		return err
	}
	if isNew {
		if err := flushFolder(filepath.Dir(s.path)); err != nil {
			return err
		}
	}
	var err error
	s.file, err = os.Stat(s.path)
	return err
}

// mayWrite is an error if SQLite had to open the file to read only.
func (s *Store) mayWrite(ctx context.Context) error {
	conn, err := s.db.Conn(ctx)
	if err != nil {
		return err
	}
	defer conn.Close()
	return conn.Raw(func(c any) error {
		only, err := c.(interface {
			IsReadOnly(schema string) (bool, error)
		}).IsReadOnly("main")
		if err == nil && only {
			err = told(quote.ErrReadOnly, s.path)
		}
		return err
	})
}

// OpenReadOnly opens the file at path to read: nothing in it changes, and every
// call that would is refused with quote.ErrReadOnly. It works in a folder that
// cannot be written to, and on an older file, by reading a copy.
func OpenReadOnly(ctx context.Context, path string) (*Store, error) {
	s, err := openReadOnly(ctx, path)
	return s, told(err, path)
}

func openReadOnly(ctx context.Context, path string) (*Store, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	if _, err := os.Stat(path); err != nil {
		return nil, err
	}
	version, err := whatIs(ctx, path)
	if err == nil && version == len(migrations) && !onShare(filepath.Dir(path)) {
		db, err := connect(path, toRead)
		if err != nil {
			return nil, err
		}
		return &Store{db: db, path: path, readOnly: true}, nil
	}
	if err != nil && !errors.Is(err, quote.ErrReadOnly) {
		return nil, err
	}
	return openCopy(ctx, path)
}

// openCopy reads a copy of the file, brought up to date.
func openCopy(ctx context.Context, path string) (*Store, error) {
	scratch, err := os.MkdirTemp("", "meltwright-")
	if err != nil {
		return nil, err
	}
	s, err := openCopyIn(ctx, path, scratch)
	if err != nil {
		return nil, errors.Join(err, os.RemoveAll(scratch))
	}
	return s, nil
}

func openCopyIn(ctx context.Context, path, scratch string) (*Store, error) {
	copied := filepath.Join(scratch, filepath.Base(path))
	if err := copyAsItStands(ctx, path, copied); err != nil {
		return nil, err
	}
	version, err := whatIs(ctx, copied)
	if err != nil {
		return nil, err
	}
	if err := climbAlone(ctx, copied, version); err != nil {
		return nil, err
	}
	db, err := connect(copied, toRead)
	if err != nil {
		return nil, err
	}
	return &Store{db: db, path: path, readOnly: true, scratch: scratch}, nil
}

// copyAsItStands copies a file at one moment, or, where no lock can be had to do
// that, byte for byte: then nobody can be writing to it either.
func copyAsItStands(ctx context.Context, path, copied string) error {
	db, err := connect(path, toWrite, settings(path)...)
	if err != nil {
		return err
	}
	defer db.Close()
	if err = copyInto(ctx, db, copied); errors.Is(err, quote.ErrReadOnly) {
		err = copyWithLog(path, copied)
	}
	return err
}

// Path is the file's path, whole.
func (s *Store) Path() string { return s.path }

// ReadOnly tells whether the file was opened to read.
func (s *Store) ReadOnly() bool { return s.readOnly }

// Close lets go of the file.
func (s *Store) Close() error {
	err := s.db.Close()
	if s.scratch != "" {
		err = errors.Join(err, os.RemoveAll(s.scratch))
	}
	return told(err, s.path)
}

// write runs a change as one transaction: all of it is kept, or none.
func (s *Store) write(ctx context.Context, change func(tx *sql.Tx) error) error {
	if s.readOnly {
		return refusal(quote.ErrReadOnly, "The quotes file", s.path, "is open to read only", "open it in a window that may write")
	}
	if err := s.inPlace(); err != nil {
		return err
	}
	tx, err := s.db.BeginTx(ctx, nil)
	if err != nil {
		return s.told(ctx, err)
	}
	defer tx.Rollback()
	if err := asKnown(ctx, tx, s.path); err != nil {
		return s.told(ctx, err)
	}
	if err := change(tx); err != nil {
		return s.told(ctx, err)
	}
	if _, err := tx.ExecContext(ctx, `UPDATE pulse SET changes = changes + 1`); err != nil {
		return s.told(ctx, err)
	}
	return s.told(ctx, tx.Commit())
}

// inPlace is an error if the file was moved or removed while it is open: the
// system would go on writing to it wherever it is, and drop it at the end.
func (s *Store) inPlace() error {
	is, err := os.Stat(s.path)
	moved := errors.Is(err, fs.ErrNotExist)
	if err == nil && !onShare(filepath.Dir(s.path)) { // where one file may seem two
		moved = !os.SameFile(is, s.file)
	}
	if moved {
		return told(errMoved, s.path)
	}
	return nil
}

// asKnown is an error if a newer program has brought the file up to date since
// it was opened.
func asKnown(ctx context.Context, tx *sql.Tx, path string) error {
	var version int
	err := tx.QueryRowContext(ctx, `PRAGMA user_version`).Scan(&version)
	if err == nil && version != len(migrations) {
		err = newer(path, version)
	}
	return err
}

// read runs questions that see the file at one moment.
func (s *Store) read(ctx context.Context, questions func(tx *sql.Tx) error) error {
	tx, err := s.db.BeginTx(ctx, &sql.TxOptions{ReadOnly: true})
	if err != nil {
		return s.told(ctx, err)
	}
	defer tx.Rollback()
	return s.told(ctx, questions(tx))
}

// told puts an error into a sentence, or says that the call was called off.
func (s *Store) told(ctx context.Context, err error) error {
	if err != nil && ctx.Err() != nil {
		return ctx.Err()
	}
	return told(err, s.path)
}
