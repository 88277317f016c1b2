package sqlite

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"
)

// The rule of the automatic backups: one for each day on which something had
// changed since the last; the last ten of them stay, and before those the last
// of each month, for two years. Copies made before an update of the file, and
// files set aside by a restore, are few and stay until somebody removes them.
const (
	daysKept   = 10
	monthsKept = 24
)

// Kinds of backups, as their names have them after the date.
const (
	daily  = ""         // made of each day
	before = "-before-" // made before the file was brought to the version that follows
	aside  = "-aside-"  // what a restore replaced, with the time of day
)

// BackupFolder is where the backups of the file at path lie: beside it.
func BackupFolder(path string) string { return filepath.Join(filepath.Dir(path), "backups") }

// backupName names a backup of the file at path: "quotes-2026-03-14.db", or with
// what it was made for, "quotes-2026-03-14-before-2.db".
func backupName(path, dated string) string {
	return filepath.Join(BackupFolder(path), stem(path)+"-"+dated+".db")
}

func stem(path string) string {
	return strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
}

// beforeMigration dates the copy made before the file becomes of a version.
func beforeMigration(version int) string {
	return fmt.Sprintf("%s%s%d", time.Now().Format(time.DateOnly), before, version)
}

// dating finds what the name of a backup says after the stem.
var dating = regexp.MustCompile(`^-(\d{4}-\d\d-\d\d)(?:(-before-|-aside-)(\d+))?\.db$`)

// named is a backup by its name.
type named struct{ path, date, kind, rest string }

// backupsOf lists the backups of the file at path, the last one first, by their
// names alone.
func backupsOf(path string) ([]named, error) {
	entries, err := os.ReadDir(BackupFolder(path))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var all []named
	for _, e := range entries {
		rest, ok := strings.CutPrefix(e.Name(), stem(path))
		m := dating.FindStringSubmatch(rest)
		if ok && m != nil {
			all = append(all, named{filepath.Join(BackupFolder(path), e.Name()), m[1], m[2], m[3]})
		}
	}
	slices.SortFunc(all, func(a, b named) int {
		return cmp.Or(cmp.Compare(b.date, a.date), cmp.Compare(a.kind, b.kind), cmp.Compare(b.rest, a.rest))
	})
	return all, nil
}

// KeepBackup makes the backup of the day, if there is none yet and something has
// changed since the last, then removes those that the rule lets go. It gives the
// new backup's path, or none. It may take seconds on a big file, and work goes
// on meanwhile: call it once the window is up, not before.
func (s *Store) KeepBackup(ctx context.Context, now time.Time) (string, error) {
	if s.readOnly {
		return "", nil
	}
	all, err := backupsOf(s.path)
	if err != nil {
		return "", told(err, BackupFolder(s.path))
	}
	dailies := slices.DeleteFunc(slices.Clone(all), func(b named) bool { return b.kind != daily })
	today := now.Format(time.DateOnly)
	if slices.ContainsFunc(dailies, func(b named) bool { return b.date == today }) {
		return "", nil
	}
	if same, err := s.asIn(ctx, dailies); err != nil || same {
		return "", err
	}
	made := backupName(s.path, today)
	if err := s.Backup(ctx, made); err != nil {
		return "", err
	}
	dates := []string{today}
	for _, b := range dailies {
		dates = append(dates, b.date)
	}
	for _, date := range spare(dates) {
		err = errors.Join(err, removeIfThere(backupName(s.path, date)))
	}
	return made, told(errors.Join(err, removeUnfinished(s.path, now)), BackupFolder(s.path))
}

// asIn tells whether nothing has changed since the last backup.
func (s *Store) asIn(ctx context.Context, dailies []named) (bool, error) {
	changes, err := pulse(ctx, s.db)
	if err != nil {
		return false, told(err, s.path)
	}
	if len(dailies) == 0 {
		return changes == 0, nil // an empty file needs none
	}
	db, err := connect(dailies[0].path, toRead)
	if err != nil {
		return false, err
	}
	defer db.Close()
	then, err := pulse(ctx, db)
	return err == nil && then == changes, nil // one that cannot be read is no backup
}

// pulse counts the changes that were ever made to a file.
func pulse(ctx context.Context, db asker) (changes int64, err error) {
	err = db.QueryRowContext(ctx, `SELECT changes FROM pulse`).Scan(&changes)
	return changes, err
}

// Changes counts the changes that were ever made to the file: where it has gone
// up by more than one's own, another window made some.
func (s *Store) Changes(ctx context.Context) (int64, error) {
	n, err := pulse(ctx, s.db)
	return n, told(err, s.path)
}

// spare gives the dates ("2026-03-14") of daily backups that the rule lets go.
func spare(dates []string) (gone []string) {
	dates = slices.Sorted(slices.Values(dates))
	slices.Reverse(dates)
	dates = slices.Compact(dates)
	months := map[string]bool{}
	for i, date := range dates {
		month := date[:len("2026-03")]
		if i < daysKept {
			continue
		}
		if months[month] || len(months) == monthsKept {
			gone = append(gone, date)
			continue
		}
		months[month] = true
	}
	return gone
}

// removeUnfinished removes copies that were cut off an hour ago or more.
func removeUnfinished(path string, now time.Time) (err error) {
	for _, folder := range []string{filepath.Dir(path), BackupFolder(path)} {
		entries, e := os.ReadDir(folder)
		err = errors.Join(err, e)
		for _, entry := range entries {
			ours := strings.HasPrefix(strings.TrimLeft(entry.Name(), "."), stem(path)+"-") && strings.HasSuffix(entry.Name(), unfinished)
			info, e := entry.Info()
			if ours && e == nil && now.Sub(info.ModTime()) > time.Hour {
				err = errors.Join(err, removeIfThere(filepath.Join(folder, entry.Name())))
			}
		}
	}
	return err
}
