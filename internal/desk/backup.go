package desk

import (
	"context"
	"time"
)

// KeepBackup makes the backup of the day, where the store makes such; any
// goroutine may call it. It may take seconds, and work goes on meanwhile.
func (d *Desk) KeepBackup(ctx context.Context) error {
	s, ok := d.store.(interface {
		KeepBackup(ctx context.Context, now time.Time) (string, error)
	})
	if !ok {
		return nil
	}
	_, err := s.KeepBackup(ctx, d.now())
	return err
}
