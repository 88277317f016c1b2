package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"os"
	"path/filepath"
	"time"

	"meltwright/internal/quote"
)

// BackupInfo is what a look into a backup shows before it is restored.
type BackupInfo struct {
	Path    string
	Date    string    // of its making: "2026-03-14"
	What    string    // "of the day", "before an update", "set aside by a restore"
	Quotes  int       // in the list, without the bin
	Latest  string    // number and title of the quote that was changed last
	Changed time.Time // when that was; zero where there is no quote
	Size    int64     // bytes
	Err     error     // why it cannot be restored, with a fault; nil if it can
}

var whats = map[string]string{daily: "of the day", before: "before an update", aside: "set aside by a restore"}

// Backups looks into every backup of the file at path, the last one first. The
// file itself need not be there, or be sound.
func Backups(ctx context.Context, path string) ([]BackupInfo, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	all, err := backupsOf(path)
	if err != nil {
		return nil, told(err, BackupFolder(path))
	}
	infos := make([]BackupInfo, len(all))
	for i, b := range all {
		infos[i] = LookInto(ctx, b.path)
		infos[i].Date, infos[i].What = b.date, whats[b.kind]
	}
	return infos, nil
}

// LookInto looks into any file that might be restored.
func LookInto(ctx context.Context, path string) BackupInfo {
	info := BackupInfo{Path: path}
	f, err := os.Stat(path)
	if err == nil {
		info.Size, info.Date = f.Size(), f.ModTime().Format(time.DateOnly)
		err = info.look(ctx)
	}
	info.Err = told(err, path)
	return info
}

func (b *BackupInfo) look(ctx context.Context) error {
	db, err := connect(b.Path, toRead)
	if err != nil {
		return err
	}
	defer db.Close()
	version, err := marks(ctx, db, b.Path)
	if err != nil {
		return err
	}
	if version == 0 {
		return quote.ErrNotOurs
	}
	if err := db.QueryRowContext(ctx, `SELECT count(*) FROM quotes WHERE spot > 0`).Scan(&b.Quotes); err != nil {
		return err
	}
	var changed int64
	err = db.QueryRowContext(ctx, `SELECT number || ' ' || title, changed FROM quotes WHERE spot > 0 ORDER BY spot DESC LIMIT 1`).Scan(&b.Latest, &changed)
	if errors.Is(err, sql.ErrNoRows) {
		return nil
	}
	b.Changed = moment(changed)
	return err
}
