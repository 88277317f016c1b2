package sqlite

import (
	"context"
	"database/sql"
	"strings"

	"meltwright/internal/quote"
)

// usual is how many rows a list has where its filter does not say.
const usual = 200

const summary = `SELECT q.id, q.number, q.letter, ` + lastIssued + `, q.state, q.title, CASE q.client WHEN '' THEN q.body ELSE q.client END,
	q.place, q.price, q.call, q.due, q.valid_until, q.changed, q.deleted `

// asking is a list's questions: for its rows, and for how many there are.
type asking struct {
	rows, total string
	args        []any
}

// asked makes the questions of a filter. In the order of change the spot is the
// order: above zero upwards in time, and below zero, in the bin, downwards. Where
// another order has an index of its own, the plus keeps SQLite from taking that
// of the spots.
func asked(f quote.Filter) asking {
	from, spot := `FROM quotes q `, "+q.spot"
	where, args := []string(nil), []any(nil)
	add := func(condition, name string, value any) {
		where, args = append(where, condition), append(args, sql.Named(name, value))
	}
	if f.Order == quote.ByChange || f.Bin {
		spot = "q.spot"
	}
	if words := match(f.Words); words != "" {
		from, spot = `FROM search s JOIN quotes q ON q.spot = s.rowid `, "s.rowid"
		add(`search MATCH @match`, "match", words)
	}
	sign, order := ">", spot+` DESC`
	if f.Bin {
		sign, order = "<", spot
	}
	where = append(where, spot+" "+sign+" 0")
	if f.State != "" {
		add(`q.state = @state`, "state", f.State)
	}
	if f.Client != 0 {
		add(`q.client_id = @client`, "client", f.Client)
	}
	if f.Call != 0 {
		add(`q.call_id = @call`, "call", f.Call)
	}
	count := from
	if f.State == "" && f.Client == 0 && f.Call == 0 { // the index of words knows
		count = strings.Replace(from, ` JOIN quotes q ON q.spot = s.rowid`, ``, 1)
	}
	total := `SELECT count(*) ` + count + `WHERE ` + strings.Join(where, ` AND `)
	if text, ok := orders[f.Order]; ok {
		order = text
	}
	rows := summary + from + `WHERE ` + strings.Join(where, ` AND `) + ` ORDER BY ` + order + ` LIMIT @limit OFFSET @offset`
	return asking{rows, total, args}
}

// orders are those that are not of change.
var orders = map[quote.Order]string{
	quote.ByNumber:   `q.id DESC`,
	quote.ByClient:   `q.filed, q.id`,
	quote.ByPrice:    `q.worth DESC, q.id DESC`,
	quote.ByDeadline: `q.due IS NULL, q.due < @today, q.due, q.id`,
}

// List gives the quotes that match, and how many match in all. A word matches
// whatever begins with it, without regard to accents and case.
func (s *Store) List(ctx context.Context, f quote.Filter) (rows []quote.Summary, total int, err error) {
	if f.Limit <= 0 {
		f.Limit = usual
	}
	a := asked(f)
	err = s.read(ctx, func(tx *sql.Tx) error {
		if err := tx.QueryRowContext(ctx, a.total, a.args...).Scan(&total); err != nil {
			return err
		}
		args := append(a.args, sql.Named("limit", f.Limit), sql.Named("offset", max(f.Offset, 0)))
		if f.Order == quote.ByDeadline {
			args = append(args, sql.Named("today", micros(dayOf(f.Today))))
		}
		rows = make([]quote.Summary, 0, min(f.Limit, total))
		return each(ctx, tx, func(row *sql.Rows) error {
			q, err := readSummary(row)
			rows = append(rows, q)
			return err
		}, a.rows, args...)
	})
	if err != nil {
		return nil, 0, err
	}
	return rows, total, nil
}

func readSummary(row *sql.Rows) (q quote.Summary, err error) {
	var changed int64
	var due, valid, deleted sql.NullInt64
	err = row.Scan(&q.ID, &q.Number, &q.Letter, &q.Issued, &q.State, &q.Title, &q.Client, &q.Place, &q.Price, &q.Call, &due, &valid, &changed, &deleted)
	q.Due, q.ValidUntil = dateOrNone(due), momentOrNone(valid)
	q.Changed, q.Deleted = moment(changed), momentOrNone(deleted)
	return q, err
}
