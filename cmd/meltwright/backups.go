package main

import (
	"context"
	"time"

	"meltwright/internal/sqlite"
	"meltwright/internal/ui"
)

// backups are those of SQLite, for the window.
type backups struct{}

var _ ui.Backups = backups{}

// List gives the backups of the store at path, the newest first.
func (backups) List(ctx context.Context, path string) ([]ui.Backup, error) {
	list, err := sqlite.Backups(ctx, path)
	all := make([]ui.Backup, len(list))
	for i, x := range list {
		all[i] = ui.Backup(x)
	}
	return all, err
}

// Look tells what is in a file, as if it were a backup.
func (backups) Look(ctx context.Context, path string) ui.Backup {
	return ui.Backup(sqlite.LookInto(ctx, path))
}

// Restore puts a backup in the place of the store at path, and tells where the
// store that was there has been set aside.
func (backups) Restore(ctx context.Context, path, backup string, now time.Time) (string, error) {
	return sqlite.Restore(ctx, path, backup, now)
}
