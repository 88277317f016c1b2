package sqlite

import (
	"context"
	"database/sql"

	"meltwright/internal/quote"
)

// Accepted gives the quotes that are accepted, whole, in the order that they were
// accepted in. One that was accepted, taken back and accepted again counts from
// the last time. Those in the bin are not among them.
func (s *Store) Accepted(ctx context.Context) (all []quote.Acceptance, err error) {
	err = s.read(ctx, func(tx *sql.Tx) error {
		err := each(ctx, tx, func(row *sql.Rows) error {
			var a quote.Acceptance
			var at int64
			err := row.Scan(&a.Quote.ID, &at)
			a.At = moment(at)
			all = append(all, a)
			return err
		}, `SELECT q.id, max(s.at) AS accepted FROM quotes q JOIN steps s ON s.quote = q.id AND s.state = q.state
			WHERE q.state = 'accepted' AND q.spot > 0 GROUP BY q.id ORDER BY accepted, q.id`)
		for i := range all {
			if err == nil {
				all[i].Quote, err = readQuote(ctx, tx, all[i].Quote.ID)
			}
		}
		return err
	})
	if err != nil {
		return nil, err
	}
	return all, nil
}
