package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"meltwright/internal/quote"
)

// Backup writes a copy of the file, as it stands at one moment, to toPath, while
// work goes on. The copy is whole: it is written under another name, read
// through once, flushed to the disk, and only then gets its name, replacing a
// file that had it. A backup that fails leaves what was there.
func (s *Store) Backup(ctx context.Context, toPath string) error {
	toPath, err := filepath.Abs(toPath)
	if err != nil {
		return err
	}
	for _, own := range []string{s.path, s.path + logSuffix, s.path + memorySuffix} {
		if same(own, toPath) {
			return refusal(nil, "Backup", toPath, "is the file itself", "give another name, best on another disk")
		}
	}
	if err := makeFolder(filepath.Dir(toPath)); err != nil {
		return told(err, toPath)
	}
	return copyInto(ctx, s.db, toPath)
}

// same tells whether two names are of one file.
func same(a, b string) bool {
	if a == b {
		return true
	}
	one, err := os.Stat(a)
	if err != nil {
		return false
	}
	other, err := os.Stat(b)
	return err == nil && os.SameFile(one, other)
}

// unfinished ends the name of a copy being written.
const unfinished = ".part"

// copyInto writes a copy of the database to path, which appears there whole or
// not at all. Errors name the copy, unless the original cannot be read.
func copyInto(ctx context.Context, db *sql.DB, path string) error {
	if err := makeFolder(filepath.Dir(path)); err != nil {
		return told(err, path)
	}
	part, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+"-*"+unfinished)
	if err != nil {
		return told(err, path)
	}
	name := part.Name()
	if err := part.Close(); err != nil {
		return told(err, path)
	}
	err = fill(ctx, db, name)
	if err == nil {
		err = told(putInPlace(name, path), path)
	}
	if err != nil {
		return errors.Join(err, removeIfThere(name, name+"-journal"))
	}
	return nil
}

// fill copies the database into the empty file at part, and reads that through.
func fill(ctx context.Context, db *sql.DB, part string) error {
	if _, err := db.ExecContext(ctx, `VACUUM INTO ?`, part); err != nil {
		if kindOf(err, part) == quote.ErrDamaged {
			return refusal(quote.ErrDamaged, "The quotes file", "", "is damaged, so no copy of it was made", "check it, and restore a backup made before")
		}
		return told(err, part)
	}
	return told(soundly(ctx, part), part)
}

// soundly is an error unless the file at path is ours and every page is sound.
func soundly(ctx context.Context, path string) error {
	db, err := connect(path, toRead)
	if err != nil {
		return err
	}
	defer db.Close()
	if _, err := marks(ctx, db, path); err != nil {
		return err
	}
	var verdict string
	if err := db.QueryRowContext(ctx, `PRAGMA quick_check(1)`).Scan(&verdict); err != nil {
		return err
	}
	if verdict != "ok" {
		return fmt.Errorf("%w: %s", quote.ErrDamaged, verdict)
	}
	return nil
}
