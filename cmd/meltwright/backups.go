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

func (backups) List(ctx context.Context, path string) ([]ui.Backup, error) {
	list, err := sqlite.Backups(ctx, path)
	all := make([]ui.Backup, len(list))
	for i, x := range list {
		all[i] = ui.Backup(x)
	}
	return all, err
}

func (backups) Look(ctx context.Context, path string) ui.Backup {
	return ui.Backup(sqlite.LookInto(ctx, path))
}

func (backups) Restore(ctx context.Context, path, backup string, now time.Time) (string, error) {
	return sqlite.Restore(ctx, path, backup, now)
}
