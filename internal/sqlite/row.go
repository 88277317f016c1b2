package sqlite

import (
	"cmp"
	"context"
	"database/sql"
	"strings"

	"meltwright/internal/quote"
)

// row is a quote as the tables hold it.
type row struct {
	title, client, body, call, place, pieces, filed string
	commission, words, pictures                     string
	clientID, callID, due                           sql.NullInt64
}

func rowOf(ctx context.Context, tx *sql.Tx, q quote.Quote) (r row, err error) {
	c := q.Commission
	r.title, r.client, r.place = c.Title, c.Client, c.Place
	names := make([]string, len(c.Pieces))
	for i, p := range c.Pieces {
		names[i] = p.Name
	}
	r.pieces = strings.Join(names, "\n")
	if err = r.refer(ctx, tx, q); err != nil {
		return r, err
	}
	r.filed = plain(cmp.Or(r.client, r.body))
	if r.commission, err = encode(c); err != nil {
		return r, err
	}
	if r.pictures, err = encodeList(q.Pictures); err != nil {
		return r, err
	}
	r.words, err = encodeWords(q.Words)
	return r, err
}

// refer takes the names of what the quote refers to, which is an error where that
// is not there.
func (r *row) refer(ctx context.Context, tx *sql.Tx, q quote.Quote) (err error) {
	if q.Client != 0 {
		r.clientID = sql.NullInt64{Int64: int64(q.Client), Valid: true}
		if r.body, err = clientName(ctx, tx, q.Client); err != nil {
			return err
		}
	}
	if q.Call != 0 {
		r.callID = sql.NullInt64{Int64: int64(q.Call), Valid: true}
		c, err := standingCall(ctx, tx, q.Call)
		if err != nil {
			return err
		}
		r.call, r.due = c.Title, orNull(c.Due)
	}
	return noPicture(ctx, tx, q.Pictures)
}
