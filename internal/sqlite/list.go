package sqlite

import (
	"context"
	"database/sql"

	"meltwright/internal/quote"
)

// usual is how many rows a list has where its filter does not say.
const usual = 200

const summary = `SELECT q.id, q.number, q.letter,
	coalesce((SELECT letter FROM revisions WHERE quote = q.id ORDER BY length(letter) DESC, letter DESC LIMIT 1), ''), q.state, q.title, CASE q.client WHEN '' THEN q.body ELSE q.client END, q.place, q.price, q.changed, q.deleted `

// The four lists. The spot is the order: above zero upwards in time, and below
// zero, in the bin, downwards.
var lists = map[[2]bool]struct{ rows, total string }{
	{false, false}: {
		summary + `FROM quotes q WHERE q.spot > 0 ORDER BY q.spot DESC LIMIT @limit OFFSET @offset`,
		`SELECT count(*) FROM quotes WHERE spot > 0`,
	},
	{false, true}: {
		summary + `FROM quotes q WHERE q.spot < 0 ORDER BY q.spot LIMIT @limit OFFSET @offset`,
		`SELECT count(*) FROM quotes WHERE spot < 0`,
	},
	{true, false}: {
		summary + `FROM search s JOIN quotes q ON q.spot = s.rowid WHERE search MATCH @match AND s.rowid > 0 ORDER BY s.rowid DESC LIMIT @limit OFFSET @offset`,
		`SELECT count(*) FROM search WHERE search MATCH @match AND rowid > 0`,
	},
	{true, true}: {
		summary + `FROM search s JOIN quotes q ON q.spot = s.rowid WHERE search MATCH @match AND s.rowid < 0 ORDER BY s.rowid LIMIT @limit OFFSET @offset`,
		`SELECT count(*) FROM search WHERE search MATCH @match AND rowid < 0`,
	},
}

// List gives the quotes that match, the last changed first, and how many match
// in all. A word matches whatever begins with it, without regard to accents and
// case.
func (s *Store) List(ctx context.Context, f quote.Filter) (rows []quote.Summary, total int, err error) {
	words := match(f.Words)
	if f.Limit <= 0 {
		f.Limit = usual
	}
	list := lists[[2]bool{words != "", f.Bin}]
	var args []any
	if words != "" {
		args = append(args, sql.Named("match", words))
	}
	err = s.read(ctx, func(tx *sql.Tx) error {
		if err := tx.QueryRowContext(ctx, list.total, args...).Scan(&total); err != nil {
			return err
		}
		args = append(args, sql.Named("limit", f.Limit), sql.Named("offset", max(f.Offset, 0)))
		rows = make([]quote.Summary, 0, min(f.Limit, total))
		return each(ctx, tx, func(row *sql.Rows) error {
			q, err := readSummary(row)
			rows = append(rows, q)
			return err
		}, list.rows, args...)
	})
	if err != nil {
		return nil, 0, err
	}
	return rows, total, nil
}

func readSummary(row *sql.Rows) (q quote.Summary, err error) {
	var changed int64
	var deleted sql.NullInt64
	err = row.Scan(&q.ID, &q.Number, &q.Letter, &q.Issued, &q.State, &q.Title, &q.Client, &q.Place, &q.Price, &changed, &deleted)
	q.Changed, q.Deleted = moment(changed), momentOrNone(deleted)
	return q, err
}
