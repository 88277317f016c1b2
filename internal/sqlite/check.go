package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"strings"

	"meltwright/internal/estimate"
	"meltwright/internal/fault"
	"meltwright/internal/quote"
)

// Report is what Check found: how much it looked at, and all that is wrong.
type Report struct {
	Quotes, Revisions, Clients, Calls, Books, Pictures int

	Wrong fault.List // empty where all is well
}

// Check reads the whole file and says exactly what is wrong with it: pages and
// indexes, references, commissions and books that cannot be read, numbers that
// could come twice, revisions that are not what was issued, and an index of
// words that does not find what is there. An error means that it could not look.
func (s *Store) Check(ctx context.Context) (r Report, err error) {
	for _, look := range []func(context.Context, *sql.Tx, *Report) error{
		checkPages, checkReferences, checkCounts, checkSheets, checkRevisions, checkBooks, checkPictures, checkFiling,
	} {
		err := s.read(ctx, func(tx *sql.Tx) error { return look(ctx, tx, &r) })
		if err := r.take(err); err != nil {
			return r, err
		}
	}
	return r, r.take(s.checkSearch(ctx))
}

// take notes damage that stopped one look, and gives back any other error.
func (r *Report) take(err error) error {
	if errors.Is(err, quote.ErrDamaged) {
		r.Wrong = append(r.Wrong, fault.All(err)...)
		return nil
	}
	return err
}

func (r *Report) add(field, problem, remedy string) {
	r.Wrong = append(r.Wrong, fault.Fault{Field: field, Problem: problem, Remedy: remedy})
}

const fromBackup = "restore a backup, or copy out by hand what can still be read"

// checkPages has SQLite look at every page, index, type and check of its own.
func checkPages(ctx context.Context, tx *sql.Tx, r *Report) error {
	return each(ctx, tx, func(row *sql.Rows) error {
		var text string
		err := row.Scan(&text)
		if err == nil && text != "ok" {
			for _, line := range strings.Split(text, "\n") {
				r.add("The file's structure", "is damaged: "+line, fromBackup)
			}
		}
		return err
	}, `PRAGMA integrity_check(50)`)
}

func checkReferences(ctx context.Context, tx *sql.Tx, r *Report) error {
	wrong, err := strays(ctx, tx)
	r.Wrong = append(r.Wrong, wrong...)
	return err
}

// strays lists the rows that refer to something that is not there.
func strays(ctx context.Context, db asker) (wrong fault.List, err error) {
	err = each(ctx, db, func(row *sql.Rows) error {
		var table, parent string
		var id, key sql.NullInt64
		err := row.Scan(&table, &id, &parent, &key)
		wrong = append(wrong, fault.Fault{
			Field:   fmt.Sprintf("Row %d of %s", id.Int64, table),
			Problem: "belongs to a row of " + parent + " that is not there", Remedy: fromBackup,
		})
		return err
	}, `PRAGMA foreign_key_check`)
	return wrong, err
}

// counts are questions that no row should answer: each gives a field and a problem.
var counts = []string{
	`SELECT 'Quote ' || number, 'has no sheet: its commission is lost' FROM quotes WHERE id NOT IN (SELECT quote FROM sheets)`,
	`SELECT 'The numbers of ' || substr(number, 1, instr(number, '-') - 1), 'could be given again: ' || number || ' is beyond the last one counted'
		FROM quotes LEFT JOIN numbers ON year = CAST(substr(number, 1, instr(number, '-') - 1) AS INTEGER)
		WHERE last IS NULL OR CAST(substr(number, instr(number, '-') + 1) AS INTEGER) > last`,
	`SELECT 'Quote ' || number, 'is found under “' || body || '”, and its client is “' || name || '”'
		FROM quotes JOIN clients c ON c.id = client_id WHERE body <> name`,
	`SELECT 'Quote ' || number, 'is found under the call “' || call || '”, which is “' || c.title || '”'
		FROM quotes q JOIN calls c ON c.id = call_id WHERE q.call <> c.title OR q.due IS NOT c.due`,
	`SELECT 'Call ' || title, 'is found under “' || body || '”, and its client is “' || name || '”'
		FROM calls JOIN clients c ON c.id = client_id WHERE body <> name`,
	`SELECT 'Revision ' || r.letter || ' of quote ' || number, 'was issued, and the quote stands at ' || q.letter
		FROM revisions r JOIN quotes q ON q.id = quote WHERE length(r.letter) > length(q.letter) OR length(r.letter) = length(q.letter) AND r.letter >= q.letter`,
}

func checkCounts(ctx context.Context, tx *sql.Tx, r *Report) error {
	err := tx.QueryRowContext(ctx, `SELECT (SELECT count(*) FROM quotes), (SELECT count(*) FROM revisions), (SELECT count(*) FROM clients), (SELECT count(*) FROM calls), (SELECT count(*) FROM shop_books)`).
		Scan(&r.Quotes, &r.Revisions, &r.Clients, &r.Calls, &r.Books)
	for _, question := range counts {
		if err != nil {
			return err
		}
		err = each(ctx, tx, func(row *sql.Rows) error {
			var field, problem string
			err := row.Scan(&field, &problem)
			r.add(field, problem, fromBackup)
			return err
		}, question)
	}
	return err
}

func checkSheets(ctx context.Context, tx *sql.Tx, r *Report) error {
	return each(ctx, tx, func(row *sql.Rows) error {
		var number, commission, words, pictures string
		if err := row.Scan(&number, &commission, &words, &pictures); err != nil {
			return err
		}
		_, err := decode[estimate.Commission](commission, "quote "+number)
		if err == nil {
			_, err = decodeWords(words, "quote "+number)
		}
		if err == nil {
			_, err = decodeList[quote.Shown](pictures, "the pictures of quote "+number)
		}
		return r.take(err)
	}, `SELECT number, commission, words, pictures FROM sheets JOIN quotes ON id = quote`)
}

func checkRevisions(ctx context.Context, tx *sql.Tx, r *Report) error {
	return each(ctx, tx, func(row *sql.Rows) error {
		var s sealed
		var number string
		if err := row.Scan(append(s.columns(), &number)...); err != nil {
			return err
		}
		_, err := s.open(number)
		return r.take(err)
	}, sealedColumns[:len(sealedColumns)-len(" FROM revisions ")]+`, (SELECT number FROM quotes WHERE id = quote) FROM revisions`)
}

func checkBooks(ctx context.Context, tx *sql.Tx, r *Report) error {
	return each(ctx, tx, func(row *sql.Rows) error {
		var id int64
		var book string
		if err := row.Scan(&id, &book); err != nil {
			return err
		}
		_, err := decodeBook(book, fmt.Sprintf("the shop book, version %d,", id))
		return r.take(err)
	}, `SELECT id, book FROM shop_books`)
}

// checkSearch holds the indexes of words against the rows they index. To SQLite
// that is a change, though nothing changes, so it waits its turn; a file open to
// read only is not looked at in this way.
func (s *Store) checkSearch(ctx context.Context) error {
	if s.readOnly {
		return nil
	}
	tx, err := s.db.BeginTx(ctx, nil)
	if err != nil {
		return told(err, s.path)
	}
	defer tx.Rollback()
	for index, holds := range map[string]string{"search": "quotes", "client_search": "clients"} {
		_, err := tx.ExecContext(ctx, `INSERT INTO `+index+` (`+index+`, rank) VALUES ('integrity-check', 1)`)
		if kindOf(err, s.path) == quote.ErrDamaged {
			return refusal(quote.ErrDamaged, "The index of words in "+holds, "", "does not hold the words that are there, so searches miss some", "have the index made anew; nothing else is touched")
		}
		if err != nil {
			return told(err, s.path)
		}
	}
	return nil
}

// Reindex makes the indexes of words anew from the rows.
func (s *Store) Reindex(ctx context.Context) error {
	return s.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `INSERT INTO search (search) VALUES ('rebuild'); INSERT INTO client_search (client_search) VALUES ('rebuild')`)
		return err
	})
}
