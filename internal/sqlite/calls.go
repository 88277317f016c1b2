package sqlite

import (
	"cmp"
	"context"
	"database/sql"
	"errors"
	"slices"
	"strconv"
	"strings"
	"time"

	"meltwright/internal/quote"
)

const call = `SELECT id, title, client_id, body, site, deadline, due, budget, link, notes, deleted, version FROM calls `

// Calls lists the calls of which every word is in the title, the client, the
// site, the budget or the notes, or those that were removed: the next deadline
// first, then those without one, and those that are over last.
func (s *Store) Calls(ctx context.Context, words string, removed bool, now time.Time) (all []quote.Call, err error) {
	err = s.read(ctx, func(tx *sql.Tx) error {
		return each(ctx, tx, func(row *sql.Rows) error {
			c, body, err := readCall(row)
			if err == nil && holds(strings.Join([]string{c.Title, body, c.Site, c.Deadline, c.Budget, c.Link, c.Notes}, "\n"), words) {
				all = append(all, c)
			}
			return err
		}, call+`WHERE (deleted IS NOT NULL) = ?`, removed)
	})
	if err != nil {
		return nil, err
	}
	slices.SortFunc(all, func(a, b quote.Call) int {
		return cmp.Or(cmp.Compare(turn(a.Due, now), turn(b.Due, now)), a.Due.Compare(b.Due), cmp.Compare(plain(a.Title), plain(b.Title)), cmp.Compare(a.ID, b.ID))
	})
	return all, nil
}

// turn is in which part of a list by deadline a day stands.
func turn(due, now time.Time) int {
	switch {
	case due.IsZero():
		return 1
	case due.Before(dayOf(now)):
		return 2
	}
	return 0
}

// dayOf is the day of a moment where it is told, as a date in UTC.
func dayOf(t time.Time) time.Time {
	y, m, d := t.Date()
	return time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
}

func readCall(row *sql.Rows) (c quote.Call, body string, err error) {
	var client, due, deleted sql.NullInt64
	err = row.Scan(&c.ID, &c.Title, &client, &body, &c.Site, &c.Deadline, &due, &c.Budget, &c.Link, &c.Notes, &deleted, &c.Version)
	c.Client, c.Deleted, c.Due = quote.ClientID(client.Int64), momentOrNone(deleted), dateOrNone(due)
	return c, body, err
}

// dateOrNone reads a date that may not be there.
func dateOrNone(us sql.NullInt64) time.Time {
	if !us.Valid {
		return time.Time{}
	}
	return moment(us.Int64).UTC()
}

// orNull writes a time that may not be there.
func orNull(t time.Time) sql.NullInt64 { return sql.NullInt64{Int64: micros(t), Valid: !t.IsZero()} }

// SaveCall keeps a call: a new one where the ID is zero. Quotes that answer it are
// found by its new title, and sorted by its new day, at once. A Version that is
// not the kept one is quote.ErrOutdated.
func (s *Store) SaveCall(ctx context.Context, c quote.Call) (quote.Call, error) {
	if strings.TrimSpace(c.Title) == "" {
		return quote.Call{}, refusal(nil, "Call, title", c.Title, "is empty", "give the call a title")
	}
	err := s.write(ctx, func(tx *sql.Tx) (err error) {
		body, client := "", sql.NullInt64{Int64: int64(c.Client), Valid: c.Client != 0}
		if c.Client != 0 {
			if body, err = clientName(ctx, tx, c.Client); err != nil {
				return err
			}
		}
		if c.ID == 0 {
			c, err = insertCall(ctx, tx, c, client, body)
		} else {
			c, err = updateCall(ctx, tx, c, client, body)
		}
		return err
	})
	if err != nil {
		return quote.Call{}, err
	}
	return c, nil
}

func insertCall(ctx context.Context, tx *sql.Tx, c quote.Call, client sql.NullInt64, body string) (quote.Call, error) {
	c.Version, c.Deleted = 1, time.Time{}
	done, err := tx.ExecContext(ctx, `INSERT INTO calls (title, client_id, body, site, deadline, due, budget, link, notes, version) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, 1)`,
		c.Title, client, body, c.Site, c.Deadline, orNull(c.Due), c.Budget, c.Link, c.Notes)
	if err != nil {
		return c, err
	}
	id, err := done.LastInsertId()
	c.ID = quote.CallID(id)
	return c, err
}

func updateCall(ctx context.Context, tx *sql.Tx, c quote.Call, client sql.NullInt64, body string) (quote.Call, error) {
	kept, err := standingCall(ctx, tx, c.ID)
	if err != nil {
		return c, err
	}
	if kept.Version != c.Version {
		return c, refusal(quote.ErrOutdated, "Call", kept.Title, "was changed in another window since it was opened here", "open it again to see that change, then make yours")
	}
	c.Version, c.Deleted = c.Version+1, kept.Deleted
	_, err = tx.ExecContext(ctx, `UPDATE calls SET title = ?, client_id = ?, body = ?, site = ?, deadline = ?, due = ?, budget = ?, link = ?, notes = ?, version = ? WHERE id = ?`,
		c.Title, client, body, c.Site, c.Deadline, orNull(c.Due), c.Budget, c.Link, c.Notes, c.Version, c.ID)
	if err != nil {
		return c, err
	}
	_, err = tx.ExecContext(ctx, `UPDATE quotes SET call = ?1, due = ?2 WHERE call_id = ?3 AND (call <> ?1 OR due IS NOT ?2)`, c.Title, orNull(c.Due), c.ID)
	return c, err
}

// standingCall reads what a change of a call, or of a quote that answers it,
// depends on.
func standingCall(ctx context.Context, tx *sql.Tx, id quote.CallID) (c quote.Call, err error) {
	var due, deleted sql.NullInt64
	err = tx.QueryRowContext(ctx, `SELECT title, due, deleted, version FROM calls WHERE id = ?`, id).Scan(&c.Title, &due, &deleted, &c.Version)
	if errors.Is(err, sql.ErrNoRows) {
		return c, refusal(quote.ErrNotFound, "Call", strconv.FormatInt(int64(id), 10), "is not in the file", "choose one of the list, or enter a new one")
	}
	c.Due, c.Deleted = dateOrNone(due), momentOrNone(deleted)
	return c, err
}

// DeleteCall takes a call off the list; quotes that answer it go on.
func (s *Store) DeleteCall(ctx context.Context, id quote.CallID, now time.Time) error {
	return s.lay(ctx, `UPDATE calls SET deleted = ? WHERE id = ?`, int64(id), sql.NullInt64{Int64: micros(now), Valid: true}, "Call")
}

// RestoreCall puts a call back on the list.
func (s *Store) RestoreCall(ctx context.Context, id quote.CallID) error {
	return s.lay(ctx, `UPDATE calls SET deleted = ? WHERE id = ?`, int64(id), sql.NullInt64{}, "Call")
}

// lay marks a client or a call as removed, or as there again.
func (s *Store) lay(ctx context.Context, statement string, id int64, at sql.NullInt64, what string) error {
	return s.write(ctx, func(tx *sql.Tx) error {
		done, err := tx.ExecContext(ctx, statement, at, id)
		if err != nil {
			return err
		}
		if n, err := done.RowsAffected(); err != nil || n > 0 {
			return err
		}
		return refusal(quote.ErrNotFound, what, strconv.FormatInt(id, 10), "is not in the file", "look at the list again")
	})
}
