package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"time"

	"meltwright/internal/quote"
	"meltwright/internal/shop"
)

// Book gives the shop book that was saved last, or the starting one.
func (s *Store) Book(ctx context.Context) (shop.Book, error) {
	var text string
	err := s.db.QueryRowContext(ctx, `SELECT book FROM shop_books ORDER BY id DESC LIMIT 1`).Scan(&text)
	if errors.Is(err, sql.ErrNoRows) {
		return shop.Start(), nil
	}
	if err != nil {
		return shop.Book{}, s.told(ctx, err)
	}
	return decodeBook(text, "the shop book")
}

func decodeBook(text, of string) (shop.Book, error) {
	if _, err := decode[shop.Book](text, of); err != nil {
		return shop.Book{}, err
	}
	return shop.Decode([]byte(text))
}

// SaveBook keeps a new version of the shop book, dated now. A book that is the
// last one to the letter makes no new version.
func (s *Store) SaveBook(ctx context.Context, b shop.Book, now time.Time) error {
	text, err := encode(b)
	if err != nil {
		return err
	}
	return s.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `INSERT INTO shop_books (saved, book) SELECT ?, ?
			WHERE ?2 IS NOT (SELECT book FROM shop_books ORDER BY id DESC LIMIT 1)`, micros(now), text)
		return err
	})
}

// BookVersion is one of the shop books that were saved.
type BookVersion struct {
	ID    int64
	Saved time.Time
}

// Books lists every version of the shop book, the last one first.
func (s *Store) Books(ctx context.Context) (all []BookVersion, err error) {
	err = s.read(ctx, func(tx *sql.Tx) error {
		return each(ctx, tx, func(row *sql.Rows) error {
			var v BookVersion
			var saved int64
			err := row.Scan(&v.ID, &saved)
			v.Saved = moment(saved)
			all = append(all, v)
			return err
		}, `SELECT id, saved FROM shop_books ORDER BY id DESC`)
	})
	return all, err
}

// BookAt gives one version of the shop book.
func (s *Store) BookAt(ctx context.Context, id int64) (shop.Book, error) {
	var text string
	err := s.db.QueryRowContext(ctx, `SELECT book FROM shop_books WHERE id = ?`, id).Scan(&text)
	if errors.Is(err, sql.ErrNoRows) {
		return shop.Book{}, refusal(quote.ErrNotFound, "Shop book", "", "of that version is not in the file", "choose one of the list")
	}
	if err != nil {
		return shop.Book{}, s.told(ctx, err)
	}
	return decodeBook(text, "the shop book")
}
