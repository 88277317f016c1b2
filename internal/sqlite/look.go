package sqlite

import (
	"context"
	"database/sql"
	"fmt"
	"os"
	"path/filepath"

	"meltwright/internal/fault"
	"meltwright/internal/quote"
)

// ours is Meltwright's mark in the header of its files: "Mltw".
const ours = 0x4D6C7477

// whatIs says which version of ours the file at path is; 0 is a file not there
// yet, or an empty one. Anything else is an error, and the file is not touched.
func whatIs(ctx context.Context, path string) (version int, err error) {
	info, err := os.Stat(path)
	switch {
	case os.IsNotExist(err), err == nil && info.Mode().IsRegular() && info.Size() == 0:
		return 0, nil
	case err != nil:
		return 0, told(err, path)
	case info.IsDir():
		return 0, told(errFolder, path)
	}
	// Where a change was cut off it has to be undone or finished first, and that
	// is to write. To have a file to oneself is to write, too.
	ways := []func() (int, error){
		func() (int, error) { return ask(ctx, path, toRead) },
		func() (int, error) { return ask(ctx, path, toWrite) },
	}
	if onShare(filepath.Dir(path)) {
		ways = []func() (int, error){func() (int, error) { return ask(ctx, path, toWrite, alone) }, ways[0]}
	}
	version, err = ways[0]()
	if kindOf(err, path) == quote.ErrReadOnly {
		version, err = ways[1]()
	}
	return version, told(err, path)
}

// ask opens the file for a moment and reads its marks.
func ask(ctx context.Context, path string, m mode, extra ...string) (version int, err error) {
	db, err := connect(path, m, extra...)
	if err != nil {
		return 0, err
	}
	defer db.Close()
	return marks(ctx, db, path)
}

// asker is a pool, a connection or a transaction.
type asker interface {
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
	ExecContext(ctx context.Context, query string, args ...any) (sql.Result, error)
}

// each asks a question and has every row of the answer scanned.
func each(ctx context.Context, db asker, scan func(row *sql.Rows) error, question string, args ...any) error {
	rows, err := db.QueryContext(ctx, question, args...)
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		if err := scan(rows); err != nil {
			return err
		}
	}
	return rows.Err()
}

// marks reads what a file says it is.
func marks(ctx context.Context, db asker, path string) (version int, err error) {
	var mark, things int
	err = db.QueryRowContext(ctx, `SELECT application_id, user_version, (SELECT count(*) FROM sqlite_schema)
		FROM pragma_application_id, pragma_user_version`).Scan(&mark, &version, &things)
	switch {
	case err != nil:
		return 0, err
	case mark == 0 && version == 0 && things == 0:
		return 0, nil
	case mark != ours || version < 1:
		return 0, told(quote.ErrNotOurs, path)
	case version > len(migrations):
		return 0, newer(path, version)
	}
	return version, nil
}

func newer(path string, version int) error {
	s := sentences[quote.ErrNewer]
	return &trouble{kind: quote.ErrNewer, fault: fault.Fault{
		Field: "The quotes file", Value: path,
		Problem: fmt.Sprintf("%s (its version is %d, and this program knows up to %d)", s.problem, version, len(migrations)), Remedy: s.remedy,
	}}
}
