package sqlite

import (
	"bytes"
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/binary"
	"errors"

	"meltwright/internal/estimate"
	"meltwright/internal/quote"
)

// Issue keeps a revision under the letter that its quote is being worked on
// under, and moves the quote on: it is issued, its letter is the next, and its
// version is counted up, so that a window that has it open must open it again.
// A letter that is not the quote's is quote.ErrOutdated: it was issued already.
func (s *Store) Issue(ctx context.Context, r quote.Revision) error {
	return s.write(ctx, func(tx *sql.Tx) error {
		q, err := standing(ctx, tx, r.Quote)
		if err != nil {
			return err
		}
		if err := mayIssue(q, r); err != nil {
			return err
		}
		sealed, err := seal(r)
		if err != nil {
			return err
		}
		if err := sealed.insert(ctx, tx); err != nil {
			return err
		}
		return moveOn(ctx, tx, q, r)
	})
}

func mayIssue(q quote.Quote, r quote.Revision) error {
	switch {
	case r.Letter != q.Letter:
		return refusal(quote.ErrOutdated, "Quote", q.Number, "cannot be issued as "+r.Letter+", because it stands at "+q.Letter, "open it again, look it over, and issue it")
	case !q.Deleted.IsZero():
		return refusal(nil, "Quote", q.Number, "is in the bin", "take it out of the bin, then issue it")
	case !q.State.May(quote.Issued):
		return refusal(nil, "Quote", q.Number, "is "+string(q.State), "make it a draft, then issue it")
	}
	return nil
}

// moveOn makes a quote issued, with the next letter to work on.
func moveOn(ctx context.Context, tx *sql.Tx, q quote.Quote, r quote.Revision) error {
	at := micros(r.IssuedAt)
	spot, err := freeSpot(ctx, tx, at, false)
	if err != nil {
		return err
	}
	_, err = tx.ExecContext(ctx, `UPDATE quotes SET spot = ?, letter = ?, state = ?, valid_until = ?, hand = ?, changed = ?, version = version + 1 WHERE id = ?`,
		spot, quote.NextLetter(q.Letter), quote.Issued, micros(r.ValidUntil), r.By, at, q.ID)
	return err
}

// sealed is a revision as the table holds it.
type sealed struct {
	quote                   quote.ID
	letter                  string
	issued, valid           int64
	price, total            string
	commission, book, words string
	frozen, who             string
	proposal, seal          []byte
}

func seal(r quote.Revision) (s sealed, err error) {
	s = sealed{quote: r.Quote, letter: r.Letter, issued: micros(r.IssuedAt), valid: micros(r.ValidUntil), price: r.Price, total: r.Total, who: r.By, proposal: r.Proposal}
	if s.proposal == nil {
		s.proposal = []byte{}
	}
	if s.commission, err = encode(r.Commission); err != nil {
		return s, err
	}
	if s.book, err = encode(r.Book); err != nil {
		return s, err
	}
	if s.words, err = encodeWords(r.Words); err != nil {
		return s, err
	}
	if r.Frozen != nil {
		if s.frozen, err = encode(r.Frozen); err != nil {
			return s, err
		}
	}
	s.seal = s.reckon()
	return s, nil
}

// reckon gives the checksum of everything in the revision, each part with its
// length before it. SQLite keeps none, and a disk may change a byte unseen.
func (s sealed) reckon() []byte {
	h := sha256.New()
	for _, n := range []int64{int64(s.quote), s.issued, s.valid} {
		_ = binary.Write(h, binary.BigEndian, n) // a hash takes all
	}
	parts := [][]byte{[]byte(s.letter), []byte(s.price), []byte(s.total), []byte(s.commission), []byte(s.book), []byte(s.words), s.proposal}
	if s.frozen+s.who != "" { // as file version 1 had none
		parts = append(parts, []byte(s.frozen), []byte(s.who))
	}
	for _, part := range parts {
		_ = binary.Write(h, binary.BigEndian, int64(len(part)))
		h.Write(part)
	}
	return h.Sum(nil)
}

func (s sealed) insert(ctx context.Context, tx *sql.Tx) error {
	_, err := tx.ExecContext(ctx, `INSERT INTO revisions (quote, letter, issued, valid_until, price, total, seal, commission, book, words, proposal, frozen, who)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
		s.quote, s.letter, s.issued, s.valid, s.price, s.total, s.seal, s.commission, s.book, s.words, s.proposal, s.frozen, s.who)
	return err
}

const sealedColumns = `SELECT quote, letter, issued, valid_until, price, total, seal, commission, book, words, proposal, frozen, who FROM revisions `

func (s *sealed) columns() []any {
	return []any{&s.quote, &s.letter, &s.issued, &s.valid, &s.price, &s.total, &s.seal, &s.commission, &s.book, &s.words, &s.proposal, &s.frozen, &s.who}
}

// open reads a revision, if its seal is whole.
func (s sealed) open(number string) (r quote.Revision, err error) {
	of := "revision " + s.letter + " of quote " + number
	if !bytes.Equal(s.seal, s.reckon()) {
		return r, refusal(quote.ErrDamaged, "R"+of[1:], "", "is not what was issued: its checksum differs", "take it from a backup, or from the PDF that was sent")
	}
	r = quote.Revision{Quote: s.quote, Letter: s.letter, IssuedAt: moment(s.issued), ValidUntil: moment(s.valid), Price: s.price, Total: s.total, By: s.who, Proposal: s.proposal}
	if r.Commission, err = decode[estimate.Commission](s.commission, of); err != nil {
		return r, err
	}
	if r.Book, err = decodeBook(s.book, of); err != nil {
		return r, err
	}
	if s.frozen != "" {
		frozen, err := decode[quote.Frozen](s.frozen, of)
		if err != nil {
			return r, err
		}
		r.Frozen = &frozen
	}
	r.Words, err = decodeWords(s.words, of)
	return r, err
}

// Revisions lists what was issued of a quote, in the order of issue, without
// commissions, books and papers.
func (s *Store) Revisions(ctx context.Context, id quote.ID) (all []quote.Revision, err error) {
	err = s.read(ctx, func(tx *sql.Tx) error {
		if _, err := standing(ctx, tx, id); err != nil {
			return err
		}
		return each(ctx, tx, func(row *sql.Rows) error {
			r := quote.Revision{Quote: id}
			var issued, valid int64
			err := row.Scan(&r.Letter, &issued, &valid, &r.Price, &r.Total, &r.By)
			r.IssuedAt, r.ValidUntil = moment(issued), moment(valid)
			all = append(all, r)
			return err
		}, `SELECT letter, issued, valid_until, price, total, who FROM revisions WHERE quote = ? ORDER BY length(letter), letter`, id)
	})
	if err != nil {
		return nil, err
	}
	return all, nil
}

// Revision gives one revision whole, as it was issued.
func (s *Store) Revision(ctx context.Context, id quote.ID, letter string) (r quote.Revision, err error) {
	err = s.read(ctx, func(tx *sql.Tx) error {
		q, err := standing(ctx, tx, id)
		if err != nil {
			return err
		}
		var kept sealed
		err = tx.QueryRowContext(ctx, sealedColumns+`WHERE quote = ? AND letter = ?`, id, letter).Scan(kept.columns()...)
		if errors.Is(err, sql.ErrNoRows) {
			return refusal(quote.ErrNotFound, "Quote", q.Number, "was never issued as "+letter, "choose one of its revisions")
		}
		if err != nil {
			return err
		}
		r, err = kept.open(q.Number)
		return err
	})
	return r, err
}

// Steps lists the states that a quote has been in, in their order.
func (s *Store) Steps(ctx context.Context, id quote.ID) (all []quote.Step, err error) {
	err = s.read(ctx, func(tx *sql.Tx) error {
		if _, err := standing(ctx, tx, id); err != nil {
			return err
		}
		return each(ctx, tx, func(row *sql.Rows) error {
			var step quote.Step
			var at int64
			err := row.Scan(&at, &step.State, &step.Letter, &step.By)
			step.At = moment(at)
			all = append(all, step)
			return err
		}, `SELECT at, state, letter, who FROM steps WHERE quote = ? ORDER BY rowid`, id)
	})
	return all, err
}
