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
	var id int64
	err := s.db.QueryRowContext(ctx, `SELECT id, book FROM shop_books ORDER BY id DESC LIMIT 1`).Scan(&id, &text)
	switch {
	case errors.Is(err, sql.ErrNoRows):
		s.book.Store(0)
		return shop.Start(), nil
	case err != nil:
		return shop.Book{}, s.told(ctx, err)
	}
	s.book.Store(id)
	return decodeBook(text, "the shop book")
}

func decodeBook(text, of string) (shop.Book, error) {
	if _, err := decode[shop.Book](text, of); err != nil {
		return shop.Book{}, err
	}
	return shop.Decode([]byte(text))
}

// SaveBook keeps a new version of the shop book, dated now. A book that is the
// last one to the letter makes no new version. Where another window has saved one
// since Book gave it here, it is quote.ErrOutdated.
func (s *Store) SaveBook(ctx context.Context, b shop.Book, now time.Time) error {
	text, err := encode(b)
	if err != nil {
		return err
	}
	var kept int64
	err = s.write(ctx, func(tx *sql.Tx) error {
		var last string
		err := tx.QueryRowContext(ctx, `SELECT id, book FROM shop_books ORDER BY id DESC LIMIT 1`).Scan(&kept, &last)
		switch {
		case err != nil && !errors.Is(err, sql.ErrNoRows):
			return err
		case last == text:
			return nil
		case kept != s.book.Load():
			return refusal(quote.ErrOutdated, "The shop book", "", "was changed in another window since it was opened here", "look at that change, then make yours")
		}
		done, err := tx.ExecContext(ctx, `INSERT INTO shop_books (saved, book) VALUES (?, ?)`, micros(now), text)
		if err == nil {
			kept, err = done.LastInsertId()
		}
		return err
	})
	if err == nil {
		s.book.Store(kept)
	}
	return err
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
