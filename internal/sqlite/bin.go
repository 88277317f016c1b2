package sqlite

import (
	"context"
	"database/sql"
	"time"

	"meltwright/internal/quote"
)

// Delete puts a quote into the bin. One that lies there stays as it lies.
func (s *Store) Delete(ctx context.Context, id quote.ID, now time.Time) error {
	return s.write(ctx, func(tx *sql.Tx) error {
		q, err := standing(ctx, tx, id)
		if err != nil || !q.Deleted.IsZero() {
			return err
		}
		return move(ctx, tx, q, sql.NullInt64{Int64: micros(now), Valid: true})
	})
}

// Restore takes a quote out of the bin. One that is not there stays where it is.
func (s *Store) Restore(ctx context.Context, id quote.ID) error {
	return s.write(ctx, func(tx *sql.Tx) error {
		q, err := standing(ctx, tx, id)
		if err != nil || q.Deleted.IsZero() {
			return err
		}
		return move(ctx, tx, q, sql.NullInt64{})
	})
}

// move moves a quote into the bin or out of it. Its version stays: a window that
// has it open may go on typing, and loses nothing.
func move(ctx context.Context, tx *sql.Tx, q quote.Quote, deleted sql.NullInt64) error {
	spot, err := freeSpot(ctx, tx, micros(q.Changed), deleted.Valid)
	if err != nil {
		return err
	}
	_, err = tx.ExecContext(ctx, `UPDATE quotes SET spot = ?, deleted = ? WHERE id = ?`, spot, deleted, q.ID)
	return err
}

// Empty removes the quotes that have lain in the bin since before a time, with
// their revisions, for good, and tells how many they were. Their numbers are
// not given again.
func (s *Store) Empty(ctx context.Context, before time.Time) (int, error) {
	var n int64
	err := s.write(ctx, func(tx *sql.Tx) error {
		if _, err := tx.ExecContext(ctx, `DELETE FROM revisions WHERE quote IN (SELECT id FROM quotes WHERE deleted < ?)`, micros(before)); err != nil {
			return err
		}
		done, err := tx.ExecContext(ctx, `DELETE FROM quotes WHERE deleted < ?`, micros(before))
		if err != nil {
			return err
		}
		if n, err = done.RowsAffected(); err != nil {
			return err
		}
		return sweepPictures(ctx, tx)
	})
	if err != nil {
		return 0, err
	}
	return int(n), nil
}
