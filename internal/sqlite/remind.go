package sqlite

import (
	"cmp"
	"context"
	"database/sql"
	"slices"
	"time"

	"meltwright/internal/quote"
)

// lately is for how many days a quote that lapsed is told of.
const lately = 30

// mostReminders is how many of each sort are told.
const mostReminders = 50

// The questions that reminders answer: columns are the day, quote, call, number
// and letter, title, client, state.
var reminding = []struct {
	what     quote.Reminding
	question string
}{
	// A call is answered once a quote for it is issued; the draft that is furthest
	// on is the one to open.
	{quote.DeadlineNear, `SELECT c.due, coalesce(q.id, 0), c.id, coalesce(q.number || q.letter, ''), c.title, c.body, coalesce(q.state, '')
		FROM calls c LEFT JOIN quotes q ON q.id = (SELECT id FROM quotes WHERE call_id = c.id AND spot > 0 ORDER BY spot DESC LIMIT 1)
		WHERE c.due BETWEEN @today AND @until AND c.deleted IS NULL
		AND NOT EXISTS (SELECT 1 FROM quotes WHERE call_id = c.id AND spot > 0 AND state <> 'draft')
		ORDER BY c.due LIMIT @most`},
	{quote.LapseNear, `SELECT valid_until, id, coalesce(call_id, 0), number || ` + lastIssued + `, title, CASE client WHEN '' THEN body ELSE client END, state
		FROM quotes q WHERE state = 'issued' AND spot > 0 AND valid_until BETWEEN @morning AND @night ORDER BY valid_until LIMIT @most`},
	{quote.HasLapsed, `SELECT valid_until, id, coalesce(call_id, 0), number || ` + lastIssued + `, title, CASE client WHEN '' THEN body ELSE client END, state
		FROM quotes q WHERE state = 'lapsed' AND spot > 0 AND valid_until BETWEEN @since AND @morning - 1 ORDER BY valid_until DESC LIMIT @most`},
}

// lastIssued is the letter of the last revision of quote q.
const lastIssued = `coalesce((SELECT letter FROM revisions WHERE quote = q.id ORDER BY length(letter) DESC, letter DESC LIMIT 1), '')`

// Reminders lists what falls due from today until a day, and what lapsed of late,
// in the order of their days.
func (s *Store) Reminders(ctx context.Context, now, until time.Time) (all []quote.Reminder, err error) {
	// Deadlines are days; a quote stands to the end of a day where it is told.
	morning, next := morningOf(now), morningOf(until).AddDate(0, 0, 1)
	args := []any{
		sql.Named("today", micros(dayOf(now))), sql.Named("until", micros(dayOf(until))), sql.Named("morning", micros(morning)),
		sql.Named("night", micros(next)-1), sql.Named("since", micros(morning.AddDate(0, 0, -lately))), sql.Named("most", mostReminders),
	}
	err = s.read(ctx, func(tx *sql.Tx) error {
		for _, x := range reminding {
			err := each(ctx, tx, func(row *sql.Rows) error {
				r := quote.Reminder{What: x.what}
				var on int64
				err := row.Scan(&on, &r.Quote, &r.Call, &r.Number, &r.Title, &r.Client, &r.State)
				if r.On = moment(on).UTC(); x.what != quote.DeadlineNear {
					r.On = dayOf(moment(on).In(now.Location()))
				}
				all = append(all, r)
				return err
			}, x.question, args...)
			if err != nil {
				return err
			}
		}
		return nil
	})
	slices.SortStableFunc(all, func(a, b quote.Reminder) int { return cmp.Or(a.On.Compare(b.On), cmp.Compare(a.Title, b.Title)) })
	return all, err
}

// morningOf is the beginning of a moment's day where it is told.
func morningOf(t time.Time) time.Time {
	y, m, d := t.Date()
	return time.Date(y, m, d, 0, 0, 0, 0, t.Location())
}

// Lapse puts the issued quotes whose last day is over into the state lapsed, as
// of that day's end. Their versions stay: a window that has one open may go on.
func (s *Store) Lapse(ctx context.Context, now time.Time) (n int, err error) {
	var over []quote.Quote
	morning := micros(morningOf(now))
	find := func(tx *sql.Tx) error {
		over = nil
		return each(ctx, tx, func(row *sql.Rows) error {
			var q quote.Quote
			err := row.Scan(&q.ID)
			over = append(over, q)
			return err
		}, `SELECT id FROM quotes WHERE state = 'issued' AND spot > 0 AND valid_until < ?`, morning)
	}
	// Looking takes no turn at the file; only where there is something to do, one is
	// taken.
	if err := s.read(ctx, find); err != nil || len(over) == 0 || s.readOnly {
		return 0, err
	}
	err = s.write(ctx, func(tx *sql.Tx) error {
		if err := find(tx); err != nil {
			return err
		}
		for _, q := range over {
			spot, err := freeSpot(ctx, tx, micros(now), false)
			if err != nil {
				return err
			}
			if _, err := tx.ExecContext(ctx, `UPDATE quotes SET spot = ?, changed = ?, state = 'lapsed', hand = '' WHERE id = ?`, spot, micros(now), q.ID); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return 0, err
	}
	return len(over), nil
}
