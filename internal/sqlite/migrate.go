package sqlite

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"
)

//go:embed schema/*.sql
var schema embed.FS

// migrations are the statements that make version n of the file out of version
// n−1, at index n−1. Once landed, one never changes: files were made with it.
var migrations = readMigrations()

func readMigrations() []string {
	entries, err := schema.ReadDir("schema")
	if err != nil {
		panic(err) // cannot be: the folder is in the program
	}
	numbers := make([]int, len(entries))
	for i, e := range entries {
		if numbers[i], err = strconv.Atoi(strings.TrimSuffix(e.Name(), ".sql")); err != nil {
			panic(err)
		}
	}
	slices.Sort(numbers)
	all := make([]string, len(numbers))
	for i, n := range numbers {
		if n != i+1 {
			panic(fmt.Sprintf("schema/%d.sql is missing", i+1))
		}
		text, err := schema.ReadFile(path.Join("schema", strconv.Itoa(n)+".sql"))
		if err != nil {
			panic(err)
		}
		all[i] = string(text)
	}
	return all
}

// migrate brings the file at path to the newest version. A file that holds
// anything is copied into its backups before.
func migrate(ctx context.Context, file string, from int) error {
	if from > 0 && from < len(migrations) {
		db, err := connect(file, toWrite, settings(file)...)
		if err != nil {
			return err
		}
		defer db.Close()
		if err := copyInto(ctx, db, backupName(file, beforeMigration(from+1))); err != nil {
			return err
		}
	}
	return climbAlone(ctx, file, from, settings(file)...)
}

// climbAlone brings the file at path to the newest version, all of the way or
// not at all, without a copy.
func climbAlone(ctx context.Context, file string, from int, extra ...string) error {
	if from == len(migrations) {
		return nil
	}
	db, err := connect(file, toCreate, append(slices.Clone(extra), loose)...)
	if err != nil {
		return err
	}
	defer db.Close()
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	if err := climb(ctx, tx, file); err != nil {
		return err
	}
	return tx.Commit()
}

// climb runs the migrations that a file still needs. It looks again which those
// are: another window may just have run them.
func climb(ctx context.Context, tx *sql.Tx, file string) error {
	version, err := marks(ctx, tx, file)
	if err != nil {
		return err
	}
	for _, statements := range migrations[version:] {
		if _, err := tx.ExecContext(ctx, statements); err != nil {
			return err
		}
	}
	if wrong, err := strays(ctx, tx); err != nil || len(wrong) > 0 {
		return fmt.Errorf("the file cannot be brought up to date: %w", firstOf(err, wrong.Err()))
	}
	_, err = tx.ExecContext(ctx, fmt.Sprintf("PRAGMA application_id = %d; PRAGMA user_version = %d", ours, len(migrations)))
	return err
}

func firstOf(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
