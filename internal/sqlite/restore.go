package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"path/filepath"
	"time"

	driver "modernc.org/sqlite"

	"meltwright/internal/quote"
)

// Restore puts a backup, or any other file of ours, in the place of the file at
// path. What was there is set aside among the backups first, whole; its path is
// given back, empty where there was nothing. Numbers given since the backup are
// not given again, and a quote that another window has open cannot be saved over
// a restored one.
//
// A sound file is replaced in one transaction, and may be open meanwhile. One
// that is damaged, or not ours, is exchanged: it has to be closed everywhere.
func Restore(ctx context.Context, path, backup string, now time.Time) (setAside string, err error) {
	if path, err = filepath.Abs(path); err != nil {
		return "", err
	}
	if backup, err = filepath.Abs(backup); err != nil {
		return "", err
	}
	if same(path, backup) {
		return "", refusal(nil, "Backup", backup, "is the file itself", "choose one of its backups")
	}
	ready := filepath.Join(filepath.Dir(path), "."+stem(path)+"-restoring"+unfinished)
	defer func() { err = errors.Join(err, removeIfThere(ready, ready+"-journal")) }()
	if err := prepare(ctx, path, backup, ready); err != nil {
		return "", err
	}
	version, err := whatIs(ctx, path)
	if err == nil && version > 0 {
		setAside, err = replace(ctx, path, ready, now)
		if !errors.Is(err, quote.ErrDamaged) {
			return setAside, told(err, path)
		}
	}
	if err != nil && !errors.Is(err, quote.ErrDamaged) && !errors.Is(err, quote.ErrNotOurs) {
		return "", told(err, path)
	}
	setAside, err = exchange(path, ready, now)
	return setAside, told(err, path)
}

// prepare makes what will be restored: a copy of the backup, brought up to date.
func prepare(ctx context.Context, path, backup, ready string) error {
	version, err := whatIs(ctx, backup)
	if err != nil {
		return err
	}
	if version == 0 {
		return told(quote.ErrNotOurs, backup)
	}
	db, err := connect(backup, toRead)
	if err != nil {
		return err
	}
	defer db.Close()
	if err := makeFolder(filepath.Dir(path)); err != nil {
		return told(err, path)
	}
	if err := copyInto(ctx, db, ready); err != nil {
		return err
	}
	if err := climbAlone(ctx, ready, version); err != nil {
		return told(err, ready)
	}
	return told(carryOn(ctx, path, ready), ready)
}

// marksOf is what a file must not fall behind.
type marksOf struct {
	numbers  map[int]int    // the last number of each year
	rows     map[string]int // the last row of each table
	versions int            // the highest version of any quote or client
	changes  int64
}

// carryOn brings the counters of the restored file up to those of the one that
// it replaces, as far as that can still be read.
func carryOn(ctx context.Context, path, ready string) error {
	m, err := readMarks(ctx, path)
	if err != nil {
		return nil // nothing there, or nothing left of it
	}
	db, err := connect(ready, toWrite)
	if err != nil {
		return err
	}
	defer db.Close()
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	if err := m.put(ctx, tx); err != nil {
		return err
	}
	return tx.Commit()
}

func readMarks(ctx context.Context, path string) (m marksOf, err error) {
	db, err := connect(path, toRead)
	if err != nil {
		return m, err
	}
	defer db.Close()
	m.numbers, m.rows = map[int]int{}, map[string]int{}
	err = each(ctx, db, func(row *sql.Rows) error {
		var year, last int
		err := row.Scan(&year, &last)
		m.numbers[year] = last
		return err
	}, `SELECT year, last FROM numbers`)
	if err != nil {
		return m, err
	}
	err = each(ctx, db, func(row *sql.Rows) error {
		var table string
		var last int
		err := row.Scan(&table, &last)
		m.rows[table] = last
		return err
	}, `SELECT name, seq FROM sqlite_sequence`)
	if err != nil {
		return m, err
	}
	err = db.QueryRowContext(ctx, `SELECT max(coalesce((SELECT max(version) FROM quotes), 0), coalesce((SELECT max(version) FROM clients), 0)), (SELECT changes FROM pulse)`).
		Scan(&m.versions, &m.changes)
	return m, err
}

func (m marksOf) put(ctx context.Context, tx *sql.Tx) error {
	for year, last := range m.numbers {
		if _, err := tx.ExecContext(ctx, `INSERT INTO numbers (year, last) VALUES (?, ?)
			ON CONFLICT (year) DO UPDATE SET last = excluded.last WHERE excluded.last > last`, year, last); err != nil {
			return err
		}
	}
	for table, last := range m.rows {
		if _, err := tx.ExecContext(ctx, `INSERT INTO sqlite_sequence (name, seq) SELECT ?1, 0 WHERE NOT EXISTS (SELECT 1 FROM sqlite_sequence WHERE name = ?1)`, table); err != nil {
			return err
		}
		if _, err := tx.ExecContext(ctx, `UPDATE sqlite_sequence SET seq = max(seq, ?) WHERE name = ?`, last, table); err != nil {
			return err
		}
	}
	for _, change := range []string{
		`UPDATE quotes SET version = version + ?1`,
		`UPDATE clients SET version = version + ?1`,
	} {
		if _, err := tx.ExecContext(ctx, change, m.versions); err != nil {
			return err
		}
	}
	_, err := tx.ExecContext(ctx, `UPDATE pulse SET changes = max(changes, ?) + 1`, m.changes)
	return err
}

func asideName(path string, now time.Time) string {
	return backupName(path, now.Format(time.DateOnly)+aside+now.Format("150405"))
}

// replace pours the prepared file into the one at path, in one transaction.
func replace(ctx context.Context, path, ready string, now time.Time) (setAside string, err error) {
	db, err := connect(path, toWrite, settings(path)...)
	if err != nil {
		return "", err
	}
	defer db.Close()
	db.SetMaxOpenConns(1)
	setAside = asideName(path, now)
	if err := copyInto(ctx, db, setAside); err != nil {
		return "", err
	}
	conn, err := db.Conn(ctx)
	if err != nil {
		return "", err
	}
	defer conn.Close()
	return setAside, conn.Raw(func(c any) error { return pour(c, address(ready, toRead)) })
}

func pour(c any, from string) error {
	copying, err := c.(interface {
		NewRestore(from string) (*driver.Backup, error)
	}).NewRestore(from)
	if err != nil {
		return err
	}
	more, err := copying.Step(-1)
	if err == nil && more {
		err = fmt.Errorf("%w: the copy was not finished", quote.ErrLocked)
	}
	return errors.Join(err, copying.Finish())
}

// exchange sets aside whatever is at path, byte for byte, and gives its name to
// the prepared file.
func exchange(path, ready string, now time.Time) (setAside string, err error) {
	if there(path) {
		setAside = asideName(path, now)
		if err := makeFolder(filepath.Dir(setAside)); err != nil {
			return "", err
		}
		if err := copyWithLog(path, setAside); err != nil {
			return "", err
		}
	}
	// The old log must be gone before the new file is there: SQLite would take it
	// for the new file's.
	if err := removeIfThere(path+logSuffix, path+memorySuffix); err != nil {
		return "", err
	}
	return setAside, putInPlace(ready, path)
}
