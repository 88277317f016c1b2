package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"strconv"
	"time"

	"meltwright/internal/estimate"
	"meltwright/internal/quote"
)

// Quote gives one quote, also one in the bin.
func (s *Store) Quote(ctx context.Context, id quote.ID) (q quote.Quote, err error) {
	err = s.read(ctx, func(tx *sql.Tx) error {
		q, err = readQuote(ctx, tx, id)
		return err
	})
	return q, err
}

func readQuote(ctx context.Context, db asker, id quote.ID) (quote.Quote, error) {
	q := quote.Quote{ID: id}
	var commission, words, pictures string
	var client, call, deleted sql.NullInt64
	var created, changed int64
	err := db.QueryRowContext(ctx, `SELECT number, letter, state, client_id, call_id, hand, created, changed, deleted, version, commission, words, pictures
		FROM quotes LEFT JOIN sheets ON quote = id WHERE id = ?`, id).
		Scan(&q.Number, &q.Letter, &q.State, &client, &call, &q.By, &created, &changed, &deleted, &q.Version, (*orNone)(&commission), (*orNone)(&words), (*orNone)(&pictures))
	if errors.Is(err, sql.ErrNoRows) {
		return quote.Quote{}, notFound(id)
	}
	if err != nil {
		return quote.Quote{}, err
	}
	q.Client, q.Call = quote.ClientID(client.Int64), quote.CallID(call.Int64)
	q.Created, q.Changed, q.Deleted = moment(created), moment(changed), momentOrNone(deleted)
	if q.Commission, err = decode[estimate.Commission](commission, "quote "+q.Number); err != nil {
		return quote.Quote{}, err
	}
	if q.Words, err = decodeWords(words, "quote "+q.Number); err != nil {
		return quote.Quote{}, err
	}
	q.Pictures, err = decodeList[quote.Shown](pictures, "the pictures of quote "+q.Number)
	return q, err
}

// orNone reads a text that a damaged file may not have.
type orNone string

// Scan takes a column's value.
func (o *orNone) Scan(v any) error {
	text, _ := v.(string)
	*o = orNone(text)
	return nil
}

func notFound(id quote.ID) error {
	return refusal(quote.ErrNotFound, "Quote", strconv.FormatInt(int64(id), 10), "is not in the file", "it may have been removed for good; look in the list and in the bin")
}

// Save keeps a quote: a new one where its ID is zero. A new one gets the next
// number of the year that now is in, and its first letter. The state may go
// only where quote.State.May lets it, and becomes issued by Issue alone; an
// empty state stays what it is. A quote in the bin is kept there.
func (s *Store) Save(ctx context.Context, q quote.Quote, price string, now time.Time) (quote.Quote, error) {
	err := s.write(ctx, func(tx *sql.Tx) (err error) {
		if q.ID == 0 {
			q, err = insertQuote(ctx, tx, q, price, now)
		} else {
			q, err = updateQuote(ctx, tx, q, price, now)
		}
		return err
	})
	if err != nil {
		return quote.Quote{}, err
	}
	return q, nil
}

func insertQuote(ctx context.Context, tx *sql.Tx, q quote.Quote, price string, now time.Time) (_ quote.Quote, err error) {
	if q.State == "" {
		q.State = quote.Draft
	}
	if !q.State.Known() {
		return q, strangeState(q.State)
	}
	if q.Number, err = nextNumber(ctx, tx, now.Year()); err != nil {
		return q, err
	}
	at := micros(now)
	spot, err := freeSpot(ctx, tx, at, false)
	if err != nil {
		return q, err
	}
	q.Letter, q.Version = quote.FirstLetter, 1
	q.Created, q.Changed, q.Deleted = moment(at), moment(at), time.Time{}
	r, err := rowOf(ctx, tx, q)
	if err != nil {
		return q, err
	}
	done, err := tx.ExecContext(ctx, `INSERT INTO quotes (spot, number, letter, state, title, client, body, place, pieces, price, client_id, call_id, call, due, worth, filed, hand, created, changed, version)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, 1)`,
		spot, q.Number, q.Letter, q.State, r.title, r.client, r.body, r.place, r.pieces, price, r.clientID, r.callID, r.call, r.due, digitsOf(price), r.filed, q.By, at, at)
	if err != nil {
		return q, err
	}
	id, err := done.LastInsertId()
	if err != nil {
		return q, err
	}
	q.ID = quote.ID(id)
	_, err = tx.ExecContext(ctx, `INSERT INTO sheets (quote, commission, words, pictures) VALUES (?, ?, ?, ?)`, id, r.commission, r.words, r.pictures)
	return q, err
}

func updateQuote(ctx context.Context, tx *sql.Tx, q quote.Quote, price string, now time.Time) (quote.Quote, error) {
	kept, err := standing(ctx, tx, q.ID)
	if err != nil {
		return q, err
	}
	if kept.Version != q.Version {
		return q, refusal(quote.ErrOutdated, "Quote", kept.Number, "was changed in another window since it was opened here",
			"open it again to see that change; save this one as a new quote to keep both")
	}
	if q.State == "" {
		q.State = kept.State
	}
	if err := mayBecome(kept, q.State); err != nil {
		return q, err
	}
	at := micros(now)
	spot, err := freeSpot(ctx, tx, at, !kept.Deleted.IsZero())
	if err != nil {
		return q, err
	}
	q.Number, q.Letter, q.Created, q.Deleted = kept.Number, kept.Letter, kept.Created, kept.Deleted
	q.Changed, q.Version = moment(at), kept.Version+1
	r, err := rowOf(ctx, tx, q)
	if err != nil {
		return q, err
	}
	if _, err = tx.ExecContext(ctx, `UPDATE quotes SET spot = ?, state = ?, title = ?, client = ?, body = ?, place = ?, pieces = ?,
		price = ?, client_id = ?, call_id = ?, call = ?, due = ?, worth = ?, filed = ?, hand = ?, changed = ?, version = ? WHERE id = ?`,
		spot, q.State, r.title, r.client, r.body, r.place, r.pieces, price, r.clientID, r.callID, r.call, r.due, digitsOf(price), r.filed, q.By, at, q.Version, q.ID); err != nil {
		return q, err
	}
	_, err = tx.ExecContext(ctx, `UPDATE sheets SET commission = ?, words = ?, pictures = ? WHERE quote = ?`, r.commission, r.words, r.pictures, q.ID)
	return q, err
}

// standing reads what a change of a quote depends on.
func standing(ctx context.Context, tx *sql.Tx, id quote.ID) (quote.Quote, error) {
	q := quote.Quote{ID: id}
	var created, changed int64
	var deleted sql.NullInt64
	err := tx.QueryRowContext(ctx, `SELECT number, letter, state, created, changed, deleted, version FROM quotes WHERE id = ?`, id).
		Scan(&q.Number, &q.Letter, &q.State, &created, &changed, &deleted, &q.Version)
	if errors.Is(err, sql.ErrNoRows) {
		return q, notFound(id)
	}
	q.Created, q.Changed, q.Deleted = moment(created), moment(changed), momentOrNone(deleted)
	return q, err
}

func mayBecome(kept quote.Quote, to quote.State) error {
	switch {
	case !to.Known():
		return strangeState(to)
	case !kept.State.May(to), to == quote.Issued && kept.State == quote.Draft:
		return refusal(nil, "Quote", kept.Number, fmt.Sprintf("is %s and cannot become %s like this", kept.State, to), "issue it first, or make it a draft")
	}
	return nil
}

func strangeState(s quote.State) error {
	return refusal(nil, "State", string(s), "is not one that a quote can be in", fmt.Sprintf("give one of %v", quote.States()))
}

// nextNumber gives the year's next number: "2026-014". None is given twice,
// also after quotes were removed.
func nextNumber(ctx context.Context, tx *sql.Tx, year int) (string, error) {
	var n int
	err := tx.QueryRowContext(ctx, `INSERT INTO numbers (year, last) VALUES (?, 1)
		ON CONFLICT (year) DO UPDATE SET last = last + 1 RETURNING last`, year).Scan(&n)
	return fmt.Sprintf("%d-%03d", year, n), err
}

// crowd is how many changes of one moment find room one after the other in the
// list: those of a second, if each moved on by a microsecond.
const crowd = 1_000_000

// The last place taken from one on, in the list and in the bin, its mirror.
const (
	lastInList = `SELECT max(spot) FROM quotes WHERE spot BETWEEN ?1 AND ?1 + ?2 AND EXISTS (SELECT 1 FROM quotes WHERE spot = ?1)`
	lastInBin  = `SELECT -min(spot) FROM quotes WHERE spot BETWEEN -?1 - ?2 AND -?1 AND EXISTS (SELECT 1 FROM quotes WHERE spot = -?1)`
)

// freeSpot gives a place in the list for a quote changed at a time, after those
// that were changed at the same time. The bin is the list below zero.
func freeSpot(ctx context.Context, tx *sql.Tx, at int64, bin bool) (int64, error) {
	question, sign := lastInList, int64(1)
	if bin {
		question, sign = lastInBin, -1
	}
	at = max(at, 1)
	var last sql.NullInt64
	err := tx.QueryRowContext(ctx, question, at, crowd).Scan(&last)
	if last.Valid {
		at = last.Int64 + 1
	}
	return sign * at, err
}
